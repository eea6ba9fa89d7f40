"""What the cut edges of pieces are said to go to, against what they lie on.

A document that names the sides of its zones is held to those names. An older one names
walls and columns but does not say where each lies, so only features are checked by name; of
the others, whether there are as many names as edges can bear.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

import numpy as np
import shapely

from solver.audit.document.claims import Floats, Ints
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid, into_frame
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
    things = {laid.boundary.thing[segment] for segment in segments} - {""}
    rings = {laid.boundary.ring[segment] for segment in segments
             if not laid.boundary.thing[segment]}  # fmt: skip
    where, claimed = laid.label(place), ", ".join(sorted(names)) or "nothing"
    if missing := things - names:
        yield Finding(laid.rank, CHECK, where, claimed, f"a cut edge at {min(missing)} too")
    elif len(names) < len(things) + len(rings):
        found = f"cut edges at {len(things) + len(rings)} different things"
        yield Finding(laid.rank, CHECK, where, claimed, found)
    elif len(names) > most:
        yield Finding(laid.rank, CHECK, where, claimed, f"no more than {most} edges of the zone")


def _edges_near(laid: Laid) -> Ints:
    """How many straight edges of the zone each piece lies on, corners counted generously."""
    if laid.zone.sides:
        ends = np.stack([laid.boundary.start, laid.boundary.end], axis=1)
    else:
        ends = _outline(laid)
    tree = shapely.STRtree(np.asarray(shapely.linestrings(ends)))
    piece, _ = tree.query(laid.shapes, predicate="dwithin", distance=TOUCH)
    return np.bincount(piece, minlength=len(laid.shapes)).astype(np.int64)


def _outline(laid: Laid) -> Floats:
    """Every side of the zone's polygon (n, 2, 2)."""
    rings = [laid.area.exterior, *laid.area.interiors]
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    return np.stack([points[:-1][joined], points[1:][joined]], axis=1)


def named_sides(laid: Laid) -> Iterator[Finding]:
    """A piece names only what some side of the zone it lies on goes to."""
    if not laid.zone.sides:
        return
    turned = into_frame(laid.claim)
    lines = shapely.linestrings(np.stack([turned(side.line) for side in laid.zone.sides]))
    naming = np.flatnonzero([bool(names) for names in laid.pieces.touches])
    tree = shapely.STRtree(np.asarray(lines))
    pairs = tree.query(laid.shapes[naming], predicate="dwithin", distance=TOUCH)
    near: dict[int, set[str]] = defaultdict(set)
    for number, side in pairs.T.tolist():
        near[number].add(laid.zone.sides[side].name)
    for number, place in enumerate(naming.tolist()):
        for name in sorted({*laid.pieces.touches[place]} - near[number]):
            yield Finding(laid.rank, CHECK, laid.label(place), name, "no edge of it there")
