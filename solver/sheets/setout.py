"""The set-out sheet of one layout: with it the lines go down with a tape and nothing else."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout, ZoneLayout
from models.job.data import Job
from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.chalk import chalk
from solver.sheets.cuts import marked
from solver.sheets.dimensions import dimension_lines, draw_check
from solver.sheets.heads import MARGIN, head_height, write_head
from solver.sheets.legend import line_legend, scale_bar
from solver.sheets.lettering import wrap
from solver.sheets.names import name_lines, name_things
from solver.sheets.offsettable import fitting_columns, smallest_columns, write_offsets
from solver.sheets.page import Page
from solver.sheets.plan import Plan, draw_chalk, draw_marks, draw_pieces, draw_room
from solver.sheets.rowlabels import label_edge_rows, number_rows
from solver.sheets.rows import Offset, offset_lines
from solver.sheets.steps import CAUTIONS, steps
from solver.sheets.steptext import write_steps
from solver.sheets.view import best_scale, bounds, fitted
from solver.sheets.words import bond_words, capital

FOOT, GAP = 34.0, 14.0
LABEL_BAND = 46.0
BESIDE, BELOW = 250.0, 232.0
MOST_BESIDE, MOST_BELOW = 330.0, 330.0
"""Least and most width of the words beside the plan, or height below it."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """A page with its plan box and the boxes for words, filled one after another."""

    landscape: bool
    plan: Box
    words: tuple[Box, ...]


def setout_pages(job: Job, layout: Layout) -> list[Page]:
    """The pages of one layout: one for each zone, and one more if its rows need it."""
    return [page for zone in layout.zones for page in _zone_pages(job, layout, zone)]


def _zone_pages(job: Job, layout: Layout, zone: ZoneLayout) -> list[Page]:
    about = _about(layout, zone)
    arrangement = _arranged(job, about)
    page = Page(job.system, arrangement.landscape)
    write_head(page, job.name, f"Set-out sheet {layout.rank}", about)
    lines = chalk(job, zone)
    missed = _draw_plan(page, job, layout, zone, arrangement.plan)
    _footing(page, job)
    boxes = arrangement.words
    found = steps(job, zone, lines, missed)
    left = write_steps(page, boxes[0], found, most_of_it=len(boxes) == 1)
    rest = boxes[1] if len(boxes) > 1 else Box(boxes[0].left, boxes[0].bottom, boxes[0].right, left)
    table = offset_lines(job, zone)
    columns = fitting_columns(table, rest)
    if columns:
        write_offsets(page, rest, table, columns)
        return [page]
    page.write(rest.left, rest.top - 9, "Row offsets: on the next page", 9, bold=True)
    return [page, *_table_pages(job, layout, zone, table)]


def _about(layout: Layout, zone: ZoneLayout) -> str:
    """What the sheet is for, in the head."""
    bond = bond_words(zone.laying.bond)
    best = capital(", ".join(layout.best_at))
    return f"{capital(zone.zone)}: {zone.product}, {bond}, rows {zone.direction.label}. {best}."


def _arranged(job: Job, about: str) -> Arrangement:
    """The arrangement that shows the plan larger: words beside it or below it.

    The plan gets no more room than its scale needs; the words get the rest.
    """
    sizes = bounds(job.room)
    found = []
    for landscape, beside in ((False, False), (False, True), (True, True)):
        page = Page(job.system, landscape)
        body = page.box.grown(-MARGIN)
        body = Box(body.left, body.bottom + FOOT, body.right, body.top - head_height(page, about))
        wide = body.width - 2 * LABEL_BAND - (BESIDE + GAP if beside else 0)
        tall = body.height - 2 * LABEL_BAND - (0 if beside else BELOW + GAP)
        scale, _ = best_scale(sizes, wide, tall, job.system)
        wide = sizes.width * scale + 2 * LABEL_BAND + 1
        tall = sizes.height * scale + 2 * LABEL_BAND + 12
        arrange = _words_beside if beside else _words_below
        plan, words = arrange(body, wide, tall)
        found.append((scale, Arrangement(landscape, plan, words)))
    return max(found, key=lambda each: each[0])[1]


def _words_beside(body: Box, wide: float, _tall: float) -> tuple[Box, tuple[Box, ...]]:
    """Plan on the left, one column of words on its right."""
    cut = body.right - max(BESIDE, min(MOST_BESIDE, body.width - wide - GAP))
    plan = Box(body.left, body.bottom, cut - GAP, body.top)
    return plan, (Box(cut, body.bottom, body.right, body.top),)


def _words_below(body: Box, _wide: float, tall: float) -> tuple[Box, tuple[Box, ...]]:
    """Plan at the top, two columns of words below it."""
    cut = body.bottom + max(BELOW, min(MOST_BELOW, body.height - tall - GAP))
    middle = body.left + body.width / 2
    plan = Box(body.left, cut + GAP, body.right, body.top)
    return plan, (
        Box(body.left, body.bottom, middle - GAP / 2, cut),
        Box(middle + GAP / 2, body.bottom, body.right, cut),
    )


def _draw_plan(
    page: Page, job: Job, layout: Layout, zone: ZoneLayout, room: Box
) -> tuple[str, ...]:
    """Draw the dimensioned plan; return the names there was no place for."""
    view = fitted(bounds(job.room), room.grown(-LABEL_BAND), job.system)
    plan = Plan(page, view, job, room)
    lines = chalk(job, zone)
    scale_bar(page, room.right, room.bottom + 2, job, view, 90)
    draw_pieces(plan, zone, ink.QUIET_TONES)
    draw_room(plan)
    start, cross = draw_chalk(plan, lines)
    draw_marks(plan, zone, marked(job, layout, zone))
    number_rows(plan, zone)
    dimension_lines(plan, lines)
    name_lines(plan, start, cross, 8)
    draw_check(plan, lines)
    label_edge_rows(plan, zone)
    return name_things(plan, 7)


def _footing(page: Page, job: Job) -> None:
    """The legend and the cautions."""
    inner = page.box.grown(-MARGIN)
    page.lines(
        [((inner.left, inner.bottom + 20), (inner.right, inner.bottom + 20))], ink.HEAVY_RULE
    )
    line_legend(page, inner.left, inner.bottom + 24, job, [ink.CHECK])
    for i, line in enumerate(wrap(CAUTIONS, inner.width, 6.2)[:3]):
        page.write(inner.left, inner.bottom + 12 - 7.6 * i, line, 6.2)


def _table_pages(
    job: Job, layout: Layout, zone: ZoneLayout, table: tuple[Offset, ...]
) -> list[Page]:
    """The row offsets on pages of their own."""
    pages = []
    while table:
        page = Page(job.system, landscape=False)
        title = f"Set-out sheet {layout.rank}: row offsets"
        box = write_head(page, job.name, title, _about(layout, zone))
        columns = fitting_columns(table, box) or smallest_columns(table, box)
        held = columns.columns * columns.lines
        write_offsets(page, box, table[:held], columns)
        table = table[held:]
        pages.append(page)
    return pages
