"""Where two zones face each other, how long, and what their pieces show there; job axes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from solver.audit.document.claims import Bools, Floats
from solver.audit.measured.laid import out_of_frame
from solver.audit.measured.rules import Surveyed
from solver.audit.tolerances import TOUCH

SHORTEST = 0.5
"""Stretches and edges shorter than this, in mm, are corners and show nothing."""

STEEPEST = 0.01
"""Sine of the angle under which two sides still face each other."""

FACTORY, CUT, MIXED = "factory", "cut", "mixed"


@dataclass(frozen=True, slots=True)
class Facing:
    """The stretches (n, 2, 2) of one zone's edge that another faces, and how far apart."""

    stretches: Floats
    apart: Floats

    @property
    def length(self) -> float:
        """Of all stretches together, in mm."""
        step = self.stretches[:, 1] - self.stretches[:, 0]
        return float(np.hypot(step[:, 0], step[:, 1]).sum())


def sides_of(polygon: shapely.Polygon) -> Floats:
    """The sides of a polygon (n, 2, 2), floor on their left."""
    turned = shapely.geometry.polygon.orient(polygon)
    rings = [np.asarray(ring.coords) for ring in (turned.exterior, *turned.interiors)]
    return np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])


def facing(own: shapely.Polygon, other: shapely.Polygon, reach: float) -> Facing:
    """The stretches of one zone's edge with the other beyond, no further off than ``reach``."""
    theirs = sides_of(other)
    found: list[Floats] = []
    apart: list[float] = []
    for start, end in sides_of(own):
        length = float(np.hypot(*(end - start)))
        if length <= TOUCH:
            continue
        way = (end - start) / length
        away = theirs - start
        forth, out = away @ way, away @ np.array([way[1], -way[0]])
        # Floor is on the left of both, so sides that face each other run opposite ways.
        run = forth[:, 0] - forth[:, 1]
        level = (run > 0) & (np.abs(out[:, 1] - out[:, 0]) <= STEEPEST * run + TOUCH)
        near = (out.min(axis=1) >= -TOUCH) & (out.max(axis=1) <= reach + TOUCH)
        low, high = np.maximum(forth[:, 1], 0.0), np.minimum(forth[:, 0], length)
        for k in np.flatnonzero(level & near & (high - low > TOUCH)).tolist():
            found.append(np.stack([start + low[k] * way, start + high[k] * way]))
            apart.append(float(out[k].mean()))
    return Facing(np.array(found).reshape(-1, 2, 2), np.array(apart))


def shown(zone: Surveyed, seen: Facing) -> str | None:
    """What the pieces of a zone show along stretches of its edge; None when nothing lies there."""
    edges, factory = _edges(zone)
    lengths = [_along(edges[kind], seen.stretches) for kind in (factory, ~factory)]
    if min(lengths) > SHORTEST:
        return MIXED
    if max(lengths) <= SHORTEST:
        return None
    return FACTORY if lengths[0] > lengths[1] else CUT


def _edges(zone: Surveyed) -> tuple[Floats, Bools]:
    """All sides of pieces (n, 2, 2) in job axes, and which are factory edges."""
    laid, cuts = zone.laid, zone.cuts
    of_whole = laid.edges.take(laid.whole[laid.edges.piece])
    turned = out_of_frame(laid.claim)
    start = np.concatenate([of_whole.start, cuts.edges.start])
    end = np.concatenate([of_whole.end, cuts.edges.end])
    factory = np.concatenate([np.ones(len(of_whole.piece), dtype=np.bool_), cuts.factory])
    return np.stack([turned(start), turned(end)], axis=1), factory


def _along(edges: Floats, stretches: Sequence[Floats] | Floats) -> float:
    """The length of edges that lie on stretches."""
    total = 0.0
    for start, end in stretches:
        length = float(np.hypot(*(end - start)))
        way = (end - start) / max(length, TOUCH)
        away = edges - start
        forth = away @ way
        on = np.abs(away @ np.array([-way[1], way[0]])).max(axis=1) <= 2 * TOUCH
        part = np.minimum(forth.max(axis=1), length) - np.maximum(forth.min(axis=1), 0.0)
        total += float(part[on & (part > SHORTEST)].sum())
    return total
