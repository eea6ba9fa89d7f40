"""Herringbone zones: every piece in a unit of the pattern, factory edge to factory edge."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from solver.audit.document.claims import Floats
from solver.audit.findings import Finding
from solver.audit.measured.boundary import OFF
from solver.audit.measured.laid import Laid, into_frame
from solver.audit.measured.runs import off_line
from solver.audit.measured.sizes import CutPieces
from solver.audit.tolerances import PARALLEL, TOUCH

CHECK = "herringbone"


def on_pattern(laid: Laid) -> Iterator[Finding]:
    """Every unit lies where the pattern of the whole units has one."""
    if laid.lattice is None:
        return
    plain = laid.lattice.plain(laid.pieces.corner, laid.unit)
    off, _ = laid.lattice.nearest(plain, laid.pieces.quarter)
    for place in np.flatnonzero(off > TOUCH).tolist():
        lies = "upright" if laid.pieces.quarter[place] else "flat"
        claimed = f"of {_article(lies)} unit of the pattern"
        found = f"{off[place]:.3f} mm off the nearest"
        yield Finding(laid.rank, CHECK, laid.label(place), claimed, found)


def _article(word: str) -> str:
    return f"an {word}" if word == "upright" else f"a {word}"


def inside_units(laid: Laid) -> Iterator[Finding]:
    """Every piece lies inside the unit whose corner it claims."""
    corner = laid.pieces.corner
    over = np.maximum(corner - laid.bounds[:, :2], laid.bounds[:, 2:] - corner - laid.unit)
    by = over.max(axis=1)
    for place in np.flatnonzero(by > TOUCH).tolist():
        u, v = corner[place]
        claimed, found = f"in the unit at u {u:.3f}, v {v:.3f}", f"{by[place]:.3f} mm out of it"
        yield Finding(laid.rank, "unit corners", laid.label(place), claimed, found)


def factory_inside(laid: Laid, cuts: CutPieces) -> Iterator[Finding]:
    """Every side of a piece that is no side of its unit lies on the zone's edge."""
    if laid.product.shop_cuts:
        return
    bare = (cuts.segment == OFF) & ~cuts.factory & (cuts.edges.length > TOUCH)
    for place in np.unique(cuts.edges.piece[bare]).tolist():
        found = "a cut side inside the floor"
        yield Finding(laid.rank, "cuts only at the edge", laid.label(place), "no such side", found)


def columns(laid: Laid) -> Iterator[Finding]:
    """Pieces are numbered by their column of the points, and no rows are listed."""
    for place in np.flatnonzero(laid.pieces.row != laid.rows).tolist():
        claimed = f"column {laid.pieces.row[place]}"
        found = f"column {laid.rows[place]} by its place"
        yield Finding(laid.rank, CHECK, laid.label(place), claimed, found)
    if laid.claim.rows:
        where, found = f"zone {laid.zone.name}", "no rows in a herringbone"
        yield Finding(laid.rank, CHECK, where, f"{len(laid.claim.rows)} rows", found)


def chalk(laid: Laid) -> Iterator[Finding]:
    """The start line runs along the points or the units, and crosses at a unit's corner."""
    if laid.lattice is None:
        return
    turned = into_frame(laid.claim)
    start, cross = turned(laid.claim.start_line), turned(laid.claim.cross_line)
    way, square = _way(start), _way(cross)
    where = "start line"
    if abs(float(way @ square)) * float(np.hypot(*(cross[1] - cross[0]))) > TOUCH:
        yield Finding(laid.rank, where, "cross line", "square to the start line", "out of square")
        return
    to_tips = laid.lattice.to_tips(start)
    if abs(way[1]) > PARALLEL and abs(to_tips[1] - to_tips[0]) > TOUCH:
        found = "neither along the points nor along the units"
        yield Finding(laid.rank, where, where, "along the line of points", found)
    elif abs(way[1]) > PARALLEL and abs(off_line(float(to_tips[0]), laid.lattice.tips)) > TOUCH:
        off = abs(off_line(float(to_tips[0]), laid.lattice.tips))
        yield Finding(laid.rank, where, where, "on a line of tips", f"{off:.3f} mm off it")
    crossing = start[0] + float((cross[0] - start[0]) @ way) * way
    plain = laid.lattice.plain(crossing[None, :], np.zeros((1, 2)))
    off = float(laid.lattice.nearest(plain, np.array([False]))[0][0])
    if off > TOUCH:
        claimed, found = "crosses at the corner of a flat unit", f"{off:.3f} mm off it"
        yield Finding(laid.rank, where, "cross line", claimed, found)


def _way(line: Floats) -> Floats:
    """The direction of a line, of length one."""
    step = line[1] - line[0]
    return np.asarray(step / max(float(np.hypot(*step)), TOUCH), dtype=np.float64)
