"""Arcs as sides: corners on the arc, no side further than half a millimetre from it."""

from __future__ import annotations

import math

from models.job.angles import along, between
from models.job.data import Point
from models.lengths import to_mm

ROUNDNESS_MM = 0.5
"""No side of an arc's or a circle's polygon is further than this from the curve."""

_FEWEST = 2


def through(start: Point, middle: Point, end: Point) -> float:
    """Half the angle an arc turns through, in radians, left above 0.

    The arc runs from ``start`` by ``middle`` to ``end``. The result is 0 when the three are
    in line, and half a turn when the middle is beyond one of the ends.
    """
    ax, ay = middle[0] - start[0], middle[1] - start[1]
    bx, by = end[0] - middle[0], end[1] - middle[1]
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def rising(start: Point, end: Point, rise: int) -> float:
    """Half the angle turned by an arc whose middle stands ``rise`` off, to the right."""
    return 2 * math.atan2(rise, math.dist(start, end) / 2)


def arc_corners(start: Point, end: Point, half_angle: float) -> tuple[Point, ...]:
    """The corners between the ends of an arc worked as equal sides, to the nearest tick.

    Measured from the chord, so that a shallow arc of a huge circle loses nothing.
    """
    if start > end:
        # One way only, so that rounding is the same whichever way round a room is given.
        return arc_corners(end, start, -half_angle)[::-1]
    chord = math.dist(start, end)
    radius = chord / 2 / math.sin(abs(half_angle))
    count = _sides(radius, abs(half_angle))
    direction = between(start, end)
    corners = [start]
    for i in range(1, count):
        angle = abs(half_angle) * (2 * i / count - 1)
        ahead = chord / 2 + radius * math.sin(angle)
        off = 2 * math.sin((abs(half_angle) + angle) / 2) * math.sin((abs(half_angle) - angle) / 2)
        left = -math.copysign(radius * off, half_angle)
        corner = along(start, direction, round(ahead), round(left))
        if corner not in (corners[-1], end):
            corners.append(corner)
    return tuple(corners[1:])


def _sides(radius: float, half_angle: float) -> int:
    """How many equal sides stand for an arc of so many ticks' radius."""
    size = to_mm(round(radius))
    if size <= ROUNDNESS_MM:
        return 8
    # A hair less than the promise leaves room for rounding corners to ticks.
    one = 2 * math.acos(1 - 0.99 * ROUNDNESS_MM / size)
    return max(_FEWEST, math.ceil(2 * half_angle / one))
