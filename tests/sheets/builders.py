"""Hand-made layouts and solutions of one zone for the papers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from models.floor.frame import Frame
from models.floor.layout import Layout, Piece, RowPlan, Solution, ZoneLayout
from models.job.carve.area import Area
from models.job.data import Direction, Job, Marks, Point
from tests.sheets.clipping import (
    Joints,
    in_frame,
    pieces_of,
    ring_of,
    rows_of,
    share_units,
    whole_area,
)
from tests.sheets.figuring import figures_of, verdicts_of
from tests.sheets.jobs import inch, mm, plank_job, tile_job


def zone_of(
    job: Job,
    area: Area,
    frame: Frame,
    direction: Direction,
    lines: tuple[int, int],
    offset: Joints,
    prefix: str = "",
    first_unit: int = 0,
) -> ZoneLayout:
    """A zone laid in rows; ``lines`` are start_v and cross_u, offsets from the cross line."""
    start_v, cross_u = lines
    product = job.product_of(area.laying)
    length = product.pitch[0]
    shape = in_frame(area, frame)
    turned = area.laying.marks is Marks.QUARTER_TURNED
    rows, spots = rows_of(product, shape, start_v, lambda row: cross_u + offset(row), turned)
    pieces = share_units(job, product, pieces_of(area, frame, shape, spots, prefix), first_unit)
    runs = tuple(
        replace(plan, runs=tuple((ends, (at - cross_u) % length) for ends, at in plan.runs))
        for plan in rows
    )
    start_row = next(plan.row for plan in rows if plan.low == start_v)
    return laid_zone(area, frame, direction, lines, start_row, runs, pieces)


def laid_zone(
    area: Area,
    frame: Frame,
    direction: Direction,
    lines: tuple[int, int],
    start_row: int,
    rows: tuple[RowPlan, ...],
    pieces: list[Piece],
) -> ZoneLayout:
    shape = in_frame(area, frame)
    units = len({piece.unit for piece in pieces})
    return ZoneLayout(
        zone=area.name, laying=area.laying, frame=frame, direction=direction,
        outer=ring_of(list(shape.exterior.coords)),
        holes=tuple(ring_of(list(hole.coords)) for hole in shape.interiors),
        start_v=lines[0], cross_u=lines[1], start_row=start_row, rows=rows, pieces=tuple(pieces),
        units=units, units_at_least=units,
        sides=tuple((frame.to_frame(s.start), frame.to_frame(s.end), s.name) for s in area.sides),
        mirrors=area.mirrors,
    )  # fmt: skip


def layout_of(
    job: Job,
    rank: int,
    best_at: tuple[str, ...],
    start_v: int,
    cross_u: int,
    offset: Callable[[int], int],
    vector: Point = (1, 0),
) -> Layout:
    direction = next(d for d in job.field.directions if d.vector == vector)
    frame = Frame((0, 0), vector)
    zone = zone_of(job, whole_area(job), frame, direction, (start_v, cross_u), offset)
    zone = replace(zone, units_at_least=zone.units - (rank - 1))
    verdicts = verdicts_of(job, zone)
    return Layout(rank, best_at, (zone,), verdicts, figures_of(job, (zone,), verdicts, rank - 1))


def kept_offsets(row: int) -> int:
    """Offsets from 7 ft 6 in that leave no end piece under 4 in anywhere in the room."""
    return inch(str((14, 36, 25, 2, 20, 40)[row % 6]))


def sliver_offsets(row: int) -> int:
    return inch(str((row * 17) % 47 + 1))


def plank_solution(job: Job | None = None) -> Solution:
    """The first layout keeps the smallest cut, the others leave slivers."""
    job = job or plank_job()
    lines = (inch("8' 5\""), inch("8' 2\""), inch("-11'"))
    return Solution(
        job,
        (
            layout_of(job, 1, ("least waste", "no slivers"), lines[0], inch("90"), kept_offsets),
            layout_of(job, 2, ("most equal cuts",), lines[1], inch("111-1/4"), sliver_offsets),
            layout_of(job, 3, ("fewest cuts",), lines[2], inch("72"), sliver_offsets, (0, 1)),
        ),
        ("no layout keeps half a plank at every wall",),
        True,
    )


def tile_solution(job: Job | None = None) -> Solution:
    job = job or tile_job()
    lines = ((mm("1590"), mm("2310")), (mm("1365"), mm("2084")))
    names = (("equal cuts at both sides",), ("fewest cuts", "smallest cut largest"))
    return Solution(
        job,
        tuple(
            layout_of(job, rank, best, start, cross, lambda _: 0)
            for rank, (best, (start, cross)) in enumerate(zip(names, lines, strict=True), 1)
        ),
        (),
        True,
    )
