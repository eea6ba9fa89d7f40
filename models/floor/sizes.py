"""Cut sizes of a piece: one definition, used by search and papers.

An *outer* cut edge lies on the piece's convex hull; a cut edge that does not is a notch.

- Outer cut edges within 15 degrees of square to the row (cross cuts) give a size along the
  row: the distance, measured along the row, from the innermost end of those on one side to
  the innermost end of those on the other; a side without one counts where the piece ends.
- Outer cut edges within 15 degrees of the row (rips) give a size across it likewise.
- Any other outer cut edge: the diameter of the largest circle inside the piece.
- A notch gives a neck: what is left between it and the sides behind that face it.

A size as long as the unit is no cut. The audit measures the same its own way.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely.geometry import Polygon

from models.floor.circles import largest_circle
from models.floor.zone import NEAR_SQUARE_TAN
from models.job.data import Point, Ring

SAME = 6
"""Ticks (0.02 mm) within which two lengths of a finished piece are the same."""

Cell = tuple[int, int, int, int]
"""A whole unit's place: start u, low v, end u, high v."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes of one piece in ticks; None where it is not cut that way."""

    along: int | None = None
    across: int | None = None
    slant: int | None = None
    neck: int | None = None


def box_sizes(box: Cell, cell: Cell) -> Sizes:
    """Sizes of a rectangular piece inside its unit's cell."""
    length, width = box[2] - box[0], box[3] - box[1]
    return Sizes(
        along=length if length < cell[2] - cell[0] - SAME else None,
        across=width if width < cell[3] - cell[1] - SAME else None,
    )


def sizes_of(outline: Ring, holes: tuple[Ring, ...], cell: Cell) -> Sizes:
    """Sizes of any piece inside its unit's cell, all in ticks.

    The outline is counter-clockwise and the holes are clockwise: the piece lies on the left.
    """
    hull = _hull(outline)
    along: list[tuple[Point, Point]] = []
    across: list[tuple[Point, Point]] = []
    slanted = False
    notches = [edge for hole in holes for edge in _edges(hole)]
    for start, end in _edges(outline):
        if _on_cell(start, end, cell) or math.dist(start, end) <= SAME:
            continue
        if not _on_hull(start, end, hull):
            notches.append((start, end))
        elif _leans(start, end, 0):
            along.append((start, end))
        elif _leans(start, end, 1):
            across.append((start, end))
        else:
            slanted = True
    rings = (outline, *holes)
    necks = [neck for edge in notches for neck in _necks(edge, rings)]
    return Sizes(
        _between_cuts(outline, along, 0, cell[2] - cell[0]),
        _between_cuts(outline, across, 1, cell[3] - cell[1]),
        largest_circle(outline, holes) if slanted else None,
        round(min(necks)) if necks else None,
    )


def _between_cuts(
    outline: Ring, cuts: list[tuple[Point, Point]], axis: int, whole: int
) -> int | None:
    """What is left between the cuts of two opposite sides, at the narrow end."""
    if not cuts:
        return None
    # Counter-clockwise, an edge on the low-u side runs down, one on the low-v side runs right.
    sign = -1 if axis == 0 else 1
    lows = [max(a[axis], b[axis]) for a, b in cuts if sign * (b[1 - axis] - a[1 - axis]) > 0]
    highs = [min(a[axis], b[axis]) for a, b in cuts if sign * (b[1 - axis] - a[1 - axis]) < 0]
    low = max(lows, default=min(p[axis] for p in outline))
    high = min(highs, default=max(p[axis] for p in outline))
    size = max(high - low, 0)
    return size if size < whole - SAME else None


def _edges(ring: Ring) -> list[tuple[Point, Point]]:
    return list(pairwise((*ring, ring[0])))


def _hull(outline: Ring) -> Ring:
    hull = Polygon(outline).convex_hull
    corners = shapely.get_coordinates(hull)[:-1]
    return tuple((round(u), round(v)) for u, v in corners)


def _on_cell(start: Point, end: Point, cell: Cell) -> bool:
    """True for an edge on a side of the whole unit: not a cut, or one that takes nothing."""
    return any(
        max(abs(start[axis] - side), abs(end[axis] - side)) <= SAME
        for axis in (0, 1)
        for side in (cell[axis], cell[axis + 2])
    )


def _on_hull(start: Point, end: Point, hull: Ring) -> bool:
    """True when both ends lie on one side of the hull."""
    return any(max(_off(a, b, start), _off(a, b, end)) <= SAME for a, b in _edges(hull))


def _off(a: Point, b: Point, point: Point) -> float:
    """Distance of a point from the line through a and b."""
    du, dv = b[0] - a[0], b[1] - a[1]
    return abs(du * (point[1] - a[1]) - dv * (point[0] - a[0])) / math.hypot(du, dv)


def _leans(start: Point, end: Point, axis: int) -> bool:
    """True when the edge moves little along ``axis``: within 15 degrees of square to it."""
    return abs(end[axis] - start[axis]) <= abs(end[1 - axis] - start[1 - axis]) * NEAR_SQUARE_TAN


def _necks(edge: tuple[Point, Point], rings: tuple[Ring, ...]) -> list[float]:
    """What is left between a notch edge and each side behind it that faces it.

    Measured square to the unit's side, at both ends of what the two share. A side that
    runs much the same way as the measuring tape (an end that leans) is no far side.
    """
    axis = 0 if _leans(*edge, 0) else 1 if _leans(*edge, 1) else None
    if axis is None:
        return []
    other = 1 - axis
    ahead = edge[1][other] > edge[0][other]
    # Counter-clockwise, an edge running up has the piece at lower u, one running right above.
    inward = (-1 if ahead else 1) if axis == 0 else (1 if ahead else -1)
    found = []
    for side in (s for ring in rings for s in _edges(ring)):
        run, rise = side[1][other] - side[0][other], side[1][axis] - side[0][axis]
        if run == 0 or (run > 0) == ahead or abs(run) <= abs(rise) * NEAR_SQUARE_TAN:
            continue
        low = max(min(p[other] for p in edge), min(p[other] for p in side))
        high = min(max(p[other] for p in edge), max(p[other] for p in side))
        gaps = [inward * (_at(side, where, axis) - _at(edge, where, axis)) for where in (low, high)]
        if high > low and sum(gaps) > 0:
            found.append(min(gaps))
    return found


def _at(edge: tuple[Point, Point], where: int, axis: int) -> float:
    """The coordinate along ``axis`` of an edge's line at a place along the other axis."""
    (start, end), other = edge, 1 - axis
    share = (where - start[other]) / (end[other] - start[other])
    return start[axis] + share * (end[axis] - start[axis])
