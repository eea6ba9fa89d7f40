"""Boxes and segments on a page, in points, and whether they get in each other's way."""

from __future__ import annotations

from typing import NamedTuple


class Box(NamedTuple):
    """An upright rectangle on the page: left, bottom, right, top in points."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Left to right, in points."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Bottom to top, in points."""
        return self.top - self.bottom

    @property
    def middle(self) -> tuple[float, float]:
        """The centre of the box."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def grown(self, by: float) -> Box:
        """The box with every side moved out by so many points (in, when negative)."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def overlaps(self, other: Box) -> bool:
        """Whether the insides of two boxes meet."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def within(self, other: Box) -> bool:
        """Whether the box lies inside another, edges allowed to touch."""
        return (
            other.left <= self.left
            and other.bottom <= self.bottom
            and self.right <= other.right
            and self.top <= other.top
        )

    def meets(self, segment: Segment) -> bool:
        """Whether a straight segment passes through the box."""
        (x0, y0), (x1, y1) = segment
        low, high = 0.0, 1.0
        for start, step, least, most in (
            (x0, x1 - x0, self.left, self.right),
            (y0, y1 - y0, self.bottom, self.top),
        ):
            if step == 0:
                if not least < start < most:
                    return False
                continue
            ends = sorted(((least - start) / step, (most - start) / step))
            low, high = max(low, ends[0]), min(high, ends[1])
        return low < high


Segment = tuple[tuple[float, float], tuple[float, float]]
"""Two ends, in points."""


def box_round(middle: tuple[float, float], width: float, height: float) -> Box:
    """The box of a size about its centre."""
    x, y = middle
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
