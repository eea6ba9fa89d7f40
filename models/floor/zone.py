"""The zone to lay, in its own frame: its polygon, and whose edge is whose."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely
from shapely import Geometry
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from models.floor.frame import Frame
from models.job.checks import TOUCH
from models.job.data import Column, Direction, Feature, Job, Point, Ring, Sight

NEAR_SQUARE_TAN = math.tan(math.radians(15))
"""A cut edge within 15 degrees of a unit's side is measured square to that side."""


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
    """The room less columns and features, in a frame; coordinates in ticks.

    ``around`` names the columns and features the floor goes round.
    """

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


def zone_of(job: Job, direction: Direction) -> Zone:
    """The job's field in the frame of one direction.

    The frame starts at a corner of the longest wall along the rows, so that start lines
    are whole tape steps from a wall wherever there is one to measure from.
    """
    frame = Frame(_origin(job, direction.vector), _forward(direction.vector))
    around: tuple[Column | Feature, ...] = (*job.columns, *job.features)
    rings = [(job.room, [(wall.name, wall.sight) for wall in job.walls])]
    rings += [
        (item.outline[::-1], [(item.name, Sight.PLAIN)] * len(item.outline)) for item in around
    ]
    edges = [edge for ring, labels in rings for edge in _edges(frame, ring, labels)]
    floor = Polygon(frame.ring_to_frame(job.room))
    cut_out = [Polygon(frame.ring_to_frame(ring)) for ring, _ in rings[1:]]
    shape = _one_floor(floor.difference(shapely.union_all(cut_out)))
    outer = whole_ring(shape.exterior.coords)
    return Zone(
        frame,
        direction,
        tuple(edges),
        outer,
        tuple(whole_ring(hole.coords) for hole in shape.interiors),
        frozenset(item.name for item in around),
    )


def _one_floor(shape: Geometry) -> Polygon:
    """The one part of a floor wide enough to be laid, outline counter-clockwise."""
    parts = [p for p in shapely.get_parts(shape) if isinstance(p, Polygon)]
    wide = [part for part in parts if not part.buffer(-TOUCH / 2).is_empty]
    if len(wide) != 1:
        raise ValueError(f"the columns and features cut the floor into {len(wide)} parts")
    return orient(shapely.normalize(wide[0]))


def whole_ring(coords: Iterable[Sequence[float]]) -> Ring:
    """Shapely coordinates (closed, ticks as floats) as a ring of whole ticks.

    Corners that fall together and corners on a straight edge are dropped.
    """
    points = [(round(x), round(y)) for x, y in coords][:-1]
    while True:
        points = [p for i, p in enumerate(points) if p != points[i - 1]]
        kept = [
            p
            for i, p in enumerate(points)
            if _turns(points[i - 1], p, points[(i + 1) % len(points)])
        ]
        if len(kept) == len(points):
            return tuple(kept)
        points = kept


def _turns(before: Point, here: Point, after: Point) -> bool:
    return (here[0] - before[0]) * (after[1] - here[1]) != (here[1] - before[1]) * (
        after[0] - here[0]
    )


def _forward(vector: Point) -> Point:
    """The vector or its opposite: the one pointing right, or up when it points neither."""
    return vector if vector > (0, 0) else (-vector[0], -vector[1])


def _origin(job: Job, vector: Point) -> Point:
    def along(index: int) -> int:
        wall = job.walls[index]
        dx, dy = wall.end[0] - wall.start[0], wall.end[1] - wall.start[1]
        square = dx * vector[1] - dy * vector[0]
        return dx * dx + dy * dy if square == 0 else 0

    longest = max(range(len(job.walls)), key=along)
    return job.walls[longest].start if along(longest) else job.room[0]


def _edges(frame: Frame, ring: Ring, labels: list[tuple[str, Sight]]) -> list[Edge]:
    points = [frame.to_frame(point) for point in ring]
    pairs = zip(points, points[1:] + points[:1], labels, strict=True)
    return [Edge(start, end, name, sight) for start, end, (name, sight) in pairs if start != end]
