"""Makes layouts.json documents that are right, by means of its own: slow, plain, for small rooms.

A room is given in its zone's frame in mm; the document is written in job axes, turned and
moved. Every claim is worked out here by brute force with shapely, not by the audit.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import shapely
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from tests.audit.claims import Cut, balance, figure_rules, size_claims

Document = dict[str, Any]


@dataclass(frozen=True)
class Held:
    """A feature: outline and axis in the zone's frame."""

    name: str
    outline: Polygon
    point: tuple[float, float]
    direction: tuple[float, float]
    off_axis: float


@dataclass(frozen=True)
class Scene:
    """One zone to lay; lengths in mm. ``offset`` gives each row's end joints (row from 1)."""

    room: Polygon
    length: float
    width: float
    low: float
    offset: Callable[[int], float]
    bond: str = "staggered"
    joint: float = 0.0
    kerf: float = 0.0
    directional: bool = True
    per_carton: int = 8
    spare: int = 3
    angle: float = 0.0
    origin: tuple[float, float] = (0.0, 0.0)
    held: tuple[Held, ...] = ()
    rules: tuple[tuple[str, str, float], ...] = ()
    share: bool = True
    at_least: int | None = None
    extra: dict[str, Any] = field(default_factory=dict)


def document(scene: Scene) -> Document:
    """The layouts.json document of a scene, one layout."""
    floor = floor_of(scene)
    cuts = lay(scene, floor)
    units = assign_units(scene, cuts) if scene.share else {cut.id: f"U-{cut.id}" for cut in cuts}
    return {
        "contract": 1,
        "startrow": "0.1.0",
        "job": "Tern House, reading room",
        "system": "millimetres",
        "tape_step": 1.0,
        "notes": [],
        "complete": True,
        "closure_mm": None,
        "zones": [
            {
                "name": "Reading room",
                "product": "Driftwood plank",
                "bond": scene.bond,
                "polygon": in_job(scene, floor),
                "directions": ["along the long wall"],
            }
        ],
        "products": [
            {
                "name": "Driftwood plank",
                "length": scene.length - scene.joint,
                "width": scene.width - scene.joint,
                "joint": scene.joint,
                "kerf": scene.kerf,
                "per_carton": scene.per_carton,
                "directional": scene.directional,
            }
        ],
        "features": [feature(scene, held) for held in scene.held],
        "layouts": [layout(scene, floor, cuts, units)],
        **scene.extra,
    }


def floor_of(scene: Scene) -> Polygon:
    """The room less its features."""
    floor = scene.room.difference(shapely.union_all([held.outline for held in scene.held]))
    assert isinstance(floor, Polygon)
    return floor


def lay(scene: Scene, floor: Polygon) -> list[Cut]:
    """Cut every unit of every row to the floor."""
    left, _, right, high = floor.bounds
    cuts: list[Cut] = []
    for row in range(1, math.ceil((high - scene.low) / scene.width - 1e-9) + 1):
        low = scene.low + (row - 1) * scene.width
        first = math.floor((left - scene.offset(row)) / scene.length + 1e-9)
        last = math.ceil((right - scene.offset(row)) / scene.length - 1e-9)
        for cell in range(first, last):
            u = scene.offset(row) + cell * scene.length
            unit = box(u, low, u + scene.length, low + scene.width)
            inside = unit if floor.contains_properly(unit) else unit.intersection(floor)
            for part in shapely.get_parts(inside):
                if isinstance(part, Polygon) and part.area > 1e-6:
                    name = f"P{len(cuts) + 1}"
                    corner = (u, low)
                    cuts.append(
                        Cut(name, row, cell - first, corner, scene.length, scene.width, part)
                    )
    return cuts


def assign_units(scene: Scene, cuts: list[Cut]) -> dict[str, str]:
    """Cut the start piece of a row from what a former end piece left, full-width rows only."""
    units: dict[str, str] = {}
    left_over: list[tuple[float, str]] = []
    for cut in cuts:
        units[cut.id] = f"U-{cut.id}"
        left, low, right, high = cut.shape.bounds
        box_like = abs((right - left) * (high - low) - cut.shape.area) < 1e-6
        if not box_like or abs(high - low - scene.width) > 1e-6:
            continue
        size = right - left
        ends_here = right < cut.corner[0] + scene.length - 1e-6
        starts_here = left > cut.corner[0] + 1e-6
        if ends_here and not starts_here:
            left_over.append((scene.length - size - scene.kerf, units[cut.id]))
        elif starts_here and not ends_here:
            for place, (rest, unit) in enumerate(left_over):
                if rest >= size - 1e-9:
                    units[cut.id] = unit
                    del left_over[place]
                    break
    return units


def layout(scene: Scene, floor: Polygon, cuts: list[Cut], units: dict[str, str]) -> Document:
    """The one layout of the document."""
    rules = figure_rules(scene, floor, cuts, units)
    sizes = {cut.id: size_claims(scene, floor, cut) for cut in cuts}
    totals = unit_claims(scene, units)
    return {
        "rank": 1,
        "best_at": ["fewest units"],
        "zones": [zone_claims(scene, floor, cuts) | totals],
        "pieces": [piece(scene, cut, sizes[cut.id], floor, units[cut.id]) for cut in cuts],
        "order": [{"product": "Driftwood plank"} | totals | order_claims(scene, floor, units)],
        "rules": rules,
        "figures": figure_claims(scene, floor, cuts, units, rules, sizes),
    }


def unit_claims(scene: Scene, units: dict[str, str]) -> Document:
    """How many units, how few there could be, and whether that proves it."""
    count = len(set(units.values()))
    at_least = count if scene.at_least is None else scene.at_least
    return {"units": count, "units_at_least": at_least, "proved": count == at_least}


