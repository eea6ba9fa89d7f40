"""How units are cut up: every pattern drawn once, to scale, with its pieces and its cuts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import Polygon
from shapely import box as polygon_of

from models.floor.layout import Layout
from models.job.data import Job, Point
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box, Segment, box_round
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.labels import Label, Spot, around, place
from solver.sheets.drawing.lettering import shorten
from solver.sheets.drawing.page import Page, label_box
from solver.sheets.drawing.view import Place
from solver.sheets.drawing.zones import draw_arrows
from solver.stock.cutplan.pattern import Pattern, pattern_of
from solver.stock.cutplan.steps import CutPlan, Unit
from solver.stock.cutplan.trims import shaped_members

COLUMNS = 4
GAP = 16.0
TALLEST = 84.0
"""The most points a unit's width takes on paper."""
NARROWEST = 100.0
"""The least points a place is wide, for the names beside small pieces."""
AIR, CAPTION, MARK = 11.0, 9.0, 9.0
"""Points kept free above a unit for the numbers of its cuts; a caption's height; the
direction mark's width."""
SIZE = 6.6
NEAR = (1, 4, 8, 13, 19, 26, 34)
"""How far from a small piece its name may stand, in points, near places first."""
ABOUT = (
    "Every way a unit is cut up, once, to scale: pieces white, scrap hatched, cuts numbered in "
    "the order they are made. Units lie face up, the head end to the right; pieces are named "
    "for the first unit told below. A piece with a star is then cut to shape."
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
    style: _Style | None = None
    pages: list[Page] = []
    while left:
        page = Page(job.system, landscape=True)
        more = f", page {len(pages) + 1}" if pages else ""
        body = write_head(page, job.name, f"Cutting diagrams {layout.rank}{more}", ABOUT)
        style = style or _style(job, left, body.width)
        left = left[_draw_page(page, body, left, style) :]
        pages.append(page)
    return pages


@dataclass(frozen=True, slots=True)
class _Style:
    """How units are drawn: points a tick and direction mark, by product; how many in a line."""

    scales: dict[str, float]
    marked: frozenset[str]
    columns: int


def _style(job: Job, found: Sequence[Diagram], room: float) -> _Style:
    """All units of a product to one scale, the longest of them as wide as its place."""
    wide = (room - (COLUMNS - 1) * GAP) / COLUMNS
    scales: dict[str, float] = {}
    for diagram in found:
        unit = diagram.units[0]
        scale = min(wide / unit.size[0], TALLEST / unit.size[1])
        scales[unit.product] = min(scales.get(unit.product, scale), scale)
    widest = max(d.units[0].size[0] * scales[d.units[0].product] for d in found)
    columns = max(COLUMNS, int((room + GAP) / (max(widest, NARROWEST) + GAP)))
    return _Style(scales, frozenset(p.name for p in job.products if p.directional), columns)


def _draw_page(page: Page, body: Box, left: Sequence[Diagram], style: _Style) -> int:
    """Draw as many patterns as the page takes, line by line; return how many."""
    wide = (body.width - (style.columns - 1) * GAP) / style.columns
    top, drawn = body.top - 4, 0
    while drawn < len(left):
        line = left[drawn : drawn + style.columns]
        tall = max(_tall(diagram.units[0], style) for diagram in line) + AIR + CAPTION + 8
        if top - tall < body.bottom and drawn:
            break
        for i, diagram in enumerate(line):
            x = body.left + i * (wide + GAP)
            _draw(page, Box(x, top - tall, x + wide, top), diagram, style)
        top -= tall
        drawn += len(line)
    return drawn


def _tall(unit: Unit, style: _Style) -> float:
    return unit.size[1] * style.scales[unit.product]


def _draw(page: Page, box: Box, diagram: Diagram, style: _Style) -> None:
    """Draw one pattern at the top of its box, and below it what is cut that way."""
    unit = diagram.units[0]
    scale, bottom = style.scales[unit.product], box.top - AIR - _tall(unit, style)

    def at(point: Point) -> tuple[float, float]:
        return box.left + point[0] * scale, bottom + point[1] * scale

    frame = [at(point) for point in ((0, 0), (unit.size[0], 0), unit.size, (0, unit.size[1]))]
    page.fill([frame], ink.SCRAP.fill, ink.SCRAP.hatch, ink.HATCH_INK, name="scrap")
    rings = [[at(point) for point in ring] for ring in diagram.pattern.rings]
    page.fill(rings, ink.WHITE, zorder=1.5, name="piece")
    page.lines([[*ring, ring[0]] for ring in rings], ink.JOINT)
    page.lines([[*frame, frame[0]]], ink.EDGE)
    cuts = [(at(start), at(end)) for start, end in diagram.pattern.cuts]
    page.lines(cuts, ink.SAW)
    sides = [
        side for ring in (*rings, frame) for side in zip(ring, [*ring[1:], ring[0]], strict=True)
    ]
    page.keep_off = [*cuts, *sides]
    right = box.left + unit.size[0] * scale
    if unit.product in style.marked:
        mark = Box(right - MARK, box.top - 1 - MARK, right, box.top - 1)
        draw_arrows(page, mark, [(1, 0)])
    bounds = Box(box.left - 2, bottom - 1, max(box.right, right) + 2, box.top + 2)
    _number_cuts(page, cuts, bounds)
    _name_pieces(page, unit, rings, bounds)
    text = f"{len(diagram.units)} × "
    text += f"{unit.product}: " if len(style.scales) > 1 else ""
    text += ", ".join(each.name for each in diagram.units)
    page.write(box.left, bottom - CAPTION, shorten(text, box.width, SIZE), SIZE)


def _sides(ring: Sequence[Place]) -> list[Segment]:
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))


def _name_pieces(page: Page, unit: Unit, rings: Sequence[Sequence[Place]], bounds: Box) -> None:
    """Name the pieces, each inside if there is room; the small ones beside, with a leader."""
    shaped = shaped_members(unit.tree)
    for i, ring in enumerate(rings):
        shape = Polygon(ring)
        middle = (shape.centroid.x, shape.centroid.y)
        name = unit.pieces[i].id + ("*" if i in shaped else "")
        label = Label(name, SIZE, (middle, middle), bold=True, backed=True, leader_from=3)
        own = label_box(middle, name, SIZE, False, bold=True)
        inside = [(middle, False)] if shape.contains(polygon_of(*own.grown(-0.5))) else []
        place(page, label, [*inside, *around(box_round(middle, 2, 2), label, NEAR)], bounds)


def _number_cuts(page: Page, cuts: Sequence[Segment], bounds: Box) -> None:
    """Number the cuts: above the unit where they reach its top, or else beside the line."""
    for number, cut in enumerate(cuts, 1):
        label = Label(str(number), SIZE - 0.8, cut, backed=True, leader_from=6)
        place(page, label, list(_spots(cut, bounds.top - AIR - 2)), bounds)


def _spots(cut: Segment, top: float) -> Iterator[Spot]:
    (x0, y0), (x1, y1) = sorted(cut, key=lambda point: (point[1], point[0]))
    steep = y1 - y0 > abs(x1 - x0)
    if steep and y1 > top - 1:
        for shift in (0, -4, 4, -7, 7):
            yield (x1 + shift, y1 + 4.5), False
    for part in (0.88, 0.12, 0.5, 0.7, 0.3):
        x, y = x0 + part * (x1 - x0), y0 + part * (y1 - y0)
        for gap in (4.0, -4.0):
            yield ((x + gap, y) if steep else (x, y + gap)), False
