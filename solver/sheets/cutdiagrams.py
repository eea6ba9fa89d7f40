"""How units are cut up: every pattern drawn once, to scale, with its pieces and its cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.floor.layout import Layout
from models.job.data import Job, Point
from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.heads import write_head
from solver.sheets.labels import Label, around, beside, place
from solver.sheets.lettering import shorten
from solver.sheets.page import Page
from solver.sheets.zones import draw_arrows
from solver.stock.cutplan import CutPlan, Unit
from solver.stock.pattern import Pattern, pattern_of
from solver.stock.trims import shaped_members

COLUMNS = 3
GAP = 18.0
TALLEST = 96.0
"""The most points a unit's width takes on paper."""
AIR, CAPTION = 11.0, 9.0
"""Points kept free above a unit for the numbers of its cuts; the height of a caption."""
SIZE = 6.6
ABOUT = (
    "Every way a unit is cut up, once, to scale: pieces white, scrap hatched, cuts numbered in "
    "the order they are made. Units face up, the mark pointing right to the head end; a piece "
    "with a star is then cut to shape."
)


@dataclass(frozen=True, slots=True)
class Diagram:
    """A pattern and the units cut that way, the first of which names its pieces."""

    units: tuple[Unit, ...]
    pattern: Pattern


def diagrams(plan: CutPlan) -> tuple[Diagram, ...]:
    """Every pattern once, in the order of the list."""
    found: dict[object, list[Unit]] = {}
    for unit in plan.units:
        found.setdefault((unit.product, unit.size, unit.tree), []).append(unit)
    return tuple(Diagram(tuple(units), pattern_of(units[0].tree)) for units in found.values())


def diagram_pages(job: Job, layout: Layout, plan: CutPlan) -> list[Page]:
    """All patterns, column by column; no page when nothing is cut."""
    left = list(diagrams(plan))
    pages: list[Page] = []
    while left:
        page = Page(job.system, landscape=True)
        more = f", page {len(pages) + 1}" if pages else ""
        body = write_head(page, job.name, f"Cutting diagrams {layout.rank}{more}", ABOUT)
        left = left[_draw_page(page, body, left, job) :]
        pages.append(page)
    return pages


def _draw_page(page: Page, body: Box, left: Sequence[Diagram], job: Job) -> int:
    """Draw as many patterns as the page takes, line by line; return how many."""
    wide = (body.width - (COLUMNS - 1) * GAP) / COLUMNS
    directional = {product.name for product in job.products if product.directional}
    top, drawn = body.top - 4, 0
    while drawn < len(left):
        line = left[drawn : drawn + COLUMNS]
        tall = max(_height(diagram, wide) for diagram in line)
        if top - tall < body.bottom and drawn:
            break
        for i, diagram in enumerate(line):
            x = body.left + i * (wide + GAP)
            marked = diagram.units[0].product in directional
            _draw(page, Box(x, top - tall, x + wide, top), diagram, marked)
        top -= tall
        drawn += len(line)
    return drawn


def _scale(diagram: Diagram, wide: float) -> float:
    """Points a tick; the same for all units of a size."""
    long, across = diagram.units[0].size
    return min(wide / long, TALLEST / across)


def _height(diagram: Diagram, wide: float) -> float:
    return AIR + diagram.units[0].size[1] * _scale(diagram, wide) + CAPTION + 8


def _draw(page: Page, box: Box, diagram: Diagram, directional: bool) -> None:
    """Draw one pattern at the top of its box, and below it what is cut that way."""
    unit, scale = diagram.units[0], _scale(diagram, box.width)
    bottom = box.top - AIR - unit.size[1] * scale

    def at(point: Point) -> tuple[float, float]:
        return box.left + point[0] * scale, bottom + point[1] * scale

    corners = [(0, 0), (unit.size[0], 0), unit.size, (0, unit.size[1])]
    frame = [at(point) for point in corners]
    page.fill([frame], ink.SCRAP.fill, ink.SCRAP.hatch, ink.HATCH_INK, name="scrap")
    rings = [[at(point) for point in ring] for ring in diagram.pattern.rings]
    page.fill(rings, ink.WHITE, zorder=1.5, name="piece")
    page.lines([[*ring, ring[0]] for ring in rings], ink.JOINT)
    page.lines([[*frame, frame[0]]], ink.EDGE)
    cuts = [(at(start), at(end)) for start, end in diagram.pattern.cuts]
    page.lines(cuts, ink.SAW)
    page.keep_off = [*cuts]
    if directional:
        draw_arrows(
            page, Box(*(box.right - 9.5, box.top - 10), *(box.right - 0.5, box.top - 1)), [(1, 0)]
        )
    bounds = Box(box.left, bottom - 1, box.right, box.top)
    _name_pieces(page, unit, rings, bounds)
    _number_cuts(page, cuts, bounds)
    names = ", ".join(each.name for each in diagram.units)
    text = f"{len(diagram.units)} × {unit.product}: {names}"
    page.write(box.left, bottom - CAPTION, shorten(text, box.width, SIZE), SIZE)


def _name_pieces(
    page: Page, unit: Unit, rings: Sequence[Sequence[tuple[float, float]]], bounds: Box
) -> None:
    shaped = shaped_members(unit.tree)
    for i, ring in enumerate(rings):
        xs, ys = zip(*ring, strict=True)
        thing = Box(min(xs), min(ys), max(xs), max(ys))
        name = unit.pieces[i].id + ("*" if i in shaped else "")
        label = Label(name, SIZE, (thing.middle, thing.middle), bold=True, leader_from=4)
        place(page, label, list(around(thing, label)), bounds)


def _number_cuts(page: Page, cuts: Sequence[tuple[tuple[float, float], ...]], bounds: Box) -> None:
    for number, cut in enumerate(cuts, 1):
        (start, end) = cut
        label = Label(str(number), SIZE - 0.8, (start, end), backed=True)
        place(page, label, list(beside((start, end), label, (1, -1), (0.8, 0.2, 0.5))), bounds)
