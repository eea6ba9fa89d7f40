"""``layouts.json``: everything an outside checker needs, in millimetres and job axes.

The keys are a contract: more may be added, none changed.
"""

from __future__ import annotations

import json
from typing import Any

from models import __version__
from models.floor.layout import Layout, Piece, Solution, Verdict, ZoneLayout
from models.floor.tape import off_line
from models.job.data import RULE_NAMES, Feature, Job, Point, Product, Ring, Sight
from models.lengths import to_mm
from solver.sheets.chalk import chalk, line_ends
from solver.sheets.order import OrderLine, order_lines
from solver.sheets.words import COUNTED_IN_ROWS

DECIMALS = 6
DEEPEST = 3
"""How deep the file is spread over lines: layouts, layout, pieces, then a line each."""

Json = dict[str, Any]


def document(job: Job, solution: Solution) -> Json:
    """The whole document as plain data; the same job and solution give the same one."""
    closure = job.closure
    return {
        "contract": 1,
        "startrow": __version__,
        "job": job.name,
        "system": job.system.value,
        "tape_step": _mm(job.tape_step),
        "notes": list(dict.fromkeys((*job.notes, *solution.notes))),
        "complete": solution.complete,
        "closure_mm": None if closure is None else [_mm(closure.dx), _mm(closure.dy)],
        "zones": [_zone(job, zone) for zone in solution.layouts[0].zones],
        "products": [_product(product) for product in job.products],
        "features": [_feature(job, feature) for feature in job.features],
        "axes": [
            {"name": axis.name, "point": _point(axis.point), "direction": _point(axis.direction)}
            for axis in job.axes
        ],
        "hidden_walls": [wall.name for wall in job.walls if wall.sight is Sight.HIDDEN],
        "layouts": [_layout(job, layout) for layout in solution.layouts],
    }


def text_of(found: Json) -> str:
    """The document as text, ending with a newline."""
    return _spread(found, 0) + "\n"


def _spread(value: object, depth: int) -> str:
    """JSON with one line for each piece, verdict and the like, deeper parts inside the line."""
    if depth > DEEPEST or not isinstance(value, dict | list) or not value:
        return json.dumps(value, ensure_ascii=False, allow_nan=False)
    pad = " " * (depth + 1)
    if isinstance(value, list):
        inside = [pad + _spread(each, depth + 1) for each in value]
    else:
        inside = [f"{pad}{json.dumps(k)}: {_spread(each, depth + 1)}" for k, each in value.items()]
    ends = "[]" if isinstance(value, list) else "{}"
    return ends[0] + "\n" + ",\n".join(inside) + "\n" + pad[1:] + ends[1]


def _number(value: float) -> float:
    """A number rounded for the file; minus nought becomes nought."""
    return round(float(value), DECIMALS) + 0.0


def _mm(ticks: float) -> float:
    return _number(to_mm(1) * ticks)


def _optional(ticks: int | None) -> float | None:
    return None if ticks is None else _mm(ticks)


def _point(point: tuple[float, float]) -> list[float]:
    return [_mm(point[0]), _mm(point[1])]


def _ring(zone: ZoneLayout, ring: Ring) -> list[list[float]]:
    """A ring of a zone's frame in job axes."""
    return [_point(zone.frame.to_job(point)) for point in ring]


def _zone(job: Job, zone: ZoneLayout) -> Json:
    return {
        "name": zone.zone,
        "product": zone.product,
        "bond": job.field.bond.kind.value,
        "step": _number(float(job.field.bond.step)),
        "directions": [direction.label for direction in job.field.directions],
        "polygon": {
            "outer": _ring(zone, zone.outer),
            "holes": [_ring(zone, hole) for hole in zone.holes],
        },
    }


def _product(product: Product) -> Json:
    return {
        "name": product.name,
        "length": _mm(product.length),
        "width": _mm(product.width),
        "joint": _mm(product.joint),
        "kerf": _mm(product.kerf),
        "per_carton": product.per_carton,
        "directional": product.directional,
    }


