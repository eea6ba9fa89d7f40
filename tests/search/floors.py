"""Small floors in millimetres, laid by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from models.floor.runs import runs_of, slabs
from models.floor.zone import Zone
from models.job.carve.plan import plan_of
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Column,
    Direction,
    Job,
    Kind,
    Laying,
    Limit,
    Product,
    Ring,
    Rules,
    Sight,
    Wall,
)
from models.lengths import TICKS_PER_MM as MM
from models.lengths import System
from solver.search.draft import Draft, draft
from solver.search.floordraft import FloorDraft, pack_floor
from solver.search.found import Found, Task
from tests.floor.rooms import field_zone

PLANK = Product("plank", 1200 * MM, 200 * MM)
TILE = Product("tile", 300 * MM, 300 * MM, directional=False)

STAGGERED = Bond(BondKind.STAGGERED)
STRAIGHT = Bond(BondKind.STRAIGHT)
ALONG_X = Direction("along x", (1, 0))
ALONG_Y = Direction("along y", (0, 1))

Corners = Sequence[tuple[float, float]]
"""Corners in millimetres, counter-clockwise."""


def ring(corners: Corners) -> Ring:
    return tuple((round(x * MM), round(y * MM)) for x, y in corners)


def box(width: int, height: int) -> tuple[tuple[int, int], ...]:
    return ((0, 0), (width, 0), (width, height), (0, height))


def must(limit: float) -> Limit:
    """A rule in millimetres."""
    return Limit(Kind.MUST, round(limit * MM))


def prefer(limit: float) -> Limit:
    return Limit(Kind.PREFER, round(limit * MM))


def job_of(
    corners: Corners,
    product: Product = PLANK,
    bond: Bond = STAGGERED,
    rules: Rules | None = None,
    directions: tuple[Direction, ...] = (ALONG_X,),
    sights: dict[int, Sight] | None = None,
    columns: Sequence[Corners] = (),
    axes: Sequence[Axis] = (),
) -> Job:
    """A room whose walls are called wall 1, wall 2 and so on, and its columns likewise."""
    room = ring(corners)
    sides = zip(room, (*room[1:], room[0]), strict=True)
    return Job(
        name="Tern House wash house",
        system=System.METRIC,
        tape_step=MM,
        room=room,
        walls=tuple(
            Wall(f"wall {i}", a, b, (sights or {}).get(i, Sight.PLAIN))
            for i, (a, b) in enumerate(sides, 1)
        ),
        columns=tuple(Column(f"column {i}", ring(c)) for i, c in enumerate(columns, 1)),
        doors=(),
        axes=tuple(axes),
        features=(),
        products=(product,),
        zones=(Laying("floor", product.name, bond, directions, rules or Rules()),),
        spare_percent=Fraction(0),
    )


def with_rules(job: Job, rules: Rules) -> Job:
    return replace(job, zones=(*job.zones[:-1], replace(job.field, rules=rules)))


def zone_in(job: Job) -> Zone:
    """The job's field in its first direction."""
    return field_zone(job)


def task_of(job: Job) -> Task:
    """The search of the job's field in its first direction."""
    return Task(job, zone_in(job))


def laid_alone(job: Job, line: float, offsets: Sequence[float]) -> FloorDraft:
    """A whole floor of one zone by hand, packed; as ``laid``."""
    return pack_floor(plan_of(job), [_cut(job, line, offsets)])


def laid(job: Job, line: float, offsets: Sequence[float]) -> Draft:
    """A packed draft by hand: a row line and one joint for each run, in mm in the frame."""
    return laid_alone(job, line, offsets).zones[0]


def _cut(job: Job, line: float, offsets: Sequence[float]) -> Draft:
    zone, pitch = zone_in(job), job.product_of(job.field).pitch
    start = round(line * MM)
    runs = runs_of(zone, slabs(zone), pitch[1], start)
    joints = tuple(round(offset * MM) for offset in offsets)
    return draft(job, Found(zone, start, runs, joints, 0, 0))
