"""What the cut edges of pieces are said to go to, against what they lie on.

The document names walls and columns but does not say where each lies, so only features are
checked by name; of the others, whether there are as many names as edges can bear.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from solver.audit.document.claims import Ints
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid
from solver.audit.measured.sizes import CutPieces
from solver.audit.tolerances import TOUCH

CHECK = "what cuts touch"


def claimed_touches(laid: Laid, cuts: CutPieces) -> Iterator[Finding]:
    """A piece names every feature it is cut to, and no more things than it lies on."""
    most = _edges_near(laid)
    for k, place in enumerate(cuts.places.tolist()):
        sides = cuts.sides(k)
        segments = cuts.segment[sides][cuts.sawn[sides]].tolist()
        yield from _of_piece(laid, place, segments, int(most[place]))
    for place in np.flatnonzero(laid.whole).tolist():
        yield from _of_piece(laid, place, [], int(most[place]))


def _of_piece(laid: Laid, place: int, segments: list[int], most: int) -> Iterator[Finding]:
    """The findings on one piece, cut to these segments and lying on at most so many edges."""
    names = set(laid.pieces.touches[place])
    features = {laid.boundary.feature[segment] for segment in segments} - {""}
    rings = {laid.boundary.ring[segment] for segment in segments
             if not laid.boundary.feature[segment]}  # fmt: skip
    where, claimed = laid.label(place), ", ".join(sorted(names)) or "nothing"
    if missing := features - names:
        yield Finding(laid.rank, CHECK, where, claimed, f"a cut edge at {min(missing)} too")
    elif len(names) < len(features) + len(rings):
        found = f"cut edges at {len(features) + len(rings)} different things"
        yield Finding(laid.rank, CHECK, where, claimed, found)
    elif len(names) > most:
        yield Finding(laid.rank, CHECK, where, claimed, f"no more than {most} edges of the zone")


def _edges_near(laid: Laid) -> Ints:
    """How many straight edges of the zone each piece lies on, corners counted generously."""
    rings = [laid.area.exterior, *laid.area.interiors]
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    ends = np.stack([points[:-1][joined], points[1:][joined]], axis=1)
    tree = shapely.STRtree(np.asarray(shapely.linestrings(ends)))
    piece, _ = tree.query(laid.shapes, predicate="dwithin", distance=TOUCH)
    return np.bincount(piece, minlength=len(laid.shapes)).astype(np.int64)
