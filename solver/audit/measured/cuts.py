"""The size of a cut piece, measured from its outline alone.

Cut edges on the piece's hull and within 15 degrees of square to the row are cross cuts:
the size along the row is what is left between the innermost ends of those on one side and
of those on the other, a side without one counting where the piece ends. Rips give the size
across likewise. A cut edge at a slant counts as the largest circle in the piece. A cut edge
that is not on the hull (a notch) gives a neck: what is left of the piece behind it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely

from solver.audit.document.claims import Bools, Floats, Ints
from solver.audit.tolerances import LEAN_DEG, NOISE, TOUCH

MOST_SIDES = 40
"""Convex shapes of more sides than this are left to shapely's search for the circle."""

CIRCLE_STEP = 0.004
"""How near shapely's search comes to the largest circle's radius, in mm."""


@dataclass(frozen=True, slots=True)
class Outline:
    """A piece: all its sides (inside on the left), which are cut, and its polygon."""

    start: Floats
    end: Floats
    cut: Bools
    shape: shapely.Polygon


@dataclass(frozen=True, slots=True)
class Sizes:
    """Cut sizes in mm, infinite where the piece is not cut that way."""

    along: float = np.inf
    across: float = np.inf
    slant: float = np.inf
    neck: float = np.inf

    def row(self) -> list[float]:
        """The sizes in the order of SIZE_KEYS, nan for none."""
        values = (self.along, self.across, self.slant, self.neck)
        return [np.nan if np.isinf(value) else value for value in values]


def measure(
    piece: Outline,
    pitch: tuple[float, float],
    lean: float = LEAN_DEG,
    shortest: float = TOUCH,
) -> Sizes:
    """The cut sizes of a piece; along and across only where less than the unit's.

    ``lean`` is the angle in degrees that divides straight cuts from slanted ones,
    ``shortest`` the length from which on an edge counts.
    """
    step = piece.end - piece.start
    length = np.hypot(step[:, 0], step[:, 1])
    hull = shapely.get_coordinates(piece.shape.convex_hull)
    straight: tuple[list[int], list[int]] = ([], [])
    slant = neck = np.inf
    for side in np.flatnonzero(piece.cut & (length > shortest)).tolist():
        unit = step[side] / length[side]
        off_row = np.degrees(np.arctan2(abs(unit[1]), abs(unit[0])))
        axis = 0 if off_row >= 90 - lean else 1 if off_row <= lean else None
        if not _on_hull(hull, piece.start[side], piece.end[side]):
            if axis is not None:
                neck = min(neck, _behind(piece, side, axis, lean))
        elif axis is not None:
            straight[axis].append(side)
        elif np.isinf(slant):
            slant = circle(piece.shape)
    along, across = (_left_between(piece, straight[axis], axis, pitch[axis]) for axis in (0, 1))
    return Sizes(along, across, slant, neck)


def _left_between(piece: Outline, sides: list[int], axis: int, pitch: float) -> float:
    """What cuts leave along an axis, innermost end to innermost end; infinite for no cut."""
    if not sides:
        return np.inf
    one, two = piece.start[sides], piece.end[sides]
    # With the inside on the left a cut at the high end runs up, one at the high side back.
    forward = two[:, 1 - axis] > one[:, 1 - axis]
    at_high = forward if axis == 0 else ~forward
    inmost_low = np.maximum(one[:, axis], two[:, axis])[~at_high]
    inmost_high = np.minimum(one[:, axis], two[:, axis])[at_high]
    low = inmost_low.max() if len(inmost_low) else piece.start[:, axis].min()
    high = inmost_high.min() if len(inmost_high) else piece.start[:, axis].max()
    size = max(float(high - low), 0.0)
    return size if size < pitch - TOUCH else np.inf


def _on_hull(hull: Floats, start: Floats, end: Floats) -> bool:
    """Whether a side lies along one side of the (closed) hull."""
    step = hull[1:] - hull[:-1]
    unit = step / np.hypot(step[:, 0], step[:, 1])[:, None]
    off = [
        np.abs(unit[:, 0] * (at[1] - hull[:-1, 1]) - unit[:, 1] * (at[0] - hull[:-1, 0]))
        for at in (start, end)
    ]
    return bool((np.maximum(*off) <= TOUCH).any())


def _behind(piece: Outline, side: int, axis: int, lean: float) -> float:
    """What is left of a piece behind a notch, along an axis, where it is narrowest.

    Square to the unit's side, and up to the sides that face the notch: sides that run much
    the same way as the measuring tape (an end of the piece that leans) are no far side.
    """
    other = 1 - axis
    step = piece.end - piece.start
    away = step[:, other] * step[side, other] < 0
    level = np.abs(step[:, other]) > np.abs(step[:, axis]) * np.tan(np.radians(lean))
    facing = np.flatnonzero(away & level)
    ends = np.sort(np.stack([piece.start[facing, other], piece.end[facing, other]]), axis=0)
    low, high = np.sort([piece.start[side, other], piece.end[side, other]])
    shared_low, shared_high = np.maximum(ends[0], low), np.minimum(ends[1], high)
    shared = shared_high - shared_low > NOISE
    # With the inside on its left, a side running up has it towards low u, one back below.
    inward = -np.sign(step[side, other]) if axis == 0 else np.sign(step[side, other])
    widths = [
        inward * (_height(piece, facing[shared], at, axis) - _height(piece, side, at, axis))
        for at in (shared_low[shared], shared_high[shared])
    ]
    behind = widths[0] + widths[1] > 0
    return float(np.minimum(*widths)[behind].min(initial=np.inf))


def _height(piece: Outline, sides: Ints | int, at: Floats, axis: int) -> Floats:
    """Where sides are along an axis, at places along the other one."""
    start, end = piece.start[sides].T, piece.end[sides].T
    share = (at - start[1 - axis]) / (end[1 - axis] - start[1 - axis])
    return np.asarray(start[axis] + share * (end[axis] - start[axis]), dtype=np.float64)


def circle(shape: shapely.Polygon) -> float:
    """Diameter of the largest circle in a polygon."""
    points = shapely.get_coordinates(shapely.simplify(shape, NOISE))[:-1]
    convex = not shape.interiors and shape.convex_hull.area - shape.area < NOISE
    if convex and len(points) <= MOST_SIDES:
        return _circle_in_convex(points)
    return 2 * float(shapely.maximum_inscribed_circle(shape, tolerance=CIRCLE_STEP).length)


def _circle_in_convex(points: Floats) -> float:
    """The largest circle in a convex shape: it touches three sides, and some three fit best."""
    if shapely.is_ccw(shapely.linearrings(points)):
        points = points[::-1]
    step = np.roll(points, -1, axis=0) - points
    # Clockwise: outward normals are to the left of each side.
    normal = np.column_stack([-step[:, 1], step[:, 0]])
    normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
    limit = (normal * points).sum(axis=1)
    # normal . centre + radius = limit for three sides, <= limit for all of them.
    sides = np.column_stack([normal, np.ones(len(normal))])
    threes = np.array(list(combinations(range(len(points)), 3)))
    systems, limits = sides[threes], limit[threes]
    solvable = np.abs(np.linalg.det(systems)) > 1e-9
    found = np.linalg.solve(systems[solvable], limits[solvable][:, :, None])[:, :, 0]
    fits = (found @ sides.T <= limit + NOISE / 10).all(axis=1)
    return 2 * float(found[fits, 2].max(initial=0.0))
