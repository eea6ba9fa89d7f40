"""Improve offsets by small moves: set one row so that it fits another's offcut, keep gains."""

from __future__ import annotations

import random
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

from models.program.spans import (
    Choice,
    Meet,
    cut_ends,
    end_piece,
    gap,
    longest_spans,
    shortfall,
    start_piece,
    unit_places,
)
from solver.search.bonds.lay import Laid, judge, stairs


def improve(choice: Choice, laid: Laid, at_least: int, seed: int, moves: int) -> Laid:
    """At most ``moves`` moves from one answer; never worse than it."""
    rng = random.Random(seed)
    beside = _beside(choice)
    ends = _Ends.of(choice, laid.offsets)
    offsets = list(laid.offsets)
    line = longest_spans(choice.spans)
    place = {index: number for number, index in enumerate(line)}
    (units, left), over = ends.short(choice), stairs(choice, line, offsets)
    for _ in range(moves):
        if (units, over) <= (at_least, 0):
            break
        index = rng.randrange(len(choice.spans))
        offset = _move(choice, offsets, index, rng)
        if offset == offsets[index] or not _keeps(choice, offsets, offset, index, beside[index]):
            continue
        before, offsets[index] = offsets[index], offset
        ends.change(choice, index, before, offset)
        units_then, left_then = ends.short(choice)
        # Equal cost is taken too, and a worse remainder at times: the way along the plateau.
        if units_then <= units and (left_then <= left or rng.random() < 0.02):
            over_then = over + _stairs_gained(
                choice, line, place.get(index), offsets, index, before
            )
            if (units_then, over_then) <= (units, over):
                units, left, over = units_then, left_then, over_then
                continue
        offsets[index] = before
        ends.change(choice, index, offset, before)
    found = judge(choice, offsets)
    return min(found, laid, key=lambda one: one.cost)


def _stairs_gained(
    choice: Choice, line: list[int], place: int | None, offsets: list[int], index: int, before: int
) -> int:
    """How many more shifts go on a stair since a span moved, looking only at rows near it."""
    if choice.stair is None or place is None:
        return 0
    reach = choice.stair + 2
    near = line[max(0, place - reach) : place + reach + 1]
    then = dict(zip(near, (offsets[i] for i in near), strict=True))
    after = stairs(choice, range(len(near)), [then[i] for i in near])
    then[index] = before
    return after - stairs(choice, range(len(near)), [then[i] for i in near])


@dataclass(slots=True)
class _Ends:
    """All end and start pieces of a set of offsets, sorted, and the unit places they take."""

    places: int
    lows: list[int]
    highs: list[int]

    @classmethod
    def of(cls, choice: Choice, offsets: Sequence[int]) -> _Ends:
        ends = cls(0, [], [])
        for index, offset in enumerate(offsets):
            ends._add(choice, index, offset, 1)
        return ends

    def change(self, choice: Choice, index: int, before: int, after: int) -> None:
        """Move one span from one offset to another."""
        self._add(choice, index, before, -1)
        self._add(choice, index, after, 1)

    def _add(self, choice: Choice, index: int, offset: int, sign: int) -> None:
        span, pitch = choice.spans[index], choice.pitch
        first, last = cut_ends(span, offset, pitch)
        self.places += sign * unit_places(span, offset, pitch) * choice.copies
        for _ in range(choice.copies):
            if first < pitch:
                _put(self.highs, first, sign)
            if last < pitch:
                _put(self.lows, last, sign)

    def short(self, choice: Choice) -> tuple[int, int]:
        """Units with the most pairs, and how long the two shortest unpaired pieces are together."""
        room, place, pairs = choice.pitch - choice.kerf, 0, 0
        waiting: list[int] = []
        alone = choice.pitch
        for high in reversed(self.highs):
            while place < len(self.lows) and self.lows[place] <= room - high:
                waiting.append(self.lows[place])
                place += 1
            if waiting:
                waiting.pop()
                pairs += 1
            else:
                alone = high
        rest = (
            waiting[0] if waiting else self.lows[place] if place < len(self.lows) else choice.pitch
        )
        return self.places - pairs, alone + rest


def _put(sizes: list[int], size: int, sign: int) -> None:
    if sign > 0:
        insort(sizes, size)
    else:
        del sizes[bisect_left(sizes, size)]


def _beside(choice: Choice) -> list[list[tuple[Meet, int]]]:
    """For each span its meets, with the least distance each must keep."""
    found: list[list[tuple[Meet, int]]] = [[] for _ in choice.spans]
    for meets, least in ((choice.meets, choice.apart), (choice.second, choice.second_apart)):
        for meet in meets:
            found[meet.one].append((meet, least))
            found[meet.two].append((meet, least))
    return found


def _move(choice: Choice, offsets: Sequence[int], index: int, rng: random.Random) -> int:
    """An offset at which one end of a span fits exactly what another span leaves."""
    pitch, span = choice.pitch, choice.spans[index]
    other = rng.randrange(len(choice.spans))
    theirs, at = choice.spans[other], offsets[other]
    kind = rng.randrange(5)
    if kind == 0:
        start = span.start
    elif kind == 1:
        start = span.end
    elif kind <= 3:
        start = span.start + pitch - end_piece(theirs, at, pitch) - choice.kerf
    else:
        start = span.end - pitch + start_piece(theirs, at, pitch) + choice.kerf
    if kind == 4:  # up to the tape step: an end piece may be shorter than its offcut, not longer
        start += -start % choice.step
    return start % pitch // choice.step * choice.step


def _keeps(
    choice: Choice, offsets: Sequence[int], offset: int, index: int, meets: list[tuple[Meet, int]]
) -> bool:
    if shortfall(choice.spans[index], offset, choice.pitch):
        return False
    for meet, least in meets:
        one = offset if meet.one == index else offsets[meet.one]
        two = offset if meet.two == index else offsets[meet.two]
        near = gap(meet, one, two, choice.pitch)
        if near is not None and near < least:
            return False
    return True
