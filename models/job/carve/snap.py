"""Corners that touch what is there already, to within rounding, are put onto it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import shapely
from shapely import STRtree

from models.job.checks import TOUCH
from models.job.data import Point, Ring
from models.job.rings import edges


def drawn_to(rings: Sequence[Ring], there: Iterable[Ring]) -> tuple[Ring, ...]:
    """Rings with each corner within ``TOUCH`` of a corner or side that is there put onto it.

    Corners that are there and lie within ``TOUCH`` of a ring's side become corners of the
    ring. A corner is moved by its place alone, so rings that share it go on sharing it.
    """
    known = list(there)
    moved = _moves({point for ring in rings for point in ring}, known)
    shifted = [[moved.get(point, point) for point in ring] for ring in rings]
    corners = _corners_on({edge for ring in shifted for edge in edges(ring)}, known)
    drawn = []
    for ring in shifted:
        full = [p for edge in edges(ring) for p in (edge[0], *corners.get(edge, ()))]
        drawn.append(tuple(p for i, p in enumerate(full) if p != full[i - 1]))
    return tuple(drawn)


def _moves(points: set[Point], known: Sequence[Ring]) -> dict[Point, Point]:
    """Where each point goes that is near a known corner, or else a known side."""
    corners = sorted({point for ring in known for point in ring})
    loose = sorted(points.difference(corners))
    moves: dict[Point, Point] = {}
    if not loose or not corners:
        return moves
    spots = shapely.points(loose)
    found = STRtree(shapely.points(corners)).query(spots, "dwithin", TOUCH).T.tolist()
    for i, j in sorted(found, key=lambda pair: (math.dist(loose[pair[0]], corners[pair[1]]), pair)):
        moves.setdefault(loose[i], corners[j])
    sides = [side for ring in known for side in edges(ring) if side[0] != side[1]]
    found = STRtree(shapely.linestrings(sides)).query(spots, "dwithin", TOUCH).T.tolist()
    places = [(loose[i], _nearest(loose[i], sides[j])) for i, j in found]
    for point, place in sorted(places, key=lambda pair: (math.dist(*pair), pair)):
        moves.setdefault(point, place)
    return moves


def _nearest(point: Point, side: tuple[Point, Point]) -> Point:
    """The whole-tick point of a side nearest to a point."""
    return place_at(side, reach_along(side, point))


def reach_along(side: tuple[Point, Point], point: Point) -> float:
    """How far along a side a point's foot lies: 0 at its start, 1 at its end."""
    (x0, y0), (x1, y1) = side
    dx, dy = x1 - x0, y1 - y0
    return ((point[0] - x0) * dx + (point[1] - y0) * dy) / (dx * dx + dy * dy)


def place_at(side: tuple[Point, Point], reach: float) -> Point:
    """The whole-tick point that far along a side, its ends at the furthest."""
    (x0, y0), (x1, y1) = side
    reach = min(1.0, max(0.0, reach))
    return x0 + round(reach * (x1 - x0)), y0 + round(reach * (y1 - y0))


def _corners_on(
    sides: set[tuple[Point, Point]], known: Sequence[Ring]
) -> dict[tuple[Point, Point], list[Point]]:
    """The known corners that lie on each side, in order along it."""
    corners = sorted({point for ring in known for point in ring})
    listed = sorted(side for side in sides if side[0] != side[1])
    if not listed or not corners:
        return {}
    lines = shapely.linestrings(listed)
    found = STRtree(shapely.points(corners)).query(lines, "dwithin", TOUCH).T.tolist()
    on: dict[tuple[Point, Point], list[Point]] = {}
    for i, j in found:
        if corners[j] not in listed[i]:
            on.setdefault(listed[i], []).append(corners[j])
    for side, points in on.items():
        points.sort(key=lambda point: reach_along(side, point))
        # A corner near an end but not on it belongs to the end.
        points[:] = [p for p in points if min(math.dist(p, end) for end in side) > TOUCH]
    return on
