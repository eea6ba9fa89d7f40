"""Where row lines (or, in a straight bond, joint lines) may go, and the cuts they leave.

Row lines at v0 plus whole pitches cut the zone's edges the same way all through an
interval of v0 between two *breaklines* (a corner's v modulo the pitch). Inside it each cut
grows or shrinks as v0 does, so the best v0 of an interval is known without stepping
through it.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass
from fractions import Fraction

from models.floor.zone import Edge
from models.job.data import Sight

SHORT_EDGE = 81_280
"""Ticks (254 mm): an edge shorter than this and than a unit only notches pieces."""


@dataclass(frozen=True, slots=True)
class Stop:
    """An edge the lines run along: from ``low`` to ``high`` (equal when parallel), ticks.

    ``above`` is True when the floor lies on the side of greater coordinates.
    """

    low: int
    high: int
    above: bool
    sight: Sight
    name: str


def stops_along(edges: Sequence[Edge], unit_length: int, around: Set[str]) -> list[Stop]:
    """The edges rows are ripped at: those a whole piece can lie along.

    ``around`` names the columns and features: at an edge of theirs no longer than a unit
    pieces are only notched, and leave necks, not cuts.
    """
    return [
        _stop(e, 1, e.floor_above)
        for e in edges
        if e.along_rows and _counts(e, unit_length, around)
    ]


def stops_across(edges: Sequence[Edge], unit_width: int, around: Set[str]) -> list[Stop]:
    """The edges rows end at, for joint lines; the floor's greater side is that of greater u."""
    return [
        _stop(e, 0, e.start[1] > e.end[1])
        for e in edges
        if e.across_rows and _counts(e, unit_width, around)
    ]


def _stop(edge: Edge, axis: int, above: bool) -> Stop:
    low, high = sorted((edge.start[axis], edge.end[axis]))
    return Stop(low, high, above, edge.sight, edge.name)


def _counts(edge: Edge, unit: int, around: Set[str]) -> bool:
    return edge.length > unit if edge.name in around else edge.length >= min(unit, SHORT_EDGE)


def cut_at(stop: Stop, line: int, pitch: int) -> int:
    """What lines through ``line`` leave at a stop, at its narrow end; ``pitch`` when whole."""
    slope = stop.high - stop.low
    # Where a line meets a slanted wall, or starts from it, a piece runs out to nothing.
    into = (stop.high - line if stop.above else line - stop.low) % pitch
    if slope and (slope >= pitch or into < slope):
        return 0
    left = (line - stop.high) % pitch if stop.above else (stop.low - line) % pitch
    return left or pitch


def breaklines(values: Sequence[int], pitch: int) -> list[int]:
    """The lines at which some corner lies on a line: sorted, in [0, pitch)."""
    return sorted({value % pitch for value in values})


def candidates(
    stops: Sequence[Stop],
    breaks: Sequence[int],
    pitch: int,
    step: int,
    held: Sequence[Fraction] | None,
    samples: int,
) -> list[int]:
    """Lines worth trying, in [0, pitch), on the tape step (or exactly on a wall or axis).

    Every breakline; in every interval between two, the line with the largest smallest cut
    and both ends; ``samples`` even steps more where walls slant. ``held`` lists the only
    lines an axis admits, when one does.
    """
    if held is not None:
        return sorted({round(line) % pitch for line in held})
    found = set(breaks) or {0}
    marks = sorted(found)
    for low, high in zip(marks, [*marks[1:], marks[0] + pitch], strict=True):
        first, last = low // step * step + step, -(-high // step) * step - step
        if first > last:
            continue
        best = _widest(stops, first, last, pitch)
        inside = {first, last, best // step * step, -(-best // step) * step}
        found |= {line % pitch for line in inside if first <= line <= last}
    found |= {pitch * i // samples // step * step for i in range(samples)}
    return sorted(found)


def _widest(stops: Sequence[Stop], first: int, last: int, pitch: int) -> int:
    """The line in an interval with the largest smallest cut: rising and falling cuts meet."""
    rising = [cut_at(s, first, pitch) for s in stops if s.above]
    falling = [cut_at(s, first, pitch) for s in stops if not s.above]
    if not rising or not falling:
        return last if rising else first
    return min(max(first + (min(falling) - min(rising)) // 2, first), last)


def smallest(stops: Sequence[Stop], line: int, pitch: int) -> int:
    """The smallest cut lines leave at any stop; ``pitch`` when every one is whole."""
    return min((cut_at(stop, line, pitch) for stop in stops), default=pitch)
