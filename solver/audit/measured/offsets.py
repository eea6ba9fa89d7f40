"""How the end joints of rows lie to each other: distances, stairs, and rows offcuts skip."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

import numpy as np

from solver.audit.document.claims import Floats
from solver.audit.measured.edges import Meets
from solver.audit.measured.laid import Laid
from solver.audit.measured.runs import Run, neighbours
from solver.audit.tolerances import SAME_SHIFT, TOUCH


def nearest_joints(
    laid: Laid, rows: dict[int, Meets], gap: int, runs: tuple[Run, ...]
) -> float | None:
    """Least distance between joints of rows ``gap`` (1 or 2) apart within one stretch.

    For neighbouring rows a stretch is a shared length of their row line; for rows two
    apart a run of the row between. Both joints must reach the line towards the other row.
    """
    width = laid.pitch[1]
    shared = _shared_lengths(laid) if gap == 1 else _stretches_of_runs(runs)
    nearest = np.inf
    for number, low_row, high_row in neighbours(rows, gap):
        line = laid.row_zero + number * width
        above = line + (gap - 1) * width
        one = low_row.at[low_row.high >= line - TOUCH]
        two = high_row.at[high_row.low <= above + TOUCH]
        if stretches := shared.get(number):
            nearest = min(nearest, _nearest(one, two, np.array(stretches)))
    return None if np.isinf(nearest) else float(nearest)


def _nearest(one: Floats, two: Floats, stretches: Floats) -> float:
    """Least distance between a place of each list that lie in one stretch."""
    nearest = np.inf
    for start, end in stretches.tolist():
        here = one[(one >= start - TOUCH) & (one <= end + TOUCH)]
        there = np.sort(two[(two >= start - TOUCH) & (two <= end + TOUCH)])
        if len(here) and len(there):
            after = np.searchsorted(there, here).clip(1, len(there)) - 1
            for beside in (after, (after + 1).clip(max=len(there) - 1)):
                nearest = min(nearest, float(np.abs(there[beside] - here).min()))
    return nearest


def _shared_lengths(laid: Laid) -> dict[int, list[tuple[float, float]]]:
    """By row, the lengths of its upper row line along which the next row lies against it."""
    seams = laid.seams
    found: dict[int, list[tuple[float, float]]] = defaultdict(list)
    row = laid.rows[seams.before]
    order = np.lexsort((seams.low, row))
    columns = row[order].tolist(), seams.low[order].tolist(), seams.high[order].tolist()
    for number, low, high in zip(*columns, strict=True):
        lengths = found[number]
        if lengths and low <= lengths[-1][1] + TOUCH:
            lengths[-1] = (lengths[-1][0], max(high, lengths[-1][1]))
        else:
            lengths.append((low, high))
    return found


def _stretches_of_runs(runs: tuple[Run, ...]) -> dict[int, list[tuple[float, float]]]:
    """By row, the runs of the next row up."""
    found: dict[int, list[tuple[float, float]]] = defaultdict(list)
    for run in runs:
        found[run.row - 1].append((run.start, run.end))
    return found


def longest_stair(runs: tuple[Run, ...], length: float) -> float | None:
    """The most equal shifts one after another, by the longest run of each row."""
    longest: dict[int, Run] = {}
    for run in runs:
        if run.row not in longest or run.length > longest[run.row].length + TOUCH:
            longest[run.row] = run
    rows = [longest[number] for number in sorted(longest)]
    shifts = [(two.phase - one.phase) % length for one, two in pairwise(rows)]
    if not shifts:
        return None
    best = streak = 1
    for one, two in pairwise(shifts):
        apart = abs((two - one + length / 2) % length - length / 2)
        streak = streak + 1 if apart <= SAME_SHIFT + TOUCH else 1
        best = max(best, streak)
    return float(best)


def reuse_distance(laid: Laid) -> float | None:
    """The most rows between two pieces of one unit, None when no unit serves twice."""
    rows: dict[str, list[int]] = defaultdict(list)
    for unit, row in zip(laid.pieces.unit, laid.rows.tolist(), strict=True):
        rows[unit].append(row)
    spans = [max(those) - min(those) for those in rows.values() if len(those) > 1]
    return float(max(spans)) if spans else None
