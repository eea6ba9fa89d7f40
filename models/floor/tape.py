"""Where the tape goes: chalk lines in the room and how far their ends are from the walls.

Everything is in a zone's frame and in integer ticks; crossings are formed as fractions and
rounded once.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.floor.frame import Frame
from models.floor.zone import NEAR_SQUARE_TAN
from models.job.data import Job, Point


@dataclass(frozen=True, slots=True)
class Side:
    """One straight side in the frame: of the room (``wall``) or of the column ``name``."""

    name: str
    start: Point
    end: Point
    wall: bool = True

    def turned(self) -> Side:
        """The same side with u and v exchanged."""
        return Side(self.name, self.start[::-1], self.end[::-1], self.wall)


@dataclass(frozen=True, slots=True)
class Mark:
    """One end of a chalk line and the tape reading that finds it.

    The line ends at ``point`` on the wall or column ``ends_on``; ``distance`` ticks square
    to the line from there is ``foot``, on the wall ``measured_from``: the nearer one, but a
    slanted or curved wall or a column only when there is no other.
    """

    point: Point
    ends_on: str
    foot: Point
    measured_from: str
    distance: int

    def turned(self) -> Mark:
        """The same mark with u and v exchanged."""
        point, foot = self.point[::-1], self.foot[::-1]
        return Mark(point, self.ends_on, foot, self.measured_from, self.distance)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of a chalk line that a string can be pulled along: no wall or column between."""

    start: Mark
    end: Mark

    def turned(self) -> Stretch:
        """The same stretch with u and v exchanged."""
        return Stretch(self.start.turned(), self.end.turned())


INSET = 1600
"""Ticks (5 mm) from the end of a line within which a tape may be laid instead."""

_End = tuple[Fraction, Side]


def sides_of(job: Job, frame: Frame) -> tuple[Side, ...]:
    """Walls and column sides of a job in a frame, walls first, in the job's order."""
    to = frame.to_frame
    walls = [Side(wall.name, to(wall.start), to(wall.end)) for wall in job.walls]
    columns = [
        Side(column.name, to(start), to(column.outline[(i + 1) % len(column.outline)]), False)
        for column in job.columns
        for i, start in enumerate(column.outline)
    ]
    return (*walls, *columns)


def row_line(sides: Sequence[Side], v: int) -> tuple[Stretch, ...]:
    """The stretches of the line along the rows at ``v``, in order of u.

    A line that lies on a wall counts as just inside it. Raises ValueError when the line
    misses the room.
    """
    for after in (True, False):
        parts = _inside(sides, v, after)
        if parts:
            return tuple(_stretch(sides, v, low, high) for low, high in parts)
    raise ValueError(f"a chalk line at {v} ticks misses the room")


def square_line(sides: Sequence[Side], u: int) -> tuple[Stretch, ...]:
    """The stretches of the line square to the rows at ``u``, in order of v; see row_line."""
    turned = [side.turned() for side in sides]
    return tuple(stretch.turned() for stretch in row_line(turned, u))


def off_line(point: Point, through: Point, direction: Point) -> int:
    """Distance of a point from an endless line, in ticks."""
    x, y = point[0] - through[0], point[1] - through[1]
    return round(abs(direction[0] * y - direction[1] * x) / math.hypot(*direction))


def _crossings(sides: Iterable[Side], at: Fraction, after: bool) -> list[_End]:
    """Where sides cross the line v = at (seen from just after or just before it), by u."""
    found = []
    for side in sides:
        (u0, v0), (u1, v1) = side.start, side.end
        low, high = min(v0, v1), max(v0, v1)
        if (low <= at < high) if after else (low < at <= high):
            found.append((u0 + (at - v0) * Fraction(u1 - u0, v1 - v0), side))
    return sorted(found, key=lambda end: end[0])


def _inside(sides: Sequence[Side], at: int, after: bool) -> list[tuple[_End, _End]]:
    """Parts of the line v = at inside the room and outside every column, none empty."""
    ends = _crossings((side for side in sides if side.wall), Fraction(at), after)
    parts = list(zip(ends[::2], ends[1::2], strict=True))
    for name in dict.fromkeys(side.name for side in sides if not side.wall):
        column = [side for side in sides if not side.wall and side.name == name]
        cuts = _crossings(column, Fraction(at), after)
        for cut in zip(cuts[::2], cuts[1::2], strict=True):
            parts = [rest for part in parts for rest in _without(part, cut)]
    return parts


def _without(part: tuple[_End, _End], cut: tuple[_End, _End]) -> list[tuple[_End, _End]]:
    """What is left of one part of a line when another is taken out of it."""
    (low, high), (cut_low, cut_high) = part, cut
    if cut_high[0] <= low[0] or cut_low[0] >= high[0]:
        return [part]
    rest = [(low, cut_low), (cut_high, high)]
    return [(a, b) for a, b in rest if a[0] < b[0]]


def _stretch(sides: Sequence[Side], v: int, low: _End, high: _End) -> Stretch:
    """A stretch with the tape readings at both its ends."""
    inward = min(INSET, int((high[0] - low[0]) / 3)) or 1
    return Stretch(_mark(sides, v, low, inward), _mark(sides, v, high, -inward))


def _mark(sides: Sequence[Side], at: int, end: _End, inward: int) -> Mark:
    """The tape reading at one end of a stretch of v = at, which goes on from there ``inward``.

    ``inward`` is how far the tape may be laid off the end instead, in ticks of u.
    """
    u, ends_on = end
    turned = [side.turned() for side in sides]
    # A tape along a wall a hair off square bears on it; it is not turned back by it.
    curved = _curved(sides)
    ways = [
        (not side.wall, _slanted(side) or side.name in curved, moved, abs(v - at), v, side)
        for moved in (0, inward)
        for v, side in _ways(turned, at, u + moved, ends_on, inward > 0)
    ]
    *_, v, side = min(ways, key=lambda way: (way[0], way[1], abs(way[2]), way[3]))
    point, foot = (round(u), at), (round(u), round(v))
    return Mark(point, ends_on.name, foot, side.name, round(abs(v - at)))


def _ways(turned: Sequence[Side], at: int, u: Fraction, ends_on: Side, after: bool) -> list[_End]:
    """The first side a tape meets from (u, at) each way across, unless it is ``ends_on``."""
    own = ends_on.turned()
    blocked = _slope(ends_on) * (1 if after else -1)
    hits = _crossings(turned, u, after)
    found = []
    for way in (-1, 1):
        ahead = [
            (way * (v - at), side != own, v, side)
            for v, side in hits
            if way * (v - at) >= 0 and (side != own or way == blocked)
        ]
        if ahead:
            _, other, v, side = min(ahead, key=lambda hit: hit[:2])
            if other:
                found.append((v, side))
    return found


def _slanted(side: Side) -> bool:
    """Whether a side, u and v exchanged, is too slanted to the line to be measured from."""
    across, along = abs(side.end[0] - side.start[0]), abs(side.end[1] - side.start[1])
    return across > along * NEAR_SQUARE_TAN


def _curved(sides: Sequence[Side]) -> frozenset[str]:
    """Names of walls of more than one side: a tape finds no square distance to a curve."""
    names = [side.name for side in sides if side.wall]
    return frozenset(name for name in names if names.count(name) > 1)


def _slope(side: Side) -> int:
    """Sign of a side's rise with u; 0 when it is square to the rows or along them."""
    (u0, v0), (u1, v1) = side.start, side.end
    rise = (u1 - u0) * (v1 - v0)
    return (rise > 0) - (rise < 0)
