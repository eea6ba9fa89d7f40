"""The size of a cut piece, measured from its outline alone.

A cut edge on the piece's hull and within 15 degrees of a unit's side is measured square to
that side: the chord of the hull at each of its two ends, the shorter counts. A cut edge at
a slant counts as the largest circle in the piece. A cut edge that is not on the hull (a
notch) gives a neck: what is left of the piece behind it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely

from solver.audit.claims import Bools, Floats
from solver.audit.tolerances import LEAN_DEG, NOISE, TOUCH

MOST_SIDES = 12
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


def measure(piece: Outline, pitch: tuple[float, float], lean: float = LEAN_DEG) -> Sizes:
    """The cut sizes of a piece; along and across only where less than the unit's."""
    step = piece.end - piece.start
    length = np.hypot(step[:, 0], step[:, 1])
    hull = shapely.get_coordinates(piece.shape.convex_hull)
    along = across = slant = neck = np.inf
    for side in np.flatnonzero(piece.cut & (length > TOUCH)).tolist():
        unit = step[side] / length[side]
        from_cross = np.degrees(np.arctan2(abs(unit[0]), abs(unit[1])))
        leans = from_cross <= lean, from_cross >= 90 - lean
        if not _on_hull(hull, piece.start[side], unit):
            if any(leans):
                neck = min(neck, _behind(piece, side, unit))
        elif leans[0]:
            along = min(along, *_chords(hull, piece, side, 0))
        elif leans[1]:
            across = min(across, *_chords(hull, piece, side, 1))
        elif np.isinf(slant):
            slant = circle(piece.shape)
    return Sizes(
        along if along < pitch[0] - TOUCH else np.inf,
        across if across < pitch[1] - TOUCH else np.inf,
        slant,
        neck,
    )


def _on_hull(hull: Floats, start: Floats, unit: Floats) -> bool:
    """Whether no corner of the hull lies outside the line of a side."""
    away = hull - start
    return bool((unit[0] * away[:, 1] - unit[1] * away[:, 0]).min() >= -TOUCH)


def _chords(hull: Floats, piece: Outline, side: int, axis: int) -> tuple[float, float]:
    """Chords of the hull along u (axis 0) or v (axis 1) at the two ends of a side."""
    other = 1 - axis
    return (
        _chord(hull, float(piece.start[side, other]), axis),
        _chord(hull, float(piece.end[side, other]), axis),
    )


def _chord(hull: Floats, at: float, axis: int) -> float:
    """The hull's extent along an axis at one height (corners within rounding count)."""
    along, height = hull[:, axis], hull[:, 1 - axis] - at
    found = along[np.abs(height) <= NOISE].tolist()
    crossing = np.flatnonzero((height[:-1] < 0) != (height[1:] < 0))
    for k in crossing.tolist():
        share = height[k] / (height[k] - height[k + 1])
        found.append(along[k] + share * (along[k + 1] - along[k]))
    return float(max(found) - min(found)) if found else 0.0


def _behind(piece: Outline, side: int, unit: Floats) -> float:
    """How much of the piece is left behind a notch, at the narrower end of the notch's side."""
    inward = np.array([-unit[1], unit[0]])
    reach = float(np.hypot(*(piece.end[side] - piece.start[side])))
    inset = min(TOUCH / 4, reach / 4)
    ends = piece.start[side] + inset * unit, piece.end[side] - inset * unit
    return min(_ray(piece, side, end, inward) for end in ends)


def _ray(piece: Outline, side: int, start: Floats, towards: Floats) -> float:
    """How far from a point on one side to the next side in a direction."""
    one, two = piece.start - start, piece.end - start
    aside_one = towards[0] * one[:, 1] - towards[1] * one[:, 0]
    aside_two = towards[0] * two[:, 1] - towards[1] * two[:, 0]
    hits = (aside_one < 0) != (aside_two < 0)
    hits[side] = False
    share = aside_one[hits] / (aside_one[hits] - aside_two[hits])
    far_one, far_two = one[hits] @ towards, two[hits] @ towards
    far = far_one + share * (far_two - far_one)
    return float(far[far > 0].min(initial=np.inf))


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
