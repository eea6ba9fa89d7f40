"""Row numbers and the widths of edge rows, written at the ends of rows on a set-out plan."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product

from models.floor.layout import ZoneLayout
from solver.sheets.drawing.page import label_box
from solver.sheets.drawing.plan import Plan
from solver.sheets.drawing.view import Place
from solver.sheets.setout.rows import row_width

SIZE = 6.2
GAPS = (3.5, 12, 22, 32)
"""How far beyond the end of a row its label may stand, in points."""


def number_rows(plan: Plan, zone: ZoneLayout) -> None:
    """Write row numbers outside the low end of each row; every few rows when rows are thin."""
    width = _row_width(plan, zone)
    size, every = _number_type(zone, width * plan.view.scale)
    low, high = min(v for _, v in zone.outer), max(v for _, v in zone.outer)
    shown = {zone.start_row, _second(zone), zone.rows[0].row, zone.rows[-1].row}
    firsts = {zone.start_row: " first", _second(zone): " second"}
    for row in sorted(zone.rows, key=lambda plan: plan.row not in shown):
        text = f"{row.row}{firsts.get(row.row, '')}"
        if row.row not in shown and row.row % every:
            continue
        middle = (max(row.low, low) + min(row.low + width, high)) // 2
        u = min(ends[0] for ends, _ in row.runs)
        at = plan.view.frame_point(zone.frame, (u, middle))
        bold = row.row in firsts
        gaps = GAPS if bold else GAPS[:1]
        # Where a wall or another line is in the way there, inside the row's own end.
        for way, near, clear in ((-1, gaps, True), (1, GAPS[:1], True), (-1, gaps, False)):
            inside = way == 1
            if _write_beyond(plan, zone, at, way, [text], size, near, bold, clear, inside):
                break


def _number_type(zone: ZoneLayout, height: float) -> tuple[float, int]:
    """The type size at which row numbers fit their rows, and every how many rows one fits."""
    dx, dy = (abs(part) / math.hypot(*zone.frame.direction) for part in zone.frame.direction)
    for size in (6.4, 5.8, 5.2, 4.8):
        box = label_box((0, 0), str(zone.rows[-1].row), size, upright=False)
        needed = dy * box.width + dx * box.height
        if needed <= height:
            break
    return size, max(1, math.ceil(needed / height))


def _row_width(plan: Plan, zone: ZoneLayout) -> int:
    """From row line to row line, in ticks."""
    return plan.job.product_of(zone.laying).pitch[1]


def _second(zone: ZoneLayout) -> int:
    """The row laid second: above the start row if there is one, else below it."""
    return zone.start_row + 1 if zone.start_row < zone.rows[-1].row else zone.start_row - 1


def label_edge_rows(plan: Plan, zone: ZoneLayout) -> None:
    """Write the widths of the first and the last row outside their high ends."""
    width = _row_width(plan, zone)
    low, high = min(v for _, v in zone.outer), max(v for _, v in zone.outer)
    for row in dict.fromkeys((zone.rows[0], zone.rows[-1])):
        middle = (max(row.low, low) + min(row.low + width, high)) // 2
        u = max(ends[1] for ends, _ in row.runs)
        at = plan.view.frame_point(zone.frame, (u, middle))
        wide = row_width(plan.job, zone, row.row)
        texts = [f"row {row.row}: {wide} wide", f"row {row.row}: {wide}"]
        if not _write_beyond(plan, zone, at, 1, texts, SIZE, GAPS, strict=True):
            _write_inside(plan, zone, at, texts[0], 1 if row is zone.rows[0] else -1)


def _write_inside(plan: Plan, zone: ZoneLayout, at: Place, text: str, inward: int) -> None:
    """Write inside the high end of an edge row, clear of the wall, on cleared paper."""
    dx, dy = (part / math.hypot(*zone.frame.direction) for part in zone.frame.direction)
    upright = abs(dy) > 0.98
    box = label_box((0, 0), text, SIZE, upright)
    back = (abs(dx) * box.width + abs(dy) * box.height) / 2 + 5
    side = ((abs(dy) * box.width + abs(dx) * box.height) / 2 + 1) * inward
    middle = (at[0] - dx * back - dy * side, at[1] - dy * back + dx * side)
    found = label_box(middle, text, SIZE, upright)
    if found.within(plan.bounds) and plan.page.is_free(found, strict=False):
        plan.page.write_at(middle, text, SIZE, upright, backed=True)


def _write_beyond(
    plan: Plan,
    zone: ZoneLayout,
    at: Place,
    way: int,
    texts: Sequence[str],
    size: float,
    gaps: Sequence[float],
    bold: bool = False,
    strict: bool = False,
    backed: bool = False,
) -> bool:
    """Write the first of the texts that fits beyond the end of a row; whether one did."""
    dx, dy = (part / math.hypot(*zone.frame.direction) * way for part in zone.frame.direction)
    for text, gap in product(texts, gaps):
        upright = abs(dy) > 0.98 and len(text) > 3
        box = label_box((0, 0), text, size, upright, bold)
        reach = (abs(dx) * box.width + abs(dy) * box.height) / 2
        middle = (at[0] + dx * (reach + gap), at[1] + dy * (reach + gap))
        found = label_box(middle, text, size, upright, bold)
        if found.within(plan.bounds) and plan.page.is_free(found, strict):
            plan.page.write_at(middle, text, size, upright, bold, backed)
            return True
    return False
