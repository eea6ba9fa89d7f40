"""Which row is laid first, and where its cross line is snapped."""

from __future__ import annotations

from models.floor.centring import axis_in_frame, runs_along
from models.floor.herringbone import module
from models.job.data import BondKind, Point
from solver.search.draft import Draft


def start_row(draft: Draft, first: int, count: int) -> int:
    """The row laid first: its line is the nearest to the middle that is half a row off it.

    Off the walls and near but not on the centre, the first rows can set while later ones
    are pushed tight against them; common practice, no source.
    """
    pitch = draft.product.pitch[1]
    low, high = draft.zone.heights
    inside = [n for n in range(2, count + 1) if low < first + (n - 1) * pitch < high]

    def off(number: int) -> tuple[bool, int, int]:
        twice = abs(2 * (first + (number - 1) * pitch) - low - high)
        return twice < pitch, twice, number

    return min(inside, key=off, default=1)


def cross_line(draft: Draft) -> int:
    """The u of the cross line: on a joint of the start row, an axis, or near the middle."""
    kind = draft.zone.laying.bond.kind
    us = [u for u, _ in draft.zone.outer]
    middle = (min(us) + max(us)) // 2
    if kind is not BondKind.STAGGERED:
        pitch = draft.product.pitch[0]
        joint = draft.offsets[0] - _shift(draft)
        near = joint + round((middle - joint) / pitch) * pitch
        if min(us) < near < max(us):
            return near
    for axis in draft.job.axes:
        if runs_along(draft.zone, axis) is False:
            at = axis_in_frame(draft.zone, axis)[0][0]
            if min(us) < at < max(us):
                return at
    return middle // draft.job.tape_step * draft.job.tape_step


def middle_corner(draft: Draft) -> Point:
    """The corner of a herringbone's module that lies nearest to the middle of the zone."""
    zone = draft.zone
    length, width = module(draft.product.pitch, zone.laying.bond.double)
    low, high = zone.heights
    us = [u for u, _ in zone.outer]
    u, v = draft.offsets[0], draft.start_line
    du, dv = (min(us) + max(us)) // 2 - u, (low + high) // 2 - v
    up, across = round((du + dv) / (2 * width)), round((du - dv) / (2 * length))
    return u + up * width + across * length, v + up * width - across * length


def _shift(draft: Draft) -> int:
    """How far the first run's joints are shifted from those of the start line's row."""
    pitch, step = draft.product.pitch, draft.zone.laying.bond.step
    return int((draft.runs[0].low - draft.start_line) // pitch[1] * step * pitch[0] % pitch[0])
