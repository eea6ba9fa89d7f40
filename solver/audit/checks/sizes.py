"""The claimed size of every cut piece, against its own outline."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import numpy as np

from solver.audit.document.claims import SIZE_KEYS, Floats
from solver.audit.findings import Finding, mm
from solver.audit.measured.cuts import measure
from solver.audit.measured.laid import Laid
from solver.audit.measured.sizes import CutPieces, outline
from solver.audit.tolerances import LEAN_DEG, LEAN_DOUBT_DEG, NOISE, SIZE, TOUCH


def claimed_sizes(laid: Laid, cuts: CutPieces) -> Iterator[Finding]:
    """Every claimed size of every piece is the one measured."""
    own, said = _by_unit(laid, cuts.sizes), _by_unit(laid, laid.pieces.sizes)
    wrong = ~((np.abs(own - said) <= SIZE) | (np.isnan(own) & np.isnan(said)))
    order = {int(place): k for k, place in enumerate(cuts.places)}
    for place in np.flatnonzero(wrong.any(axis=1)).tolist():
        if place in order and _either_way(laid, cuts, order[place]):
            continue
        for column in np.flatnonzero(wrong[place]).tolist():
            said_here, own_here = laid.pieces.sizes[place, column], cuts.sizes[place, column]
            where = f"{laid.label(place)}, {SIZE_KEYS[column]}"
            claimed = "no cut" if np.isnan(said_here) else mm(said_here)
            found = "no cut" if np.isnan(own_here) else mm(own_here)
            yield Finding(laid.rank, "cut sizes", where, claimed, found)


def _by_unit(laid: Laid, sizes: Floats) -> Floats:
    """Sizes with "not cut" along or across as the whole unit, where it is the same thing."""
    full = np.array([*laid.pitch, np.nan, np.nan])
    return np.where(np.isnan(sizes), full, sizes)


def _either_way(laid: Laid, cuts: CutPieces, k: int) -> bool:
    """Whether an edge near 15 degrees or very short, read the other way, gives the claim."""
    said = _by_unit(laid, laid.pieces.sizes[cuts.places[k]][None, :])
    leans = (LEAN_DEG, LEAN_DEG - LEAN_DOUBT_DEG, LEAN_DEG + LEAN_DOUBT_DEG)
    for lean, shortest in product(leans, (TOUCH, NOISE)):
        sizes = measure(outline(laid, cuts, k), laid.pitch, lean, shortest)
        own = _by_unit(laid, np.array(sizes.row())[None, :])
        if ((np.abs(own - said) <= SIZE) | (np.isnan(own) & np.isnan(said))).all():
            cuts.sizes[cuts.places[k]] = sizes.row()
            return True
    return False
