"""Dimensions on a set-out plan: tape readings, row numbers, edge widths and the 3-4-5 check."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product

from models.floor.layout import ZoneLayout
from models.floor.tape import Mark, Stretch
from models.lengths import show
from solver.sheets import ink
from solver.sheets.boxes import Box, Segment
from solver.sheets.chalk import Chalk
from solver.sheets.labels import Label, beside, place
from solver.sheets.page import label_box
from solver.sheets.plan import Plan
from solver.sheets.rows import row_width
from solver.sheets.view import Place
from solver.sheets.words import the_wall

SIZE = 6.6
GAPS = (3.5, 12, 22, 32)
"""How far beyond the end of a row its label may stand, in points."""
_OFFSETS = (14, 25, 36, 47, 58, -12, -24, -36, -50)
"""How far outside the end of a line its dimension may stand, in points."""


def number_rows(plan: Plan, zone: ZoneLayout) -> None:
    """Write row numbers outside the low end of each row; every few rows when rows are thin."""
    width = _row_width(plan, zone)
    size, every = _number_type(zone, width * plan.view.scale)
    low, high = min(v for _, v in zone.outer), max(v for _, v in zone.outer)
    firsts = {zone.start_row: " first", _second(zone): " second"}
    for row in sorted(zone.rows, key=lambda plan: plan.row not in firsts):
        text = f"{row.row}{firsts.get(row.row, '')}"
        if row.row not in firsts and row.row % every and row.row != 1:
            continue
        middle = (max(row.low, low) + min(row.low + width, high)) // 2
        u = min(ends[0] for ends, _ in row.runs)
        at = plan.view.frame_point(zone, (u, middle))
        bold = row.row in firsts
        _write_beyond(plan, zone, at, -1, [text], size, GAPS if bold else GAPS[:1], bold)


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
    return next(each for each in plan.job.products if each.name == zone.product).pitch[1]


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
        at = plan.view.frame_point(zone, (u, middle))
        wide = row_width(plan.job, zone, row.row)
        texts = [f"row {row.row}: {wide} wide", f"row {row.row}: {wide}"]
        _write_beyond(plan, zone, at, 1, texts, SIZE - 0.4, (*GAPS, -4, -14))


def _write_beyond(
    plan: Plan,
    zone: ZoneLayout,
    at: Place,
    way: int,
    texts: Sequence[str],
    size: float,
    gaps: Sequence[float],
    bold: bool = False,
) -> None:
    """Write the first of the texts that fits beyond the end of a row, along it.

    A negative gap is inside the room, on cleared paper.
    """
    dx, dy = (part / math.hypot(*zone.frame.direction) * way for part in zone.frame.direction)
    for text, gap in product(texts, gaps):
        upright = abs(dy) > 0.98 and len(text) > 3
        box = label_box((0, 0), text, size, upright, bold)
        reach = (abs(dx) * box.width + abs(dy) * box.height) / 2
        off = math.copysign(reach + abs(gap), gap)
        middle = (at[0] + dx * off, at[1] + dy * off)
        found = label_box(middle, text, size, upright, bold)
        if found.within(plan.bounds) and plan.page.is_free(found, strict=False):
            plan.page.write_at(middle, text, size, upright, bold, backed=gap < 0)
            return


def dimension_lines(plan: Plan, zone: ZoneLayout, lines: Chalk) -> None:
    """Dimension both ends of every stretch of both chalk lines from a wall."""
    for line in (lines.start, lines.cross):
        for i, part in enumerate(line):
            _dimension(plan, zone, part, part.start, outside=i == 0)
            _dimension(plan, zone, part, part.end, outside=i == len(line) - 1)


def _dimension(plan: Plan, zone: ZoneLayout, part: Stretch, mark: Mark, outside: bool) -> None:
    """One tape reading, set off from the end of the line so that it is clear of it."""
    if mark.distance == 0:
        return
    at, foot = plan.view.frame_point(zone, mark.point), plan.view.frame_point(zone, mark.foot)
    far = part.end if mark is part.start else part.start
    x, y = plan.view.frame_point(zone, far.point)
    size = math.dist(at, (x, y))
    way = ((at[0] - x) / size, (at[1] - y) / size)
    length = show(mark.distance, plan.job.system)
    for text in (f"{length} from {the_wall(plan.job, mark.measured_from)}", length):
        for strict in (True, False):
            for off in (off for off in _OFFSETS if outside or off < 0):
                shift = (way[0] * off, way[1] * off)
                line = (_moved(at, shift), _moved(foot, shift))
                if _draw_dimension(plan, (at, foot), line, text, strict):
                    return


def _moved(point: Place, by: tuple[float, float]) -> Place:
    return point[0] + by[0], point[1] + by[1]


def _draw_dimension(plan: Plan, ends: Segment, line: Segment, text: str, strict: bool) -> bool:
    """Draw a dimension if its line and its text find free paper; whether it was drawn."""
    page = plan.page
    thin = Box(*map(min, *line), *map(max, *line)).grown(0.5)
    if not thin.within(plan.bounds) or any(thin.overlaps(box) for box in page.written):
        return False
    upright = abs(line[0][0] - line[1][0]) < 0.2 * abs(line[0][1] - line[1][1])
    for part in (0.5, 0.4, 0.6, 0.3, 0.7):
        middle = tuple(a + part * (b - a) for a, b in zip(*line, strict=True))
        box = label_box((middle[0], middle[1]), text, SIZE, upright)
        if box.within(plan.bounds) and page.is_free(box, strict):
            page.lines([line, *_slashes(line)], ink.DIMENSION)
            extensions = list(zip(ends, line, strict=True))
            page.lines(extensions, ink.EXTENSION)
            page.keep_off.extend(extensions)
            page.write_at((middle[0], middle[1]), text, SIZE, upright, backed=True)
            page.keep_off.append(line)
            return True
    return False


def _slashes(line: Segment) -> list[Segment]:
    """The slanted ticks at the ends of a dimension."""
    return [((x - 2.2, y - 2.2), (x + 2.2, y + 2.2)) for x, y in line]


def draw_check(plan: Plan, zone: ZoneLayout, lines: Chalk) -> None:
    """Draw the 3-4-5 check with its three lengths."""
    if lines.triangle is None:
        return
    triangle, show_in = lines.triangle, plan.job.system
    corner, on_start, on_cross = (
        plan.view.frame_point(zone, point)
        for point in (triangle.corner, triangle.on_start, triangle.on_cross)
    )
    plan.page.lines([(on_start, on_cross)], ink.CHECK)
    for x, y in (on_start, on_cross):
        plan.page.lines([((x - 3, y), (x + 3, y)), ((x, y - 3), (x, y + 3))], ink.POINT)
    sides = (
        ((corner, on_start), triangle.legs[0]),
        ((corner, on_cross), triangle.legs[1]),
        ((on_start, on_cross), triangle.across),
    )
    for line, ticks in sides:
        label = Label(show(ticks, show_in), SIZE, line, backed=True)
        spots = beside(line, label, (2.5, -2.5, 6, -6), _check_parts())
        place(plan.page, label, list(spots), plan.bounds)


def _check_parts() -> Sequence[float]:
    return (0.5, 0.4, 0.6, 0.3, 0.7, 0.85, 0.15)
