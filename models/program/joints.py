"""Rules on where end joints fall from row to row."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, product

from ortools.sat.python import cp_model

from models.program.rows import Row
from models.program.spans import Choice, Meet, Range, gap, longest_spans
from models.program.traced import Breaks, Follows, Traced, breaks_at

STAIR_SAME = 4064
"""Ticks (12.7 mm) within which two shifts look the same to the eye; common practice, no source."""

FAR = 10**12
"""More ticks than any two joints of a floor are apart."""


def joints_apart(
    traced: Traced,
    rows: Sequence[Row],
    meet: Meet,
    choice: Choice,
    least: int,
    breaks: Breaks = None,
) -> None:
    """End joints of two rows stay ``least`` apart wherever both exist in the shared length."""
    if least <= 0:
        return
    unless = breaks_at(traced, breaks, lambda p: _too_near(meet, p, choice.pitch, least))
    apart = choice.step * (rows[meet.one].offset - rows[meet.two].offset)
    shared = min(meet.one_range[1], meet.two_range[1]) - max(meet.one_range[0], meet.two_range[0])
    if shared >= choice.pitch + least:  # the nearest two, round the unit, lie in it somewhere
        far = _away(least, choice.pitch)
        traced.model.add_linear_expression_in_domain(apart, far).only_enforce_if(*unless)
        return
    far = cp_model.Domain.from_intervals([[-FAR, -least], [least, FAR]])
    joints = [
        _joints(traced, rows[index], where, choice)
        for index, where in ((meet.one, meet.one_range), (meet.two, meet.two_range))
    ]
    for (one, here_one), (two, here_two) in product(*joints):
        traced.model.add_linear_expression_in_domain(
            apart + (one - two) * choice.pitch, far
        ).only_enforce_if(here_one, here_two, *unless)


def _too_near(meet: Meet, offsets: Sequence[int], pitch: int, least: int) -> bool:
    near = gap(meet, offsets[meet.one], offsets[meet.two], pitch)
    return near is not None and near < least


def _joints(
    traced: Traced, row_: Row, where: Range, choice: Choice
) -> list[tuple[int, cp_model.IntVar]]:
    """The joints a row may have in a short range: which repeat, and a literal true when there."""
    pitch = choice.pitch
    found = []
    for repeat in range((where[0] - pitch) // pitch + 1, where[1] // pitch + 1):
        low, high = where[0] - repeat * pitch, where[1] - repeat * pitch
        here = traced.literal(_inside(row_.index, low, high))
        out = cp_model.Domain.from_intervals([[-FAR, low - 1], [high + 1, FAR]])
        traced.model.add_linear_expression_in_domain(
            choice.step * row_.offset, out
        ).only_enforce_if(~here)
        found.append((repeat, here))
    return found


def _inside(index: int, low: int, high: int) -> Follows:
    return lambda p: low <= p[index] <= high


def _away(least: int, pitch: int) -> cp_model.Domain:
    """Differences of two offsets at least ``least`` apart round the unit; maybe none."""
    return cp_model.Domain.from_intervals([[least - pitch, -least], [least, pitch - least]])


def no_stair(
    traced: Traced, rows: Sequence[Row], choice: Choice, most: int, breaks: Breaks = None
) -> None:
    """No more than ``most`` equal shifts one after another, along each row's longest run."""
    order = [rows[index] for index in longest_spans(choice.spans)]
    shifts = [_shift(traced, low, high, choice) for low, high in pairwise(order)]
    same = [_looks_same(traced, a, b, choice.pitch) for a, b in pairwise(shifts)]
    # A streak of n equal shifts is n - 1 equalities.
    for start in range(len(same) - most + 1):
        streak = same[start : start + most]
        unless = breaks_at(traced, breaks, _all([follows for _, follows in streak]))
        differ = [~literal for literal, _ in streak]
        traced.model.add_bool_or(differ).only_enforce_if(*unless)


def _all(follows: Sequence[Follows]) -> Follows:
    return lambda p: all(one(p) for one in follows)


Known = tuple[cp_model.IntVar, Follows]
"""A variable with how it follows, where others follow from it."""


def _shift(traced: Traced, low: Row, high: Row, choice: Choice) -> Known:
    """From one row's offset up to the next one's, in [0, pitch)."""

    def rise(p: Sequence[int]) -> int:
        return (p[high.index] - p[low.index]) % choice.pitch

    shift = traced.between(0, choice.pitch - 1, rise)
    wrap = traced.literal(lambda p: p[high.index] < p[low.index])
    traced.model.add(shift == choice.step * (high.offset - low.offset) + choice.pitch * wrap)
    return shift, rise


def _looks_same(traced: Traced, one: Known, two: Known, pitch: int) -> Known:
    """A literal that is true wherever two shifts look the same."""
    differs = _away(STAIR_SAME + 1, pitch)

    def same(p: Sequence[int]) -> bool:
        return not differs.contains(one[1](p) - two[1](p))

    literal = traced.literal(same)
    traced.model.add_linear_expression_in_domain(one[0] - two[0], differs).only_enforce_if(~literal)
    return literal, same
