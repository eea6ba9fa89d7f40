"""One layout in the document: its zones set out, its pieces, order, seams and rules."""

from __future__ import annotations

from models.floor.layout import Layout, Need, Piece, RowPlan, Verdict, ZoneLayout
from models.job.data import RULE_NAMES, Job
from solver.sheets.chalk import chalk, line_ends
from solver.sheets.contract.values import (
    Json,
    mm,
    number,
    optional_mm,
    optional_number,
    point,
    points,
    polygon,
)
from solver.sheets.order.table import spare_cartons
from solver.sheets.seams import Seam, seams_of
from solver.sheets.words import COUNTED_IN_ROWS


def layout_json(job: Job, layout: Layout) -> Json:
    """A layout as plain data."""
    return {
        "rank": layout.rank,
        "best_at": list(layout.best_at),
        "figures": _figures(layout),
        "zones": [_zone(job, zone) for zone in layout.zones],
        "pieces": [_piece(zone, piece) for zone in layout.zones for piece in zone.pieces],
        "order": [_order(job, need) for need in layout.figures.needs],
        "rules": [_rule(layout, verdict) for verdict in layout.verdicts],
        "seams": [_seam(seam) for seam in seams_of(job, layout.zones)],
    }


def _figures(layout: Layout) -> Json:
    figures = layout.figures
    return {
        "units": figures.units,
        "units_at_least": figures.units_at_least,
        "cartons": figures.cartons,
        "spare_units": figures.spare_units,
        "smallest_cut": optional_mm(figures.smallest_cut),
        "smallest_where": figures.smallest_where,
        "cuts": figures.cuts,
        "balance": optional_mm(figures.balance),
        "broken_must": figures.broken_must,
        "broken_prefer": figures.broken_prefer,
        "waste_percent": number(figures.waste_percent),
        "cost": optional_number(figures.cost),
    }


def _zone(job: Job, zone: ZoneLayout) -> Json:
    lines = chalk(job, zone)
    return {
        "zone": zone.zone,
        "angle_deg": number(zone.frame.angle_deg),
        "origin": point(zone.frame.origin),
        "direction": zone.direction.label,
        "start_line": points(lines.frame, line_ends(lines.start)),
        "cross_line": points(lines.frame, line_ends(lines.cross)),
        "start_row": zone.start_row,
        "units": zone.units,
        "units_at_least": zone.units_at_least,
        "proved": zone.proved,
        "rows": [_row(plan) for plan in zone.rows],
    }


def _row(plan: RowPlan) -> Json:
    joints = [[mm(each) for each in run] for run in plan.joints]
    return {
        "row": plan.row,
        "low": mm(plan.low),
        "runs": [
            {"from": mm(low), "to": mm(high), "offset": mm(offset)}
            for (low, high), offset in plan.runs
        ],
        **({"joints": joints} if joints else {}),
    }


def _piece(zone: ZoneLayout, piece: Piece) -> Json:
    return {
        "id": piece.id,
        "zone": zone.zone,
        "row": piece.row,
        "cut": piece.cut,
        **polygon(zone.frame, piece.outline, piece.holes),
        "unit": piece.unit,
        "cell": piece.cell,
        "corner": point(piece.corner),
        "quarter": piece.quarter,
        "unit_length": mm(piece.unit_length),
        "sizes": {
            "along": optional_mm(piece.size_along),
            "across": optional_mm(piece.size_across),
            "slant": optional_mm(piece.size_slant),
            "neck": optional_mm(piece.neck),
        },
        "touches": list(piece.touches),
        "rip_at": list(piece.rip_at),
        "end_at": list(piece.end_at),
    }


def _order(job: Job, need: Need) -> Json:
    return {
        "product": need.product,
        "units": need.units,
        "units_at_least": need.units_at_least,
        "proved": need.proved,
        "spare_units": need.spare_units,
        "breakage_units": need.breakage_units,
        "cartons": need.cartons,
        "spare_cartons": spare_cartons(job, need),
        "cartons_at_least": need.cartons_at_least,
        "laid_area_m2": number(need.laid_area_mm2 / 1e6),
        "waste_percent": number(need.waste_percent),
        "cost": optional_number(need.cost),
        "lengths": [{"length": mm(length), "units": units} for length, units in need.lengths],
    }


def _rule(layout: Layout, verdict: Verdict) -> Json:
    on = [
        centred.on.value
        for zone in layout.zones
        if zone.zone == verdict.zone
        for centred in zone.laying.rules.centred
        if centred.axis == verdict.subject
    ]
    counted = verdict.key in COUNTED_IN_ROWS
    worst = verdict.worst
    return {
        "rule": RULE_NAMES[verdict.key],
        "key": verdict.key,
        "zone": verdict.zone,
        "subject": verdict.subject,
        **({"on": on[0]} if on else {}),
        "kind": verdict.kind.value,
        "limit": verdict.limit if counted else mm(verdict.limit),
        "worst": worst if counted else optional_mm(worst),
        "kept": verdict.kept,
        "where": verdict.where,
        "because": verdict.because,
    }


def _seam(seam: Seam) -> Json:
    return {
        "zones": list(seam.zones),
        "length": mm(seam.length),
        "edges": [edge.value for edge in seam.edges],
        "trim": mm(seam.trim),
    }