def _feature(job: Job, feature: Feature) -> Json:
    axis = next(axis for axis in job.axes if axis.name == feature.axis)
    return {
        "name": feature.name,
        "polygon": {"outer": [_point(point) for point in feature.outline], "holes": []},
        "axis": {"point": _point(axis.point), "direction": _point(axis.direction)},
        "off_axis": _mm(off_line(feature.centre, axis.point, axis.direction)),
        "tolerance": _mm(feature.tolerance),
        "round_diameter": _optional(feature.round_diameter),
        "centre": _point(feature.centre),
    }


def _layout(job: Job, layout: Layout) -> Json:
    return {
        "rank": layout.rank,
        "best_at": list(layout.best_at),
        "figures": _figures(layout),
        "zones": [_zone_layout(job, zone) for zone in layout.zones],
        "pieces": [_piece(zone, piece) for zone in layout.zones for piece in zone.pieces],
        "order": [_order(line) for line in order_lines(job, layout)],
        "rules": [_rule(job, verdict) for verdict in layout.verdicts],
    }


def _figures(layout: Layout) -> Json:
    figures = layout.figures
    return {
        "units": figures.units,
        "units_at_least": figures.units_at_least,
        "cartons": figures.cartons,
        "spare_units": figures.spare_units,
        "smallest_cut": _optional(figures.smallest_cut),
        "smallest_where": figures.smallest_where,
        "cuts": figures.cuts,
        "balance": _optional(figures.balance),
        "broken_must": figures.broken_must,
        "broken_prefer": figures.broken_prefer,
        "waste_percent": _number(figures.waste_percent),
    }


def _zone_layout(job: Job, zone: ZoneLayout) -> Json:
    lines = chalk(job, zone)
    return {
        "zone": zone.zone,
        "angle_deg": _number(zone.frame.angle_deg),
        "origin": _point(zone.frame.origin),
        "direction": zone.direction.label,
        "start_line": _segment(zone, line_ends(lines.start)),
        "cross_line": _segment(zone, line_ends(lines.cross)),
        "start_row": zone.start_row,
        "units": zone.units,
        "units_at_least": zone.units_at_least,
        "proved": zone.proved,
        "rows": [
            {
                "row": plan.row,
                "low": _mm(plan.low),
                "runs": [
                    {"from": _mm(low), "to": _mm(high), "offset": _mm(offset)}
                    for (low, high), offset in plan.runs
                ],
            }
            for plan in zone.rows
        ],
    }


def _segment(zone: ZoneLayout, ends: tuple[Point, Point]) -> list[list[float]]:
    return [_point(zone.frame.to_job(end)) for end in ends]


def _piece(zone: ZoneLayout, piece: Piece) -> Json:
    return {
        "id": piece.id,
        "zone": zone.zone,
        "row": piece.row,
        "cut": piece.cut,
        "outer": _ring(zone, piece.outline),
        "holes": [_ring(zone, hole) for hole in piece.holes],
        "unit": piece.unit,
        "cell": piece.cell,
        "corner": _point(piece.corner),
        "sizes": {
            "along": _optional(piece.size_along),
            "across": _optional(piece.size_across),
            "slant": _optional(piece.size_slant),
            "neck": _optional(piece.neck),
        },
        "touches": list(piece.touches),
        "rip_at": list(piece.rip_at),
        "end_at": list(piece.end_at),
    }


def _order(line: OrderLine) -> Json:
    return {
        "product": line.product,
        "units": line.units,
        "units_at_least": line.units_at_least,
        "proved": line.proved,
        "spare_units": line.spare_units,
        "cartons": line.cartons,
        "laid_area_m2": _number(line.laid_mm2 / 1e6),
        "waste_percent": _number(line.waste_percent),
    }


def _rule(job: Job, verdict: Verdict) -> Json:
    on = [c.on.value for c in job.field.rules.centred if c.axis == verdict.subject]
    counted = verdict.key in COUNTED_IN_ROWS
    worst = verdict.worst
    return {
        "rule": RULE_NAMES[verdict.key],
        "key": verdict.key,
        "subject": verdict.subject,
        **({"on": on[0]} if on else {}),
        "kind": verdict.kind.value,
        "limit": verdict.limit if counted else _mm(verdict.limit),
        "worst": worst if counted else _optional(worst),
        "kept": verdict.kept,
        "where": verdict.where,
        "because": verdict.because,
    }
