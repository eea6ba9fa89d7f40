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
from shapely.geometry import Polygon

from models.floor.pieces import Cut, piece_in_cell
from models.floor.sizes import SAME, Cell, Sizes, sizes_of
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


def mirrored_corner(corner: Corner, pitch: tuple[int, int], double: bool) -> Corner:
    """The corner that gives the same pattern once u and v have changed places.

    Upright modules then lie flat: the one that belongs to ``corner`` gives the new corner.
    """
    length, width = module(pitch, double)
    return corner[1] + width - length, corner[0] + length


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
    found = [(at, places.unit(at)) for at in clear]
    found += [(at, places.piece(at, shape, measured)) for at, shape in shapes]
    return _numbered(found, places)


def cut_pieces(
    zone: Zone, corner: Corner, pitch: tuple[int, int], double: bool
) -> tuple[int, list[Cut]]:
    """The number of whole units, and the other pieces alone: the quick way to weigh a corner.

    The pieces are those of ``herringbone_cuts``, but their order is not numbered, and rows
    are numbered without regard to where the zone begins.
    """
    places = Places.of(zone, corner, pitch, double)
    clear, shapes = places.clipped(zone)
    cuts = [places.piece(at, shape, measured=True) for at, shape in shapes]
    return len(clear) + sum(cut.whole for cut in cuts), [cut for cut in cuts if not cut.whole]


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

    def clipped(self, zone: Zone) -> tuple[list[int], list[tuple[int, Polygon]]]:
        """The cells that lie in the zone whole, and each part that does of the others.

        What is thinner than can be cut is left out.
        """
        floor = _prepared(zone.outer, zone.holes)
        boxes = shapely.box(*self.boxes.T.astype(float))
        clear = shapely.covers(floor, boxes)
        meeting = np.flatnonzero(~clear & shapely.intersects(floor, boxes))
        shapes = shapely.intersection(floor, boxes[meeting])
        parts, of = shapely.get_parts(shapes, return_index=True)
        left, low, right, high = shapely.bounds(parts).T
        thick = shapely.area(parts) > SAME * np.maximum(right - left, high - low)
        solid = shapely.orient_polygons(parts[thick])
        cells = meeting[of[thick]].tolist()
        return np.flatnonzero(clear).tolist(), list(zip(cells, solid, strict=True))

    def cell(self, at: int) -> Cell:
        """One cell in ticks."""
        left, low, right, high = self.boxes[at].tolist()
        return left, low, right, high

    def unit(self, at: int) -> Cut:
        """A whole unit, not yet numbered."""
        cell = self.cell(at)
        return Cut(0, 0, 0, cell, cell, None, (), Sizes(), True, bool(self.upright[at]))

    def piece(self, at: int, shape: Polygon, measured: bool) -> Cut:
        """What lies in the zone of a cell that is cut, not yet numbered."""
        outline = whole_ring(shapely.get_coordinates(shape.exterior).tolist())
        holes = tuple(ring for hole in shape.interiors if len(ring := whole_ring(hole.coords)) > 2)
        row = -int(self.column[at])
        cut = piece_in_cell(0, row, 0, self.cell(at), outline, holes, measured=False)
        quarter = bool(self.upright[at])
        return replace(cut, sizes=_sizes(cut, quarter, measured), quarter=quarter)


@lru_cache(maxsize=64)
def _prepared(outer: Ring, holes: tuple[Ring, ...]) -> Polygon:
    """A zone's polygon, ready to be asked about many cells."""
    shape = Polygon(outer, holes)
    shapely.prepare(shape)
    return shape


def _sizes(cut: Cut, quarter: bool, measured: bool) -> Sizes:
    """The sizes of a piece along and across its own unit.

    A wall meets the pattern the same way again and again, so equal pieces are measured once.
    """
    sizes = cut.sizes
    if measured and cut.outline is not None:
        left, low, right, high = cut.cell
        moved = [tuple((u - left, v - low) for u, v in ring) for ring in (cut.outline, *cut.holes)]
        sizes = _measured(moved[0], tuple(moved[1:]), right - left, high - low)
    return Sizes(sizes.across, sizes.along, sizes.slant, sizes.neck) if quarter else sizes


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
        for cut in sorted(column[place], key=lambda cut: cut.box)
    ]
