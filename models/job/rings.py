"""Closed outlines in ticks: area, direction, corners that count, crossings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from shapely import LineString, STRtree

from models.job.data import Point, Ring


def twice_area(ring: Sequence[Point]) -> int:
    """Twice the signed area in square ticks, above 0 for a counter-clockwise ring."""
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in edges(ring))


def edges(ring: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """The sides of a ring, from each corner to the next."""
    return ((corner, ring[(i + 1) % len(ring)]) for i, corner in enumerate(ring))


def counter_clockwise(ring: Sequence[Point]) -> Ring:
    """The ring turned counter-clockwise, without corners that repeat the one before."""
    clean = tuple(corner for i, corner in enumerate(ring) if corner != ring[i - 1])
    return clean if twice_area(clean) > 0 else clean[:1] + clean[:0:-1]


def corners_of(points: Sequence[Point]) -> Ring:
    """A ring without doubled corners and corners on a straight side, spikes gone too."""
    kept = list(points)
    while True:
        kept = [corner for i, corner in enumerate(kept) if corner != kept[i - 1]]
        after = [*kept[1:], *kept[:1]]
        turning = [
            here
            for i, (here, there) in enumerate(zip(kept, after, strict=True))
            if not in_line(kept[i - 1], here, there)
        ]
        if len(turning) == len(kept):
            return tuple(kept)
        kept = turning


def in_line(before: Point, corner: Point, after: Point) -> bool:
    """Whether three points lie on one line."""
    return _cross(before, corner, after) == 0


def from_first(ring: Ring, first: Mapping[Point, int]) -> Ring:
    """A ring from its corner that comes first in ``first``, or else its lowest, leftmost one."""
    corners = set(corners_of(ring))
    start = min(corners, key=lambda corner: (first.get(corner, len(first)), corner[1], corner[0]))
    at = ring.index(start)
    return ring[at:] + ring[:at]


def folds_back(before: Point, corner: Point, after: Point) -> bool:
    """Whether an outline turns straight back on itself at a corner."""
    return in_line(before, corner, after) and not runs_on(before, corner, after)


def runs_on(before: Point, corner: Point, after: Point) -> bool:
    """Whether an outline runs straight on through a corner."""
    ahead = (corner[0] - before[0]) * (after[0] - corner[0])
    ahead += (corner[1] - before[1]) * (after[1] - corner[1])
    return in_line(before, corner, after) and ahead > 0


def is_flat(ring: Sequence[Point]) -> bool:
    """Whether a ring encloses nothing because all its corners are in one line."""
    return len(ring) < 3 or all(in_line(ring[0], ring[1], corner) for corner in ring)


def first_crossing(ring: Sequence[Point]) -> tuple[int, int] | None:
    """The first two sides (counted from 0) that meet where they should not, or None.

    Sides next to each other may share their corner and nothing more.
    """
    count = len(ring)
    for i in range(count):
        if folds_back(ring[i - 1], ring[i], ring[(i + 1) % count]):
            return min((i - 1) % count, i), max((i - 1) % count, i)
    lines = [LineString(side) for side in edges(ring)]
    pairs = STRtree(lines).query(lines, predicate="intersects").T.tolist()
    found = [(i, j) for i, j in pairs if i < j and j - i > 1 and (i, j) != (0, count - 1)]
    return min(found, default=None)


def _cross(before: Point, corner: Point, after: Point) -> int:
    """Twice the area of the triangle at a corner, 0 on a straight line."""
    ax, ay = corner[0] - before[0], corner[1] - before[1]
    bx, by = after[0] - corner[0], after[1] - corner[1]
    return ax * by - ay * bx
