"""Combs made longer by slanted ends: a bound for zones whose walls are off square.

A comb line lies at one height in every unit, and a piece that it crosses takes the whole
rectangle round it: where the line ends at a slanted wall, up to the furthest point of that
wall in the row. Pieces of one unit that the line crosses have rectangles side by side along
the unit, so what they reach together is at most the unit's length.

Three things could take that away. A joint between the line's end and the furthest point
would part the piece there: the end piece before it, no longer than that stretch, would be
smaller than the smallest cut asked for, so stretches that are as long do not count. Two
parallel slanted ends share one cut: ends that have a parallel wall on the other side do not
count. And how far a wall reaches in a row depends on the start line: start lines are taken
a short interval at a time, and of every row only the part is counted that it has wherever
in the interval the start line is. The least over all intervals bounds every start line.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from models.floor.combs import INSIDE, Chords, chords_at, thick
from models.floor.zone import Edge, Zone

STEPS = 32
"""Intervals of start lines: what of a row is sure to be there is so much less than a row."""

MOST_CORNERS, BETWEEN = 24, 12
"""Corners beside which combs are tried, of more evenly chosen ones, and combs between them."""

PARALLEL = 8
"""Ticks a unit's width: slanted ends that differ by less may share a cut."""

ROUNDING = 8
"""Ticks by which an end piece must fall short of the smallest cut to be ruled out."""

Array = npt.NDArray[np.float64]


def least_reach(zone: Zone, pitch: int, smallest_cut: int) -> float:
    """The length, in ticks, that the pieces of any start line's best comb reach together.

    It holds for layouts in which every end piece measures ``smallest_cut`` (ticks), in units
    that keep their direction; over a unit's length it bounds their number.
    """
    floor = thick(zone, pitch)
    if floor.is_empty:
        return 0.0
    combs = [(shift, chords_at(floor, shift, pitch)) for shift in _shifts(zone, pitch)]
    ends = [_lines(zone, pitch, right) for right in (False, True)]
    # A comb lies in one row all through an interval that ends where the row line reaches it.
    marks = sorted({*(pitch * i / STEPS for i in range(STEPS + 1)), *(s for s, _ in combs)})
    least = float("inf")
    for low, high in pairwise(marks):
        most = 0.0
        for shift, chords in combs:
            above = shift if shift >= high else shift + pitch
            window = (above - high, above - low)
            most = max(most, _reached(chords, ends, window, pitch, smallest_cut))
        least = min(least, most)
    return least


def _shifts(zone: Zone, pitch: int) -> list[float]:
    """Combs worth trying: beside corners, where they are longest, and some between; sorted."""
    corners = np.unique([v % pitch for edge in zone.edges for v in (edge.start[1], edge.end[1])])
    some = corners[:: -(-len(corners) // MOST_CORNERS)]
    between = np.arange(BETWEEN) * pitch / BETWEEN
    shifts = np.concatenate([some - 2 * INSIDE, some + 2 * INSIDE, between]) % pitch
    away = np.abs(shifts[:, None] - corners[None, :]).min(axis=1)
    return [float(shift) for shift in np.unique(shifts[away > INSIDE])]


def _lines(zone: Zone, pitch: int, right: bool) -> Array:
    """Walls the rows end at on one side, that have no parallel one on the other.

    Rows of lowest v, highest v, u at v = 0, and how u changes with v; ticks.
    """
    walls = [edge for edge in zone.edges if not edge.along_rows]
    mine = [edge for edge in walls if (edge.end[1] > edge.start[1]) is right]
    other = [edge for edge in walls if (edge.end[1] > edge.start[1]) is not right]
    alone = [
        edge
        for edge in mine
        if not any(abs(_slope(edge) - _slope(one)) * pitch <= PARALLEL for one in other)
    ]
    found = [
        (*sorted((e.start[1], e.end[1])), e.start[0] - e.start[1] * _slope(e), _slope(e))
        for e in alone
    ]
    return np.array(found, dtype=np.float64).reshape(-1, 4)


def _slope(edge: Edge) -> float:
    return (edge.end[0] - edge.start[0]) / (edge.end[1] - edge.start[1])


def _reached(
    chords: Chords, ends: Sequence[Array], window: tuple[float, float], pitch: int, smallest: int
) -> float:
    """What the pieces on a comb reach together.

    ``window`` tells how far the comb lies above the row lines, at least and at most.
    """
    total = float((chords[:, 2] - chords[:, 1]).sum())
    for lines, side in zip(ends, (1, 2), strict=True):
        # Mirrored, a wall on the left is one on the right.
        lines, at = (lines, chords[:, 2]) if side == 2 else (lines * (1, 1, -1, -1), -chords[:, 1])
        total += float(_beyond(chords[:, 3], at, lines, window, pitch, smallest).sum())
    return total


def _beyond(
    heights: Array,
    at: Array,
    lines: Array,
    window: tuple[float, float],
    pitch: int,
    smallest: int,
) -> Array:
    """How much further than its end the wall on the right reaches, in the row of each line."""
    bottom, top, start, lean = (lines[:, i][None, :] for i in range(4))
    # At least a row goes down from the line by the window's low end, and up by a pitch less
    # its high end; at most by the high end, and a pitch less the low one.
    sure = np.maximum(-lean * window[0], lean * (pitch - window[1])) - INSIDE
    most = np.maximum(-lean * window[1], lean * (pitch - window[0]))
    v = heights[:, None]
    met = (bottom <= v - window[1]) & (top >= v + pitch - window[0])
    met &= np.abs(start + lean * v - at[:, None]) <= INSIDE
    counted = np.where(met & (most < smallest - ROUNDING), np.maximum(sure, 0.0), 0.0)
    return np.asarray(counted.max(axis=1, initial=0.0))
