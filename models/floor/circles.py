"""The largest circle in a piece: exact for convex outlines, nearly so otherwise."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry import Polygon

from models.job.data import Ring

FINE = 3.0
"""Ticks (0.01 mm) to which a notched outline's circle is found."""


def largest_circle(outline: Ring, holes: tuple[Ring, ...] = ()) -> int:
    """Diameter in ticks of the largest circle inside an outline given counter-clockwise."""
    shape = Polygon(outline, holes)
    hull = shape.convex_hull
    # Rounding corners to ticks may dent a straight side by a fraction of a tick.
    if not holes and shapely.distance(shapely.points(outline), hull.boundary).max() <= 1:
        ring = shapely.get_coordinates(shapely.orient_polygons(hull))[:-1]
        corners = [(round(u), round(v)) for u, v in ring]
        left, low = corners[0]
        return _convex(tuple((u - left, v - low) for u, v in corners))
    return round(2 * shapely.maximum_inscribed_circle(shape, tolerance=FINE).length)


@lru_cache(maxsize=65536)
def _convex(outline: Ring) -> int:
    """The best of all circles that touch three sides and lie inside the others.

    With inward unit normals n and offsets d, a circle of radius r at c lies inside when
    n.c - r >= d for every side; the largest one is a vertex of that linear program.
    """
    points = np.array(outline, dtype=float)
    sides = np.roll(points, -1, axis=0) - points
    normals = np.column_stack((-sides[:, 1], sides[:, 0])) / np.hypot(*sides.T)[:, None]
    offsets = np.einsum("ij,ij->i", normals, points)
    rows = np.column_stack((normals, -np.ones(len(points))))
    triples = np.array(list(combinations(range(len(points)), 3)))
    systems = rows[triples]
    solvable = np.abs(np.linalg.det(systems)) > 1e-9
    found: npt.NDArray[np.float64] = np.linalg.solve(
        systems[solvable], offsets[triples][solvable][:, :, None]
    )[:, :, 0]
    inside = (rows @ found.T >= offsets[:, None] - 0.5).all(axis=0)
    return round(2 * float(np.max(found[inside, 2])))