def zone_claims(scene: Scene, floor: Polygon, cuts: list[Cut]) -> Document:
    """Where the zone's lines and rows lie."""
    start_row = 2 if any(cut.row == 2 for cut in cuts) else 1
    start_v = scene.low + (start_row - 1) * scene.width
    left, low, right, high = floor.bounds
    return {
        "zone": "Reading room",
        "direction": "along the long wall",
        "angle_deg": round(scene.angle, 6),
        "origin": list(scene.origin),
        "start_line": points(scene, [(left, start_v), (right, start_v)]),
        "cross_line": points(scene, [(left + 100, low), (left + 100, high)]),
        "start_row": start_row,
        "rows": rows(scene, floor, cuts),
    }


def order_claims(scene: Scene, floor: Polygon, units: dict[str, str]) -> Document:
    """What is bought, and the waste."""
    count = len(set(units.values()))
    return {
        "spare_units": scene.spare,
        "cartons": math.ceil((count + scene.spare) / scene.per_carton),
        "laid_area_m2": round(floor.area / 1e6, 6),
        "waste_percent": round((count * scene.length * scene.width / floor.area - 1) * 100, 6),
    }


def figure_claims(
    scene: Scene, floor: Polygon, cuts: list[Cut], units: dict[str, str],
    rules: list[Document], sizes: dict[str, dict[str, float | None]],
) -> Document:  # fmt: skip
    """The figures that decide."""
    measured = [
        value
        for size in sizes.values()
        for key in ("along", "across", "slant")
        if (value := size[key]) is not None
    ]
    totals, order = unit_claims(scene, units), order_claims(scene, floor, units)
    return {
        "units": totals["units"],
        "units_at_least": totals["units_at_least"],
        "cartons": order["cartons"],
        "spare_units": scene.spare,
        "smallest_cut": min(measured, default=None),
        "smallest_where": "",
        "cuts": sum(cut.is_cut for cut in cuts),
        "balance": balance(scene, floor, cuts),
        "broken_must": sum(r["kind"] == "must" and not r["kept"] for r in rules),
        "broken_prefer": sum(r["kind"] == "prefer" and not r["kept"] for r in rules),
        "waste_percent": order["waste_percent"],
    }


def rows(scene: Scene, floor: Polygon, cuts: list[Cut]) -> list[Document]:
    """Rows with their runs."""
    found = []
    left, _, right, _ = floor.bounds
    for row in sorted({cut.row for cut in cuts}):
        low = scene.low + (row - 1) * scene.width
        strip = floor.intersection(box(left - 1, low, right + 1, low + scene.width))
        runs = [
            {
                "from": part.bounds[0],
                "to": part.bounds[2],
                "offset": scene.offset(row) % scene.length,
            }
            for part in shapely.get_parts(strip)
            if part.area > 1e-6
        ]
        found.append({"row": row, "low": low, "runs": sorted(runs, key=lambda run: run["from"])})
    return found


def piece(scene: Scene, cut: Cut, sizes: Document, floor: Polygon, unit: str) -> Document:
    """One piece."""
    return {
        "id": cut.id,
        "zone": "Reading room",
        "row": cut.row,
        "cell": cut.cell,
        "corner": list(cut.corner),
        "cut": cut.is_cut,
        **in_job(scene, cut.shape),
        "unit": unit,
        "sizes": sizes,
        "touches": touches(scene, floor, cut),
    }


def touches(scene: Scene, floor: Polygon, cut: Cut) -> list[str]:
    """The features a cut piece has an edge on, and one name for each wall or column."""
    if not cut.is_cut:
        return []
    names = []
    for number, ring in enumerate([floor.exterior, *floor.interiors]):
        corners = list(ring.coords)
        for wall, ends in enumerate(pairwise(corners)):
            shared = LineString(ends).buffer(1e-6).intersection(cut.shape.boundary).length
            if shared > 1e-3:
                middle = Point(LineString(ends).interpolate(0.5, normalized=True))
                owner = [held.name for held in scene.held if held.outline.distance(middle) < 1e-6]
                names.append(owner[0] if owner else f"wall {number}-{wall}")
    return sorted(set(names))


def feature(scene: Scene, held: Held) -> Document:
    """One held feature."""
    ends = [held.point, (held.point[0] + held.direction[0], held.point[1] + held.direction[1])]
    point, far = points(scene, ends)
    direction = [far[0] - point[0], far[1] - point[1]]
    centre = held.outline.centroid
    return {
        "name": held.name,
        "polygon": in_job(scene, held.outline),
        "axis": {"point": point, "direction": direction, "name": f"axis of {held.name}"},
        "off_axis": held.off_axis,
        "tolerance": 2.0,
        "round_diameter": None,
        "centre": points(scene, [(centre.x, centre.y)])[0],
    }


def points(scene: Scene, frame_points: list[tuple[float, float]]) -> list[list[float]]:
    """Frame points in the job's axes."""
    line = affinity.rotate(LineString([*frame_points, (0, 0)]), scene.angle, origin=(0, 0))
    moved = affinity.translate(line, *scene.origin)
    return [[round(x, 6), round(y, 6)] for x, y in list(moved.coords)[:-1]]


def in_job(scene: Scene, shape: Polygon) -> Document:
    """A frame polygon in the job's axes, corners not repeated."""
    rings = [shape.exterior, *shape.interiors]
    outer, *holes = [points(scene, list(ring.coords)[:-1]) for ring in rings]
    return {"outer": outer, "holes": holes}
