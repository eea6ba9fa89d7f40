"""Seams: where two zones meet, how long, and whether factory or cut edges show there.

Worked from the finished zones alone, in job axes and millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from models.floor.layout import Piece, ZoneLayout
from models.job.data import Job, Product
from models.lengths import to_mm, to_ticks

HAIR = 0.02
"""Sides this close, in mm, lie on one another."""

SHORTEST = 0.5
"""A shared stretch shorter than this, in mm, is a corner and no seam."""

STEEPEST = 0.01
"""Sides face each other when they are parallel within this sine."""

Floats = NDArray[np.float64]
"""Edges as (n, 2, 2): start and end, x and y in mm."""


class Shown(Enum):
    """What the pieces of a zone show along a seam."""

    FACTORY = "factory"
    CUT = "cut"
    MIXED = "mixed"


@dataclass(frozen=True, slots=True)
class Seam:
    """Two zones that meet: ``length`` of the line and width of the ``trim`` strip, in ticks.

    ``edges`` says what the pieces of the first and of the second zone show there.
    """

    zones: tuple[str, str]
    length: int
    edges: tuple[Shown, Shown]
    trim: int


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A part of a zone's boundary that another zone faces, ``apart`` mm away."""

    start: Floats
    end: Floats
    apart: float

    @property
    def length(self) -> float:
        """In mm."""
        return float(np.hypot(*(self.end - self.start)))


def seams_of(job: Job, zones: Sequence[ZoneLayout]) -> tuple[Seam, ...]:
    """Every seam of a layout, in the order of its zones."""
    bounds = [_boundary(zone) for zone in zones]
    found = []
    for i, j in combinations(range(len(zones)), 2):
        widest = to_mm(max(zones[i].laying.trim, zones[j].laying.trim))
        here = list(_facing(bounds[i], bounds[j], widest + HAIR))
        length = sum(part.length for part in here)
        if length < SHORTEST:
            continue
        there = list(_facing(bounds[j], bounds[i], widest + HAIR))
        edges = (_shown(job, zones[i], here), _shown(job, zones[j], there))
        apart = max(part.apart for part in here)
        trim = 0 if apart < HAIR else to_ticks(apart)
        found.append(Seam((zones[i].zone, zones[j].zone), to_ticks(length), edges, trim))
    return tuple(found)


def _in_job(zone: ZoneLayout, points: Floats) -> Floats:
    """Points of a zone's frame, in ticks, in job axes and mm."""
    dx, dy = np.array(zone.frame.direction) / np.hypot(*zone.frame.direction)
    turned = points @ np.array([[dx, dy], [-dy, dx]]) + np.array(zone.frame.origin)
    return np.asarray(turned * to_mm(1))


def _edges(ring: Sequence[tuple[int, int]]) -> Floats:
    points = np.array(ring, dtype=np.float64)
    return np.stack([points, np.roll(points, -1, axis=0)], axis=1)


def _boundary(zone: ZoneLayout) -> Floats:
    """The sides of a zone, floor on their left."""
    return _in_job(zone, np.concatenate([_edges(ring) for ring in (zone.outer, *zone.holes)]))


def _facing(own: Floats, other: Floats, reach: float) -> Iterator[_Stretch]:
    """The stretches of own sides that sides of another zone face, no further than ``reach``."""
    for start, end in own:
        along = end - start
        size = float(np.hypot(*along))
        if size < SHORTEST:
            continue
        way = along / size
        far = other - start
        forth = far @ way
        out = far @ np.array([way[1], -way[0]])
        run = forth[:, 1] - forth[:, 0]
        flat = np.abs(out[:, 1] - out[:, 0]) <= STEEPEST * np.abs(run) + HAIR
        near = (out.max(axis=1) <= reach) & (out.min(axis=1) >= -HAIR)
        low = np.maximum(forth[:, 1], 0)
        high = np.minimum(forth[:, 0], size)
        for i in np.flatnonzero(flat & near & (run < 0) & (high - low > HAIR)):
            apart = float(out[i].mean())
            yield _Stretch(start + low[i] * way, start + high[i] * way, apart)


def _shown(job: Job, zone: ZoneLayout, parts: Sequence[_Stretch]) -> Shown:
    """What the pieces of a zone show along stretches of its boundary."""
    edges, factory = _piece_edges(job.product_of(zone.laying), zone)
    lengths = {True: 0.0, False: 0.0}
    for part in parts:
        way = (part.end - part.start) / part.length
        far = edges - part.start
        forth = far @ way
        on = np.abs(far @ np.array([way[1], -way[0]])).max(axis=1) <= 2 * HAIR
        shared = np.minimum(forth.max(axis=1), part.length) - np.maximum(forth.min(axis=1), 0)
        for whole in lengths:
            lengths[whole] += float(shared[on & (factory == whole) & (shared > SHORTEST)].sum())
    if lengths[True] and lengths[False]:
        return Shown.MIXED
    return Shown.CUT if lengths[False] else Shown.FACTORY


def _piece_edges(product: Product, zone: ZoneLayout) -> tuple[Floats, NDArray[np.bool_]]:
    """Every edge of every piece, and whether it is a side of its unit."""
    found, factory = [], []
    for piece in zone.pieces:
        cell = _cell(product, piece)
        for ring in (piece.outline, *piece.holes):
            edges = _edges(ring)
            found.append(edges)
            factory.append(_on_cell(edges, cell))
    if not found:
        return np.empty((0, 2, 2)), np.empty(0, dtype=np.bool_)
    return _in_job(zone, np.concatenate(found)), np.concatenate(factory)


def _cell(product: Product, piece: Piece) -> tuple[int, int, int, int]:
    """Where the whole unit of a piece lies, joint included."""
    long, wide = product.pitch
    if piece.unit_length:
        long = piece.unit_length + product.joint
    across, up = (wide, long) if piece.quarter else (long, wide)
    u, v = piece.corner
    return u, v, u + across, v + up


def _on_cell(edges: Floats, cell: tuple[int, int, int, int]) -> NDArray[np.bool_]:
    """Which edges lie on a side of the unit."""
    hair = to_ticks(HAIR)
    on = [
        (np.abs(edges[:, :, axis] - cell[axis + side]) <= hair).all(axis=1)
        for axis in (0, 1)
        for side in (0, 2)
    ]
    return np.asarray(np.any(on, axis=0))
