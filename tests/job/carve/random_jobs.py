"""Random jobs of several zones for hypothesis, and rigid motions of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from hypothesis import strategies as st

from models.job.data import (
    Axis,
    Band,
    Border,
    Direction,
    Extent,
    Fill,
    Job,
    Laying,
    Outline,
    Point,
    Rest,
    Ring,
    Wall,
)
from tests.job.carve.rooms import box, job_of, laying, turned

Move = Callable[[Point], Point]


@st.composite
def rooms(draw: st.DrawFn) -> Ring:
    """Rectangles and L-shaped rooms; no two walls that meet are of one length."""
    width, height = draw(st.integers(400, 900)) * 1_001, draw(st.integers(400, 900)) * 1_009
    if draw(st.booleans()):
        return box(0, 0, width, height)
    x, y = draw(st.integers(200, 300)) * 1_013, draw(st.integers(200, 300)) * 1_003
    return ((0, 0), (width, 0), (width, y), (x, y), (x, height), (0, height))


@st.composite
def borders(draw: st.DrawFn, room: Ring) -> Laying:
    """A border along some of a room's walls."""
    names = [f"w{i}" for i in range(1, len(room) + 1)]
    chosen = draw(st.lists(st.sampled_from(names), min_size=1, unique=True))
    width = draw(st.integers(5_000, 60_000))
    walls = tuple(name for name in names if name in chosen)
    return laying("edge", Border(Extent(width, width), walls, mitred=draw(st.booleans())))


@st.composite
def jobs(draw: st.DrawFn, trims: bool = False) -> Job:
    """A border, a carpet with a filled feature in it, a column and a band beside it.

    The lower left 200 000 by 200 000 ticks of every room are free of walls; the carpet, the
    column and the feature lie in it, off the border.
    """
    room = draw(rooms())
    zones = [draw(borders(room))] if draw(st.booleans()) else []
    low = 61_000
    left, up = draw(st.integers(low, 90_000)), draw(st.integers(low, 90_000))
    right, top = draw(st.integers(130_000, 160_000)), draw(st.integers(130_000, 160_000))
    carpet = laying("carpet", Outline(box(left, up, right, top)))
    inset = box(left + 9_000, up + 9_000, left + 20_000, up + 25_000)
    column = box(right - draw(st.integers(-9_000, 9_000)), up + 3_000, right + 15_000, up + 30_000)
    zones.append(carpet)
    if draw(st.booleans()):
        zones.append(laying("inset", Fill("f1")))
    if zones[0].name != "edge":
        near, thick = draw(st.integers(20_000, 25_000)), draw(st.integers(5_000, 30_000))
        zones.append(laying("band", Band((0, 0), (1, 0), near, near + thick)))
        zones.append(laying("low", Rest((50_000, 10_000))))
    if trims:
        zones = [replace(zone, trim=draw(st.sampled_from([0, 0, 1_600, 2_000]))) for zone in zones]
    order = draw(st.permutations(zones))
    return job_of(room, *order, columns=[column], features=[inset])


def turned_job(job: Job, degrees: float) -> Job:
    """The job turned about the origin, every point to the nearest tick."""
    return moved(job, lambda point: turned((point,), degrees)[0], flips=False)


def moved(job: Job, move: Move, flips: bool) -> Job:
    """The job after a rigid motion of everything in it; ``flips`` when it mirrors."""
    origin = move((0, 0))

    def way(vector: Point) -> Point:
        far = move((vector[0] * 1_000_000, vector[1] * 1_000_000))
        return far[0] - origin[0], far[1] - origin[1]

    def ring(points: Ring) -> Ring:
        there = tuple(move(point) for point in points)
        return there[::-1] if flips else there

    def zone(old: Laying) -> Laying:
        shape = old.shape
        match shape:
            case Outline():
                shape = Outline(ring(shape.ring))
            case Band():
                ends = (-shape.far, -shape.near) if flips else (shape.near, shape.far)
                shape = Band(move(shape.point), way(shape.direction), *ends)
            case Rest(at) if at is not None:
                shape = Rest(move(at))
        ways = tuple(Direction(d.label, way(d.vector)) for d in old.directions)
        return replace(old, shape=shape, directions=ways)

    def wall(old: Wall) -> Wall:
        ends = (move(old.end), move(old.start)) if flips else (move(old.start), move(old.end))
        return replace(old, start=ends[0], end=ends[1])

    walls = tuple(wall(old) for old in (job.walls[::-1] if flips else job.walls))
    return replace(
        job,
        room=tuple(wall.start for wall in walls),
        walls=walls,
        columns=tuple(replace(c, outline=ring(c.outline)) for c in job.columns),
        features=tuple(
            replace(f, outline=ring(f.outline), centre=move(f.centre)) for f in job.features
        ),
        axes=tuple(Axis(a.name, move(a.point), way(a.direction)) for a in job.axes),
        zones=tuple(zone(old) for old in job.zones),
    )
