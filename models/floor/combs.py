"""Combs: lines or points one unit apart, of which no unit covers more than its share.

Fix a place in the unit, say a height c above its low side. Every piece that is held by a
joint on a long side sits in its unit at the height it has in its row, so the lines at c
above every row line run through units at one height each: what pieces of one unit cover of
them is at most the unit's length. Hence the length of any comb of lines one pitch apart,
inside the floor, over the unit's length, is a bound on units; and c being free, the comb
may be shifted to where it is longest, whatever the start line. In a straight or stepped
bond the same holds for a grid of points: each unit covers at most one.

Where the floor is so thin that a piece may be cut on both sides, nothing holds the piece
in place: those parts are left out. Units that may be turned keep only their centre, so
the shift is then the start line's and the shortest comb counts.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import numpy.typing as npt
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from models.floor.runs import parts_of
from models.floor.zone import Zone

INSIDE = 2
"""Ticks (0.006 mm) a comb keeps inside the floor, so that no count hangs on an edge."""

MOST_COMBS = 48
"""Combs tried for the longest: each one is a bound by itself, so a sample will do."""

Chords = npt.NDArray[np.float64]
"""Rows of (row number, start u, end u, v): where the lines of a comb lie in the floor."""


def longest_comb(zone: Zone, pitch: int) -> float:
    """Length, in ticks, of the longest comb of lines along the rows, ``pitch`` apart."""
    combs = _combs(thick(zone, pitch), pitch, MOST_COMBS)
    return max((_length(chords) for chords in combs), default=0.0)


def shortest_comb(zone: Zone, pitch: int) -> float:
    """Length, in ticks, of the shortest comb of lines along the rows, ``pitch`` apart.

    Between two corners a comb's length changes evenly, so the shortest is at a corner.
    """
    # A comb keeps a hair off the corners: what that costs is far less than a tick a line.
    combs = _combs(thick(zone, pitch), pitch)
    return max(min((_length(chords) for chords in combs), default=0.0) - len(combs), 0.0)


def _length(chords: Chords) -> float:
    return float((chords[:, 2] - chords[:, 1]).sum())


def most_points(zone: Zone, pitch: tuple[int, int], step: Fraction) -> int:
    """The most points of a grid that lie in the floor.

    Points are a unit's pitch apart, each row shifted by ``step`` of a unit.
    """
    return max(_point_counts(zone, pitch, step, MOST_COMBS), default=0)


def fewest_points(zone: Zone, pitch: tuple[int, int], step: Fraction) -> int:
    """The fewest points of such a grid, wherever it lies; for rectilinear zones only."""
    return min(_point_counts(zone, pitch, step), default=0)


def _point_counts(
    zone: Zone, pitch: tuple[int, int], step: Fraction, most: int | None = None
) -> list[int]:
    floor = thick(zone, pitch[1]).intersection(_thick_along(zone, pitch[0]))
    return [n for chords in _combs(floor, pitch[1], most) for n in _counts(chords, pitch[0], step)]


def thick(zone: Zone, pitch: int) -> BaseGeometry:
    """The parts of the floor that reach at least a pitch across the rows, everywhere."""
    return _thick(zone.polygon, pitch)


def _thick_along(zone: Zone, pitch: int) -> BaseGeometry:
    flipped = shapely.transform(zone.polygon, lambda c: c[:, ::-1])
    return shapely.transform(_thick(flipped, pitch), lambda c: c[:, ::-1])


def _thick(floor: Polygon, pitch: int) -> BaseGeometry:
    """Cut the floor at every corner's u; of each slice keep where it is thick enough."""
    _, low, _, high = floor.bounds
    marks = np.unique(shapely.get_coordinates(floor)[:, 0])
    lows, highs = np.full(len(marks) - 1, low), np.full(len(marks) - 1, high)
    slices: npt.NDArray[np.object_] = shapely.intersection(
        np.array(floor), shapely.box(marks[:-1], lows, marks[1:], highs)
    )
    kept = [
        part
        for piece in slices
        for whole in parts_of(piece)
        if (part := _thick_slice(whole, pitch + INSIDE)) is not None
    ]
    return shapely.union_all(kept)


def _thick_slice(part: Polygon, pitch: int) -> Polygon | None:
    """A slice's stretch of u over which it is at least a pitch high; it has no corner inside."""
    left, _, right, _ = part.bounds
    points = shapely.get_coordinates(part)
    ends = [points[np.abs(points[:, 0] - u) < 0.5][:, 1] for u in (left, right)]
    start, end = (float(v.max() - v.min()) for v in ends)
    if max(start, end) < pitch:
        return None
    # The height changes evenly from one end to the other.
    share = (pitch - start) / (end - start) if min(start, end) < pitch else 0.0
    if start < pitch:
        left += share * (right - left)
    elif end < pitch:
        right = left + share * (right - left)
    cut = parts_of(part.intersection(shapely.box(left, part.bounds[1], right, part.bounds[3])))
    return max(cut, key=lambda p: float(p.area), default=None)


def _combs(floor: BaseGeometry, pitch: int, most: int | None = None) -> list[Chords]:
    """The chords of every comb worth trying: just before and just after each corner.

    With ``most``, about so many of them, evenly chosen.
    """
    if floor.is_empty:
        return []
    corners = np.unique(shapely.get_coordinates(floor)[:, 1] % pitch)
    shifts = np.unique(np.concatenate([corners - INSIDE, corners + INSIDE]) % pitch)
    shifts = shifts[:: -(-len(shifts) // most)] if most else shifts
    return [chords_at(floor, float(shift), pitch) for shift in shifts]


def chords_at(floor: BaseGeometry, shift: float, pitch: int) -> Chords:
    """The chords of the comb whose lines lie at ``shift`` and whole pitches from there."""
    left, low, right, high = floor.bounds
    return _chords(floor, low + (shift - low) % pitch, pitch, (left, right, high))


def _chords(
    floor: BaseGeometry, first: float, pitch: int, extent: tuple[float, float, float]
) -> Chords:
    left, right, high = extent
    heights = np.arange(first, high, pitch)
    if not len(heights):
        return np.empty((0, 4))
    ends = np.empty((len(heights), 2, 2))
    ends[:, 0], ends[:, 1] = (
        np.stack([np.full_like(heights, left - 1), heights], 1),
        np.stack([np.full_like(heights, right + 1), heights], 1),
    )
    cut = shapely.intersection(floor, shapely.linestrings(ends))
    parts, rows = shapely.get_parts(cut, return_index=True)
    bounds = shapely.bounds(parts)
    met = ~np.isnan(bounds[:, 0])  # a line between two parts of the floor meets nothing
    return np.column_stack((rows[met], bounds[met][:, [0, 2]], heights[rows[met]]))


def _counts(chords: Chords, pitch: int, step: Fraction) -> list[int]:
    """For every shift along the rows worth trying, how many points lie in the chords."""
    if not len(chords):
        return [0]
    back = chords[:, 0] * float(step) * pitch
    starts, ends = chords[:, 1] + INSIDE - back, chords[:, 2] - INSIDE - back
    shifts = np.unique(
        np.concatenate([starts % pitch, (starts - 1) % pitch, ends % pitch, (ends + 1) % pitch])
    )
    last = np.floor((ends[:, None] - shifts) / pitch)
    first = np.ceil((starts[:, None] - shifts) / pitch)
    return [int(n) for n in np.maximum(last - first + 1, 0).sum(axis=0)]
