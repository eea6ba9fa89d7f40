"""Which row is laid first, and where its cross line is snapped."""

from __future__ import annotations

import shapely
from shapely import LineString, Polygon

from models.floor.centring import axis_in_frame, runs_along
from models.floor.herringbone import module
from models.floor.runs import rows_count
from models.floor.zone import LEVEL
from models.job.carve.area import Area
from models.job.data import BondKind, Job, Point, Share
from solver.search.draft import Draft
from solver.search.floordraft import FloorDraft
from solver.search.links import carry


def start_rows(floor: FloorDraft) -> list[int]:
    """The row of each zone that is laid first; linked zones start from one line, if they can."""
    rows = [_nearest(draft, _inside(draft)) for draft in floor.zones]
    places = {draft.zone.name: i for i, draft in enumerate(floor.zones)}
    for link in floor.plan.job.links:
        if link.share is Share.ROW_LINES:
            one, two = places[link.first], places[link.second]
            shared = _shared(floor.zones[one], floor.zones[two])
            # Through the door, if one runs there, so that it is snapped in one go.
            ends = floor.plan.areas[one], floor.plan.areas[two]
            job, draft = floor.plan.job, floor.zones[one]
            shared = {r: n for r, n in shared.items() if _clear(job, draft, r, ends)} or shared
            if shared:
                rows[one] = _nearest(floor.zones[one], list(shared))
                rows[two] = shared[rows[one]]
    return rows


def line_of(draft: Draft, row: int) -> int:
    """The v of a row's lower line."""
    pitch = draft.product.pitch[1]
    first, _ = rows_count(draft.zone, pitch, draft.start_line)
    return first + (row - 1) * pitch


def _inside(draft: Draft) -> list[int]:
    """The rows whose lower line runs inside the zone."""
    _, count = rows_count(draft.zone, draft.product.pitch[1], draft.start_line)
    low, high = draft.zone.heights
    return [n for n in range(2, count + 1) if low < line_of(draft, n) < high]


def _shared(one: Draft, two: Draft) -> dict[int, int]:
    """Rows of one zone whose lower line runs on as that of a row of another."""
    lines = {line_of(two, n): n for n in _inside(two)}
    found = {}
    for row in _inside(one):
        v = carry(one.zone, two.zone, (0, line_of(one, row)))[1]
        near = min(lines, key=lambda line: abs(line - v), default=None)
        if near is not None and abs(near - v) <= LEVEL:
            found[row] = lines[near]
    return found


def _clear(job: Job, draft: Draft, row: int, ends: tuple[Area, Area]) -> bool:
    """Whether a row's lower line runs from one area to the other without leaving the room."""
    room = Polygon(job.room)
    far, v = round(room.length), line_of(draft, row)
    line = LineString([draft.zone.frame.to_job((u, v)) for u in (-far, far)])
    reach = [Polygon(area.outer, area.holes) for area in ends]
    parts = shapely.get_parts(room.intersection(line))
    return any(all(part.intersects(area) for area in reach) for part in parts)


def _nearest(draft: Draft, rows: list[int]) -> int:
    """The row whose line is the nearest to the middle that is half a row off it.

    Off the walls and near but not on the centre, the first rows can set while later ones
    are pushed tight against them; common practice, no source.
    """
    pitch = draft.product.pitch[1]
    low, high = draft.zone.heights

    def off(number: int) -> tuple[bool, int, int]:
        twice = abs(2 * line_of(draft, number) - low - high)
        return twice < pitch, twice, number

    return min(rows, key=off, default=1)


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
