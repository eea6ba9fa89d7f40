"""The comparison picture: up to three layouts side by side to one scale, and their figures."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from models.floor.layout import Layout, Solution, Verdict
from models.job.data import Job, Laying
from models.lengths import show
from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.chalk import chalk
from solver.sheets.cuts import CutKind, broken_rules, kind_of, marked
from solver.sheets.figures import Line, figure_lines
from solver.sheets.heads import write_head
from solver.sheets.legend import line_legend, piece_legend, scale_bar
from solver.sheets.lettering import shorten, width, wrap
from solver.sheets.names import name_lines, name_things
from solver.sheets.page import Page
from solver.sheets.plan import Plan, draw_chalk, draw_marks, draw_pieces, draw_room
from solver.sheets.view import View, best_scale, bounds, fitted
from solver.sheets.words import bond_words, broken_by, broken_rule, capital, listed

GAP, FOOT = 16.0, 54.0
LABEL_BAND = 22.0
INDENT = 9.0
SETTINGS = ((9.0, broken_rule), (8.2, broken_rule), (7.6, broken_rule), (7.6, broken_by))
"""Type sizes of the figures with how much is said of broken rules, the best first."""


def compare_page(solution: Solution) -> Page:
    """The comparison page of a job."""
    job = solution.job
    page = Page(job.system, landscape=True)
    inner = _heading(page, job)
    layouts = solution.layouts
    cards = _cards(inner, len(layouts))
    top = min(_title(page, layout, card) for layout, card in zip(layouts, cards, strict=True))
    tables = _tables(job, layouts, cards[0], top)
    table_top = cards[0].bottom + max(len(table.cells) for table in tables) * tables[0].lead + 4
    missed: list[str] = []
    for layout, card, table in zip(layouts, cards, tables, strict=True):
        view, names = _draw_layout(page, job, layout, Box(card.left, table_top, card.right, top))
        missed += [name for name in names if name not in missed]
        _write_table(page, card, table_top - table.lead, table)
    _footing(page, job, solution, inner, view, missed)
    return page


def _cards(inner: Box, count: int) -> list[Box]:
    """The places of the layouts, side by side."""
    wide = (inner.width - (count - 1) * GAP) / count
    lefts = [inner.left + i * (wide + GAP) for i in range(count)]
    return [Box(left, inner.bottom + FOOT, left + wide, inner.top) for left in lefts]


def _tables(job: Job, layouts: tuple[Layout, ...], card: Box, top: float) -> list[Table]:
    """The figures of every layout, as large and full as they can be at no cost to the plans."""
    lines = figure_lines(job, layouts)
    choices = [
        [_table(job, lines, i, card.width, layouts[i], size, words) for i in range(len(layouts))]
        for size, words in SETTINGS
    ]
    scales = [_plan_scale(job, card, top, tables) for tables in choices]
    return next(each for each, scale in zip(choices, scales, strict=True) if scale == scales[-1])


def _plan_scale(job: Job, card: Box, top: float, tables: list[Table]) -> float:
    """The scale of the plans when the tables stand below them."""
    tall = top - card.bottom - max(len(table.cells) for table in tables) * tables[0].lead - 4
    room = (card.width - 2 * LABEL_BAND, tall - 2 * LABEL_BAND)
    return best_scale(bounds(job.room), *room, job.system)[0]


def _heading(page: Page, job: Job) -> Box:
    """Write the head of the page; return what is left of it."""
    about = "; ".join(_laid_words(job, laying) for laying in job.zones)
    return write_head(page, job.name, "Layouts compared", about)


def _laid_words(job: Job, laying: Laying) -> str:
    """What is laid in a zone, and how."""
    product = job.product_of(laying)
    size = " × ".join(show(side, job.system) for side in (product.length, product.width))
    return f"{laying.name}: {product.name}, unit {size}, {bond_words(laying.bond)}"


def _title(page: Page, layout: Layout, card: Box) -> float:
    """Write a layout's number and what it is best at; return the bottom of the words."""
    number = f"{layout.rank}"
    page.write(card.left, card.top - 15, number, 17, bold=True, ink=ink.CHALK)
    left = card.left + width(number, 17, True) + 7
    lines = wrap(capital("; ".join(layout.best_at)), card.right - left, 9, True)[:3]
    for i, line in enumerate(lines):
        page.write(left, card.top - 10 - 11 * i, line, 9, bold=True)
    return card.top - 10 - 11 * max(1, len(lines) - 1) - 4


def _draw_layout(page: Page, job: Job, layout: Layout, room: Box) -> tuple[View, tuple[str, ...]]:
    """Draw one plan; return the view and the names there was no place for."""
    view = fitted(bounds(job.room), room.grown(-LABEL_BAND), job.system)
    plan = Plan(page, view, job, room)
    for zone in layout.zones:
        draw_pieces(plan, zone, ink.TONES)
    draw_room(plan)
    for zone in layout.zones:
        start, cross = draw_chalk(plan, chalk(job, zone))
        draw_marks(plan, zone, marked(job, layout, zone))
        name_lines(plan, start, cross, 6.5)
    return view, name_things(plan, 6.3)


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


def _table(
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


def _write_table(page: Page, card: Box, top: float, table: Table) -> None:
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


def _footing(
    page: Page, job: Job, solution: Solution, inner: Box, view: View, missed: list[str]
) -> None:
    """The legend, the scale bar and the notes."""
    y = inner.bottom + FOOT - 4
    page.lines([((inner.left, y), (inner.right, y))], ink.HEAVY_RULE)
    zones = [(layout, zone) for layout in solution.layouts for zone in layout.zones]
    used = {kind_of(piece) for _, zone in zones for piece in zone.pieces}
    warned = any(marked(job, layout, zone) for layout, zone in zones)
    kinds = [kind for kind in CutKind if kind in used]
    piece_legend(page, inner.left, y - 13, kinds, warned)
    line_legend(page, inner.left, y - 27, job)
    scale_bar(page, inner.right, y - 13, job, view, 90)
    for i, line in enumerate(wrap(" ".join(_notes(solution, missed)), inner.width, 7)[:2]):
        page.write(inner.left, y - 39 - 9 * i, line, 7, ink=ink.GREY)


def _notes(solution: Solution, missed: list[str]) -> list[str]:
    notes = [] if solution.complete else ["The search was stopped early: the best it had is shown."]
    notes += [f"{capital(note).rstrip('.')}." for note in solution.notes]
    if missed:
        notes.append(f"Not named on the plans for want of room: {listed(missed)}.")
    if len(solution.layouts) > 1:
        notes.append("Bold figures are the best of those shown.")
    return notes
