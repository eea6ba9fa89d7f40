"""Joins documents of one zone to one of several, every total added up again in plain sums."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Any

import shapely
from shapely.geometry import Polygon

from tests.audit.scene import Document, Scene, document

Name = Callable[[tuple[float, float]], str]
"""What a side goes to, by its middle in job axes."""


def zone_document(scene: Scene, zone: str, product: str, name: Name, **keys: Any) -> Document:
    """The document of a scene with its zone and product renamed and its sides named."""
    return as_zone(document(scene), zone, product, name, **keys)


def as_zone(found: Document, zone: str, product: str, name: Name, **keys: Any) -> Document:
    """A document of one zone with its zone and product renamed and its sides named."""
    layout = found["layouts"][0]
    found["zones"][0].update(name=zone, laying=zone, product=product, **keys)
    found["products"][0]["name"] = product
    layout["zones"][0]["zone"] = zone
    layout["order"][0]["product"] = product
    for rule in layout["rules"]:
        rule["zone"] = zone
    walls = _name_sides(found["zones"][0], name)
    for piece in layout["pieces"]:
        touches = list(dict.fromkeys(walls.get(one, one) for one in piece["touches"]))
        piece.update(zone=zone, touches=touches)
        piece.update(quarter=piece.get("quarter", False), unit_length=0.0)
        piece["id"], piece["unit"] = f"{zone} {piece['id']}", f"{zone} {piece['unit']}"
    return found


def _name_sides(zone: Document, name: Name) -> dict[str, str]:
    """Name the sides of a zone; returns the scene's names of its walls as those names."""
    zone["sides"], walls = [], {}
    for ring, points in enumerate([zone["polygon"]["outer"], *zone["polygon"]["holes"]]):
        for wall, (one, two) in enumerate(pairwise([*points, points[0]])):
            side = name(((one[0] + two[0]) / 2, (one[1] + two[1]) / 2))
            walls[f"wall {ring}-{wall}"] = side
            zone["sides"].append({"from": one, "to": two, "name": side})
    return walls


def beside(others: dict[str, Polygon]) -> Name:
    """Names a side after the other zone it runs along, else after the wall there."""

    def name(middle: tuple[float, float]) -> str:
        at = shapely.Point(middle)
        return next((one for one, shape in others.items() if shape.distance(at) < 1e-3), "wall")

    return name


def join(parts: Sequence[Document], breakage: int = 0, price: float | None = None) -> Document:
    """One document of several; products of one name are one, each with so many for breakage."""
    whole: Document = {**parts[0]}
    layouts = [part["layouts"][0] for part in parts]
    for key in ("zones", "features"):
        whole[key] = [one for part in parts for one in part[key]]
    products = {one["name"]: one for part in parts for one in part["products"]}
    whole["products"] = [{**one, "price": price} for one in products.values()]
    layout = {
        **layouts[0],
        **{key: [one for part in layouts for one in part[key]] for key in
           ("zones", "pieces", "rules")},
    }  # fmt: skip
    whole["layouts"] = [layout]
    add_up(whole, breakage)
    layout["figures"].update(
        smallest_cut=_of(min, layouts, "smallest_cut"),
        balance=_of(max, layouts, "balance"),
        cuts=sum(piece["cut"] for piece in layout["pieces"]),
    )
    return whole


def _of(
    best: Callable[[list[float]], float], layouts: Sequence[Document], key: str
) -> float | None:
    values = [one["figures"][key] for one in layouts if one["figures"][key] is not None]
    return best(values) if values else None


def add_up(whole: Document, breakage: int = 0, spare: int = 3) -> None:
    """Work out unit counts, the order and the figures again from the pieces."""
    layout = whole["layouts"][0]
    pieces = layout["pieces"]
    for zone in layout["zones"]:
        count = len({p["unit"] for p in pieces if p["zone"] == zone["zone"]})
        zone.update(units=count, units_at_least=count, proved=True)
    layout["order"] = [_line(whole, product, breakage, spare) for product in whole["products"]]
    lines = layout["order"]
    area = sum(line["laid_area_m2"] for line in lines)
    bought = sum(line["laid_area_m2"] * (1 + line["waste_percent"] / 100) for line in lines)
    costs = [line["cost"] for line in lines]
    layout["figures"].update(
        **{key: sum(line[key] for line in lines) for key in
           ("units", "units_at_least", "cartons", "spare_units")},
        waste_percent=(bought / area - 1) * 100,
        broken_must=sum(r["kind"] == "must" and not r["kept"] for r in layout["rules"]),
        broken_prefer=sum(r["kind"] == "prefer" and not r["kept"] for r in layout["rules"]),
        cost=None if None in costs else sum(costs),
    )  # fmt: skip


def _line(whole: Document, product: Document, breakage: int, spare: int) -> Document:
    """One product's line of the order."""
    named = {zone["name"]: zone for zone in whole["zones"] if zone["product"] == product["name"]}
    here = [p for p in whole["layouts"][0]["pieces"] if p["zone"] in named]
    lengths = {p["unit"]: p["unit_length"] or product["length"] for p in here}
    units, joint = len(lengths), product["joint"]
    area = sum(Polygon(z["polygon"]["outer"], z["polygon"]["holes"]).area for z in named.values())
    bought = sum(length + joint for length in lengths.values()) * (product["width"] + joint)
    mix = product.get("lengths", [])
    counts = [
        {"length": one["length"],
         "units": sum(abs(length - one["length"]) < 1e-6 for length in lengths.values())}
        for one in mix
    ]  # fmt: skip
    cartons = max(
        [math.ceil((units + breakage + spare) / product["per_carton"])]
        + [math.ceil(c["units"] / o["per_carton"]) for c, o in zip(counts, mix, strict=True)]
    )
    price = product.get("price")
    return {
        "product": product["name"],
        "units": units,
        "units_at_least": units,
        "proved": True,
        "spare_units": spare,
        "breakage_units": breakage,
        "cartons": cartons,
        "cartons_at_least": cartons,
        "laid_area_m2": round(area / 1e6, 6),
        "waste_percent": (bought / area - 1) * 100,
        "cost": None if price is None else cartons * price,
        "lengths": counts,
    }
