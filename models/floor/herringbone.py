"""The pieces of a herringbone: units square to each other, in columns that zigzag.

In the zone's frame *flat* units lie along u and *upright* ones along v. With a module of
length L and width M (joints included; M is two units wide in a double herringbone), flat
modules start at the corner (u0, v0) and upright ones at (u0 + L, v0 + M - L), repeated at
every sum of whole numbers of the steps (M, M) and (L, -L). The points run along (1, 1).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Geometry
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from models.floor.pieces import Cut, piece_in_cell
from models.floor.runs import parts_of
from models.floor.sizes import SAME, Cell, Sizes, box_sizes, sizes_of
from models.floor.zone import Zone, whole_ring
from models.job.data import Point, Ring

Corner = tuple[int, int]
"""The lower left corner (u0, v0) of one flat module, in ticks."""

Whole = npt.NDArray[np.int64]


def module(pitch: tuple[int, int], double: bool) -> tuple[int, int]:
    """Length and width of what zigzags: a unit, or two side by side; joints included."""
    return pitch[0], pitch[1] * (2 if double else 1)


def period(pitch: tuple[int, int], double: bool) -> tuple[Point, Point]:
    """The two steps, in ticks, by which the whole pattern repeats."""
    length, width = module(pitch, double)
    return (width, width), (length, -length)


def same_corner(corner: Corner, pitch: tuple[int, int], double: bool) -> Corner:
    """The one corner that stands for all that give the same pattern.

    The steps of the pattern are square to each other along u + v and v - u, so each of
    these has a remainder of its own.
    """
    length, width = module(pitch, double)
    total, rise = (corner[0] + corner[1]) % (2 * width), (corner[1] - corner[0]) % (2 * length)
    return (total - rise) // 2, (total + rise) // 2


def herringbone_cuts(
    zone: Zone, corner: Corner, pitch: tuple[int, int], double: bool, measured: bool = True
) -> list[Cut]:
    """The pieces of a zone, column by column, for a flat module at ``corner``.

    ``pitch`` is the unit's length and width, joint included. ``row`` numbers the zigzag
    columns from the right of the line of points, ``order`` the units along each; sizes are
    along and across each unit itself. Without ``measured`` pieces cut at a slant have none.
    """
    places = Places.of(zone, corner, pitch, double)
    clear, shapes = places.clipped(zone)
    found = [(at, cut) for at in clear for cut in [places.unit(at)]]
    for at, shape in shapes:
        found += [(at, cut) for cut in places.parts(at, shape, measured)]
    return _numbered(found, places)


@dataclass(frozen=True, slots=True)
class Places:
    """The cells of the units a zone may meet, as arrays with one entry a cell.

    ``boxes`` has the cells (n x 4 ticks), ``upright`` which of them are laid square to u,
    ``column`` the number of their zigzag column from the left, ``along`` their place in it.
    """

    boxes: Whole
    upright: npt.NDArray[np.bool_]
    column: Whole
    along: Whole

    @staticmethod
    def of(zone: Zone, corner: Corner, pitch: tuple[int, int], double: bool) -> Places:
        """Every cell that meets the zone's bounds in more than a line."""
        length, width = module(pitch, double)
        left, low, right, high = zone.polygon.bounds
        # A module reaches less than L + M from its corner in any direction, L + M twice over
        # along the diagonals.
        more, rise, total = 2 * (length + width), corner[1] - corner[0], corner[0] + corner[1]
        steps = np.arange(
            (left + low - more - total) // (2 * width),
            (right + high + more - total) // (2 * width) + 1,
        )
        columns = np.arange(
            (rise - (high - left) - more) // (2 * length),
            (rise - (low - right) + more) // (2 * length) + 1,
        )
        i, k = (a.ravel() for a in np.meshgrid(steps.astype(int), columns.astype(int)))
        u, v = corner[0] + i * width + k * length, corner[1] + i * width - k * length
        halves = 2 if double else 1
        found = []
        for half in range(halves):
            shift, one = half * pitch[1], pitch[1]
            flat = (u, v + shift, u + length, v + shift + one)
            start = u + length + shift, v + width - length
            upright = (start[0], start[1], start[0] + one, v + width)
            for turned, box in enumerate((flat, upright)):
                place = (2 * i + turned) * halves + half
                found.append(np.column_stack([*box, k, place, np.full_like(k, turned)]))
        table = np.concatenate(found)
        meets = (table[:, 0] < right) & (table[:, 2] > left)
        table = table[meets & (table[:, 1] < high) & (table[:, 3] > low)]
        return Places(table[:, :4], table[:, 6] == 1, table[:, 4], table[:, 5])

    def clipped(self, zone: Zone) -> tuple[list[int], list[tuple[int, Geometry]]]:
        """The cells that lie in the zone whole, and what lies in it of the others."""
        floor = _prepared(zone.outer, zone.holes)
        boxes = shapely.box(*self.boxes.T.astype(float))
        clear = shapely.covers(floor, boxes)
        meeting = np.flatnonzero(~clear & shapely.intersects(floor, boxes))
        shapes = shapely.intersection(floor, boxes[meeting])
        return np.flatnonzero(clear).tolist(), list(zip(meeting.tolist(), shapes, strict=True))

    def cell(self, at: int) -> Cell:
        """One cell in ticks."""
        left, low, right, high = self.boxes[at].tolist()
        return left, low, right, high

    def unit(self, at: int) -> Cut:
        """A whole unit, not yet numbered."""
        cell = self.cell(at)
        return Cut(0, 0, 0, cell, cell, None, (), Sizes(), True, bool(self.upright[at]))

    def parts(self, at: int, shape: Geometry, measured: bool) -> list[Cut]:
        """The pieces of a cell that is cut; what is thinner than can be cut is left out."""
        cell, quarter = self.cell(at), bool(self.upright[at])
        found = []
        for part in map(orient, parts_of(shape)):
            outline = whole_ring(part.exterior.coords)
            if len(outline) < 3 or _thin(part):
                continue
            holes = tuple(
                ring for hole in part.interiors if len(ring := whole_ring(hole.coords)) > 2
            )
            cut = piece_in_cell(0, 0, 0, cell, outline, holes, measured=False)
            if not cut.whole:
                cut = replace(
                    cut, sizes=_sizes(cut, quarter) if measured else _box_only(cut, quarter)
                )
            found.append(replace(cut, quarter=quarter))
        return sorted(found, key=lambda cut: cut.box)


