"""Outlines of columns and features: rectangles, circles and any polygon."""

from __future__ import annotations

import math
from fractions import Fraction

from models.job.angles import along
from models.job.arcs import ROUNDNESS_MM
from models.job.corners import all_points, read_corners
from models.job.data import Point, Ring
from models.job.item import Item
from models.job.measures import Measures
from models.job.rings import counter_clockwise, first_crossing, is_flat
from models.lengths import to_mm


def rectangle(
    origin: Point, direction: Point, ahead: tuple[int, int], left: tuple[int, int]
) -> Ring:
    """A rectangle from and to so far ahead of a point along a direction, and left of it."""
    corners = ((ahead[0], left[0]), (ahead[1], left[0]), (ahead[1], left[1]), (ahead[0], left[1]))
    return tuple(along(origin, direction, u, v) for u, v in corners)


def centred_rectangle(centre: Point, direction: Point, size: tuple[int, int]) -> Ring:
    """A rectangle round its centre, ``size`` along the direction and square to it."""
    (length, width) = size
    return rectangle(
        centre,
        direction,
        (length // 2 - length, length // 2),
        (width // 2 - width, width // 2),
    )


def circle(centre: Point, direction: Point, diameter: int) -> Ring:
    """A circle as a polygon of equal sides with its corners on the circle.

    The number of sides is the least multiple of four that keeps every side within
    ``ROUNDNESS_MM`` of the circle; the first corner lies along ``direction``.
    """
    sides = circle_sides(diameter)
    radius = Fraction(diameter, 2)
    corners = []
    for i in range(sides):
        angle = 2 * math.pi * i / sides
        ahead = round(radius * Fraction(math.cos(angle)))
        left = round(radius * Fraction(math.sin(angle)))
        corners.append(along(centre, direction, ahead, left))
    return counter_clockwise(corners)


def circle_sides(diameter: int) -> int:
    """How many equal sides stand for a circle of so many ticks across."""
    radius = to_mm(diameter) / 2
    if radius <= ROUNDNESS_MM:
        return 8
    # A hair less than the promise leaves room for rounding corners to ticks.
    least = math.pi / math.acos(1 - 0.99 * ROUNDNESS_MM / radius)
    return max(8, 4 * math.ceil(least / 4))


def outline(item: Item, measures: Measures) -> Ring:
    """An outline's corners, arcs worked as sides, counter-clockwise, checked to be simple."""
    ring = counter_clockwise(all_points(read_corners(item, measures)))
    if is_flat(ring):
        raise item.error("encloses nothing", "give at least three corners not in one line")
    if first_crossing(ring) is not None:
        raise item.error("its sides cross or touch", "write the corners in order round it")
    return ring
