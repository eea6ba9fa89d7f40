"""One layout's figures and broken rules on the comparison, set in type line by line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from models.floor.layout import Layout, Verdict
from models.job.data import Job
from solver.sheets.compare.figures import Line
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.cuts import broken_rules
from solver.sheets.drawing.lettering import shorten, width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.words import counted

INDENT = 9.0


@dataclass(frozen=True, slots=True)
class Cell:
    """One line of a table: a name (or none), its value, and whether it is the best.

    ``wide`` lines take the whole width.
    """

    name: str
    value: str
    best: bool = False
    wide: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """One layout's figures set in type, line by line; ``label`` is the width of the names."""

    size: float
    label: float
    cells: tuple[Cell, ...]

    @property
    def lead(self) -> float:
        """From one line of writing to the next."""
        return self.size * 1.4


def table_of(
    job: Job,
    lines: tuple[Line, ...],
    place: int,
    wide: float,
    layout: Layout,
    size: float,
    words: Callable[[Job, Verdict], str],
) -> Table:
    """One layout's figures, each on one line or more, then its broken rules in words."""
    label = min(wide * 0.5, max(width(line.name, size) for line in lines) + 7)
    cells: list[Cell] = []
    for line in lines:
        best = place in line.best
        for i, text in enumerate(wrap(line.values[place], wide - label, size, best)):
            cells.append(Cell(line.name if i == 0 else "", text, best))
    for verdict in broken_rules(layout):
        for i, text in enumerate(wrap(words(job, verdict), wide - INDENT, size)):
            cells.append(Cell("" if i else "–", text, wide=True))
    return Table(size, label, tuple(cells))


def shortened(table: Table, most: int) -> Table:
    """A table of at most so many lines: the last broken rules are counted instead of told."""
    if len(table.cells) <= most:
        return table
    starts = [i for i, cell in enumerate(table.cells) if cell.wide and cell.value and cell.name]
    kept = max((i for i in starts if i < most), default=most - 1)
    left = sum(i >= kept for i in starts)
    words = f"{counted(left, 'more broken rule')}: on the screen and in layouts.json"
    return replace(table, cells=(*table.cells[:kept], Cell("–", words, wide=True)))


def write_table(page: Page, card: Box, top: float, table: Table) -> None:
    """Write a table down a card from its first line of writing."""
    over = table.lead - 2.6
    page.lines([((card.left, top + over + 1), (card.right, top + over + 1))], ink.HEAVY_RULE)
    for i, cell in enumerate(table.cells):
        y = top - i * table.lead
        if cell.name:
            short = shorten(cell.name, table.label - 4, table.size)
            page.write(card.left, y, short, table.size, ink=ink.GREY)
            if i and not cell.wide:
                page.lines([((card.left, y + over), (card.right, y + over))], ink.RULE)
        x = card.left + (INDENT if cell.wide else table.label)
        page.write(x, y, cell.value, table.size, bold=cell.best)
