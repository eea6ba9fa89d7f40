"""The whole document: what the job settles once, then its layouts."""

from __future__ import annotations

from models import __version__
from models.floor.layout import Solution, ZoneLayout
from models.floor.tape import off_line
from models.job.data import BondKind, Feature, Job, Mirror, Product, Sight
from solver.sheets.contract.layouts import layout_json
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


def document(solution: Solution) -> Json:
    """The whole document as plain data; the same solution gives the same one."""
    job = solution.job
    closure = job.closure
    return {
        "contract": 1,
        "startrow": __version__,
        "job": job.name,
        "system": job.system.value,
        "tape_step": mm(job.tape_step),
        "notes": list(dict.fromkeys((*job.notes, *solution.notes))),
        "complete": solution.complete,
        "closure_mm": None if closure is None else [mm(closure.dx), mm(closure.dy)],
        "chosen": [
            {"what": each.what, "low": mm(each.low), "high": mm(each.high), "value": mm(each.value)}
            for each in solution.chosen
        ],
        "currency": job.currency,
        "zones": [_zone(job, zone) for zone in solution.layouts[0].zones],
        "links": [
            {"zones": [link.first, link.second], "share": link.share.value} for link in job.links
        ],
        "products": [_product(product) for product in job.products],
        "features": [_feature(job, feature) for feature in job.features],
        "axes": [
            {"name": axis.name, "point": point(axis.point), "direction": point(axis.direction)}
            for axis in job.axes
        ],
        "hidden_walls": list(
            dict.fromkeys(wall.name for wall in job.walls if wall.sight is Sight.HIDDEN)
        ),
        "layouts": [layout_json(job, layout) for layout in solution.layouts],
    }


def _zone(job: Job, zone: ZoneLayout) -> Json:
    laying = zone.laying
    bond = laying.bond
    return {
        "name": zone.zone,
        "laying": laying.name,
        "product": zone.product,
        "bond": bond.kind.value,
        "step": number(bond.step),
        "slant": bond.slant if bond.kind is BondKind.HERRINGBONE else None,
        "double": bond.double,
        "marks": laying.marks.value,
        "trim": mm(laying.trim),
        "mirrors": _mirrors(job, zone),
        "directions": [direction.label for direction in laying.directions],
        "polygon": polygon(zone.frame, zone.outer, zone.holes),
        "sides": [_side(zone, *side) for side in zone.sides],
    }


def _side(zone: ZoneLayout, start: tuple[int, int], end: tuple[int, int], name: str) -> Json:
    low, high = points(zone.frame, (start, end))
    return {"from": low, "to": high, "name": name}


def _mirrors(job: Job, zone: ZoneLayout) -> Json | None:
    """The zone this one is the reflection of, and the axis."""
    shape = zone.laying.shape
    if not isinstance(shape, Mirror):
        return None
    axis = next(axis for axis in job.axes if axis.name == shape.axis)
    return {
        "zone": zone.mirrors or shape.zone,
        "axis": {"point": point(axis.point), "direction": point(axis.direction)},
    }


def _product(product: Product) -> Json:
    return {
        "name": product.name,
        "length": mm(product.length),
        "width": mm(product.width),
        "joint": mm(product.joint),
        "kerf": mm(product.kerf),
        "per_carton": product.per_carton,
        "directional": product.directional,
        "lengths": [{"length": mm(length), "per_carton": count} for length, count in product.mix],
        "scrap": mm(product.scrap),
        "shop_cuts": product.shop_cuts,
        "price": optional_number(product.price),
    }


def _feature(job: Job, feature: Feature) -> Json:
    axis = next(axis for axis in job.axes if axis.name == feature.axis)
    return {
        "name": feature.name,
        "polygon": {"outer": [point(each) for each in feature.outline], "holes": []},
        "axis": {"point": point(axis.point), "direction": point(axis.direction)},
        "off_axis": mm(off_line(feature.centre, axis.point, axis.direction)),
        "tolerance": mm(feature.tolerance),
        "round_diameter": optional_mm(feature.round_diameter),
        "centre": point(feature.centre),
    }
