"""Improve offsets by small moves: set one row so that it fits another's offcut, keep gains."""

from __future__ import annotations

import random
from collections.abc import Sequence

from models.program.spans import Choice, Meet, end_piece, gap, shortfall, start_piece
from solver.search.lay import Laid, judge
from solver.stock.match import pair_ends

MOVES = 4000


def improve(choice: Choice, laid: Laid, at_least: int, seed: int) -> Laid:
    """At most ``MOVES`` moves from one answer; never worse than it."""
    rng = random.Random(seed)
    beside = _beside(choice)
    best, best_left = laid, _left_over(choice, laid.offsets)
    for _ in range(MOVES):
        if best.cost <= (0, at_least, 0):
            break
        index = rng.randrange(len(choice.spans))
        offset = _move(choice, best.offsets, index, rng)
        if offset == best.offsets[index] or not _keeps(choice, best.offsets, offset, index, beside[index]):
            continue
        offsets = (*best.offsets[:index], offset, *best.offsets[index + 1:])
        left = _left_over(choice, offsets)
        if (left[0], left[1]) > (best_left[0], best_left[1]) and rng.random() > 0.02:
            continue
        after = judge(choice, offsets)
        # Equal cost is taken too: a walk along the plateau finds the way down.
        if after.cost <= best.cost:
            best, best_left = after, left
    return best


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


def _keeps(choice: Choice, offsets: Sequence[int], offset: int, index: int,
           meets: list[tuple[Meet, int]]) -> bool:
    if shortfall(choice.spans[index], offset, choice.pitch):
        return False
    for meet, least in meets:
        one = offset if meet.one == index else offsets[meet.one]
        two = offset if meet.two == index else offsets[meet.two]
        near = gap(meet, one, two, choice.pitch)
        if near is not None and near < least:
            return False
    return True


def _left_over(choice: Choice, offsets: Sequence[int]) -> tuple[int, int]:
    """Units end to end, and how far the two shortest unpaired pieces are from pairing."""
    places, lows, highs = 0, [], []
    for span, offset in zip(choice.spans, offsets, strict=True):
        first = start_piece(span, offset, choice.pitch)
        last = end_piece(span, offset, choice.pitch)
        places += (span.length + 2 * choice.pitch - first - last) // choice.pitch
        if first < min(choice.pitch, span.length):
            highs.append((first, span.row))
        if last < choice.pitch and first < span.length:
            lows.append((last, span.row))
    pairs = pair_ends(lows, highs, choice.pitch - choice.kerf, choice.within)
    paired_low, paired_high = {a for a, _ in pairs}, {b for _, b in pairs}
    alone_low = min((s for i, (s, _) in enumerate(lows) if i not in paired_low), default=choice.pitch)
    alone_high = min((s for i, (s, _) in enumerate(highs) if i not in paired_high),
                     default=choice.pitch)
    return places - len(pairs), alone_low + alone_high
