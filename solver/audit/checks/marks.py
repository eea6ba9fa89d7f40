"""Quarter turns in rows: every second unit where the marks say so, none elsewhere."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid
from solver.audit.tolerances import TOUCH

CHECK = "quarter turns"


def quarter_turns(laid: Laid, turned_over: bool) -> Iterator[Finding]:
    """Units lie as their marks say: all one way, or turned by turns along each row.

    Turned are the units whose row and place in it add up to an odd number; in a mirrored
    zone they follow the zone it mirrors.
    """
    quarter = laid.pieces.quarter
    if not laid.zone.turned:
        for place in np.flatnonzero(quarter).tolist():
            yield Finding(laid.rank, CHECK, laid.label(place), "turned a quarter", "marks one way")
        return
    if abs(laid.pitch[0] - laid.pitch[1]) > TOUCH:
        found = f"units {laid.pitch[0]:.3f} x {laid.pitch[1]:.3f} mm with joint"
        where = f"zone {laid.zone.name}"
        yield Finding(laid.rank, CHECK, where, "quarter-turned marks", found)
    before, after = laid.joints.before, laid.joints.after
    for k in np.flatnonzero(quarter[before] == quarter[after]).tolist():
        where = f"{laid.label(int(before[k]))} and {laid.label(int(after[k]))}"
        yield Finding(laid.rank, CHECK, where, "one of them turned", "both lie one way")
    if laid.pieces.cell is None or turned_over:
        return
    odd = (laid.rows + laid.pieces.cell) % 2 == 1
    for place in np.flatnonzero(odd != quarter).tolist():
        claimed = "turned a quarter" if quarter[place] else "not turned"
        found = f"unit {laid.pieces.cell[place]} of its row"
        yield Finding(laid.rank, CHECK, laid.label(place), claimed, found)
