"""The table of row offsets: set in as many columns and as large a type as a box allows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.lettering import width
from solver.sheets.drawing.page import Page
from solver.sheets.setout.rows import Offset

SIZES = (9.5, 8.6, 8.0, 7.4)
"""The type sizes tried, largest first."""


@dataclass(frozen=True, slots=True)
class Columns:
    """How a table of offsets is set: its type, columns and lines, and its entries' widths."""

    size: float
    columns: int
    lines: int
    name: float
    words: float

    @property
    def entry(self) -> float:
        """From the left of one entry to the left of the next."""
        return self.name + self.words + 5 + 13


def _columns(table: Sequence[Offset], box: Box, size: float) -> Columns:
    """How a table is set in a box in one type size."""
    name = max(width(line.name, size, True) for line in table)
    words = max(width(line.words, size) for line in table)
    lines = int((box.height - 24) / (size * 1.27))
    return Columns(size, max(1, int((box.width + 13) / (name + words + 18))), lines, name, words)


def write_table(page: Page, box: Box, table: Sequence[Offset], whole: bool) -> int:
    """Write as much of a table as a box holds; return how many entries that was.

    With ``whole`` nothing is written when the box does not hold all of it.
    """
    columns = fitting_columns(table, box)
    if not columns and whole:
        return 0
    columns = columns or smallest_columns(table, box)
    held = min(columns.columns * columns.lines, len(table))
    write_offsets(page, box, table[:held], columns)
    return held


def fitting_columns(table: Sequence[Offset], box: Box) -> Columns | None:
    """The largest type in which a whole table fits a box; None when none does."""
    settings = (_columns(table, box, size) for size in SIZES)
    return next((each for each in settings if each.columns * each.lines >= len(table)), None)


def smallest_columns(table: Sequence[Offset], box: Box) -> Columns:
    """The setting in the smallest type, for a table that is spread over several boxes."""
    return _columns(table, box, SIZES[-1])


def write_offsets(page: Page, box: Box, table: Sequence[Offset], columns: Columns) -> None:
    """Write row offsets in columns, read downwards."""
    size = columns.size
    page.write(box.left, box.top - 9, "Row offsets", 9, bold=True)
    about = "row, and from cross line to end joint"
    page.write(box.right, box.top - 9, about, 6.4, "right", ink=ink.GREY)
    lines = -(-len(table) // columns.columns)
    places = [
        (
            box.left + i // lines * columns.entry + columns.name,
            box.top - 14 - (i % lines + 1) * size * 1.27,
        )
        for i in range(len(table))
    ]
    page.write_column(places, [entry.name for entry in table], size, "right", bold=True)
    across = 5 + columns.words
    words = [entry.words for entry in table]
    page.write_column([(x + across, y) for x, y in places], words, size, "right")
