"""Places of the plan in words, in the job's own units."""

from __future__ import annotations

import math

import shapely
from shapely import Polygon

from models.job.data import Point
from models.lengths import System, show


def near(point: Point, system: System, before: str = "near ") -> str:
    """A point as the job file writes it, to what a tape can show."""
    return f"{before}[{show(point[0], system)}, {show(point[1], system)}]"


def place_in(shape: Polygon) -> Point:
    """A whole-tick point inside a shape: its centre, or where it is widest if that is outside."""
    middle = shape.centroid
    if shape.contains(middle):
        return round(middle.x), round(middle.y)
    inside = shapely.maximum_inscribed_circle(shape, tolerance=max(1.0, math.sqrt(shape.area) / 50))
    x, y = shapely.get_coordinates(inside)[0].tolist()
    return round(x), round(y)


def thickness(shape: Polygon) -> int:
    """How thick a shape is where it is widest, in ticks."""
    circle = shapely.maximum_inscribed_circle(
        shape, tolerance=max(1.0, math.sqrt(shape.area) / 1000)
    )
    return round(2 * circle.length)
