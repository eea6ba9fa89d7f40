"""Floors for units of several lengths, in millimetres."""

from __future__ import annotations

from collections.abc import Sequence

from models.floor.cells import pieces_in_cells
from models.floor.pieces import Cut
from models.floor.zone import zone_of
from models.job.carve.area import Area, Side
from models.job.data import (
    Bond,
    BondKind,
    Direction,
    Job,
    Kind,
    Laying,
    Limit,
    Product,
    Rules,
    Wall,
)
from models.lengths import TICKS_PER_MM as MM
from models.lengths import System
from solver.search.found import ANY_LINE, Found, Only, Task
from solver.stock.mix import cartons_for, mix_of, needs_by_length
from solver.stock.mixed import Unit, pack_mixed
from solver.stock.parts import parts_of, stock_of

PLANKS = ((1200, 2), (900, 3), (600, 3))
"""Lengths and how many of each a carton holds."""

Corners = Sequence[tuple[int, int]]


def must(limit: int) -> Limit:
    """A rule in millimetres."""
    return Limit(Kind.MUST, limit * MM)


def box(width: int, height: int) -> Corners:
    return ((0, 0), (width, 0), (width, height), (0, height))


def task_of(
    corners: Corners,
    mix: Sequence[tuple[int, int]] = PLANKS,
    rules: Rules | None = None,
    width: int = 200,
    kerf: int = 3,
    step: int = 1,
    only: Only = ANY_LINE,
    copies: int = 1,
) -> Task:
    """A search of a room whose walls are called wall 1, wall 2 and so on, rows along x."""
    ring = tuple((x * MM, y * MM) for x, y in corners)
    ends = zip(ring, ring[1:] + ring[:1], strict=True)
    walls = tuple(Wall(f"wall {i}", a, b) for i, (a, b) in enumerate(ends, 1))
    lengths = tuple((length * MM, count) for length, count in mix)
    total = sum(count for _, count in mix)
    plank = Product(
        "plank", lengths[0][0], width * MM, kerf=kerf * MM, per_carton=total, mix=lengths
    )
    along = Direction("along x", (1, 0))
    laying = Laying("loft", "plank", Bond(BondKind.STAGGERED), (along,), rules or Rules())
    job = Job(
        name="Tern House net loft",
        system=System.METRIC,
        tape_step=step * MM,
        room=ring,
        walls=walls,
        columns=(),
        doors=(),
        axes=(),
        features=(),
        products=(plank,),
        zones=(laying,),
    )
    sides = tuple(Side(wall.start, wall.end, wall.name) for wall in walls)
    area = Area("loft", laying, ring, (), sides, frozenset())
    return Task(job, zone_of(area, along), only, copies)


def cut(task: Task, found: Found) -> list[Cut]:
    """The pieces of a layout found."""
    return pieces_in_cells(found.runs, found.cells, task.product.pitch[1])


def packed(task: Task, found: Found) -> list[Unit]:
    """The units its pieces come from."""
    reuse = task.zone.laying.rules.reuse_within
    stock = stock_of(task.product, reuse.limit if reuse else None)
    return pack_mixed(parts_of(cut(task, found), found.runs), stock, mix_of(task.product))


def cartons_of(task: Task, found: Found) -> int:
    """The cartons that hold them."""
    mix = mix_of(task.product)
    return cartons_for(needs_by_length((length for _, length in packed(task, found)), mix), mix)
