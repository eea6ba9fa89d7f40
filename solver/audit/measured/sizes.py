"""The sizes of all cut pieces of a zone, against the sizes the document claims."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from solver.audit.document.claims import Bools, Floats, Ints
from solver.audit.measured.boundary import OFF
from solver.audit.measured.cuts import Outline, measure
from solver.audit.measured.edges import Edges
from solver.audit.measured.laid import Laid
from solver.audit.tolerances import LEAN_DEG, TOUCH

TURNED = [1, 0, 2, 3]
"""Sizes along and across the rows as those of a unit laid a quarter turn to them."""

FLAT = 0.02
"""Slope under which a side near a unit's side counts as lying along it."""


@dataclass(frozen=True, slots=True)
class CutPieces:
    """The pieces that are not whole units, by place, and what was measured of them.

    ``edges`` are their sides and ``segment`` the boundary segment each lies on (or OFF);
    ``factory`` tells those along a side of the unit, ``sawn`` the cut ones: on the boundary
    and not a factory edge that meets it. The sides of ``places[k]`` are
    ``first[k]:first[k + 1]``. ``sizes`` (n, 4) has a line for every piece of the zone, by
    SIZE_KEYS, nan for none: along and across the rows, in a herringbone along and across
    its own unit.
    """

    places: Ints
    edges: Edges
    segment: Ints
    factory: Bools
    sawn: Bools
    first: Ints
    sizes: Floats

    def sides(self, k: int) -> slice:
        """The sides of one cut piece."""
        return slice(int(self.first[k]), int(self.first[k + 1]))

    @property
    def size(self) -> Floats:
        """The cut size of every piece of the zone: the least of along, across and slant."""
        return least(self.sizes[:, :3])


def least(columns: Floats) -> Floats:
    """The least of each line, nan where all are."""
    lowest = np.where(np.isnan(columns), np.inf, columns).min(axis=1)
    return np.where(np.isinf(lowest), np.nan, lowest)


def measure_cuts(laid: Laid) -> CutPieces:
    """Measure every cut piece: rectangles all at once, others one by one."""
    places = np.flatnonzero(~laid.whole)
    chosen = np.flatnonzero(~laid.whole[laid.edges.piece])
    chosen = chosen[np.argsort(laid.edges.piece[chosen], kind="stable")]
    edges = laid.edges.take(chosen)
    first = np.searchsorted(edges.piece, np.append(places, len(laid.whole)))
    segment = laid.boundary.segment_of(edges)
    sizes = _oblong_sizes(laid, edges, segment)
    factory = _on_unit_sides(laid, edges)
    sawn = (segment != OFF) & ~factory
    cuts = CutPieces(places, edges, segment, factory, sawn, first.astype(np.int64), sizes)
    for k in np.flatnonzero(~laid.oblong[places]).tolist():
        sizes[places[k]] = measured_sizes(laid, cuts, k)
    quarter = np.flatnonzero(turned(laid) & laid.oblong)
    sizes[quarter] = sizes[quarter][:, TURNED]
    return cuts


def turned(laid: Laid) -> Bools:
    """The pieces whose sizes are measured square to the frame: upright ones of a herringbone."""
    return laid.pieces.quarter & (not laid.in_rows)


def measured_sizes(
    laid: Laid,
    cuts: CutPieces,
    k: int,
    cut: Bools | None = None,
    lean: float = LEAN_DEG,
    shortest: float = TOUCH,
) -> Floats:
    """The sizes of one cut piece along and across; the rest as in ``measure``."""
    place = int(cuts.places[k])
    along, across = laid.unit[place].tolist()
    found = np.array(measure(outline(laid, cuts, k, cut), (along, across), lean, shortest).row())
    return found[TURNED] if turned(laid)[place] else found


def outline(laid: Laid, cuts: CutPieces, k: int, cut: Bools | None = None) -> Outline:
    """One cut piece's outline; ``cut`` says which of its sides count, by default all cut ones."""
    sides = cuts.sides(k)
    on = cuts.sawn[sides] if cut is None else cut
    shape = laid.shapes[cuts.places[k]]
    return Outline(cuts.edges.start[sides], cuts.edges.end[sides], on, shape)


def _on_unit_sides(laid: Laid, edges: Edges) -> Bools:
    """Which sides lie along the sides of the whole unit: factory edges."""
    corner = laid.pieces.corner[edges.piece]
    step = np.abs(edges.end - edges.start)
    # Along a side, not only near it: a unit's corner cut off by a hair is cut at a slant.
    parallel = step <= FLAT * step[:, ::-1]
    on = np.zeros(len(corner), dtype=np.bool_)
    for side in (corner, corner + laid.unit[edges.piece]):
        off = np.maximum(np.abs(edges.start - side), np.abs(edges.end - side))
        on |= ((off <= TOUCH) & parallel).any(axis=1)
    return on


def _oblong_sizes(laid: Laid, edges: Edges, segment: Ints) -> Floats:
    """Sizes of rectangles: length or width wherever an end or a side lies on the boundary."""
    sizes = np.full((len(laid.whole), 4), np.nan)
    box = laid.bounds[:, 2:] - laid.bounds[:, :2]
    step = np.abs(edges.end - edges.start)
    for axis in (0, 1):
        cut = np.zeros(len(laid.whole), dtype=np.bool_)
        on = (segment != OFF) & (step[:, axis] < step[:, 1 - axis])
        cut[edges.piece[on]] = True
        cut &= laid.oblong & (box[:, axis] < laid.unit[:, axis] - TOUCH)
        sizes[cut, axis] = box[cut, axis]
    return sizes
