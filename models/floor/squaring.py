"""The 3-4-5 check that a cross line is square to the start line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from models.floor.tape import Side, Stretch
from models.job.data import Point


@dataclass(frozen=True, slots=True)
class Triangle:
    """A right triangle at the crossing of both lines; lengths in ticks, points in the frame.

    ``on_start`` and ``on_cross`` are the marks on the start line and on the cross line,
    ``legs`` their distances from ``corner`` and ``across`` the distance between them.
    """

    corner: Point
    on_start: Point
    on_cross: Point
    legs: tuple[int, int]
    across: int


def largest_triangle(
    start: Sequence[Stretch],
    cross: Sequence[Stretch],
    sides: Sequence[Side],
    step: int,
    longest: int,
) -> Triangle | None:
    """The largest 3-4-5 triangle, in whole steps, whose long side crosses no wall or column.

    The legs lie on the chalk lines and no side is over ``longest``, what a tape can reach.
    None when the lines do not meet on open floor or there is no room for 3 by 4 steps.
    """
    corner = (cross[0].start.point[0], start[0].start.point[1])
    along = _reach(start, corner, 0)
    square = _reach(cross, corner, 1)
    if along is None or square is None:
        return None
    found: list[tuple[int, Triangle]] = []
    for (a, b), way_u, way_v in product(((4, 3), (3, 4)), (1, -1), (1, -1)):
        most = min(along[way_u] // (a * step), square[way_v] // (b * step), longest // (5 * step))
        for times in range(most, max((size for size, _ in found), default=0), -1):
            triangle = _triangle(corner, way_u * a * times * step, way_v * b * times * step)
            if _open(triangle.on_start, triangle.on_cross, sides):
                found.append((times, triangle))
                break
    return max(found, key=lambda each: each[0])[1] if found else None


def _triangle(corner: Point, du: int, dv: int) -> Triangle:
    """The triangle with these signed legs, which are in the ratio 3 to 4."""
    u, v = corner
    legs = (abs(du), abs(dv))
    return Triangle(corner, (u + du, v), (u, v + dv), legs, min(legs) // 3 * 5)


def _reach(line: Sequence[Stretch], corner: Point, axis: int) -> dict[int, int] | None:
    """How far a line runs on from the corner each way; None when it does not pass there."""
    at = corner[axis]
    for stretch in line:
        low, high = stretch.start.point[axis], stretch.end.point[axis]
        if low <= at <= high:
            return {1: high - at, -1: at - low}
    return None


def _open(a: Point, b: Point, sides: Sequence[Side]) -> bool:
    """Whether a tape between two points crosses no side (touching one end to it is fine)."""
    return not any(
        _turn(a, b, side.start) * _turn(a, b, side.end) < 0
        and _turn(side.start, side.end, a) * _turn(side.start, side.end, b) < 0
        for side in sides
    )


def _turn(a: Point, b: Point, c: Point) -> int:
    """Positive when c lies left of the line from a to b."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
