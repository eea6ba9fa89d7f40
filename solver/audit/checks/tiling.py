"""Do the pieces of a zone tile it: sound shapes, no overlap, no gap, none over its edge."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from solver.audit.document.claims import Claims, Floats, LayoutClaim, Shapes
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid
from solver.audit.tolerances import NOISE, ROUNDING, TOUCH

CHECK = "pieces tile the zone"


def sound_setting(claims: Claims) -> Iterator[Finding]:
    """Every zone and feature is a simple polygon with some area."""
    for zone in claims.zones.values():
        if not zone.polygon.is_valid or zone.polygon.area <= 0:
            reason = shapely.is_valid_reason(zone.polygon)
            yield Finding(None, "sound shapes", f"zone {zone.name}", "a floor", reason)
    for feature in claims.features:
        if not feature.polygon.is_valid or feature.polygon.area <= 0:
            reason = shapely.is_valid_reason(feature.polygon)
            yield Finding(None, "sound shapes", f"feature {feature.name}", "an outline", reason)


def sound(layout: LayoutClaim) -> Iterator[Finding]:
    """Every piece is a simple polygon with some area; else nothing can be measured."""
    shapes = layout.pieces.shapes
    bad = ~shapely.is_valid(shapes) | (shapely.area(shapes) <= 0)
    for place in np.flatnonzero(bad).tolist():
        reason = shapely.is_valid_reason(shapes[place])
        found = f"a shape that crosses or folds on itself ({reason})"
        where = f"piece {layout.pieces.ids[place]}"
        yield Finding(layout.rank, "sound shapes", where, "a piece of floor", found)


def complete(claims: Claims, layout: LayoutClaim) -> Iterator[Finding]:
    """Every zone is laid, every piece in a zone that is laid, and no id is used twice."""
    laid, with_pieces = {zone.zone for zone in layout.zones}, set(layout.pieces.zone)
    for name in claims.zones:
        if name not in laid:
            yield Finding(layout.rank, CHECK, f"zone {name}", "laid", "no lines for it")
        elif name not in with_pieces:
            yield Finding(layout.rank, CHECK, f"zone {name}", "laid", "no pieces")
    for name in sorted(with_pieces - laid):
        yield Finding(layout.rank, CHECK, f"zone {name}", "not laid", "pieces in it")
    for name, count in Counter(layout.pieces.ids).items():
        if count > 1:
            found = f"{count} pieces of that id"
            yield Finding(layout.rank, "piece ids", f"piece {name}", "one piece", found)


def inside_one_unit(laid: Laid) -> Iterator[Finding]:
    """Every piece fits in one unit as it lies."""
    size = laid.bounds[:, 2:] - laid.bounds[:, :2]
    over = (size > laid.unit + TOUCH).any(axis=1)
    for place in np.flatnonzero(over).tolist():
        along, across = size[place]
        length, width = laid.unit[place]
        claimed = f"cut from one unit of {length:.3f} x {width:.3f} mm"
        found = f"{along:.3f} x {across:.3f} mm"
        yield Finding(laid.rank, "pieces inside one unit", laid.label(place), claimed, found)


def overlaps(laid: Laid) -> Iterator[Finding]:
    """No two pieces overlap by more than the tolerance."""
    middle = (laid.bounds[:, :2] + laid.bounds[:, 2:]) / 2
    low = np.minimum(laid.bounds[:, :2] + TOUCH / 2, middle)
    high = np.maximum(laid.bounds[:, 2:] - TOUCH / 2, middle)
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    i, j = shapely.STRtree(boxes).query(boxes)
    i, j = i[i < j], j[i < j]
    if not len(i):
        return
    shared = shapely.intersection(laid.shapes[i], laid.shapes[j])
    thick = ~shapely.is_empty(shapely.buffer(shared, -TOUCH / 2))
    for k in np.flatnonzero(thick).tolist():
        where = f"{laid.label(int(i[k]))} and {laid.label(int(j[k]))}"
        yield Finding(laid.rank, CHECK, where, "side by side", _area(shared[k], "overlap"))


def over_the_edge(laid: Laid) -> Iterator[Finding]:
    """No piece reaches outside the zone (into a wall, a column or a feature)."""
    wide = shapely.buffer(laid.area, TOUCH, join_style="mitre")
    shapely.prepare(wide)
    for place in np.flatnonzero(~shapely.covers(wide, laid.shapes)).tolist():
        outside = shapely.difference(laid.shapes[place], laid.area)
        found = _area(outside, "outside")
        yield Finding(laid.rank, CHECK, laid.label(place), "inside the zone", found)


def gaps(laid: Laid) -> Iterator[Finding]:
    """The pieces together leave nothing of the zone bare."""
    odd = shapely.buffer(laid.shapes[~laid.oblong], TOUCH / 2, join_style="mitre")
    covered = shapely.union_all(np.concatenate([_strips(laid), odd]))
    bare = shapely.get_parts(shapely.difference(laid.area, covered))
    for part in bare[shapely.area(bare) > TOUCH**2]:
        x, y = part.representative_point().coords[0]
        where = f"zone {laid.zone.name}, at u {x:.1f}, v {y:.1f} mm"
        yield Finding(laid.rank, CHECK, where, "covered", _area(part, "bare floor"))


def _strips(laid: Laid) -> Shapes:
    """Rectangular pieces, joined along the rows and wider all round by half the tolerance."""
    boxes: Floats = laid.bounds[laid.oblong]
    if not len(boxes):
        return np.array([], dtype=object)
    boxes = boxes[np.lexsort((boxes[:, 0], laid.rows[laid.oblong]))]
    level = np.abs(boxes[1:, [1, 3]] - boxes[:-1, [1, 3]]).max(axis=1) <= NOISE
    joined = level & (np.abs(boxes[1:, 0] - boxes[:-1, 2]) <= TOUCH)
    first = np.concatenate([[True], ~joined])
    begin = np.flatnonzero(first)
    right = np.maximum.reduceat(boxes[:, 2], begin)
    half = TOUCH / 2
    strips: Shapes = shapely.box(
        boxes[begin, 0] - half, boxes[begin, 1] - half, right + half, boxes[begin, 3] + half
    )
    return strips


def _area(shape: BaseGeometry, what: str) -> str:
    """An area and how wide it is, in words."""
    left, low, right, high = shape.bounds
    return f"{what} of {shape.area:.3f} mm2 ({right - left:.3f} x {high - low:.3f} mm)"


def whole_or_cut(laid: Laid) -> Iterator[Finding]:
    """The ``cut`` flag is on for every piece that is not a whole unit, and for no other."""
    claimed_whole = np.flatnonzero(~laid.pieces.cut & ~laid.whole)
    eroded = _unit_boxes(laid, claimed_whole)
    nearly = shapely.covers(laid.shapes[claimed_whole], eroded)
    for place in claimed_whole[~nearly].tolist():
        found = f"{laid.areas[place]:.3f} mm2, less than a unit"
        yield Finding(laid.rank, "cut marks", laid.label(place), "a whole unit", found)
    claimed_cut = np.flatnonzero(laid.pieces.cut & laid.whole)
    # A unit with a notch of a tick or two is cut, and yet as good as whole: more corners.
    corners = shapely.get_num_coordinates(shapely.simplify(laid.shapes[claimed_cut], ROUNDING))
    for place in claimed_cut[corners <= 5].tolist():
        yield Finding(laid.rank, "cut marks", laid.label(place), "cut", "a whole unit")


def _unit_boxes(laid: Laid, places: np.ndarray[tuple[int], np.dtype[np.int64]]) -> Shapes:
    """Units about the pieces' middles, smaller all round by the tolerance."""
    middle = (laid.bounds[places, :2] + laid.bounds[places, 2:]) / 2
    half = laid.unit[places] / 2 - TOUCH
    low, high = middle - half, middle + half
    boxes: Shapes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    return boxes
