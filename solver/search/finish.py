"""Turn a draft into a finished layout: pieces with names, rows, figures, verdicts."""

from __future__ import annotations

import math
from collections.abc import Iterable

from models.floor.centring import axis_in_frame, runs_along
from models.floor.layout import Figures, Layout, Piece, RowPlan, ZoneLayout
from models.floor.runs import rows_count
from models.floor.zone import Edge
from models.job.data import BondKind, Kind
from models.lengths import TICKS_PER_MM
from solver.search import measures
from solver.search.draft import Draft
from solver.search.verdicts import verdicts


def finish(draft: Draft, at_least: int) -> Layout:
    """A layout of rank 0 with nothing said about what it is best at yet."""
    told = verdicts(draft)
    cut = measures.smallest_cut(draft)
    area = draft.zone.polygon.area / TICKS_PER_MM**2
    spare = math.ceil(draft.units * draft.job.spare_percent / 100) + draft.job.spare_units
    product = draft.product
    unit = product.pitch[0] * product.pitch[1] / TICKS_PER_MM**2
    figures = Figures(
        units=draft.units,
        units_at_least=at_least,
        cartons=-(-(draft.units + spare) // product.per_carton),
        spare_units=spare,
        laid_area_mm2=area,
        waste_percent=(draft.units * unit - area) / area * 100,
        smallest_cut=cut.worst,
        smallest_where=cut.where,
        cuts=sum(not c.whole for c in draft.cuts),
        balance=measures.balanced_cuts(draft).worst,
        broken_must=sum(not v.kept and v.kind is Kind.MUST for v in told),
        broken_prefer=sum(not v.kept and v.kind is Kind.PREFER for v in told),
        prominent_cut=measures.prominent_cut(draft).worst,
    )
    return Layout(0, (), (_zone(draft, at_least),), told, figures)


def _zone(draft: Draft, at_least: int) -> ZoneLayout:
    pitch = draft.product.pitch
    first, count = rows_count(draft.zone, pitch[1], draft.start_line)
    start_row = _start_row(draft, first, count)
    cross = _cross_line(draft)
    rows = []
    for number in range(1, count + 1):
        mine = [i for i, run in enumerate(draft.runs) if run.row == number]
        runs = tuple(
            ((draft.runs[i].start, draft.runs[i].end), (draft.offsets[i] - cross) % pitch[0])
            for i in mine
        )
        rows.append(RowPlan(number, first + (number - 1) * pitch[1], runs))
    return ZoneLayout(
        zone=draft.job.field.name,
        product=draft.product.name,
        frame=draft.zone.frame,
        direction=draft.zone.direction,
        outer=draft.zone.outer,
        holes=draft.zone.holes,
        start_v=first + (start_row - 1) * pitch[1],
        cross_u=cross,
        start_row=start_row,
        rows=tuple(rows),
        pieces=_pieces(draft),
        units=draft.units,
        units_at_least=at_least,
    )


def _start_row(draft: Draft, first: int, count: int) -> int:
    """The row laid first: its line is the nearest to the middle that is half a row off it.

    Off the walls and near but not on the centre, the first rows can set while later ones
    are pushed tight against them; common practice, no source.
    """
    pitch = draft.product.pitch[1]
    low, high = draft.zone.heights
    inside = [n for n in range(2, count + 1) if low < first + (n - 1) * pitch < high]

    def off(number: int) -> tuple[bool, int, int]:
        twice = abs(2 * (first + (number - 1) * pitch) - low - high)
        return twice < pitch, twice, number

    return min(inside, key=off, default=1)


def _cross_line(draft: Draft) -> int:
    """The u of the cross line: on a joint of the start row, an axis, or near the middle."""
    us = [u for u, _ in draft.zone.outer]
    middle = (min(us) + max(us)) // 2
    if draft.job.field.bond.kind is not BondKind.STAGGERED:
        pitch = draft.product.pitch[0]
        joint = draft.offsets[0] - _shift(draft)
        return joint + round((middle - joint) / pitch) * pitch
    for axis in draft.job.axes:
        if runs_along(draft.zone, axis) is False:
            at = axis_in_frame(draft.zone, axis)[0][0]
            if min(us) < at < max(us):
                return at
    return middle // draft.job.tape_step * draft.job.tape_step


def _shift(draft: Draft) -> int:
    """How far the first run's joints are shifted from those of the start line's row."""
    pitch, step = draft.product.pitch, draft.job.field.bond.step
    return int((draft.runs[0].low - draft.start_line) // pitch[1] * step * pitch[0] % pitch[0])


def _pieces(draft: Draft) -> tuple[Piece, ...]:
    unit_of = {piece: number for number, members in enumerate(draft.bins, 1) for piece in members}
    width = len(str(len(draft.bins)))
    pieces = []
    seen: dict[int, int] = {}
    for index, cut in enumerate(draft.cuts):
        seen[cut.row] = seen.get(cut.row, 0) + 1
        pieces.append(
            Piece(
                id=f"{cut.row}-{seen[cut.row]}",
                row=cut.row,
                cell=cut.order,
                corner=(cut.cell[0], cut.cell[1]),
                outline=cut.ring,
                holes=cut.holes,
                cut=not cut.whole,
                size_along=cut.sizes.along,
                size_across=cut.sizes.across,
                size_slant=cut.sizes.slant,
                neck=cut.sizes.neck,
                touches=_names(draft.touching[index]),
                unit=f"u{unit_of[index]:0{width}d}",
                rip_at=_names(e for e in draft.touching[index] if e.along_rows),
                end_at=_names(e for e in draft.touching[index] if e.across_rows),
            )
        )
    return tuple(pieces)


def _names(edges: Iterable[Edge]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(edge.name for edge in edges))
