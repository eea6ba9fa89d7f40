"""How far the lines of one zone are from those of another they are to go on from."""

from __future__ import annotations

import numpy as np

from models.job.data import BondKind, Share
from solver.audit.document.claims import Claims, Floats
from solver.audit.measured.laid import Laid, into_frame, out_of_frame
from solver.audit.measured.runs import circular, off_line
from solver.audit.tolerances import PARALLEL, TOUCH

ALONG, ACROSS = 0, 1


def share_of(claims: Claims, one: str, two: str) -> str | None:
    """What two zones are said to share, None when nothing."""
    for link in claims.links:
        if set(link.zones) == {one, two}:
            return link.share
    return None


def lines_apart(one: Laid, two: Laid, share: str) -> float | None:
    """Least distance in mm between a line in one zone and the lines of another, carried on.

    None when the zones have no such lines or theirs do not run the same way.
    """
    axis = ACROSS if share == Share.ROW_LINES.value else ALONG
    places = [_line_place(laid, axis) for laid in (one, two)]
    if places[0] is None or places[1] is None or not _parallel(one, two):
        return None
    # Joints shift from row to row in a stepped bond: those of the start rows are meant.
    low, high = _extent(one, axis)
    pitch = one.pitch[axis]
    first = places[0] + np.ceil((low - TOUCH - places[0]) / pitch) * pitch
    lines = np.arange(first, high + TOUCH, pitch)
    if not len(lines):
        return None
    level = np.full(len(lines), _start_line(one))
    points = np.column_stack([level, lines] if axis == ACROSS else [lines, level])
    carried = into_frame(two.claim)(out_of_frame(one.claim)(points))[:, axis]
    return float(np.abs(circular(carried - places[1], two.pitch[axis])).min())


def _extent(laid: Laid, axis: int) -> tuple[float, float]:
    box = laid.area.bounds
    return box[axis], box[axis + 2]


def _start_line(laid: Laid) -> float:
    """The v of the low line of the start row, from the pieces."""
    return laid.row_zero + (laid.claim.start_row - 1) * laid.pitch[ACROSS]


def _parallel(one: Laid, two: Laid) -> bool:
    turn = np.radians(one.claim.angle_deg - two.claim.angle_deg)
    return bool(abs(np.sin(turn)) <= PARALLEL)


def _line_place(laid: Laid, axis: int) -> float | None:
    """Where one of a zone's lines lies: a row line, or a joint of the start row."""
    if not laid.in_rows:
        return None
    if axis == ACROSS:
        return laid.row_zero
    if laid.zone.bond is BondKind.STAGGERED or not len(laid.joints.at):
        return None
    length = laid.pitch[ALONG]
    rows = laid.rows[laid.joints.before] - laid.claim.start_row
    step = float(laid.zone.step) * length
    ways = [_as_one(laid.joints.at - sign * step * rows, length) for sign in (1, -1)]
    return min(ways, key=lambda way: way[1])[0]


def _as_one(at: Floats, length: float) -> tuple[float, float]:
    """The middle of places modulo a length, and how far the farthest is from it."""
    off = circular(at - at[0], length)
    middle = float(at[0] + np.median(off))
    return middle, max(abs(off_line(float(one) - middle, length)) for one in at)
