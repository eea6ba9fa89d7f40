"""The claimed size of every cut piece, against its own outline."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import numpy as np

from solver.audit.document.claims import SIZE_KEYS, Floats
from solver.audit.findings import Finding, mm
from solver.audit.measured.laid import Laid
from solver.audit.measured.sizes import CutPieces, measured_sizes, turned
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
    return np.where(np.isnan(sizes), _full(laid), sizes)


def _full(laid: Laid) -> Floats:
    """The sizes of the whole unit of every piece, along and across itself."""
    own = np.where(turned(laid)[:, None], laid.unit[:, ::-1], laid.unit)
    return np.column_stack([own, np.full(own.shape, np.nan)])


def _either_way(laid: Laid, cuts: CutPieces, k: int) -> bool:
    """Whether an edge near 15 degrees or very short, read the other way, gives the claim."""
    place = int(cuts.places[k])
    full = _full(laid)[place]
    said = laid.pieces.sizes[place]
    said = np.where(np.isnan(said), full, said)
    leans = (LEAN_DEG, LEAN_DEG - LEAN_DOUBT_DEG, LEAN_DEG + LEAN_DOUBT_DEG)
    for lean, shortest in product(leans, (TOUCH, NOISE)):
        sizes = measured_sizes(laid, cuts, k, None, lean, shortest)
        own = np.where(np.isnan(sizes), full, sizes)
        if ((np.abs(own - said) <= SIZE) | (np.isnan(own) & np.isnan(said))).all():
            cuts.sizes[place] = sizes
            return True
    return False