def _thin(part: Polygon) -> bool:
    """True for a slip no thicker than a finished piece is the same by."""
    left, low, right, high = part.bounds
    return bool(part.area <= SAME * max(right - left, high - low))


@lru_cache(maxsize=64)
def _prepared(outer: Ring, holes: tuple[Ring, ...]) -> Polygon:
    """A zone's polygon, ready to be asked about many cells."""
    shape = Polygon(outer, holes)
    shapely.prepare(shape)
    return shape


def _box_only(cut: Cut, quarter: bool) -> Sizes:
    return _turned(cut.sizes) if quarter else cut.sizes


def _turned(sizes: Sizes) -> Sizes:
    """Sizes in the frame as sizes along and across a unit laid square to its rows."""
    return replace(sizes, along=sizes.across, across=sizes.along)


def _sizes(cut: Cut, quarter: bool) -> Sizes:
    """The sizes of a cut piece along and across its own unit.

    A wall meets the pattern the same way again and again, so equal pieces are measured once.
    """
    left, low, right, high = cut.cell
    if cut.outline is None:
        sizes = box_sizes(cut.box, cut.cell)
    else:
        moved = [tuple((u - left, v - low) for u, v in ring) for ring in (cut.outline, *cut.holes)]
        sizes = _measured(moved[0], tuple(moved[1:]), right - left, high - low)
    return _turned(sizes) if quarter else sizes


@lru_cache(maxsize=8192)
def _measured(outline: Ring, holes: tuple[Ring, ...], length: int, width: int) -> Sizes:
    return sizes_of(outline, holes, (0, 0, length, width))


def _numbered(found: Sequence[tuple[int, Cut]], places: Places) -> list[Cut]:
    """Pieces in order, their columns and the units of each column numbered from 1."""
    columns: dict[int, dict[int, list[Cut]]] = defaultdict(lambda: defaultdict(list))
    for at, cut in found:
        columns[-int(places.column[at])][int(places.along[at])].append(cut)
    return [
        replace(cut, row=row, order=order)
        for row, column in enumerate((columns[key] for key in sorted(columns)), 1)
        for order, place in enumerate(sorted(column), 1)
        for cut in column[place]
    ]
