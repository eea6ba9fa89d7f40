"""Units of several lengths: each piece from one there is, joints where the rows say."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from solver.audit.document.claims import Floats
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid, into_frame
from solver.audit.measured.runs import Run
from solver.audit.tolerances import NOISE, SIZE, TOUCH


def unit_lengths(laid: Laid) -> Iterator[Finding]:
    """Every piece is of a unit as long as one the product has."""
    lengths = [length for length, _ in laid.product.lengths]
    if not lengths:
        for place in np.flatnonzero(laid.pieces.unit_length != 0).tolist():
            claimed = f"of a unit {laid.pieces.unit_length[place]:.3f} mm long"
            yield Finding(laid.rank, "unit lengths", laid.label(place), claimed, "one length only")
        return
    off = np.abs(laid.pieces.unit_length[:, None] - np.array(lengths)[None, :]).min(axis=1)
    for place in np.flatnonzero(off > NOISE).tolist():
        claimed = f"of a unit {laid.pieces.unit_length[place]:.3f} mm long"
        found = f"lengths {', '.join(f'{one:.3f}' for one in lengths)} mm"
        yield Finding(laid.rank, "unit lengths", laid.label(place), claimed, found)


def listed_joints(laid: Laid, runs: tuple[Run, ...]) -> Iterator[Finding]:
    """The joints listed for each run are where its pieces meet, and no others.

    They count from the frame's origin or from the cross line, the same for all runs.
    """
    if not laid.mixed:
        return
    cross = float(into_frame(laid.claim)(laid.claim.cross_line)[0, 0])
    misses = [list(_misses(laid, runs, base)) for base in (0.0, cross)]
    yield from min(misses, key=len)


def _misses(laid: Laid, runs: tuple[Run, ...], base: float) -> Iterator[Finding]:
    """The runs whose joints are not those listed, counted from a base."""
    meets = laid.joints
    row = laid.rows[meets.before]
    listed = {one.row: one for one in laid.claim.rows}
    for run in runs:
        where = f"row {run.row} from u {run.start:.1f} to {run.end:.1f} mm"
        inside = (row == run.row) & (meets.at >= run.start) & (meets.at <= run.end)
        own = _distinct(meets.at[inside])
        here = listed.get(run.row)
        if here is None or here.joints is None:
            if len(own):
                yield Finding(laid.rank, "joints listed", where, "no joints", f"{len(own)} joints")
            continue
        said = [
            np.sort(np.array(joints, dtype=np.float64)) + base
            for one, joints in zip(here.runs, here.joints, strict=True)
            if one.start <= run.start + SIZE and run.end <= one.end + SIZE
        ]
        if not any(_same(joints, own) for joints in said):
            claimed = "; ".join(f"joints {_places(joints)}" for joints in said) or "no joints"
            yield Finding(laid.rank, "joints listed", where, claimed, f"joints {_places(own)}")


def _distinct(at: Floats) -> Floats:
    """Places in order, those of one joint only once."""
    at = np.sort(at)
    return at[np.append(True, np.diff(at) > TOUCH)] if len(at) else at


def _same(said: Floats, own: Floats) -> bool:
    return len(said) == len(own) and bool((np.abs(said - own) <= TOUCH + NOISE).all())


def _places(at: Floats) -> str:
    return ", ".join(f"{one:.3f}" for one in at) + " mm" if len(at) else "none"
