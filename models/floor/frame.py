"""A zone's own frame: u along the rows, v across them, in integer ticks."""

from __future__ import annotations

import math
from dataclasses import dataclass

from models.job.data import Point, Ring


@dataclass(frozen=True, slots=True)
class Frame:
    """Origin in the job's axes, and the integer vector its u axis runs along."""

    origin: Point
    direction: Point

    @property
    def angle_deg(self) -> float:
        """Angle of the rows, counter-clockwise from the job's x axis, in degrees."""
        return math.degrees(math.atan2(self.direction[1], self.direction[0]))

    def to_frame(self, point: Point) -> Point:
        """A job point in the frame, to the nearest tick.

        Two points of one wall along the rows share one v exactly: the cross product with
        the direction is formed in integers before the single division.
        """
        x, y = point[0] - self.origin[0], point[1] - self.origin[1]
        dx, dy = self.direction
        if dx == 0 or dy == 0:
            side = 1 if dx + dy > 0 else -1
            return (side * x, side * y) if dy == 0 else (side * y, -side * x)
        size = math.hypot(dx, dy)
        return round((x * dx + y * dy) / size), round((y * dx - x * dy) / size)

    def to_job(self, point: Point) -> tuple[float, float]:
        """A frame point in the job's axes, in ticks (not whole ones on a slanted frame)."""
        u, v = point
        dx, dy = self.direction
        size = math.hypot(dx, dy)
        return (
            self.origin[0] + (u * dx - v * dy) / size,
            self.origin[1] + (u * dy + v * dx) / size,
        )

    def ring_to_frame(self, ring: Ring) -> Ring:
        """A ring in the frame; corners that fall on one tick are merged."""
        points = [self.to_frame(point) for point in ring]
        return tuple(p for i, p in enumerate(points) if p != points[i - 1])
