"""Jobs made by hand for the tests of carving, and what is asked of their areas."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely import Polygon

from models.job.carve.area import Area, Plan
from models.job.carve.plan import plan_of
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Border,
    Column,
    Direction,
    Extent,
    Feature,
    Job,
    Laying,
    Outline,
    Point,
    Product,
    Rest,
    Ring,
    Rules,
    Shape,
    Sight,
    Wall,
)
from models.lengths import System

FIELD = Direction("along w1", (1, 0))
UPRIGHT = Axis("upright", (500_000, 0), (0, 1))
ROOM = ((0, 0), (1_000_000, 0), (1_000_000, 600_000), (0, 600_000))
ELL = (
    (0, 0),
    (1_000_000, 0),
    (1_000_000, 600_000),
    (600_000, 600_000),
    (600_000, 900_000),
    (0, 900_000),
)


def box(left: int, low: int, right: int, high: int) -> Ring:
    """A rectangle, counter-clockwise."""
    return ((left, low), (right, low), (right, high), (left, high))


def laying(
    name: str, shape: Shape, directions: tuple[Direction, ...] = (), trim: int = 0
) -> Laying:
    """A zone of the one product."""
    bond = Bond(BondKind.STAGGERED)
    return Laying(name, "Driftwood plank", bond, directions, Rules(), shape, trim=trim)


def rug(left: int, low: int, right: int, high: int, name: str = "rug", trim: int = 0) -> Laying:
    """A rectangular zone."""
    return laying(name, Outline(box(left, low, right, high)), trim=trim)


def border(width: int, *walls: str, mitred: bool = False, trim: int = 0) -> Laying:
    """A border of fixed width along walls."""
    return laying("border", Border(Extent(width, width), walls, mitred=mitred), trim=trim)


def job_of(
    room: Ring,
    *zones: Laying,
    columns: Sequence[Ring] = (),
    features: Sequence[Ring] = (),
    axes: Sequence[Axis] = (UPRIGHT,),
    walls: Sequence[str] = (),
    field: Direction = FIELD,
    system: System = System.METRIC,
) -> Job:
    """A job of walls w1, w2 ..., columns c1 ..., features f1 ... and the field last."""
    names = walls or [f"w{i}" for i in range(1, len(room) + 1)]
    ends = room[1:] + room[:1]
    return Job(
        name="Net loft",
        system=system,
        tape_step=320,
        room=room,
        walls=tuple(
            Wall(name, start, end, Sight.HIDDEN if name == "hidden" else Sight.PLAIN)
            for name, start, end in zip(names, room, ends, strict=True)
        ),
        columns=tuple(Column(f"c{i}", ring) for i, ring in enumerate(columns, 1)),
        doors=(),
        axes=tuple(axes),
        features=tuple(
            Feature(f"f{i}", axes[0].name, middle(ring), ring, 0)
            for i, ring in enumerate(features, 1)
        ),
        products=(Product("Driftwood plank", 120_000, 20_000),),
        zones=(*zones, laying("field", Rest(), (field,))),
    )


def middle(ring: Ring) -> Point:
    """The middle of a symmetric outline."""
    xs, ys = zip(*ring, strict=True)
    return (min(xs) + max(xs)) // 2, (min(ys) + max(ys)) // 2


def carved(job: Job) -> dict[str, Area]:
    """The areas of a job by name."""
    return {area.name: area for area in plan_of(job).areas}


def names_beside(area: Area) -> list[str]:
    """What the sides of an area go to, in order."""
    return [side.name for side in area.sides]


def corner_set(area: Area) -> set[Point]:
    """The corners of an area, holes too."""
    return {corner for ring in (area.outer, *area.holes) for corner in ring}


def shape_of(area: Area) -> Polygon:
    """An area as a shapely polygon."""
    return Polygon(area.outer, area.holes)


def turned(ring: Ring, degrees: float) -> Ring:
    """A ring turned about the origin, to the nearest tick."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((round(x * c - y * s), round(x * s + y * c)) for x, y in ring)


def overlap(plan: Plan) -> float:
    """The largest area, in square ticks, that two zones both have."""
    shapes = [shape_of(area) for area in plan.areas]
    pairs = ((a, b) for i, a in enumerate(shapes) for b in shapes[:i])
    return max((a.intersection(b).area for a, b in pairs), default=0.0)
