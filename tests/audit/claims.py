"""Claims of a scene's document, by brute force: cut sizes with shapely, rules pair by pair."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import shapely
from shapely.geometry import LineString, Point, Polygon

from models.job.data import RULE_NAMES

if TYPE_CHECKING:
    from tests.audit.scene import Scene


@dataclass(frozen=True)
class Cut:
    """A piece in the zone's frame."""

    id: str
    row: int
    cell: int
    corner: tuple[float, float]
    length: float
    width: float
    shape: Polygon

    @property
    def is_cut(self) -> bool:
        return abs(self.shape.area - self.length * self.width) > 1e-6


def size_claims(scene: Scene, floor: Polygon, cut: Cut) -> dict[str, float | None]:
    """Sizes along, across, at a slant and the neck, straight from their definitions."""
    found: dict[str, list[float]] = defaultdict(list)
    left, low, right, high = cut.shape.bounds
    # Where each side of the piece is cut to, at the innermost end of its cuts.
    ends: dict[str, list[float]] = {key: [] for key in ("left", "right", "low", "high")}
    for edge in _cut_edges(floor, cut):
        kind, side = _kind(cut.shape, edge)
        if kind == "neck":
            found[kind].append(_neck(cut.shape, edge))
        elif kind == "slant":
            circle = shapely.maximum_inscribed_circle(cut.shape, tolerance=0.001)
            found[kind].append(2 * circle.length)
        else:
            ends[side] += [point[kind == "across"] for point in edge.coords]
    if ends["left"] or ends["right"]:
        size = min([right, *ends["right"]]) - max([left, *ends["left"]])
        found["along"].append(max(0.0, size))
    if ends["low"] or ends["high"]:
        size = min([high, *ends["high"]]) - max([low, *ends["low"]])
        found["across"].append(max(0.0, size))
    sizes = {key: min(found[key], default=math.inf) for key in ("along", "across", "slant", "neck")}
    limits = {"along": scene.length, "across": scene.width}
    return {
        key: None if size >= limits.get(key, math.inf) - 1e-6 else round(size, 6)
        for key, size in sizes.items()
    }


def _cut_edges(floor: Polygon, cut: Cut) -> Iterator[LineString]:
    """The edges of a piece on the floor's boundary, factory edges that meet it left out."""
    if not cut.is_cut:
        return
    u, v = cut.corner
    unit = Polygon(
        [(u, v), (u + cut.length, v), (u + cut.length, v + cut.width), (u, v + cut.width)]
    )
    for ring in [cut.shape.exterior, *cut.shape.interiors]:
        for ends in pairwise(ring.coords):
            edge = LineString(ends)
            factory = unit.exterior.buffer(1e-6).contains(edge)
            if edge.length > 1e-6 and not factory and floor.boundary.buffer(1e-6).contains(edge):
                yield edge


def _kind(shape: Polygon, edge: LineString) -> tuple[str, str]:
    """The size one cut edge gives, and for one along or across the side it is on."""
    (u1, v1), (u2, v2) = edge.coords
    lean = math.degrees(math.atan2(abs(v2 - v1), abs(u2 - u1)))
    upright, level = lean >= 75, lean <= 15
    middle = edge.interpolate(0.5, normalized=True)
    if shape.convex_hull.boundary.distance(middle) > 1e-6:
        return ("neck" if upright or level else "notch", "")
    if upright:
        inside = shape.buffer(1e-9).contains(Point(middle.x + 1e-4, middle.y))
        return "along", "left" if inside else "right"
    if level:
        inside = shape.buffer(1e-9).contains(Point(middle.x, middle.y + 1e-4))
        return "across", "low" if inside else "high"
    return "slant", ""


def _neck(shape: Polygon, edge: LineString) -> float:
    """Material behind a notch's edge, square to the unit's side, at the edge's two ends."""
    sizes = []
    (u1, v1), (u2, v2) = edge.coords
    normal = (1.0, 0.0) if abs(v2 - v1) > abs(u2 - u1) else (0.0, 1.0)
    for share in (1e-6, 1 - 1e-6):
        at = Point(edge.interpolate(share, normalized=True))
        for way in (1, -1):
            away = (at.x + way * normal[0] * 1e5, at.y + way * normal[1] * 1e5)
            hit = shape.intersection(LineString([(at.x, at.y), away]))
            sizes += [
                float(part.length)
                for part in shapely.get_parts(hit)
                if part.length > 1e-3 and part.distance(at) < 1e-6
            ]
    return min(sizes)


