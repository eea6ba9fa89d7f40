"""The dimensioned plan of a set-out sheet, and how plan and words share the page."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout, ZoneLayout
from models.job.data import Job
from solver.sheets.chalk import Chalk
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.cuts import marked
from solver.sheets.drawing.heads import MARGIN, head_height
from solver.sheets.drawing.legend import piece_legend, scale_bar
from solver.sheets.drawing.names import name_lines, name_things
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.plan import Plan, draw_chalk, draw_marks, draw_pieces, draw_room
from solver.sheets.drawing.view import best_scale, bounds, fitted
from solver.sheets.drawing.zones import mark_directions, name_zones, outline_zones, shows_zones
from solver.sheets.setout.dimensions import dimension_lines, draw_check
from solver.sheets.setout.rowlabels import label_edge_rows, number_rows

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


def arranged(job: Job, about: str) -> Arrangement:
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


def draw_plan(
    page: Page, job: Job, layout: Layout, zone: ZoneLayout, lines: Chalk, room: Box
) -> tuple[str, ...]:
    """Draw one zone's dimensioned plan; return the names there was no place for."""
    view = fitted(bounds(job.room), room.grown(-LABEL_BAND), job.system)
    plan = Plan(page, view, job, room)
    warned = marked(job, layout, zone)
    scale_bar(page, room.right, room.bottom + 2, job, view, 90)
    piece_legend(page, room.left, room.top - 8, (), bool(warned))
    draw_pieces(plan, zone, ink.QUIET_TONES)
    draw_room(plan)
    outline_zones(plan, layout.zones)
    start, cross = draw_chalk(plan, lines)
    draw_marks(plan, zone, warned)
    if zone.rows:
        number_rows(plan, zone)
    dimension_lines(plan, lines)
    name_lines(plan, start, cross, 8)
    draw_check(plan, lines)
    if zone.rows:
        label_edge_rows(plan, zone)
    if shows_zones(layout):
        name_zones(plan, layout.zones, 7)
    mark_directions(plan, [zone], shows_zones(layout))
    return name_things(plan, 7)
