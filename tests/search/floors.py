"""Small floors in millimetres, laid by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from models.floor.runs import runs_of, slabs
from models.floor.zone import Zone, zone_of
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Column,
    Direction,
    Field,
    Job,
    Kind,
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
        field=Field("floor", product.name, bond, directions, rules or Rules()),
        spare_percent=Fraction(0),
    )


def with_rules(job: Job, rules: Rules) -> Job:
    return replace(job, field=replace(job.field, rules=rules))


def zone_in(job: Job) -> Zone:
    """The job's field in its first direction."""
    return zone_of(job, job.field.directions[0])


def laid(job: Job, line: float, offsets: Sequence[float]) -> Draft:
    """A draft by hand: a row line and one joint for each run, in millimetres in the frame."""
    zone, pitch = zone_in(job), job.product_of(job.field).pitch
    start = round(line * MM)
    runs = runs_of(zone, slabs(zone), pitch[1], start)
    return draft(job, zone, start, runs, tuple(round(offset * MM) for offset in offsets))
