"""Rooms for the tests of the floor: jobs made by hand, and random ones for hypothesis."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from hypothesis import strategies as st
from shapely.geometry import Polygon

from models.floor.pieces import Cut, pieces_of
from models.floor.runs import Run, runs_of, slabs
from models.floor.zone import Zone, zone_of
from models.job.carve.area import Area
from models.job.carve.plan import plan_of
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Column,
    Direction,
    Feature,
    Job,
    Laying,
    Point,
    Product,
    Ring,
    Rules,
    Sight,
    Wall,
)
from models.lengths import System

PITCH = (120_000, 20_000)
"""A unit of the random rooms, in ticks: 375 mm by 62.5 mm."""

Move = Callable[[Point], Point]


def box(left: int, low: int, right: int, high: int) -> Ring:
    """A rectangle, counter-clockwise."""
    return ((left, low), (right, low), (right, high), (left, high))


def job_of(
    room: Ring,
    columns: Sequence[Ring] = (),
    features: Sequence[Ring] = (),
    vector: Point = (1, 0),
    sights: Sequence[Sight] = (),
    axes: tuple[Axis, ...] = (),
) -> Job:
    """A job of named walls (w1, w2 ...), columns (c1 ...) and features (f1 ...)."""
    seen = [*sights, *[Sight.PLAIN] * len(room)]
    ends = room[1:] + room[:1]
    return Job(
        name="Net loft",
        system=System.METRIC,
        tape_step=320,
        room=room,
        walls=tuple(
            Wall(f"w{i}", start, end, seen[i - 1])
            for i, (start, end) in enumerate(zip(room, ends, strict=True), 1)
        ),
        columns=tuple(Column(f"c{i}", ring) for i, ring in enumerate(columns, 1)),
        doors=(),
        axes=axes,
        features=tuple(
            Feature(f"f{i}", "none", ring[0], ring, 0) for i, ring in enumerate(features, 1)
        ),
        products=(Product("Driftwood plank", *PITCH),),
        zones=(
            Laying(
                "floor",
                "Driftwood plank",
                Bond(BondKind.STAGGERED),
                (Direction("along the rows", vector),),
                Rules(),
            ),
        ),
    )


def zone_for(
    room: Ring,
    columns: Sequence[Ring] = (),
    features: Sequence[Ring] = (),
    vector: Point = (1, 0),
    sights: Sequence[Sight] = (),
) -> Zone:
    """The zone of such a job in its one direction."""
    return field_zone(job_of(room, columns, features, vector, sights))


def area_in(job: Job, name: str = "") -> Area:
    """The area of that name, or the field's."""
    areas = plan_of(job).areas
    return next((area for area in areas if area.name == name), areas[-1])


def field_zone(job: Job) -> Zone:
    """The field of a job in its first direction."""
    return zone_of(area_in(job), job.field.directions[0])


def laid(
    zone: Zone, line: int, spread: int, pitch: tuple[int, int] = PITCH
) -> tuple[tuple[Run, ...], list[Cut]]:
    """The runs for a start line, and their pieces with offsets spread over the rows."""
    runs = runs_of(zone, slabs(zone), pitch[1], line)
    offsets = [spread * (run.row + 3 * i) % pitch[0] for i, run in enumerate(runs)]
    return runs, pieces_of(runs, offsets, pitch)


def shape_of(cut: Cut) -> Polygon:
    """A piece as a shapely polygon."""
    return Polygon(cut.ring, cut.holes)


def moved(job: Job, move: Move, flips: bool) -> Job:
    """The same job after a rigid motion of everything, rows too; ``flips`` for mirroring."""
    (x, y), (x0, y0) = move(job.field.directions[0].vector), move((0, 0))
    vector = (x - x0, y - y0)
    return job_of(
        _ring(job.room, move, flips),
        [_ring(column.outline, move, flips) for column in job.columns],
        [_ring(feature.outline, move, flips) for feature in job.features],
        vector,
    )


def _ring(ring: Ring, move: Move, flips: bool) -> Ring:
    points = tuple(move(point) for point in ring)
    return points[::-1] if flips else points


def _stepped(widths: list[int], heights: list[int], step: int) -> Ring:
    """A room on a level lower wall whose upper wall steps: an L, a T, or a comb of bays."""
    points, left = [], 0
    for width, height in zip(widths, heights, strict=True):
        points += [(left * step, height * step), ((left + width) * step, height * step)]
        left += width
    outline = [(0, 0), (left * step, 0), *reversed(points)]
    return tuple(p for i, p in enumerate(outline) if p != outline[i - 1])


@st.composite
def rectilinear_jobs(draw: st.DrawFn) -> Job:
    """L, T and comb rooms, some with a column in the floor, at a wall or in a corner."""
    count = draw(st.integers(1, 4))
    heights = draw(
        st.lists(st.integers(4, 30), min_size=count, max_size=count).filter(
            lambda found: all(a != b for a, b in pairwise(found))
        )
    )
    widths = draw(st.lists(st.integers(8, 60), min_size=count, max_size=count))
    step = draw(st.sampled_from([5080, 6400, 7040]))
    columns = []
    if draw(st.booleans()):
        left = draw(st.integers(0, widths[0] - 3))
        low = draw(st.integers(0, heights[0] - 2))
        width = draw(st.integers(1, widths[0] - left - 1))
        high = min(heights[0] - (low == 0), low + draw(st.integers(1, 6)))
        columns = [box(left * step, low * step, (left + width) * step, high * step)]
    return job_of(_stepped(widths, heights, step), columns)


@st.composite
def convex_jobs(draw: st.DrawFn) -> Job:
    """Convex rooms with walls at any angle; the rows follow the first wall or slant to it."""
    count = draw(st.integers(3, 7))
    turns = draw(st.lists(st.integers(5, 60), min_size=count, max_size=count))
    radii = draw(st.integers(200_000, 700_000)), draw(st.integers(150_000, 500_000))
    angles, total = [], 0.0
    for turn in turns:
        total += turn
        angles.append(total)
    ring = tuple(
        (
            round(radii[0] * math.cos(2 * math.pi * angle / total)),
            round(radii[1] * math.sin(2 * math.pi * angle / total)),
        )
        for angle in angles
    )
    first = (ring[1][0] - ring[0][0], ring[1][1] - ring[0][1])
    return job_of(ring, vector=draw(st.sampled_from([(1, 0), (0, 1), first, (3, 1)])))


@st.composite
def slanted_jobs(draw: st.DrawFn) -> Job:
    """Rooms with a bay, whose walls lean, some with a column that stands askew."""

    def lean() -> int:
        return draw(st.integers(-60_000, 60_000))

    room = (
        (0, 0),
        (700_000, lean() // 3),
        (700_000 + lean(), 400_000 + lean()),
        (420_000 + lean(), 410_000),
        (400_000, 250_000 + lean()),
        (lean(), 260_000 + lean()),
    )
    columns = []
    if draw(st.booleans()):
        u, v, a = draw(st.integers(150_000, 300_000)), 100_000, lean() // 4
        columns = [
            ((u, v), (u + 30_000, v + a), (u + 30_000 - a, v + a + 30_000), (u - a, v + 30_000))
        ]
    return job_of(room, columns)


def any_jobs() -> st.SearchStrategy[Job]:
    """Every kind of room."""
    return st.one_of(rectilinear_jobs(), convex_jobs(), slanted_jobs())
