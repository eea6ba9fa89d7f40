"""The table of end joints of rows whose units have several lengths: every joint of every run."""

from __future__ import annotations

from collections.abc import Sequence

from models.floor.layout import ZoneLayout
from models.job.data import Job
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.lettering import width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.setout.rows import Offset, run_letter
from solver.sheets.words import length

SIZES = (8.6, 8.0, 7.4, 6.8)
"""The type sizes tried, largest first."""

GAP, LEAD = 16.0, 1.27
_COLUMNS = (1, 2)


def joint_lines(job: Job, zone: ZoneLayout) -> tuple[Offset, ...]:
    """Each run's end joints in order, as distances from the cross line."""
    found = []
    for plan in zone.rows:
        for i, joints in enumerate(plan.joints):
            name = f"{plan.row}{run_letter(i) if len(plan.joints) > 1 else ''}"
            words = ", ".join(length(job, each) for each in joints) or "no joint"
            found.append(Offset(name, words))
    return tuple(found)


def write_joints(page: Page, box: Box, table: Sequence[Offset], whole: bool) -> int:
    """Write as much of a table as a box holds; return how many entries that was.

    With ``whole`` nothing is written when the box does not hold all of it.
    """
    size, columns, held = max(
        (
            (each, count, _held(table, box, each, count))
            for each in SIZES
            for count in _COLUMNS
            if _room(table, box, each, count) > width("0", each) * 24
        ),
        key=lambda found: (found[2], found[0], -found[1]),
        default=(SIZES[-1], 1, 0),
    )
    if not held or (whole and held < len(table)):
        return 0
    page.write(box.left, box.top - 9, "End joints", 9, bold=True)
    about = "row, and from cross line to each end joint; minus: the other way"
    page.write(box.right, box.top - 9, about, 6.4, "right", ink=ink.GREY)
    name, room = _name(table, size), _room(table, box, size, columns)
    x, y = box.left, _top(box, size)
    for entry in table[:held]:
        lines = wrap(entry.words, room, size)
        if y - (len(lines) - 1) * size * LEAD < box.bottom:
            x, y = x + name + 5 + room + GAP, _top(box, size)
        page.write_column([(x + name, y)], [entry.name], size, "right", bold=True)
        places = [(x + name + 5, y - i * size * LEAD) for i in range(len(lines))]
        page.write_column(places, lines, size)
        y -= len(lines) * size * LEAD + 1
    return held


def _top(box: Box, size: float) -> float:
    """The first line of writing of a column."""
    return box.top - 14 - size * LEAD


def _name(table: Sequence[Offset], size: float) -> float:
    """The width of the rows' names."""
    return max(width(entry.name, size, True) for entry in table)


def _room(table: Sequence[Offset], box: Box, size: float, columns: int) -> float:
    """The width of the words in one column."""
    return (box.width - (columns - 1) * GAP) / columns - _name(table, size) - 5


def _held(table: Sequence[Offset], box: Box, size: float, columns: int) -> int:
    """How many entries a box holds."""
    room, y, column = _room(table, box, size, columns), _top(box, size), 1
    for i, entry in enumerate(table):
        lines = len(wrap(entry.words, room, size))
        if y - (lines - 1) * size * LEAD < box.bottom:
            column, y = column + 1, _top(box, size)
            if column > columns or y - (lines - 1) * size * LEAD < box.bottom:
                return i
        y -= lines * size * LEAD + 1
    return len(table)
