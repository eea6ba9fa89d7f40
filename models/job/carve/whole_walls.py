"""Walls as a person sees them: an arc is one wall, and outlines that follow it lie on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

from shapely import LineString
from shapely import Point as Spot

from models.job.arcs import ROUNDNESS_MM
from models.job.checks import TOUCH
from models.job.data import Job, Point, Ring
from models.lengths import TICKS_PER_MM

NEAR = 2 * ROUNDNESS_MM * TICKS_PER_MM
"""Two outlines of one arc may be this far apart, each so rounded and one measured."""

_FOLLOWS = 3
"""A chord has two corners on an arc; an outline with more follows it."""


@dataclass(frozen=True, slots=True)
class WholeWall:
    """A wall with all its corners, two unless it is an arc; ``number`` is its first side's."""

    number: int
    name: str
    corners: tuple[Point, ...]


def whole_walls(job: Job) -> tuple[WholeWall, ...]:
    """The walls of a job in their order round the room, from the first that starts in it."""
    count = len(job.walls)
    first = next((i for i in range(count) if job.walls[i - 1].name != job.walls[i].name), 0)
    found = []
    for name, group in groupby(
        ((first + i) % count for i in range(count)), lambda i: job.walls[i].name
    ):
        sides = list(group)
        corners = (*(job.walls[i].start for i in sides), job.walls[sides[-1]].end)
        found.append(WholeWall(min(sides), name, corners))
    return tuple(found)


def put_onto_arcs(ring: Ring, job: Job) -> Ring:
    """An outline that follows arc walls put onto their sides.

    Part of an arc is worked as other sides than the whole; between the two would be slips of
    floor thinner than the arc's own roundness.
    """
    for wall in whole_walls(job):
        if len(wall.corners) > _FOLLOWS - 1:
            ring = _put_onto(ring, LineString(wall.corners))
    return ring


def _put_onto(ring: Ring, arc: LineString) -> Ring:
    """An outline with each stretch of corners that follows an arc laid on it."""
    near = [arc.distance(Spot(corner)) <= NEAR for corner in ring]
    if all(near) or not any(near):
        return ring
    start = near.index(False)
    corners = zip(ring[start:] + ring[:start], near[start:] + near[:start], strict=True)
    found: list[Point] = []
    for on, group in groupby(corners, lambda pair: pair[1]):
        stretch = [corner for corner, _ in group]
        found += _laid(stretch, arc) if on and len(stretch) >= _FOLLOWS else stretch
    return tuple(found)


def _laid(stretch: list[Point], arc: LineString) -> Iterator[Point]:
    """The corners of an arc from the foot of the first point to that of the last."""
    reaches = [arc.project(Spot(point)) for point in stretch]
    steps = [b - a for a, b in pairwise(reaches)]
    if not (all(step > 0 for step in steps) or all(step < 0 for step in steps)):
        yield from stretch
        return
    low, high = min(reaches) + TOUCH, max(reaches) - TOUCH
    between = [Spot(x, y) for x, y in arc.coords if low < arc.project(Spot(x, y)) < high]
    ends = [arc.interpolate(reaches[0]), arc.interpolate(reaches[-1])]
    for spot in (ends[0], *(between if steps[0] > 0 else between[::-1]), ends[1]):
        yield round(spot.x), round(spot.y)