def figure_rules(
    scene: Scene, floor: Polygon, cuts: list[Cut], units: dict[str, str]
) -> list[dict[str, Any]]:
    """The outcome of each rule of a scene."""
    sizes = [size_claims(scene, floor, cut) for cut in cuts]
    cut_sizes = [
        min((v for v in (s["along"], s["across"], s["slant"]) if v is not None), default=None)
        for s in sizes
    ]
    limits = {key: limit for key, _, limit in scene.rules}
    ends, sides = [s["along"] for s in sizes], [s["across"] for s in sizes]
    worst_of: dict[str, Callable[[], float | None]] = {
        "smallest_cut": lambda: _least(cut_sizes),
        "smallest_end": lambda: _least(ends),
        "half_unit_edges": lambda: _least(sides),
        "half_unit_ends": lambda: _least(ends),
        "joint_offset": lambda: _joints_apart(scene, floor, cuts, 1),
        "second_joint_offset": lambda: _joints_apart(scene, floor, cuts, 2),
        "no_stair": lambda: _stair(scene, cuts),
        "balanced_cuts": lambda: balance(scene, floor, cuts),
        "reuse_within": lambda: _reuse(cuts, units),
        "tape_tolerance": lambda: _least(
            [None if v is None else v - limits["smallest_cut"] for v in cut_sizes]
            + [None if v is None else v - limits["smallest_end"] for v in ends]
        ),
        "centred": lambda: 0.0,
    }
    at_most = ("no_stair", "balanced_cuts", "reuse_within", "centred")
    found = []
    for key, kind, limit in scene.rules:
        worst = worst_of[key]()
        kept = worst is None or (worst <= limit + 0.02 if key in at_most else worst >= limit - 0.02)
        subject = f"axis of {scene.held[0].name}" if key == "centred" and scene.held else ""
        found.append(
            {
                "rule": RULE_NAMES[key],
                "key": key,
                "subject": subject,
                "kind": kind,
                "limit": limit,
                "worst": None if worst is None else round(worst, 6),
                "kept": kept,
                "where": "",
                "because": "",
            }
        )
    return found


def _least(values: list[float | None]) -> float | None:
    return min((value for value in values if value is not None), default=None)


def _joints(cuts: list[Cut], row: int) -> list[tuple[float, float, float]]:
    """(u, low, high) of every joint of a row, pair by pair."""
    found = []
    here = [cut.shape for cut in cuts if cut.row == row]
    for one in here:
        for two in here:
            if abs(one.bounds[2] - two.bounds[0]) < 1e-6:
                shared = one.buffer(1e-7).intersection(two.buffer(1e-7)).bounds
                if shared and shared[3] - shared[1] > 0.01:
                    found.append((one.bounds[2], shared[1], shared[3]))
    return found


def _joints_apart(scene: Scene, floor: Polygon, cuts: list[Cut], gap: int) -> float | None:
    apart = []
    top = max(cut.row for cut in cuts)
    wide = floor.buffer(1e-4)
    for row in range(1, top + 1 - gap):
        line = scene.low + row * scene.width
        beyond = line + (gap - 1) * scene.width
        for u1, _, high in _joints(cuts, row):
            for u2, low, _ in _joints(cuts, row + gap):
                if high < line - 1e-3 or low > beyond + 1e-3:
                    continue
                between = LineString([(u1, line), (u2, line)]) if u1 != u2 else Point(u1, line)
                strip = (
                    between
                    if gap == 1
                    else between.buffer(1e-9).union(
                        LineString([(u1, (line + beyond) / 2), (u2, (line + beyond) / 2 + 1e-9)])
                    )
                )
                if wide.covers(strip):
                    apart.append(abs(u1 - u2))
    return min(apart, default=None)


def _stair(scene: Scene, cuts: list[Cut]) -> float:
    top = max(cut.row for cut in cuts)
    offsets = [scene.offset(row) for row in range(1, top + 1)]
    shifts = [(two - one) % scene.length for one, two in pairwise(offsets)]
    best = streak = 1
    for one, two in pairwise(shifts):
        apart = min((one - two) % scene.length, (two - one) % scene.length)
        streak = streak + 1 if apart <= 12.72 else 1
        best = max(best, streak)
    return best


def balance(scene: Scene, floor: Polygon, cuts: list[Cut]) -> float:
    """The larger difference between two opposite cuts."""
    sizes = [size_claims(scene, floor, cut) for cut in cuts]
    ends, sides = [s["along"] for s in sizes], [s["across"] for s in sizes]
    top = max(cut.row for cut in cuts)
    low = [side for cut, side in zip(cuts, sides, strict=True) if cut.row == 1]
    high = [side for cut, side in zip(cuts, sides, strict=True) if cut.row == top]
    worst = abs(_or(_least(low), scene.width) - _or(_least(high), scene.width))
    if scene.bond == "straight":
        # Rooms of these tests have their longest run in their second row, if there is one.
        row = [(cut, end) for cut, end in zip(cuts, ends, strict=True) if cut.row == min(2, top)]
        row.sort(key=lambda pair: pair[0].shape.bounds[0])
        first, last = (_or(row[place][1], scene.length) for place in (0, -1))
        worst = max(worst, abs(first - last))
    return worst


def _or(size: float | None, unit: float) -> float:
    return unit if size is None else size


def _reuse(cuts: list[Cut], units: dict[str, str]) -> float | None:
    rows: dict[str, list[int]] = defaultdict(list)
    for cut in cuts:
        rows[units[cut.id]].append(cut.row)
    spans = [max(those) - min(those) for those in rows.values() if len(those) > 1]
    return max(spans, default=None)
