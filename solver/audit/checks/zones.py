"""Several zones on one floor: apart from each other, clear of features, and what borders what."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from solver.audit.document.claims import Claims, LayoutClaim, ZoneClaim
from solver.audit.findings import Finding
from solver.audit.measured.filled import fills
from solver.audit.tolerances import TOUCH

CHECK = "zones"


def zones_apart(claims: Claims) -> Iterator[Finding]:
    """No two zones share floor."""
    zones = list(claims.zones.values())
    cores = [_core(zone.polygon) for zone in zones]
    for i, j in combinations(range(len(zones)), 2):
        if cores[i].intersects(cores[j]):
            shared = zones[i].polygon.intersection(zones[j].polygon)
            where = f"zone {zones[i].name} and zone {zones[j].name}"
            yield Finding(None, CHECK, where, "side by side", f"{shared.area:.3f} mm2 in both")


def zones_clear(claims: Claims) -> Iterator[Finding]:
    """No zone reaches into a feature, unless it lies in it and fills it."""
    for feature in claims.features:
        core = _core(feature.polygon)
        for zone in claims.zones.values():
            if core.intersects(_core(zone.polygon)) and not fills(zone, feature):
                shared = zone.polygon.intersection(feature.polygon)
                where = f"zone {zone.name} and feature {feature.name}"
                yield Finding(None, CHECK, where, "cut round", f"{shared.area:.3f} mm2 in both")


def pieces_apart(claims: Claims, layout: LayoutClaim) -> Iterator[Finding]:
    """No piece of one zone overlaps a piece of another."""
    if len(layout.zones) < 2:
        return
    shapes, names = layout.pieces.shapes, np.array(layout.pieces.zone, dtype=object)
    tree = shapely.STRtree(shapes)
    for name, zone in claims.zones.items():
        core = _core(zone.polygon)
        shapely.prepare(core)
        others = np.flatnonzero(names != name)
        for place in others[shapely.intersects(core, shapes[others])].tolist():
            own = _core(shapes[place])
            for under in np.sort(tree.query(own, predicate="intersects")).tolist():
                shared = shapes[place].intersection(shapes[under])
                if names[under] == name and not _core(shared).is_empty:
                    where = _both(layout, place, under)
                    found = f"overlap of {shared.area:.3f} mm2"
                    yield Finding(layout.rank, CHECK, where, "side by side", found)


def _both(layout: LayoutClaim, one: int, two: int) -> str:
    """Two pieces with their zones."""
    ids, zones = layout.pieces.ids, layout.pieces.zone
    return f"piece {ids[one]} (zone {zones[one]}) and piece {ids[two]} (zone {zones[two]})"


def sides(claims: Claims) -> Iterator[Finding]:
    """The sides named go all round each zone, and border what they are named after."""
    features = {feature.name: feature.polygon for feature in claims.features}
    for zone in claims.zones.values():
        yield from _all_round(zone)
        for side in zone.sides or ():
            line = shapely.LineString(side.line)
            if line.length <= TOUCH:
                continue
            if side.name in claims.zones:
                beside = claims.zones[side.name]
                reach = max(zone.trim, beside.trim)
                yield from _borders(zone, line, side.name, beside.polygon, reach)
            elif side.name in features:
                yield from _borders(zone, line, side.name, features[side.name], 0.0)


def _all_round(zone: ZoneClaim) -> Iterator[Finding]:
    """The sides of a zone make up its outline and holes."""
    if zone.sides is None:
        return
    named = shapely.MultiLineString([side.line.tolist() for side in zone.sides])
    bare = zone.polygon.boundary.difference(shapely.buffer(named, TOUCH))
    where = f"zone {zone.name}"
    if bare.length > 2 * TOUCH:
        found = f"{bare.length:.3f} mm of its edge at no side"
        yield Finding(None, "sides", where, "sides all round", found)
    stray = shapely.difference(named, shapely.buffer(zone.polygon.boundary, TOUCH))
    if stray.length > 2 * TOUCH:
        yield Finding(None, "sides", where, "sides on its edge", f"{stray.length:.3f} mm off it")


def _borders(
    zone: ZoneClaim, line: shapely.LineString, name: str, other: shapely.Polygon, reach: float
) -> Iterator[Finding]:
    """A side lies along what it is named after, at most the width of a trim strip away."""
    # Where a strip turns a corner its outer side is longer than what it goes along.
    wide = shapely.buffer(other, reach + TOUCH, join_style="mitre")
    off = shapely.difference(line, wide)
    if off.length > 2 * TOUCH:
        (x, y), _ = line.coords
        where = f"zone {zone.name}, side from x {x:.1f}, y {y:.1f} mm"
        found = f"{off.length:.3f} mm of it elsewhere"
        yield Finding(None, "sides", where, f"borders {name}", found)


def _core(shape: BaseGeometry) -> BaseGeometry:
    """A shape less half the tolerance all round."""
    return shapely.buffer(shape, -TOUCH / 2, join_style="mitre")
