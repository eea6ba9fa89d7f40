"""Held features: on their axes as claimed, clear of pieces, and the cuts beside each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from solver.audit.document.claims import AxisClaim, Claims, FeatureClaim, Floats, Ints, LayoutClaim
from solver.audit.findings import BesideFeature, Finding, SideCuts, mm
from solver.audit.measured.boundary import OFF
from solver.audit.measured.filled import inside
from solver.audit.measured.laid import Laid
from solver.audit.measured.rules import Surveyed
from solver.audit.measured.sizes import least, measured_sizes
from solver.audit.tolerances import SIZE, TOUCH


def off_axis(feature: FeatureClaim) -> float:
    """Distance in mm of a feature's centre (of area) from its axis."""
    centre = feature.polygon.centroid
    return abs(float(_side(feature.axis, np.array([[centre.x, centre.y]]))[0]))


def _side(axis: AxisClaim, points: Floats) -> Floats:
    """Distance of points (n, 2) to the left of an axis, negative to its right."""
    direction = np.array(axis.direction) / np.hypot(*axis.direction)
    away = points - np.array(axis.point)
    return np.asarray(direction[0] * away[:, 1] - direction[1] * away[:, 0])


def on_axis(claims: Claims) -> Iterator[Finding]:
    """Each feature is as far off its axis as claimed."""
    for feature in claims.features:
        found = off_axis(feature)
        if abs(abs(feature.off_axis) - found) > SIZE:
            where = f"feature {feature.name}"
            claimed = f"{feature.off_axis:.3f} mm off its axis"
            yield Finding(None, "features on axis", where, claimed, mm(found))


def kept_clear(claims: Claims, layout: LayoutClaim) -> Iterator[Finding]:
    """No piece enters a feature, but those of a zone that fills it."""
    tree = shapely.STRtree(layout.pieces.shapes)
    for feature in claims.features:
        core = shapely.buffer(feature.polygon, -TOUCH, join_style="mitre")
        filling = inside(claims, feature)
        for place in np.sort(tree.query(core, predicate="intersects")).tolist():
            if layout.pieces.zone[place] in filling:
                continue
            entered = shapely.intersection(layout.pieces.shapes[place], feature.polygon)
            found = f"{entered.area:.3f} mm2 of piece {layout.pieces.ids[place]} inside"
            where = f"feature {feature.name}"
            yield Finding(layout.rank, "features kept clear", where, "cut round", found)


def beside(claims: Claims, zones: Sequence[Surveyed]) -> tuple[BesideFeature, ...]:
    """The cuts to the left and right of each feature's axis."""
    return tuple(_beside(feature, zones) for feature in claims.features)


def _beside(feature: FeatureClaim, zones: Sequence[Surveyed]) -> BesideFeature:
    sizes, low, high, whole = [], [], [], []
    for zone in zones:
        places = _touching(zone.laid, feature)
        corners, owner = shapely.get_coordinates(zone.laid.pieces.shapes[places], return_index=True)
        side = _side(feature.axis, corners)
        for number, place in enumerate(places.tolist()):
            low.append(side[owner == number].min())
            high.append(side[owner == number].max())
            whole.append(bool(zone.laid.whole[place]))
            sizes.append(_sizes_at(zone, feature.name, place))
    table = np.array(sizes, dtype=float).reshape(-1, 4)
    uncut = np.array(whole, dtype=np.bool_)
    left, right = np.array(high) > TOUCH, np.array(low) < -TOUCH
    return BesideFeature(
        feature.name,
        off_axis(feature),
        _cuts(table[left], uncut[left]),
        _cuts(table[right], uncut[right]),
    )


def _touching(laid: Laid, feature: FeatureClaim) -> Ints:
    """The pieces that have a side, not only a corner, on a feature."""
    tree = shapely.STRtree(laid.pieces.shapes)
    near = np.sort(tree.query(feature.polygon, predicate="dwithin", distance=TOUCH))
    band = shapely.buffer(feature.polygon, 2 * TOUCH)
    shared = shapely.area(shapely.intersection(laid.pieces.shapes[near], band))
    # A corner shares a spot of the band, a side a strip of it.
    return np.asarray(near[shared > 8 * TOUCH**2], dtype=np.int64)


def _sizes_at(zone: Surveyed, feature: str, place: int) -> list[float]:
    """A piece's sizes by those of its cut edges that go to the feature, nan for none."""
    k = int(np.searchsorted(zone.cuts.places, place))
    if k == len(zone.cuts.places) or zone.cuts.places[k] != place:
        return [np.nan] * 4
    sides = zone.cuts.sides(k)
    segments = zone.cuts.segment[sides].tolist()
    owned = np.array(
        [s != OFF and zone.laid.boundary.feature[s] == feature for s in segments], dtype=np.bool_
    )
    owned &= zone.cuts.sawn[sides]
    found: list[float] = measured_sizes(zone.laid, zone.cuts, k, owned).tolist()
    return found


def _cuts(sizes: Floats, whole: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> SideCuts:
    """The least sizes among pieces, and how many are cut and whole."""
    lowest = least(sizes.T) if len(sizes) else np.full(4, np.nan)
    along, across, slant, neck = (None if np.isnan(v) else float(v) for v in lowest)
    return SideCuts(along, across, slant, neck, int((~whole).sum()), int(whole.sum()))
