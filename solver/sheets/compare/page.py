"""The comparison picture: up to three layouts side by side to one scale, and their figures."""

from __future__ import annotations

from models.floor.layout import Layout, Solution, ZoneLayout
from models.job.data import Job
from solver.sheets.chalk import chalk
from solver.sheets.compare.figures import figure_lines
from solver.sheets.compare.foot import Foot
from solver.sheets.compare.table import Table, shortened, table_of, write_table
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.cuts import marked
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.lettering import width, wrap
from solver.sheets.drawing.names import name_lines, name_things
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.plan import Plan, draw_chalk, draw_marks, draw_pieces, draw_room
from solver.sheets.drawing.view import best_scale, bounds, fitted
from solver.sheets.drawing.zones import (
    mark_directions,
    name_zones,
    on_page,
    outline_zones,
    shows_zones,
)
from solver.sheets.words import broken_by, broken_rule, capital, laid_words, listed

GAP = 16.0
NARROWEST = 26.0
"""A zone narrower than this on paper, in points, is shown without its chalk lines."""

LABEL_BAND = 22.0
TABLE_SHARE = 0.65
"""How much of a layout's place its figures may take, whatever there is to tell."""

SETTINGS = ((9.0, broken_rule), (8.2, broken_rule), (7.6, broken_rule), (7.6, broken_by))
"""Type sizes of the figures with how much is said of broken rules, the best first."""


def compare_page(solution: Solution) -> Page:
    """The comparison page of a job."""
    job = solution.job
    page = Page(job.system, landscape=True)
    inner = write_head(page, job.name, "Layouts compared", laid_words(job))
    layouts = solution.layouts
    foot = Foot(page, solution, inner)
    cards = _cards(inner, len(layouts), foot.height)
    top = min(_title(page, layout, card) for layout, card in zip(layouts, cards, strict=True))
    tables = _tables(job, layouts, cards[0], top)
    table_top = cards[0].bottom + max(len(table.cells) for table in tables) * tables[0].lead + 4
    left_out: list[str] = []
    for layout, card, table in zip(layouts, cards, tables, strict=True):
        plan = _plan(page, job, Box(card.left, table_top, card.right, top))
        left_out += [name for name in _draw_layout(plan, layout) if name not in left_out]
        write_table(page, card, table_top - table.lead, table)
    foot.draw(plan.view, _left_out(plan, layouts, left_out))
    return page


def _cards(inner: Box, count: int, foot: float) -> list[Box]:
    """The places of the layouts, side by side."""
    wide = (inner.width - (count - 1) * GAP) / count
    lefts = [inner.left + i * (wide + GAP) for i in range(count)]
    return [Box(left, inner.bottom + foot, left + wide, inner.top) for left in lefts]


def _tables(job: Job, layouts: tuple[Layout, ...], card: Box, top: float) -> list[Table]:
    """The figures of every layout, as large and full as they can be at no cost to the plans."""
    lines = figure_lines(job, layouts)
    choices = [
        [table_of(job, lines, i, card.width, layouts[i], size, words) for i in range(len(layouts))]
        for size, words in SETTINGS
    ]
    scales = [_plan_scale(job, card, top, tables) for tables in choices]
    best = next(each for each, scale in zip(choices, scales, strict=True) if scale == scales[-1])
    most = int((top - card.bottom) * TABLE_SHARE / best[0].lead)
    return [shortened(table, most) for table in best]


def _plan_scale(job: Job, card: Box, top: float, tables: list[Table]) -> float:
    """The scale of the plans when the tables stand below them."""
    tall = top - card.bottom - max(len(table.cells) for table in tables) * tables[0].lead - 4
    room = (card.width - 2 * LABEL_BAND, tall - 2 * LABEL_BAND)
    return best_scale(bounds(job.room), *room, job.system)[0]


def _title(page: Page, layout: Layout, card: Box) -> float:
    """Write a layout's number and what it is best at; return the bottom of the words."""
    number = f"{layout.rank}"
    page.write(card.left, card.top - 15, number, 17, bold=True, ink=ink.CHALK)
    left = card.left + width(number, 17, True) + 7
    lines = wrap(capital("; ".join(layout.best_at)), card.right - left, 9, True)[:3]
    for i, line in enumerate(lines):
        page.write(left, card.top - 10 - 11 * i, line, 9, bold=True)
    return card.top - 10 - 11 * max(1, len(lines) - 1) - 4


def _plan(page: Page, job: Job, room: Box) -> Plan:
    """The place of one plan on the page."""
    return Plan(page, fitted(bounds(job.room), room.grown(-LABEL_BAND), job.system), job, room)


def _draw_layout(plan: Plan, layout: Layout) -> tuple[str, ...]:
    """Draw one plan; return the names there was no place for."""
    several = shows_zones(layout)
    for zone in layout.zones:
        draw_pieces(plan, zone, ink.TONES)
    draw_room(plan)
    outline_zones(plan, layout.zones)
    for zone in layout.zones:
        draw_marks(plan, zone, marked(plan.job, layout, zone))
        lines = chalk(plan.job, zone)
        if not several:
            name_lines(plan, *draw_chalk(plan, lines), 6.5)
        elif not _narrow(plan, zone):
            draw_chalk(plan, lines, on_page(plan, zone))
    if several:
        name_zones(plan, layout.zones, 6.3)
    mark_directions(plan, layout.zones, several)
    return name_things(plan, 6.3)


def _narrow(plan: Plan, zone: ZoneLayout) -> bool:
    """Whether chalk lines would leave nothing of a zone to be seen."""
    left, bottom, right, top = on_page(plan, zone).bounds
    return bool(min(right - left, top - bottom) < NARROWEST)


def _left_out(plan: Plan, layouts: tuple[Layout, ...], names: list[str]) -> list[str]:
    """What the plans do not show, in words."""
    notes = []
    if names:
        notes.append(f"Not named on the plans for want of room: {listed(names)}.")
    zones = layouts[0].zones
    if len(zones) > 1 and any(_narrow(plan, zone) for zone in zones):
        notes.append("Chalk lines of narrow zones are on their set-out sheets.")
    return notes
