"""Lay rows one after another, each from the offcut that wastes least: a first answer fast.

A randomised greedy: rows in order, each run started from an offcut at hand, or ended with
one, as neighbours and end needs allow. Many short tries beat one careful one; every random
choice comes from a seeded generator, so the same job gives the same answer.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from models.program.joints import STAIR_SAME
from models.program.spans import (
    Choice,
    Meet,
    Span,
    cut_ends,
    end_piece,
    gap,
    longest_spans,
    shortfall,
    start_piece,
    unit_places,
)
from solver.stock.match import pair_ends

Rest = tuple[int, int]
"""An offcut: its length in ticks, and the row it was cut in."""


@dataclass(frozen=True, slots=True)
class Laid:
    """Offsets for all spans, with what they cost: broken places, then units end to end."""

    offsets: tuple[int, ...]
    broken: int
    soft: int
    units: int

    @property
    def cost(self) -> tuple[int, int, int]:
        """What is compared: broken rules, units, broken preferences."""
        return self.broken, self.units, self.soft


@dataclass(slots=True)
class _Hand:
    """What the layer has at hand while laying: offcuts for either end, and earlier rows."""

    rights: list[Rest] = field(default_factory=list)
    lefts: list[Rest] = field(default_factory=list)
    offsets: list[int] = field(default_factory=list)
    shifts: list[int] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Try:
    """One offset tried for one span."""

    broken: int
    cost: float
    offset: int
    first: int
    last: int


def earlier_meets(choice: Choice) -> tuple[list[list[Meet]], list[list[Meet]]]:
    """For each span, its meets with spans laid before it: next rows, rows after next."""
    found: tuple[list[list[Meet]], list[list[Meet]]] = ([], [])
    for which, meets in zip(found, (choice.meets, choice.second), strict=True):
        which += [[] for _ in choice.spans]
        for meet in meets:
            which[max(meet.one, meet.two)].append(meet)
    return found


def judge(choice: Choice, offsets: Sequence[int]) -> Laid:
    """What a set of offsets costs: units with the most pairs end to end, broken places."""
    broken = sum(
        shortfall(s, p, choice.pitch) > 0 for s, p in zip(choice.spans, offsets, strict=True)
    )
    broken += _too_near(choice.meets, offsets, choice.apart, choice.pitch)
    soft = _too_near(choice.second, offsets, choice.second_apart, choice.pitch)
    over = stairs(choice, longest_spans(choice.spans), offsets)
    broken += soft * choice.second_must + over * choice.stair_must
    return Laid(tuple(offsets), broken, soft + over, units_of(choice, offsets))


def stairs(choice: Choice, line: Sequence[int], offsets: Sequence[int]) -> int:
    """How many shifts go on a stair longer than the rule allows, along a line of spans."""
    if choice.stair is None:
        return 0
    pitch = choice.pitch
    shifts = [(offsets[b] - offsets[a]) % pitch for a, b in pairwise(line)]
    streak, over = 1, 0
    for one, two in pairwise(shifts):
        apart = (one - two) % pitch
        streak = streak + 1 if apart <= STAIR_SAME or pitch - apart <= STAIR_SAME else 1
        over += streak > choice.stair
    return over


def _too_near(meets: Sequence[Meet], offsets: Sequence[int], least: int, pitch: int) -> int:
    near = [gap(m, offsets[m.one], offsets[m.two], pitch) for m in meets] if least else []
    return sum(g is not None and g < least for g in near)


def units_of(choice: Choice, offsets: Sequence[int]) -> int:
    """Units when start and end pieces share as well as they can, end to end."""
    places, lows, highs = 0, [], []
    for span, offset in zip(choice.spans, offsets, strict=True):
        first, last = cut_ends(span, offset, choice.pitch)
        places += unit_places(span, offset, choice.pitch) * choice.copies
        highs += [(first, span.row)] * choice.copies if first < choice.pitch else []
        lows += [(last, span.row)] * choice.copies if last < choice.pitch else []
    return places - len(pair_ends(lows, highs, choice.pitch - choice.kerf, choice.within))


def lay(choice: Choice, earlier: tuple[list[list[Meet]], list[list[Meet]]], seed: int) -> Laid:
    """One try: lay every span in order."""
    rng = random.Random(seed)
    hold = rng.uniform(0.02, 0.5) * choice.pitch
    hand = _Hand()
    for index, span in enumerate(choice.spans):
        nears = (earlier[0][index], earlier[1][index])
        tries = [
            _weigh(choice, hand, span, nears, p, hold, rng)
            for p in _offers(choice, hand, span, rng)
        ]
        best = min(tries, key=lambda t: (t.broken, t.cost))
        if best.broken:
            every = range(0, choice.pitch, choice.step * max(1, choice.pitch // choice.step // 192))
            tries += [_weigh(choice, hand, span, nears, p, hold, rng) for p in every]
            best = min(tries, key=lambda t: (t.broken, t.cost))
        _take(choice, hand, span, best)
    return judge(choice, hand.offsets)


def _offers(choice: Choice, hand: _Hand, span: Span, rng: random.Random) -> list[int]:
    """Offsets worth trying: from offcuts at hand, on a joint at either stop, and some fresh."""
    pitch = choice.pitch
    near = [r for r in hand.rights if choice.within is None or span.row - r[1] <= choice.within]
    ends = [r for r in hand.lefts if choice.within is None or span.row - r[1] <= choice.within]
    starts = [span.start + rest for rest, _ in near[-8:]]
    starts += [span.end - rest for rest, _ in ends[-4:]]
    starts += [span.start, span.end]
    starts += [span.start + rng.randrange(pitch) for _ in range(4)]
    # Down to the tape step: a start piece may be shorter than its offcut, never longer.
    return sorted({p % pitch // choice.step * choice.step for p in starts})


def _weigh(
    choice: Choice,
    hand: _Hand,
    span: Span,
    nears: tuple[list[Meet], list[Meet]],
    offset: int,
    hold: float,
    rng: random.Random,
) -> _Try:
    pitch = choice.pitch
    first, last = start_piece(span, offset, pitch), end_piece(span, offset, pitch)
    broken = int(shortfall(span, offset, pitch) > 0)
    placed = [*hand.offsets, offset]
    broken += _too_near(nears[0], placed, choice.apart, pitch)
    second, stair = (
        _too_near(nears[1], placed, choice.second_apart, pitch),
        _stair(choice, hand, offset),
    )
    broken += second * choice.second_must + stair * choice.stair_must
    soft = second + stair
    waste = rng.random() * choice.step + soft * pitch
    if first >= span.length:
        return _Try(broken, waste + pitch - span.length, offset, span.length, pitch)
    if first < pitch:
        rest = _tightest(hand.rights, first, span.row, choice.within)
        waste += hold if rest is None else rest[0] - first
    if last < pitch:
        rest = _tightest(hand.lefts, last, span.row, choice.within)
        waste += hold * 0.5 if rest is None else rest[0] - last - hold * 0.5
    return _Try(broken, waste, offset, first, last)


def _stair(choice: Choice, hand: _Hand, offset: int) -> int:
    """1 when this offset would make one equal shift more than the rule allows."""
    most = choice.stair
    if most is None or len(hand.shifts) < most or not hand.offsets:
        return 0
    shift = (offset - hand.offsets[-1]) % choice.pitch
    return int(all(_same_shift(shift, old, choice.pitch) for old in hand.shifts[-most:]))


def _same_shift(one: int, two: int, pitch: int) -> bool:
    apart = (one - two) % pitch
    return min(apart, pitch - apart) <= STAIR_SAME


def _tightest(rests: list[Rest], least: int, row: int, within: int | None) -> Rest | None:
    fits = [r for r in rests if r[0] >= least and (within is None or row - r[1] <= within)]
    return min(fits, default=None)


def _take(choice: Choice, hand: _Hand, span: Span, best: _Try) -> None:
    """Lay the chosen offset: use up the offcuts it takes, put back those it makes."""
    pitch = choice.pitch
    if hand.offsets:
        hand.shifts.append((best.offset - hand.offsets[-1]) % pitch)
    hand.offsets.append(best.offset)
    if best.first < pitch:
        _use(hand.rights, hand.lefts, best.first, span.row, choice)
    if best.last < pitch:
        _use(hand.lefts, hand.rights, best.last, span.row, choice)


def _use(have: list[Rest], make: list[Rest], piece: int, row: int, choice: Choice) -> None:
    rest = _tightest(have, piece, row, choice.within)
    if rest is not None:
        have.remove(rest)
    elif choice.pitch - piece - choice.kerf > 0:
        make.append((choice.pitch - piece - choice.kerf, row))
