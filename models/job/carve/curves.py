"""Curves: the sides of one wall end to end, set off into the floor, and where two of them meet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

from models.job.data import Point

Spot = tuple[float, float]
"""A place in ticks, not yet rounded."""

PARALLEL = 1e-6
"""Lines whose directions turn by less than this (in radians) meet nowhere that can be told."""

_HAIR = 1e-3
"""Ticks by which a meeting point may lie beyond a side and still be on it."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Sides end to end; ``reaches`` are the distances of its corners along it.

    The first side may be followed back beyond its start, where reaches are below 0, and the
    last one on beyond its end.
    """

    corners: tuple[Spot, ...]
    reaches: tuple[float, ...]

    @property
    def length(self) -> float:
        """Length in ticks."""
        return self.reaches[-1]

    def between(self, low: float, high: float) -> tuple[Point, ...]:
        """The corners within it further along than one reach, less far than another, in ticks."""
        pairs = zip(self.reaches[1:-1], self.corners[1:-1], strict=True)
        return tuple(rounded(corner) for reach, corner in pairs if low < reach < high)


@dataclass(frozen=True, slots=True)
class Meeting:
    """Where two curves meet, and how far along each that is."""

    spot: Spot
    one: float
    two: float


def curve(corners: Sequence[Spot]) -> Curve:
    """The curve through corners, of which no two running are equal."""
    steps = (math.dist(a, b) for a, b in pairwise(corners))
    return Curve(tuple(corners), tuple(accumulate(steps, initial=0.0)))


def rounded(spot: Spot) -> Point:
    """A place to the nearest tick."""
    return round(spot[0]), round(spot[1])


def set_off(corners: Sequence[Point], width: int) -> Curve | None:
    """A curve moved to its left by a width.

    Each side is moved; those that shrink to nothing are dropped and their neighbours meet.
    None when the first or last would have to go too, or what is left turns back.
    """
    lines = [_Line.moved(a, b, width) for a, b in pairwise(corners)]
    while True:
        joints = [spot for a, b in pairwise(lines) if (spot := _joint(a, b))]
        if len(joints) < len(lines) - 1:
            return None
        spots = [lines[0].at(0.0), *joints, lines[-1].at(lines[-1].length)]
        turned = [
            (line.along(b) - line.along(a), i)
            for i, (line, (a, b)) in enumerate(zip(lines, pairwise(spots), strict=True))
            if line.along(b) - line.along(a) <= 0
        ]
        if not turned:
            return curve(spots)
        inner = [(size, i) for size, i in turned if 0 < i < len(lines) - 1]
        if not inner:
            return None
        # The most overrun first: dropping it may bring its neighbours back.
        del lines[min(inner)[1]]


def meeting(one: Curve, two: Curve) -> Meeting | None:
    """Where a curve meets the next one, nearest to where the one ends and the other starts."""
    after = _sides(two)
    found = [
        (abs(one.length - s) + abs(t), Meeting(spot, s, t))
        for a in _sides(one)
        for b in after
        for spot, s, t in a.crossing(b)
    ]
    return min(found, key=lambda pair: pair[0], default=(0.0, None))[1]


@dataclass(frozen=True, slots=True)
class _Line:
    """A side's line: a place on it, its unit vector, the side's length."""

    start: Spot
    unit: Spot
    length: float

    @classmethod
    def moved(cls, start: Spot, end: Spot, width: float) -> _Line:
        """The line of a side, moved to the left."""
        length = math.dist(start, end)
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        return cls((start[0] - width * uy, start[1] + width * ux), (ux, uy), length)

    def at(self, reach: float) -> Spot:
        """The place so far from the start."""
        return self.start[0] + reach * self.unit[0], self.start[1] + reach * self.unit[1]

    def along(self, spot: Spot) -> float:
        """How far from the start a place's foot lies."""
        dx, dy = spot[0] - self.start[0], spot[1] - self.start[1]
        return dx * self.unit[0] + dy * self.unit[1]

    def meets(self, other: _Line) -> tuple[float, float] | None:
        """How far along this line and the other they meet; None when they run alike."""
        cross = self.unit[0] * other.unit[1] - self.unit[1] * other.unit[0]
        if abs(cross) < PARALLEL:
            return None
        dx, dy = other.start[0] - self.start[0], other.start[1] - self.start[1]
        return (
            (dx * other.unit[1] - dy * other.unit[0]) / cross,
            (dx * self.unit[1] - dy * self.unit[0]) / cross,
        )


@dataclass(frozen=True, slots=True)
class _Side:
    """A side's line, how far along the curve it starts, and how far it may be followed."""

    line: _Line
    before: float
    low: float
    high: float

    def crossing(self, other: _Side) -> Iterator[tuple[Spot, float, float]]:
        """Where the two meet, if they do, and how far along their curves."""
        reach = self.line.meets(other.line)
        if reach and self._holds(reach[0]) and other._holds(reach[1]):
            yield self.line.at(reach[0]), self.before + reach[0], other.before + reach[1]

    def _holds(self, reach: float) -> bool:
        return self.low - _HAIR <= reach <= self.high + _HAIR


def _sides(whole: Curve) -> list[_Side]:
    """The sides of a curve, first and last followed on beyond its ends."""
    last = len(whole.corners) - 2
    sides = []
    for i, (a, b) in enumerate(pairwise(whole.corners)):
        line = _Line.moved(a, b, 0.0)
        low, high = (0.0 if i else -math.inf), (math.inf if i == last else line.length)
        sides.append(_Side(line, whole.reaches[i], low, high))
    return sides


def _joint(one: _Line, two: _Line) -> Spot | None:
    """Where two lines one after the other meet; None when they run side by side."""
    reach = one.meets(two)
    if reach:
        return one.at(reach[0])
    x, y = one.at(one.along(two.start))
    return two.start if math.dist((x, y), two.start) <= _HAIR else None
