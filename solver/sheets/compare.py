"""The comparison picture: up to three layouts side by side to one scale, and their figures."""

from __future__ import annotations

from models.floor.layout import Layout, Solution
from models.job.data import Job
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
from solver.sheets.view import View, bounds, fitted
from solver.sheets.words import bond_words, listed, rule_name

GAP, FOOT = 16.0, 54.0
LABEL_BAND = 22.0
LEAD = 10.6
"""Baseline to baseline of the figures."""


def compare_page(job: Job, solution: Solution) -> Page:
    """The comparison page of a job."""
    page = Page(job.system, landscape=True)
    inner = _heading(page, job)
    count = len(solution.layouts)
    wide = (inner.width - (count - 1) * GAP) / count
    lines = figure_lines(job, solution.layouts)
    floor = inner.bottom + FOOT
    cards = [
        Box(inner.left + i * (wide + GAP), floor, inner.left + i * (wide + GAP) + wide, inner.top)
        for i in range(count)
    ]
    tops = [
        _title(page, layout, card) for layout, card in zip(solution.layouts, cards, strict=True)
    ]
    tables = [_table_lines(lines, i, wide, solution.layouts[i]) for i in range(count)]
    table_top = floor + max(len(table) for table in tables) * LEAD + 4
    missed: list[str] = []
    for layout, card, table in zip(solution.layouts, cards, tables, strict=True):
        room = Box(card.left, table_top, card.right, min(tops))
        view, names = _draw_layout(page, job, layout, room)
        missed += [name for name in names if name not in missed]
        _write_table(page, card, table_top - LEAD, table)
    _footing(page, job, solution, inner, view, missed)
    return page


def _heading(page: Page, job: Job) -> Box:
    """Write the head of the page; return what is left of it."""
    product = job.product_of(job.field)
    size = " × ".join(show(side, job.system) for side in (product.length, product.width))
    about = f"{job.field.name}: {product.name}, unit {size}, {bond_words(job.field.bond)}"
    return write_head(page, job.name, "Layouts compared", about)


def _title(page: Page, layout: Layout, card: Box) -> float:
    """Write a layout's number and what it is best at; return the bottom of the words."""
    number = f"{layout.rank}"
    page.write(card.left, card.top - 15, number, 17, bold=True, ink=ink.CHALK)
    left = card.left + width(number, 17, True) + 7
    words = "; ".join(layout.best_at)
    lines = wrap(words[:1].upper() + words[1:], card.right - left, 9, True)[:3]
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
        start, cross = draw_chalk(plan, zone, chalk(job, zone))
        draw_marks(plan, zone, marked(job, layout, zone))
        name_lines(plan, start, cross, 6.5)
    return view, name_things(plan, 6.3)


Cell = tuple[str, str, bool]
"""Name, value and whether it is the best of the three."""


def _table_lines(lines: tuple[Line, ...], place: int, wide: float, layout: Layout) -> list[Cell]:
    """One layout's column: each figure on one line or more, then the broken rules in words."""
    cells: list[Cell] = []
    label = _label_width(lines)
    for line in lines:
        best = place in line.best
        for i, text in enumerate(wrap(line.values[place], wide - label, 7.6, best)):
            cells.append((line.name if i == 0 else "", text, best))
    for verdict in broken_rules(layout):
        cells += [("", text, False) for text in wrap(rule_name(verdict), wide - label, 7.6)]
    return cells


def _label_width(lines: tuple[Line, ...]) -> float:
    return min(110, max(width(line.name, 7.6) for line in lines)) + 6


def _write_table(page: Page, card: Box, top: float, cells: list[Cell]) -> None:
    page.lines([((card.left, top + LEAD - 1), (card.right, top + LEAD - 1))], ink.HEAVY_RULE)
    indent = max(width(name, 7.6) for name, _, _ in cells)
    label = min(110, indent) + 6
    for i, (name, value, best) in enumerate(cells):
        y = top - i * LEAD
        if name:
            page.write(card.left, y, shorten(name, label - 3, 7.6), 7.6, ink=ink.GREY)
            if i:
                level = y + LEAD - 3
                page.lines([((card.left, level), (card.right, level))], ink.RULE)
        page.write(card.left + label, y, value, 7.6, bold=best)


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
    notes += solution.notes
    if missed:
        notes.append(f"Not named on the plans for want of room: {listed(missed)}.")
    if len(solution.layouts) > 1:
        notes.append("Bold figures are the best of those shown.")
    return notes
