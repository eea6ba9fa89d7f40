"""The pieces of a zone, once its start line and row offsets are chosen."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.polygon import orient

from models.floor.runs import Run, parts_of
from models.floor.sizes import SAME, Cell, Sizes, box_sizes, sizes_of
from models.floor.zone import Edge, Zone, whole_ring
from models.job.data import Ring


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece before it is given a unit: where it lies, its shape and its sizes.

    ``cell`` is the whole unit's place, ``order`` its number along the row; ``box`` the
    piece's own extent. ``outline`` is None when the piece is its box. ``run`` is the place
    of its run in the list the pieces were made from. ``quarter`` is True for a unit laid a
    quarter turn to the rows: its sizes are then those along and across the unit itself.
    """

    run: int
    row: int
    order: int
    cell: Cell
    box: Cell
    outline: Ring | None
    holes: tuple[Ring, ...]
    sizes: Sizes
    whole: bool
    quarter: bool = False

    @property
    def ring(self) -> Ring:
        """The outline, counter-clockwise."""
        left, low, right, high = self.box
        return self.outline or ((left, low), (right, low), (right, high), (left, high))


def pieces_of(
    runs: Iterable[Run], offsets: Iterable[int], pitch: tuple[int, int], measured: bool = True
) -> list[Cut]:
    """Cut each run at its offset (any u of an end joint, in ticks) into pieces.

    ``pitch`` is the unit's length and width, joint included. Without ``measured`` the
    pieces' sizes are left out, which is much faster where walls slant.
    """
    found: list[Cut] = []
    for index, (run, offset) in enumerate(zip(runs, offsets, strict=True)):
        first = (run.start - offset) // pitch[0]
        last = -((offset - run.end) // pitch[0])
        starts = [offset + place * pitch[0] for place in range(first, last)]
        cells = [(start, run.low, start + pitch[0], run.low + pitch[1]) for start in starts]
        found += pieces_of_run(index, run, cells, measured)
    return found


def pieces_of_run(index: int, run: Run, cells: Sequence[Cell], measured: bool = True) -> list[Cut]:
    """Cut one run, the one at ``index`` of its list, at the places of its units.

    ``cells`` cover the run without gap, in order along it.
    """
    if run.outline is not None:
        return _odd(index, run, cells, measured)
    return [_plain(index, run, order, cell) for order, cell in enumerate(cells, 1)]


def _plain(index: int, run: Run, order: int, cell: Cell) -> Cut:
    box = (max(cell[0], run.start), run.bottom, min(cell[2], run.end), run.top)
    sizes = box_sizes(box, cell)
    whole = sizes == Sizes()
    return Cut(index, run.row, order, cell, cell if whole else box, None, (), sizes, whole)


def _odd(index: int, run: Run, cells: Sequence[Cell], measured: bool) -> list[Cut]:
    """The pieces of a run that is no rectangle; only places an edge crosses are clipped."""
    crossings = busy(run, cells[0][3] - cells[0][1]) if cells else []
    crossed = [
        i
        for i, cell in enumerate(cells)
        if any(low < cell[2] and high > cell[0] for low, high in crossings)
    ]
    places = np.array([cells[i] for i in crossed], dtype=float).reshape(-1, 4)
    clipped = shapely.intersection(np.array([run.polygon]), shapely.box(*places.T))
    shapes = dict(zip(crossed, clipped, strict=True))
    found = []
    for place, cell in enumerate(cells):
        if place not in shapes:
            found.append(Cut(index, run.row, place + 1, cell, cell, None, (), Sizes(), True))
            continue
        for part in map(orient, parts_of(shapes[place])):
            outline = whole_ring(part.exterior.coords)
            if len(outline) > 2 and part.area > SAME * SAME:
                holes = tuple(
                    ring for hole in part.interiors if len(ring := whole_ring(hole.coords)) > 2
                )
                found.append(
                    piece_in_cell(index, run.row, place + 1, cell, outline, holes, measured)
                )
    return found


def busy(run: Run, pitch: int) -> list[tuple[int, int]]:
    """The stretches of u where the run's outline is not simply its two row lines."""
    found = []
    for ring in (run.outline or (), *run.holes):
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            if a[1] != b[1] or a[1] not in (run.low, run.low + pitch):
                found.append((min(a[0], b[0]), max(a[0], b[0])))
    return found


def piece_in_cell(
    index: int,
    row: int,
    order: int,
    cell: Cell,
    outline: Ring,
    holes: tuple[Ring, ...],
    measured: bool,
) -> Cut:
    """What lies of the floor in one unit's cell, with its sizes when ``measured``."""
    us, vs = [u for u, _ in outline], [v for _, v in outline]
    box = (min(us), min(vs), max(us), max(vs))
    if not holes and _fills(outline, cell):
        return Cut(index, row, order, cell, cell, None, (), Sizes(), True)
    plain = (
        len(outline) == 4
        and not holes
        and all(u in (box[0], box[2]) and v in (box[1], box[3]) for u, v in outline)
    )
    sizes = (
        box_sizes(box, cell) if plain else sizes_of(outline, holes, cell) if measured else Sizes()
    )
    return Cut(index, row, order, cell, box, None if plain else outline, holes, sizes, False)


def _fills(outline: Ring, cell: Cell) -> bool:
    """True when a piece is its whole unit but for less than can be cut."""
    area = (
        sum(
            a[0] * b[1] - b[0] * a[1]
            for a, b in zip(outline, outline[1:] + outline[:1], strict=True)
        )
        / 2
    )
    length, width = cell[2] - cell[0], cell[3] - cell[1]
    return length * width - area <= SAME * (length + width) and all(
        min(abs(u - cell[0]), abs(u - cell[2])) <= SAME
        and min(abs(v - cell[1]), abs(v - cell[3])) <= SAME
        for u, v in outline
    )


def edges_by_row(zone: Zone, first: int, pitch: int, rows: int) -> list[list[Edge]]:
    """For each row, the zone's edges that reach into it (the row lines included)."""
    found: list[list[Edge]] = [[] for _ in range(rows)]
    for edge in zone.edges:
        low, high = sorted((edge.start[1], edge.end[1]))
        for row in range(
            max(0, (low - first - 1) // pitch), min(rows, (high - first) // pitch + 1)
        ):
            found[row].append(edge)
    return found


def touches(cut: Cut, edges: list[Edge]) -> tuple[Edge, ...]:
    """The zone's edges a cut piece's own edges lie on, in the zone's order."""
    if cut.whole:
        return ()
    rings = (cut.ring, *cut.holes)
    return tuple(edge for edge in edges if any(_shares(ring, edge) for ring in rings))


def _shares(ring: Ring, edge: Edge) -> bool:
    """True when a side of the ring lies on the edge for more than a point."""
    (au, av), (bu, bv) = edge.start, edge.end
    du, dv = bu - au, bv - av
    size = (du * du + dv * dv) ** 0.5
    marks = [
        ((u - au) * du + (v - av) * dv, abs((u - au) * dv - (v - av) * du) <= SAME * size)
        for u, v in ring
    ]
    for (here, on), (there, also) in zip(marks, marks[1:] + marks[:1], strict=True):
        low, high = min(here, there), max(here, there)
        if on and also and min(high, size * size) - max(low, 0) > SAME * size:
            return True
    return False
