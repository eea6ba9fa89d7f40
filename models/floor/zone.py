"""A zone in its own frame: its polygon, and whose edge is whose."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon

from models.floor.frame import Frame
from models.job.carve.area import Area, Side
from models.job.data import BondKind, Direction, Laying, Point, Ring, Sight
from models.job.rings import corners_of

NEAR_SQUARE_TAN = math.tan(math.radians(15))
"""A cut edge within 15 degrees of a unit's side is measured square to that side."""

LEVEL = 2
"""Ticks within which corners lie on one line along or across the rows."""


@dataclass(frozen=True, slots=True)
class Edge:
    """One straight edge of the zone's outline, and the wall, column or feature it goes to.

    The floor lies on its left.
    """

    start: Point
    end: Point
    name: str
    sight: Sight = Sight.PLAIN

    @property
    def floor_above(self) -> bool:
        """True when the floor lies on the side of greater v."""
        return self.end[0] > self.start[0]

    @property
    def length(self) -> float:
        """Length in ticks."""
        return math.hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def along_rows(self) -> bool:
        """True within 15 degrees of the rows: pieces are ripped at it."""
        du, dv = abs(self.end[0] - self.start[0]), abs(self.end[1] - self.start[1])
        return dv <= du * NEAR_SQUARE_TAN

    @property
    def across_rows(self) -> bool:
        """True within 15 degrees of square to the rows: pieces are cross cut at it."""
        du, dv = abs(self.end[0] - self.start[0]), abs(self.end[1] - self.start[1])
        return du <= dv * NEAR_SQUARE_TAN


@dataclass(frozen=True, slots=True)
class Zone:
    """An area in the frame of one direction; coordinates in ticks.

    ``around`` names the columns, features and filled zones the floor goes round.
    """

    name: str
    laying: Laying
    frame: Frame
    direction: Direction
    edges: tuple[Edge, ...]
    outer: Ring
    holes: tuple[Ring, ...]
    around: frozenset[str]

    @property
    def polygon(self) -> Polygon:
        """The zone as a shapely polygon, in ticks."""
        return Polygon(self.outer, self.holes)

    @property
    def rectilinear(self) -> bool:
        """True when every edge runs along the rows or square to them."""
        return all(e.start[0] == e.end[0] or e.start[1] == e.end[1] for e in self.edges)

    @property
    def heights(self) -> tuple[int, int]:
        """The lowest and highest v."""
        values = [v for _, v in self.outer]
        return min(values), max(values)


def zone_of(area: Area, direction: Direction) -> Zone:
    """An area in the frame of one direction.

    The frame starts at a corner of the longest side along the rows, so that start lines
    are whole tape steps from a wall wherever there is one to measure from. A herringbone
    whose units lie at 45 degrees to its line of points has its rows turned by as much.
    """
    vector = _forward(direction.vector)
    if area.laying.bond.kind is BondKind.HERRINGBONE and area.laying.bond.slant == 45:
        vector = (vector[0] + vector[1], vector[1] - vector[0])
    return in_frame(area, direction, Frame(_origin(area, vector), vector))


def in_frame(area: Area, direction: Direction, frame: Frame) -> Zone:
    """An area in a frame given."""
    rings = [[frame.to_frame(point) for point in ring] for ring in (area.outer, *area.holes)]
    ends = [(frame.to_frame(side.start), frame.to_frame(side.end)) for side in area.sides]
    points = [p for ring in rings for p in ring] + [p for pair in ends for p in pair]
    us, vs = _level([u for u, _ in points]), _level([v for _, v in points])
    outer, *holes = [corners_of([(us[u], vs[v]) for u, v in ring]) for ring in rings]
    placed = [((us[a[0]], vs[a[1]]), (us[b[0]], vs[b[1]])) for a, b in ends]
    edges = [
        Edge(start, end, side.name, side.sight)
        for (start, end), side in zip(placed, area.sides, strict=True)
        if start != end
    ]
    return Zone(
        area.name, area.laying, frame, direction, tuple(edges), outer, tuple(holes), area.around
    )


def _level(values: list[int]) -> dict[int, int]:
    """For each value the one that stands for it: what lies within two ticks is one line.

    Corners of one side, rounded to ticks in the job's axes, may be a tick apart in a slanted
    frame; without this they would make a row a tick thick.
    """
    found: dict[int, int] = {}
    group: list[int] = []
    for value in sorted(values):
        if group and value - group[-1] > LEVEL:
            found |= dict.fromkeys(group, max(group, key=lambda v: (group.count(v), -v)))
            group = []
        group.append(value)
    return found | dict.fromkeys(group, max(group, key=lambda v: (group.count(v), -v)))


def whole_ring(coords: Iterable[Sequence[float]]) -> Ring:
    """Shapely coordinates (closed, ticks as floats) as a ring of whole ticks.

    Corners that fall together and corners on a straight edge are dropped.
    """
    return corners_of([(round(x), round(y)) for x, y in coords][:-1])


def _forward(vector: Point) -> Point:
    """The vector or its opposite: the one pointing right, or up when it points neither."""
    return vector if vector > (0, 0) else (-vector[0], -vector[1])


def _origin(area: Area, vector: Point) -> Point:
    """The start of the longest side along the rows; the first corner when there is none."""
    size = math.hypot(*vector)

    def along(side: Side) -> float:
        dx, dy = side.end[0] - side.start[0], side.end[1] - side.start[1]
        level = abs(dx * vector[1] - dy * vector[0]) <= LEVEL * size
        return math.hypot(dx, dy) if level else 0.0

    longest = max(area.sides, key=along)
    return longest.start if along(longest) else area.outer[0]
