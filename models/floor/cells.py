"""Pieces of rows laid with units of several lengths: each run lists its units' places.

A *cell* is the (start u, end u) of one unit's place along its run. The cells of a run touch,
in order; the first and the last reach over the stops where their units are cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from models.floor.pieces import Cut, pieces_of_run
from models.floor.runs import Run

RunCells = tuple[tuple[int, int], ...]
"""The start and end u, in ticks, of every unit's place in one run, in order."""


def pieces_in_cells(
    runs: Sequence[Run], cells: Sequence[RunCells], width: int, measured: bool = True
) -> list[Cut]:
    """Cut each run into the pieces that lie in its cells.

    ``width`` is the unit's width with joint; ``measured`` as in ``pieces.pieces_of``.
    Raises ValueError when the cells of a run leave some of it out, or do not touch.
    """
    found: list[Cut] = []
    for index, (run, mine) in enumerate(zip(runs, cells, strict=True)):
        _check(run, mine)
        places = [(start, run.low, end, run.low + width) for start, end in mine]
        found += pieces_of_run(index, run, places, measured)
    return found


def joints_of(cells: RunCells) -> tuple[int, ...]:
    """The u of every end joint of a run, in order."""
    return tuple(end for _, end in cells[:-1])


def in_units(cuts: Sequence[Cut], lengths: Sequence[int]) -> list[Cut]:
    """The same pieces, each in the cell of the unit it is cut from.

    ``lengths`` has the length with joint of each piece's unit: a piece cut along the row may
    come from a longer or shorter unit than its cell was first made for. The end of the cell
    that is an end joint stays where it is.
    """
    return [_in_unit(cut, length) for cut, length in zip(cuts, lengths, strict=True)]


def _in_unit(cut: Cut, length: int) -> Cut:
    left, low, right, high = cut.cell
    if right - left == length:
        return cut
    if cut.box[0] == left:
        start = left
    elif cut.box[2] == right:
        start = right - length
    else:  # cut at both ends: no joint holds it, so its unit lies where it covers the piece
        start = min(max(left, cut.box[2] - length), cut.box[0])
    return replace(cut, cell=(start, low, start + length, high))


def _check(run: Run, cells: RunCells) -> None:
    if not cells or cells[0][0] > run.start or cells[-1][1] < run.end:
        raise ValueError(f"the cells of a run of row {run.row} do not reach from stop to stop")
    if any(one[1] != two[0] for one, two in pairwise(cells)):
        raise ValueError(f"the cells of a run of row {run.row} do not touch")
