"""Lines carried from one zone into another."""

from __future__ import annotations

from fractions import Fraction

from models.floor.zone import Zone
from models.job.data import BondKind, Product, Share
from solver.search.draft import Draft
from solver.search.found import Found, Only


def carried(found: Found, product: Product, zone: Zone, share: Share) -> Only:
    """The lines of one zone's layout, as the only ones another zone may take."""
    there = found.zone
    if share is Share.ROW_LINES:
        return Only(rows=(carry(there, zone, (0, found.start_line))[1],))
    joint = _joint(found.offsets[0], found.runs[0].low, found.start_line, there, product)
    return Only(joints=(carry(there, zone, (joint, found.start_line))[0],))


def _joint(offset: int, low: int, start_line: int, zone: Zone, product: Product) -> int:
    """The u of an end joint in the row above the start line, of a straight or stepped bond."""
    length, width = product.pitch
    step = zone.laying.bond.step if zone.laying.bond.kind is BondKind.STEPPED else Fraction(0)
    return offset - int((low - start_line) // width * step * length % length)


def carry(there: Zone, here: Zone, point: tuple[int, int]) -> tuple[int, int]:
    """A point of one zone's frame in another's, to the nearest tick."""
    x, y = there.frame.to_job(point)
    return here.frame.to_frame((round(x), round(y)))


def lines_apart(one: Draft, two: Draft, share: Share) -> int:
    """The least distance between a line of one zone and one of the other, in ticks."""
    along = share is Share.ROW_LINES
    axis = 1 if along else 0
    mine, theirs = one.product.pitch[axis], two.product.pitch[axis]
    at = _place(one, along)
    low, high = min(p[axis] for p in one.zone.outer), max(p[axis] for p in one.zone.outer)
    first = at + -((at - low) // mine) * mine
    other = _place(two, along)
    gaps = []
    for line in range(first, high + 1, mine):
        point = (0, line) if along else (line, one.start_line)
        off = (carry(one.zone, two.zone, point)[axis] - other) % theirs
        gaps.append(min(off, theirs - off))
    return min(gaps, default=0)


def _place(draft: Draft, along: bool) -> int:
    if along:
        return draft.start_line
    return _joint(draft.offsets[0], draft.runs[0].low, draft.start_line, draft.zone, draft.product)
