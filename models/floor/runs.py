"""Rows and runs of a zone for one start line.

A run is the part of a row between two stops. In most rows of most rooms it is a plain
rectangle; where a wall steps, slants or a column stands in the row, it is a polygon.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import accumulate, pairwise

import numpy as np
import shapely
from shapely import Geometry
from shapely.geometry import Polygon

from models.floor.zone import Zone, whole_ring
from models.job.data import Ring


@dataclass(frozen=True, slots=True)
class Run:
    """One run: row number from 1 up, lower row line, extent, and its outline.

    ``start`` and ``end`` are its least and greatest u, ``bottom`` and ``top`` its least
    and greatest v, ``low`` the row line below; ticks. ``outline`` is None for a rectangle.
    """

    row: int
    low: int
    start: int
    end: int
    bottom: int
    top: int
    outline: Ring | None = None
    holes: tuple[Ring, ...] = ()

    @property
    def length(self) -> int:
        """From stop to stop along the row."""
        return self.end - self.start

    @property
    def polygon(self) -> Polygon:
        """The run as a shapely polygon, in ticks."""
        if self.outline is None:
            return shapely.box(self.start, self.bottom, self.end, self.top)
        return Polygon(self.outline, self.holes)


@dataclass(frozen=True, slots=True)
class Slab:
    """A level part of the zone with no corner inside: its extent and its plain spans.

    ``spans`` are the (start, end) of the floor when all its stops are square to the rows,
    None when one slants.
    """

    low: int
    high: int
    spans: tuple[tuple[int, int], ...] | None


def slabs(zone: Zone) -> tuple[Slab, ...]:
    """The zone cut at the v of every corner, lowest first."""
    heights = sorted({v for edge in zone.edges for v in (edge.start[1], edge.end[1])})
    return tuple(Slab(low, high, _spans(zone, low, high)) for low, high in pairwise(heights))


def _spans(zone: Zone, low: int, high: int) -> tuple[tuple[int, int], ...] | None:
    turns: Counter[int] = Counter()
    for edge in zone.edges:
        bottom, top = sorted((edge.start[1], edge.end[1]))
        if bottom <= low and top >= high:
            if edge.start[0] != edge.end[0]:
                return None
            turns[edge.start[0]] += 1 if edge.start[1] > edge.end[1] else -1
    # Inside the room counts 1, each column takes 1: those that touch or overlap come out right.
    stops = sorted(stop for stop, turn in turns.items() if turn)
    depths = accumulate(turns[stop] for stop in stops)
    return tuple(pair for pair, depth in zip(pairwise(stops), depths, strict=False) if depth == 1)


def rows_count(zone: Zone, pitch: int, start_line: int) -> tuple[int, int]:
    """The lower line of the first row and the number of rows, for row lines through v."""
    bottom, top = zone.heights
    first = start_line + (bottom - start_line) // pitch * pitch
    return first, -((first - top) // pitch)


def runs_of(zone: Zone, levels: tuple[Slab, ...], pitch: int, start_line: int) -> tuple[Run, ...]:
    """All runs of the zone, row by row, for row lines at ``start_line`` plus whole pitches.

    ``levels`` is ``slabs(zone)``, made once for all start lines.
    """
    first, count = rows_count(zone, pitch, start_line)
    plain: dict[int, list[Run]] = {}
    odd: list[int] = []
    level = 0
    for row in range(1, count + 1):
        low = first + (row - 1) * pitch
        while level + 1 < len(levels) and levels[level].high <= low:
            level += 1
        bottom, top = max(low, levels[0].low), min(low + pitch, levels[-1].high)
        here = levels[level]
        if here.spans is not None and here.high >= top:
            plain[row] = [Run(row, low, a, b, bottom, top) for a, b in here.spans]
        else:
            odd.append(row)
    plain |= _odd_rows(zone, pitch, first, odd)
    return tuple(run for row in sorted(plain) for run in plain[row])


def _odd_rows(zone: Zone, pitch: int, first: int, rows: list[int]) -> dict[int, list[Run]]:
    """The runs of the rows that need clipping, by intersecting the zone with each row."""
    if not rows:
        return {}
    left, right = min(u for u, _ in zone.outer) - 1, max(u for u, _ in zone.outer) + 1
    lows = np.array([first + (row - 1) * pitch for row in rows], dtype=float)
    lefts, rights = np.full_like(lows, left), np.full_like(lows, right)
    bands = shapely.box(lefts, lows, rights, lows + pitch)
    strips = shapely.intersection(np.array([zone.polygon]), bands)
    found: dict[int, list[Run]] = {}
    for row, strip in zip(rows, strips, strict=True):
        parts = [p for p in shapely.get_parts(strip) if isinstance(p, Polygon) and p.area > pitch]
        runs = [run for part in parts if (run := _run(row, first + (row - 1) * pitch, part))]
        found[row] = sorted(runs, key=lambda run: (run.start, run.bottom))
    return found


def _run(row: int, low: int, part: Polygon) -> Run | None:
    outline = whole_ring(part.exterior.coords)
    if len(outline) < 3:
        return None
    holes = tuple(ring for hole in part.interiors if len(ring := whole_ring(hole.coords)) > 2)
    us, vs = [u for u, _ in outline], [v for _, v in outline]
    box = (min(us), max(us), min(vs), max(vs))
    plain = (
        len(outline) == 4 and not holes and all(u in box[:2] and v in box[2:] for u, v in outline)
    )
    return Run(row, low, *box, None if plain else outline, holes)


def parts_of(shape: Geometry) -> list[Polygon]:
    """The polygons of any shapely geometry, points and lines left out."""
    return [p for p in shapely.get_parts(shape) if isinstance(p, Polygon) and not p.is_empty]
