"""A zone's boundary as segments: which sides of pieces lie on it, and whose edge it is there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from solver.audit.document.claims import Bools, Claims, Floats, Ints, Shapes, ZoneClaim
from solver.audit.measured.edges import Edges
from solver.audit.tolerances import NOISE, TOUCH

OFF = -1
"""The segment of a side that does not lie on the boundary."""


@dataclass(frozen=True, slots=True)
class Boundary:
    """The segments of a zone's boundary.

    ``ring`` is 0 for the outline and counts the holes from 1; ``feature`` names the feature
    whose edge a segment is, "" for none. ``thing`` names the feature or the other zone the
    document says the segment goes to, "" for a wall or a column; of a document that does not
    name sides it is the feature.
    """

    line: shapely.Geometry
    start: Floats
    end: Floats
    ring: Ints
    feature: tuple[str, ...]
    thing: tuple[str, ...]

    def segment_of(self, edges: Edges) -> Ints:
        """The segment each side lies on, ``OFF`` where it does not lie on the boundary."""
        found = np.full(len(edges.piece), OFF, dtype=np.int64)
        for block in range(0, len(found), 2000):
            part = slice(block, block + 2000)
            found[part] = self._nearest(edges.start[part], edges.end[part])
        self._across_corners(edges, found)
        return found

    def _nearest(self, start: Floats, end: Floats) -> Ints:
        """The segment that has both ends of a side on it and follows it best."""
        step = self.end - self.start
        length = np.hypot(step[:, 0], step[:, 1])
        unit = step / length[:, None]
        off = np.zeros((len(start), len(length)))
        on = np.ones(off.shape, dtype=np.bool_)
        for points in (start, end):
            from_start = points[:, None, :] - self.start[None, :, :]
            along = (from_start * unit).sum(axis=2)
            aside = np.abs(from_start[:, :, 0] * unit[:, 1] - from_start[:, :, 1] * unit[:, 0])
            on &= (aside <= TOUCH) & (along >= -TOUCH) & (along <= length + TOUCH)
            off += aside
        best = np.where(on, off, np.inf).argmin(axis=1)
        return np.where(on.any(axis=1), best, OFF)

    def _across_corners(self, edges: Edges, found: Ints) -> None:
        """Fill in the sides that lie on the boundary but follow several segments of it."""
        left = np.flatnonzero(found == OFF)
        ends = np.concatenate([edges.start[left], edges.end[left]])
        near = shapely.dwithin(shapely.points(ends), self.line, TOUCH).reshape(2, -1).all(axis=0)
        left = left[near]
        if not len(left):
            return
        lines = shapely.linestrings(np.stack([edges.start[left], edges.end[left]], axis=1))
        left = left[shapely.covers(shapely.buffer(self.line, TOUCH), lines)]
        middle = (edges.start[left] + edges.end[left]) / 2
        segments = shapely.linestrings(np.stack([self.start, self.end], axis=1))
        for place, point in zip(left.tolist(), middle.tolist(), strict=True):
            found[place] = int(np.argmin(shapely.distance(segments, shapely.Point(point))))


def boundary_of(
    claims: Claims, zone: ZoneClaim, area: shapely.Polygon, turned: Callable[[Floats], Floats]
) -> Boundary:
    """The boundary of a zone in its frame.

    Corners that hardly bend are left out, but where sides are named each is kept apart.
    """
    sides = [(turned(side.line), side.name) for side in zone.sides or ()]
    start, end, ring = _segments(area, [line for line, _ in sides])
    feature = np.full(len(start), "", dtype=object)
    segments: Shapes = np.asarray(shapely.linestrings(np.stack([start, end], axis=1)))
    for one in claims.features:
        feature[_on_outline(segments, shapely.transform(one.polygon, turned))] = one.name
    thing = feature.copy()
    known = {*claims.zones, *(one.name for one in claims.features)}
    middle = shapely.points((start + end) / 2)
    for line, name in sides:
        thing[shapely.dwithin(middle, shapely.LineString(line), TOUCH)] = (
            name if name in known else ""
        )
    return Boundary(area.boundary, start, end, ring, tuple(feature.tolist()), tuple(thing.tolist()))


def _segments(area: shapely.Polygon, sides: list[Floats]) -> tuple[Floats, Floats, Ints]:
    """The straight parts of a zone's outline and holes, and the ring each is of."""
    whole = [area.exterior, *area.interiors]
    rings: Shapes = np.array(whole, dtype=object) if sides else shapely.simplify(whole, NOISE)
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    found = [
        _parted(one, two, sides)
        for one, two in zip(points[:-1][joined], points[1:][joined], strict=True)
    ]
    counts = [len(part) - 1 for part in found]
    start, end = (np.concatenate([part[cut] for part in found]) for cut in (_FIRST, _LAST))
    numbers = np.repeat(ring[:-1][joined], counts).astype(np.int64)
    long = np.hypot(*(end - start).T) > NOISE
    return start[long], end[long], numbers[long]


_FIRST, _LAST = slice(None, -1), slice(1, None)


def _parted(one: Floats, two: Floats, sides: list[Floats]) -> Floats:
    """A segment as the points that part it: its ends, and the ends of sides on it."""
    length = float(np.hypot(*(two - one)))
    if not sides or length <= NOISE:
        return np.stack([one, two])
    way = (two - one) / length
    away = np.concatenate(sides) - one
    forth, aside = away @ way, np.abs(away @ np.array([-way[1], way[0]]))
    between = np.sort(forth[(aside <= TOUCH) & (forth > TOUCH) & (forth < length - TOUCH)])
    if len(between):
        between = between[np.append(True, np.diff(between) > TOUCH)]
    return np.vstack([one, one + between[:, None] * way, two])


def _on_outline(segments: Shapes, polygon: shapely.Polygon) -> Bools:
    """Which segments lie on a polygon's outline."""
    on: Bools = shapely.covers(shapely.buffer(polygon.boundary, TOUCH), segments)
    return on
