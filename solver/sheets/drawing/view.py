"""From the job's ticks to points on paper, at a scale a ruler knows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from models.floor.frame import Frame
from models.job.data import Point, Ring
from models.lengths import TICKS_PER_FOOT, TICKS_PER_MM, System
from solver.sheets.drawing.boxes import Box

Place = tuple[float, float]

_FEET_PER_INCH = (
    0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 12, 14, 16,
    18, 20, 22, 25, 30, 35, 40, 50, 60, 80, 100, 150, 200, 300, 500,
)  # fmt: skip
_METRIC_RATIOS = (
    2, 4, 5, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 75, 80, 90, 100, 110, 125, 150,
    175, 200, 225, 250, 300, 350, 400, 500, 600, 750, 1000, 1250, 1500, 2000, 3000, 5000,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class View:
    """A scale in points per tick, where the job's origin falls, and the scale in words."""

    scale: float
    left: float
    bottom: float
    words: str

    def at(self, point: tuple[float, float]) -> Place:
        """A job point on the page."""
        return self.left + point[0] * self.scale, self.bottom + point[1] * self.scale

    def ring(self, ring: Ring) -> list[Place]:
        """A ring of job points on the page."""
        return [self.at(point) for point in ring]

    def frame_point(self, frame: Frame, point: Point) -> Place:
        """A point of a frame on the page."""
        return self.at(frame.to_job(point))

    def frame_rings(self, frame: Frame, rings: Iterable[Ring]) -> list[NDArray[np.float64]]:
        """Rings of a frame on the page, worked out all together."""
        every = list(rings)
        if not every:
            return []
        flat = np.array([point for ring in every for point in ring], dtype=np.float64)
        dx, dy = np.array(frame.direction) / np.hypot(*frame.direction)
        turned = flat @ np.array([[dx, dy], [-dy, dx]]) + np.array(frame.origin)
        page = turned * self.scale + np.array([self.left, self.bottom])
        return np.split(page, np.cumsum([len(ring) for ring in every])[:-1])


def bounds(ring: Ring) -> Box:
    """The upright rectangle round a ring, in the ring's own units."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return Box(min(xs), min(ys), max(xs), max(ys))


def fitted(thing: Box, room: Box, system: System) -> View:
    """The view that shows a rectangle of ticks in the middle of a room on the page.

    The largest scale that fits is taken from those a ruler knows.
    """
    scale, words = best_scale(thing, room.width, room.height, system)
    (x, y), (a, b) = room.middle, thing.middle
    return View(scale, x - a * scale, y - b * scale, words)


def best_scale(thing: Box, width: float, height: float, system: System) -> tuple[float, str]:
    """Points per tick of the largest ruler scale at which a thing fits, and its words."""
    if system is System.IMPERIAL:
        steps = [(72 / (feet * TICKS_PER_FOOT), f"1 in = {feet:g} ft") for feet in _FEET_PER_INCH]
    else:
        point = 72 / 25.4 / TICKS_PER_MM
        steps = [(point / ratio, f"1 : {ratio}") for ratio in _METRIC_RATIOS]
    fits = (
        step
        for step in steps
        if thing.width * step[0] <= width and thing.height * step[0] <= height
    )
    found = next(fits, None)
    if found is None:
        return min(width / thing.width, height / thing.height), "to fit"
    return found
