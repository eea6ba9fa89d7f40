"""Corners of an area's rings: which count, and where a ring begins."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from models.job.data import Point, Ring


def corners_of(points: Sequence[Point]) -> Ring:
    """A ring without the corners that lie on a straight side."""
    kept = list(points)
    while True:
        after = [*kept[1:], *kept[:1]]
        turning = [
            here
            for i, (here, there) in enumerate(zip(kept, after, strict=True))
            if not runs_straight(kept[i - 1], here, there)
        ]
        if len(turning) == len(kept):
            return tuple(kept)
        kept = turning


def runs_straight(before: Point, here: Point, after: Point) -> bool:
    """Whether three points lie on one line."""
    ahead = (here[0] - before[0]) * (after[1] - here[1])
    return ahead == (here[1] - before[1]) * (after[0] - here[0])


def from_first(ring: Ring, first: Mapping[Point, int]) -> Ring:
    """A ring from its corner that comes first in ``first``, or else its lowest, leftmost one."""
    corners = set(corners_of(ring))
    start = min(corners, key=lambda corner: (first.get(corner, len(first)), corner[1], corner[0]))
    at = ring.index(start)
    return ring[at:] + ring[:at]
