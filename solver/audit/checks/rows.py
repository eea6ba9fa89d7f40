"""Rows, runs and chalk lines: numbered and placed where the pieces really lie."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from solver.audit.document.claims import RowClaim
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid, into_frame
from solver.audit.measured.runs import Run, off_line
from solver.audit.tolerances import NOISE, SIZE, TOUCH


def row_numbers(laid: Laid) -> Iterator[Finding]:
    """Every piece lies in the row it is said to, between that row's two row lines."""
    for place in np.flatnonzero(laid.pieces.row != laid.rows).tolist():
        claimed, found = f"row {laid.pieces.row[place]}", f"row {laid.rows[place]} by its place"
        yield Finding(laid.rank, "row numbers", laid.label(place), claimed, found)
    over = np.maximum(
        laid.height - laid.bounds[:, 1], laid.bounds[:, 3] - laid.height - laid.pitch[1]
    )
    for place in np.flatnonzero(over > TOUCH).tolist():
        found = f"{over[place]:.3f} mm over a row line"
        yield Finding(laid.rank, "row numbers", laid.label(place), "within its row", found)


def corners(laid: Laid) -> Iterator[Finding]:
    """Every piece lies inside the whole unit whose corner it claims, on its row line."""
    corner, unit = laid.pieces.corner, laid.unit
    over = np.maximum(corner - laid.bounds[:, :2], laid.bounds[:, 2:] - corner - unit).max(axis=1)
    off = np.abs(corner[:, 1] - laid.height)
    for place in np.flatnonzero((over > TOUCH) | (off > TOUCH)).tolist():
        u, v = corner[place]
        by = max(over[place], off[place])
        claimed, found = f"in the unit at u {u:.3f}, v {v:.3f}", f"{by:.3f} mm out of it"
        yield Finding(laid.rank, "unit corners", laid.label(place), claimed, found)


def row_lines(laid: Laid) -> Iterator[Finding]:
    """The rows listed are the rows laid, one pitch apart, each on its row line."""
    listed, found = {row.row for row in laid.claim.rows}, set(laid.rows.tolist())
    for number in sorted(listed ^ found):
        claimed, seen = ("listed", "no piece in it") if number in listed else ("not listed", "laid")
        yield Finding(laid.rank, "row lines", f"row {number}", claimed, seen)
    for row in laid.claim.rows:
        low = laid.row_zero + (row.row - 1) * laid.pitch[1]
        if abs(low - row.low) > TOUCH:
            claimed, seen = f"low line at v {row.low:.3f} mm", f"{low:.3f} mm"
            yield Finding(laid.rank, "row lines", f"row {row.row}", claimed, seen)


def chalk_lines(laid: Laid) -> Iterator[Finding]:
    """The start line is the low row line of the start row, and the cross line square to it."""
    turned = into_frame(laid.claim)
    start, cross = turned(laid.claim.start_line), turned(laid.claim.cross_line)
    line = laid.row_zero + (laid.claim.start_row - 1) * laid.pitch[1]
    if laid.claim.start_row not in laid.rows:
        claimed = f"row {laid.claim.start_row}"
        yield Finding(laid.rank, "start line", "start row", claimed, "no such row")
    for v in start[:, 1].tolist():
        if abs(v - line) > TOUCH:
            claimed = f"the low line of row {laid.claim.start_row}"
            found = f"{v - line:+.3f} mm off that line"
            yield Finding(laid.rank, "start line", "start line", claimed, found)
            break
    if abs(cross[0, 0] - cross[1, 0]) > TOUCH:
        found = f"{abs(cross[0, 0] - cross[1, 0]):.3f} mm out of square"
        yield Finding(laid.rank, "start line", "cross line", "square to the start line", found)


def listed_runs(laid: Laid, runs: tuple[Run, ...]) -> Iterator[Finding]:
    """Each run laid is listed in its row, with the offset its joints really have.

    Offsets count from the frame's origin or from the cross line, the same for all runs. With
    units of several lengths there is no one offset, and the joints are checked instead.
    """
    cross = float(into_frame(laid.claim)(laid.claim.cross_line)[0, 0])
    rows = {row.row: row for row in laid.claim.rows}
    misses = []
    for base in (0.0, cross):
        misses.append(list(_misses(laid, runs, rows, base)))
        if not misses[-1]:
            return
    yield from min(misses, key=len)


def _misses(
    laid: Laid, runs: tuple[Run, ...], rows: dict[int, RowClaim], base: float
) -> Iterator[Finding]:
    """The runs that are not listed as laid, offsets counted from a base."""
    length = laid.pitch[0]
    for run in runs:
        listed = rows[run.row].runs if run.row in rows else ()
        where = f"row {run.row} from u {run.start:.1f} to {run.end:.1f} mm"
        fits = [one for one in listed if _covers(one.start, one.end, run)]
        if not fits:
            yield Finding(laid.rank, "runs", where, "no such run", "a run of pieces")
        elif len(run.pieces) > 1 and not laid.mixed:
            off = min(abs(off_line(run.phase - one.offset - base, length)) for one in fits)
            if off > TOUCH + NOISE:
                found = f"joints {off:.3f} mm from that"
                claimed = f"offset {fits[0].offset:.3f} mm"
                yield Finding(laid.rank, "runs", where, claimed, found)


def _covers(start: float, end: float, run: Run) -> bool:
    """Whether a listed run takes in a measured one."""
    return start <= run.start + SIZE and run.end <= end + SIZE
