"""Directions as integer vectors: parallel or square to each other, and seen in a mirror."""

from __future__ import annotations

import math
from fractions import Fraction

from models.job.data import Axis, Point

PARALLEL = 1e-5
"""Radians within which two directions are parallel: 0.1 mm in 10 m, less than a chalk line."""

_QUARTERS = ((1, 0), (0, 1), (-1, 0), (0, -1))
_FINE = 10**12


def vector(degrees: Fraction) -> Point:
    """An integer vector at an angle counter-clockwise from the x axis.

    Exact at multiples of 45 degrees, otherwise within 1e-11 rad.
    """
    cosine, sine = unit(degrees)
    turned = degrees % 360
    if turned % 90 == 0:
        return round(cosine), round(sine)
    if turned % 45 == 0:
        return round(math.copysign(1, cosine)), round(math.copysign(1, sine))
    return round(cosine * _FINE), round(sine * _FINE)


def unit(degrees: Fraction) -> tuple[float, float]:
    """Cosine and sine, exact at multiples of 90 degrees."""
    turned = degrees % 360
    if turned % 90 == 0:
        cosine, sine = _QUARTERS[int(turned // 90)]
        return float(cosine), float(sine)
    radians = math.radians(turned)
    return math.cos(radians), math.sin(radians)


def between(start: Point, end: Point) -> Point:
    """The shortest integer vector in the direction from one point to another."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    common = math.gcd(dx, dy) or 1
    return dx // common, dy // common


def turned_left(direction: Point) -> Point:
    """A direction turned a quarter turn counter-clockwise."""
    return -direction[1], direction[0]


def rightward(direction: Point) -> Point:
    """The same line's direction pointing right, or up when it is vertical."""
    dx, dy = direction
    return direction if dx > 0 or (dx == 0 and dy > 0) else (-dx, -dy)


def is_parallel(a: Point, b: Point) -> bool:
    """Whether two directions, or one and the other reversed, are the same line's."""
    return abs(a[0] * b[1] - a[1] * b[0]) <= PARALLEL * math.hypot(*a) * math.hypot(*b)


def is_square(a: Point, b: Point) -> bool:
    """Whether two directions are at right angles."""
    return is_parallel(turned_left(a), b)


def along(point: Point, direction: Point, ahead: int, left: int = 0) -> Point:
    """The point so far ahead along a direction and to the left of it, to the nearest tick."""
    dx, dy = direction
    if dx == 0 or dy == 0:
        # Whole multiples of an axis: no rounding, so square rooms stay exact.
        sx, sy = (dx > 0) - (dx < 0), (dy > 0) - (dy < 0)
        return point[0] + sx * ahead - sy * left, point[1] + sy * ahead + sx * left
    size = math.hypot(dx, dy)
    return (
        point[0] + round((dx * ahead - dy * left) / size),
        point[1] + round((dy * ahead + dx * left) / size),
    )


def off_line(point: Point, origin: Point, direction: Point) -> float:
    """Distance of a point from a line in ticks."""
    cross = (point[0] - origin[0]) * direction[1] - (point[1] - origin[1]) * direction[0]
    return abs(cross) / math.hypot(*direction)


def mirrored_vector(vector: Point, along: Point) -> Point:
    """A direction seen in a mirror along another, as the shortest whole vector."""
    (dx, dy), (ax, ay) = vector, along
    dot, square = dx * ax + dy * ay, ax * ax + ay * ay
    return between((0, 0), (2 * dot * ax - square * dx, 2 * dot * ay - square * dy))


def mirrored_point(point: Point, axis: Axis) -> Point:
    """A point seen in a mirror along an axis, to the nearest tick."""
    (x, y), (dx, dy) = axis.point, axis.direction
    px, py = point[0] - x, point[1] - y
    along, square = 2 * (px * dx + py * dy), dx * dx + dy * dy
    return x - px + _nearest(along * dx, square), y - py + _nearest(along * dy, square)


def _nearest(top: int, bottom: int) -> int:
    """A fraction to the nearest whole number."""
    return (2 * top + bottom) // (2 * bottom)
