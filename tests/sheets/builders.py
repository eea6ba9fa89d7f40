"""Hand-made layouts and solutions for the papers."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import shapely

from models.floor.frame import Frame
from models.floor.layout import Figures, Layout, Solution, Verdict, ZoneLayout
from models.job.data import BondKind, Job, Kind, Point, Sight
from tests.sheets.clipping import pieces_of, ring_of, share_units
from tests.sheets.jobs import inch, mm, plank_job, tile_job


def layout_of(
    job: Job,
    rank: int,
    best_at: tuple[str, ...],
    start_v: int,
    cross_u: int,
    offset: Callable[[int], int],
    vector: Point = (1, 0),
) -> Layout:
    frame = Frame((0, 0), vector)
    pieces, rows, shape = pieces_of(job, frame, start_v, lambda row: cross_u + offset(row))
    pieces, units = share_units(job, pieces)
    product = job.product_of(job.field)
    length = product.pitch[0]
    start_row = next(plan.row for plan in rows if plan.low == start_v)
    direction = next(d for d in job.field.directions if d.vector == vector)
    runs = tuple(
        replace(plan, runs=tuple((ends, (at - cross_u) % length) for ends, at in plan.runs))
        for plan in rows
    )
    zone = ZoneLayout(
        zone=job.field.name, product=product.name, frame=frame, direction=direction,
        outer=ring_of(list(shapely.geometry.polygon.orient(shape).exterior.coords)),
        holes=tuple(ring_of(list(hole.coords)) for hole in shape.interiors),
        start_v=start_v, cross_u=cross_u, start_row=start_row, rows=runs, pieces=tuple(pieces),
        units=units, units_at_least=units - (rank - 1),
    )  # fmt: skip
    verdicts = verdicts_of(job, zone)
    return Layout(rank, best_at, (zone,), verdicts, figures_of(job, zone, shape.area, verdicts))


def figures_of(job: Job, zone: ZoneLayout, area: float, verdicts: tuple[Verdict, ...]) -> Figures:
    product = job.product_of(job.field)
    length, width = product.pitch
    cuts = [piece for piece in zone.pieces if piece.cut]
    least = min((p for p in cuts if p.size), key=lambda p: p.size or 0, default=None)
    spare = job.spare_units + math.ceil(job.spare_percent * zone.units / 100)
    broken = [v.kind for v in verdicts if not v.kept]
    return Figures(
        units=zone.units,
        units_at_least=zone.units_at_least,
        cartons=-(-(zone.units + spare) // product.per_carton),
        spare_units=spare,
        laid_area_mm2=area / 320**2,
        waste_percent=(zone.units * length * width - area) / area * 100,
        smallest_cut=least.size if least else None,
        smallest_where=f"row {least.row} at {least.touches[0]}" if least else "",
        cuts=len(cuts),
        balance=balance_of(job, zone),
        broken_must=broken.count(Kind.MUST),
        broken_prefer=broken.count(Kind.PREFER),
    )


def balance_of(job: Job, zone: ZoneLayout) -> int:
    """Between the least rips of both edge rows; in a straight bond also both end cuts."""
    length, width = job.product_of(job.field).pitch
    low, high = (
        min((p.size_across or width) for p in zone.pieces if p.row == row.row)
        for row in (zone.rows[0], zone.rows[-1])
    )
    found = [abs(low - high)]
    if job.field.bond.kind is BondKind.STRAIGHT:
        longest = max(zone.rows, key=lambda row: row.runs[0][0][1] - row.runs[0][0][0])
        ends = [p for p in zone.pieces if p.row == longest.row]
        found.append(abs((ends[0].size_along or length) - (ends[-1].size_along or length)))
    return max(found)


def verdicts_of(job: Job, zone: ZoneLayout) -> tuple[Verdict, ...]:
    """The two rules the hand-made layouts are judged by."""
    rules, found = job.field.rules, []
    hidden = {wall.name for wall in job.walls if wall.sight is Sight.HIDDEN}
    if rules.smallest_cut:
        worst = min(p.size for p in zone.pieces if p.size is not None)
        found.append(
            verdict("smallest_cut", rules.smallest_cut.kind, rules.smallest_cut.limit, worst)
        )
    if rules.half_unit_edges:
        half = job.product_of(job.field).pitch[1] // 2
        seen = [p.size_across for p in zone.pieces if not set(p.touches) <= hidden]
        least = min(size for size in seen if size is not None)
        found.append(verdict("half_unit_edges", rules.half_unit_edges.kind, half, least))
    return tuple(found)


def verdict(key: str, kind: Kind, limit: int, worst: int) -> Verdict:
    kept = worst >= limit
    because = "" if kept else "the compass is held"
    return Verdict(key, kind, limit, worst, kept, "row 3 at hall wall", because)


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
        tuple(
            layout_of(job, rank, best, start, cross, lambda _: 0)
            for rank, (best, (start, cross)) in enumerate(zip(names, lines, strict=True), 1)
        ),
        (),
        True,
    )
