"""Turn a floor's draft into a finished layout: pieces with names, rows, figures, verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.floor.cells import joints_of
from models.floor.layout import Figures, Layout, Piece, RowPlan, ZoneLayout
from models.floor.runs import rows_count
from models.floor.zone import Edge
from models.job.data import BondKind, Kind
from solver.search.draft import Draft
from solver.search.floordraft import FloorDraft
from solver.search.outcome import measures
from solver.search.outcome.chalk import cross_line, line_of, middle_corner, start_rows
from solver.search.outcome.measures import Measure
from solver.search.outcome.needs import bought_mm2, needs_of
from solver.search.outcome.verdicts import floor_verdicts
from solver.stock.parts import quarter_turned


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least units any layout could need: of each zone by itself, and of each product."""

    zones: tuple[int, ...]
    products: Mapping[str, int]


def finish(floor: FloorDraft, bounds: Bounds) -> Layout:
    """A layout of rank 0 with nothing said about what it is best at yet."""
    told = floor_verdicts(floor)
    names = _unit_names(floor)
    zones = tuple(
        _zone(floor, number, row, bounds.zones[number], names)
        for number, row in enumerate(start_rows(floor))
    )
    needs = needs_of(floor, bounds.products)
    cut = _worst(floor.zones, measures.smallest_cut)
    prominent = _worst(floor.zones, measures.prominent_cut)
    balances = [b for d in floor.zones if (b := measures.balanced_cuts(d).worst) is not None]
    laid = sum(need.laid_area_mm2 for need in needs)
    bought = sum(need.laid_area_mm2 * (1 + need.waste_percent / 100) for need in needs)
    costs = [need.cost for need in needs if need.cost is not None]
    figures = Figures(
        units=len(floor.units),
        units_at_least=sum(need.units_at_least for need in needs),
        cartons=sum(need.cartons for need in needs),
        spare_units=sum(need.spare_units for need in needs),
        laid_area_mm2=laid,
        waste_percent=(bought - laid) / laid * 100,
        smallest_cut=cut.worst,
        smallest_where=cut.where,
        cuts=sum(not c.whole for d in floor.zones for c in d.cuts),
        balance=max(balances, default=None),
        broken_must=sum(not v.kept and v.kind is Kind.MUST for v in told),
        broken_prefer=sum(not v.kept and v.kind is Kind.PREFER for v in told),
        prominent_cut=prominent.worst,
        needs=needs,
        bought_mm2=sum(bought_mm2(floor.plan.job, need) for need in needs),
        cost=sum(costs, Fraction(0)) if len(costs) == len(needs) else None,
    )
    return Layout(0, (), zones, told, figures)


def _worst(drafts: Sequence[Draft], measure: measures.Measuring) -> Measure:
    """The least of a measure over all zones, its place with the zone's name if there are many."""
    found = [(m.worst, i, m) for i, d in enumerate(drafts) if (m := measure(d)).worst is not None]
    if not found:
        return measures.NOTHING
    _, number, least = min(found, key=lambda one: one[:2])
    where = f"{drafts[number].zone.name}: {least.where}" if len(drafts) > 1 else least.where
    return Measure(least.worst, where, least.piece)


def _unit_names(floor: FloorDraft) -> dict[tuple[int, int], str]:
    """The name of the unit each piece is cut from."""
    width = len(str(len(floor.units)))
    return {
        place: f"u{number:0{width}d}"
        for number, members in enumerate(floor.units, 1)
        for place in members
    }


def _zone(
    floor: FloorDraft, number: int, row: int, at_least: int, names: Mapping[tuple[int, int], str]
) -> ZoneLayout:
    draft, area = floor.zones[number], floor.plan.areas[number]
    zone = draft.zone
    first, count = rows_count(zone, draft.product.pitch[1], draft.start_line)
    herringbone = zone.laying.bond.kind is BondKind.HERRINGBONE
    if herringbone:
        cross, start = middle_corner(draft)
    else:
        cross, start = cross_line(draft), line_of(draft, row)
    prefix = f"{number + 1}." if len(floor.zones) > 1 else ""
    return ZoneLayout(
        zone=zone.name,
        laying=zone.laying,
        frame=zone.frame,
        direction=zone.direction,
        outer=zone.outer,
        holes=zone.holes,
        start_v=start,
        cross_u=cross,
        start_row=1 if herringbone else row,
        rows=() if herringbone else _rows(draft, first, count, cross),
        pieces=_pieces(draft, prefix, [names[number, i] for i in range(len(draft.cuts))]),
        units=draft.units,
        units_at_least=at_least,
        sides=tuple((e.start, e.end, e.name) for e in zone.edges),
        mirrors=area.mirrors,
    )


def _rows(draft: Draft, first: int, count: int, cross: int) -> tuple[RowPlan, ...]:
    """Every row with the offsets of its runs from the cross line."""
    length, width = draft.product.pitch
    mine: dict[int, list[int]] = {}
    for index, run in enumerate(draft.runs):
        mine.setdefault(run.row, []).append(index)
    return tuple(
        RowPlan(
            row,
            first + (row - 1) * width,
            tuple(
                (
                    (draft.runs[i].start, draft.runs[i].end),
                    (_joint(draft, i) - cross) % length,
                )
                for i in mine.get(row, ())
            ),
            tuple(
                tuple(joint - cross for joint in joints_of(draft.cells[i]))
                for i in mine.get(row, ())
                if draft.cells
            ),
        )
        for row in range(1, count + 1)
    )


def _joint(draft: Draft, run: int) -> int:
    """The u of an end joint of a run; with several lengths, of its first unit's end."""
    return draft.cells[run][0][1] if draft.cells else draft.offsets[run]


def _pieces(draft: Draft, prefix: str, units: Sequence[str]) -> tuple[Piece, ...]:
    zone, pieces = draft.zone, []
    seen: dict[int, int] = {}
    for index, cut in enumerate(draft.cuts):
        seen[cut.row] = seen.get(cut.row, 0) + 1
        touching = draft.touching[index]
        pieces.append(
            Piece(
                id=f"{prefix}{cut.row}-{seen[cut.row]}",
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
                touches=_names(touching),
                unit=units[index],
                rip_at=_names(e for e in touching if measures.ripped(cut, e)),
                end_at=_names(e for e in touching if measures.crossed(cut, e)),
                quarter=cut.quarter or quarter_turned(zone.laying.marks, cut.row, cut.order),
                unit_length=draft.lengths[index] - draft.product.joint if draft.lengths else 0,
            )
        )
    return tuple(pieces)


def _names(edges: Iterable[Edge]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(edge.name for edge in edges))
