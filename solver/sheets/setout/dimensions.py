"""Dimensions on a set-out plan: tape readings and the 3-4-5 check."""

from __future__ import annotations

import math
from collections.abc import Sequence

from models.floor.frame import Frame
from models.floor.tape import Mark, Stretch
from models.lengths import show
from solver.sheets.chalk import Chalk, bears_on_itself
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box, Segment
from solver.sheets.drawing.labels import Label, beside, place
from solver.sheets.drawing.page import label_box
from solver.sheets.drawing.plan import Plan
from solver.sheets.drawing.view import Place
from solver.sheets.words import the_wall

SIZE = 6.6
_OFFSETS = (14, 25, 36, 47, 58, -12, -24, -36, -50)
"""How far outside the end of a line its dimension may stand, in points."""


def dimension_lines(plan: Plan, lines: Chalk) -> None:
    """Dimension both ends of every stretch of both chalk lines from a wall."""
    for line in (lines.start, lines.cross):
        for i, part in enumerate(line):
            _dimension(plan, lines.frame, part, part.start, outside=i == 0)
            _dimension(plan, lines.frame, part, part.end, outside=i == len(line) - 1)


def _dimension(plan: Plan, frame: Frame, part: Stretch, mark: Mark, outside: bool) -> None:
    """One tape reading, set off from the end of the line so that it is clear of it."""
    if mark.distance == 0 or bears_on_itself(mark):
        return
    at, foot = plan.view.frame_point(frame, mark.point), plan.view.frame_point(frame, mark.foot)
    far = part.end if mark is part.start else part.start
    x, y = plan.view.frame_point(frame, far.point)
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
    if not thin.within(plan.bounds) or any(box.grown(0.5).meets(line) for box in page.written):
        return False
    upright = abs(line[0][0] - line[1][0]) < 0.2 * abs(line[0][1] - line[1][1])
    for middle in _text_places(ends, line, text, upright):
        box = label_box(middle, text, SIZE, upright)
        if box.within(plan.bounds) and page.is_free(box, strict):
            extensions = list(zip(ends, line, strict=True))
            page.lines([line, *_slashes(line)], ink.DIMENSION)
            page.lines(extensions, ink.EXTENSION)
            page.write_at(middle, text, SIZE, upright, backed=True)
            page.keep_off.extend([line, *extensions])
            return True
    return False


def _text_places(ends: Segment, line: Segment, text: str, upright: bool) -> list[Place]:
    """Where the text of a dimension may stand: in its line, or beside one that is too short."""
    (x0, y0), (x1, y1) = line
    box = label_box((0, 0), text, SIZE, upright)
    if math.dist(*line) > (box.height if upright else box.width) + 8:
        return [(x0 + p * (x1 - x0), y0 + p * (y1 - y0)) for p in (0.5, 0.4, 0.6, 0.3, 0.7)]
    out_x, out_y = (line[0][i] - ends[0][i] for i in (0, 1))
    size = math.hypot(out_x, out_y)
    off = (abs(out_x) * box.width + abs(out_y) * box.height) / size / 2 + 3
    x, y = (x0 + x1) / 2 + out_x / size * off, (y0 + y1) / 2 + out_y / size * off
    long = max(box.width, box.height) / 2
    along_x, along_y = (0.0, long) if upright else (long, 0.0)
    return [(x, y), (x + along_x, y + along_y), (x - along_x, y - along_y)]


def _slashes(line: Segment) -> list[Segment]:
    """The slanted ticks at the ends of a dimension."""
    return [((x - 2.2, y - 2.2), (x + 2.2, y + 2.2)) for x, y in line]


def draw_check(plan: Plan, lines: Chalk) -> None:
    """Draw the 3-4-5 check with its three lengths."""
    if lines.triangle is None:
        return
    triangle, show_in = lines.triangle, plan.job.system
    corner, on_start, on_cross = (
        plan.view.frame_point(lines.frame, point)
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
