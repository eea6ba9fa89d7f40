"""Joints inside the floor: factory edge to factory edge, on the lines the bond says."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from models.job.data import BondKind
from solver.audit.document.claims import Floats, Ints
from solver.audit.findings import Finding
from solver.audit.measured.boundary import OFF
from solver.audit.measured.edges import Meets
from solver.audit.measured.laid import Laid
from solver.audit.measured.runs import circular
from solver.audit.tolerances import TOUCH

CHECK = "factory edges at joints"
ORDER = "rows meet in order"


def square_joints(laid: Laid) -> Iterator[Finding]:
    """A side that runs neither along nor square to the rows lies on the zone's boundary."""
    step = np.abs(laid.edges.end - laid.edges.start)
    aslant = laid.edges.take((step.min(axis=1) > TOUCH / 2) & (step.max(axis=1) > TOUCH))
    inside = laid.boundary.segment_of(aslant) == OFF
    for place in np.unique(aslant.piece[inside]).tolist():
        found = "a side at a slant inside the floor"
        yield Finding(laid.rank, "cuts only at the edge", laid.label(place), "no such side", found)


def seams_on_row_lines(laid: Laid) -> Iterator[Finding]:
    """Pieces meet across the rows only on row lines, one pitch apart."""
    off = np.abs(circular(laid.seams.at - laid.row_zero, laid.pitch[1]))
    for k in np.flatnonzero(off > TOUCH).tolist():
        where = laid.label(int(laid.seams.before[k]))
        found = f"{off[k]:.3f} mm off it"
        yield Finding(laid.rank, "joints on row lines", where, "joined on a row line", found)


def whole_between_joints(laid: Laid) -> Iterator[Finding]:
    """A piece with joints at both ends (or both sides) is as long (as wide) as a unit.

    Not so where cut edges may lie at joints.
    """
    if laid.product.shop_cuts:
        return
    for meets, unit, name in (
        (laid.joints, laid.unit[:, 0], "long"),
        (laid.seams, laid.unit[:, 1], "wide"),
    ):
        low, high = _least_and_most(meets, len(laid.rows))
        size = high - low
        for place in np.flatnonzero(np.abs(size - unit) > TOUCH).tolist():
            claimed = f"factory edges at both joints, {unit[place]:.3f} mm {name}"
            found = f"joints {size[place]:.3f} mm apart"
            yield Finding(laid.rank, CHECK, laid.label(place), claimed, found)


def _least_and_most(meets: Meets, count: int) -> tuple[Floats, Floats]:
    """For each piece the joint farthest low and farthest high; nan unless on both sides."""
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(low, meets.after, meets.at)
    np.maximum.at(high, meets.before, meets.at)
    both = np.isfinite(low) & np.isfinite(high)
    return np.where(both, low, np.nan), np.where(both, high, np.nan)


def bond(laid: Laid) -> Iterator[Finding]:
    """Straight: joints line up in all rows. Stepped: each row is shifted by one fraction."""
    if laid.zone.bond not in (BondKind.STRAIGHT, BondKind.STEPPED) or not len(laid.joints.at):
        return
    length, at = laid.pitch[0], laid.joints.at
    row = laid.rows[laid.joints.before]
    step = float(laid.zone.step) * length
    off = min((_off_steps(at, row, sign * step, length) for sign in (1, -1)), key=np.sum)
    said = "straight" if laid.zone.bond is BondKind.STRAIGHT else f"stepped {laid.zone.step}"
    for number in np.unique(row[off > TOUCH]).tolist():
        worst = float(off[row == number].max())
        found = f"joints {worst:.3f} mm off that bond"
        yield Finding(laid.rank, "bond", f"row {number}", f"{said} bond", found)


def _off_steps(at: Floats, row: Ints, step: float, length: float) -> Floats:
    """How far each joint is from the lines of a bond whose rows each shift by a step."""
    base = at - row * step
    first = base[0] + np.median(circular(base - base[0], length))
    return np.abs(circular(base - first, length))


def rows_meet_in_order(laid: Laid) -> Iterator[Finding]:
    """Pieces that meet end to end lie in one row, pieces that meet across in rows running."""
    joints, seams = laid.joints, laid.seams
    for k in np.flatnonzero(laid.rows[joints.before] != laid.rows[joints.after]).tolist():
        where = laid.label(int(joints.before[k]))
        yield Finding(laid.rank, ORDER, where, "end joints within a row", "one across two rows")
    for k in np.flatnonzero(laid.rows[seams.after] - laid.rows[seams.before] != 1).tolist():
        where = laid.label(int(seams.before[k]))
        yield Finding(laid.rank, ORDER, where, "row lines between rows", "one within a row")
