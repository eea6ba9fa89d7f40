"""The set-out sheet of one layout: with it the lines go down with a tape and nothing else."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout, ZoneLayout
from models.job.data import Job
from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.chalk import chalk
from solver.sheets.cuts import marked
from solver.sheets.dimensions import dimension_lines, draw_check, label_edge_rows, number_rows
from solver.sheets.heads import HEAD, MARGIN, write_head
from solver.sheets.legend import line_legend, scale_bar
from solver.sheets.lettering import width, wrap
from solver.sheets.names import name_lines, name_things
from solver.sheets.page import Page
from solver.sheets.plan import Plan, draw_chalk, draw_marks, draw_pieces, draw_room
from solver.sheets.rows import Offset, offset_lines
from solver.sheets.steps import CAUTIONS, Step, steps
from solver.sheets.view import best_scale, bounds, fitted
from solver.sheets.words import bond_words, listed

FOOT, GAP = 34.0, 14.0
LABEL_BAND = 46.0
SIZE, LEAD = 7.4, 9.4
BESIDE, BELOW = 250.0, 232.0
"""Width of the words beside the plan, or their height below it."""


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
    arrangement = _arranged(job)
    page = Page(job.system, arrangement.landscape)
    _heading(page, job, layout, zone, "")
    lines = chalk(job, zone)
    missed = _draw_plan(page, job, layout, zone, arrangement.plan)
    _footing(page, job)
    boxes = list(arrangement.words)
    left = _write_steps(page, boxes[0], steps(job, zone, lines), missed)
    rest = boxes[1] if len(boxes) > 1 else Box(boxes[0].left, boxes[0].bottom, boxes[0].right, left)
    table = offset_lines(job, zone)
    columns = _fitting_columns(table, rest)
    if columns:
        _write_table(page, rest, table, columns)
        return [page]
    page.write(rest.left, rest.top - 9, "Row offsets: on the next page", 9, bold=True)
    return [page, *_table_pages(job, layout, zone, table)]


def _arranged(job: Job) -> Arrangement:
    """The arrangement that shows the plan larger: words beside it or below it."""
    sizes = bounds(job.room)
    tall, wide = (Page(job.system, landscape).box.grown(-MARGIN) for landscape in (False, True))
    below = _body(tall)
    cut = below.bottom + BELOW
    middle = below.left + below.width * 0.5
    first = Arrangement(
        False,
        Box(below.left, cut + GAP, below.right, below.top),
        (
            Box(below.left, below.bottom, middle - GAP / 2, cut),
            Box(middle + GAP / 2, below.bottom, below.right, cut),
        ),
    )
    beside = _body(wide)
    cut = beside.right - BESIDE
    second = Arrangement(
        True,
        Box(beside.left, beside.bottom, cut - GAP, beside.top),
        (Box(cut, beside.bottom, beside.right, beside.top),),
    )
    scales = [
        best_scale(sizes, a.plan.width - 2 * LABEL_BAND, a.plan.height - 2 * LABEL_BAND, job.system)
        for a in (first, second)
    ]
    return first if scales[0][0] >= scales[1][0] else second


def _body(inner: Box) -> Box:
    """What is left of a page between its head and its foot."""
    return Box(inner.left, inner.bottom + FOOT, inner.right, inner.top - HEAD)


def _heading(page: Page, job: Job, layout: Layout, zone: ZoneLayout, more: str) -> None:
    about = f"{zone.product}, {bond_words(job.field.bond)}, rows along {zone.direction.label}"
    best = "; ".join(layout.best_at)
    title = f"Set-out sheet {layout.rank}{more}"
    write_head(page, job.name, title, f"{zone.zone}: {about}. {best[:1].upper()}{best[1:]}.")


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
    start, cross = draw_chalk(plan, zone, lines)
    draw_marks(plan, zone, marked(job, layout, zone))
    number_rows(plan, zone)
    dimension_lines(plan, zone, lines)
    name_lines(plan, start, cross, 8)
    draw_check(plan, zone, lines)
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


def _write_steps(page: Page, box: Box, found: tuple[Step, ...], missed: tuple[str, ...]) -> float:
    """Write the steps down a box, numbered; return the height where they end."""
    y = box.top - 9
    page.write(box.left, y, "Setting out", 9, bold=True)
    page.write(box.right, y, "tape readings are square to the line", 6.4, "right", ink=ink.GREY)
    y -= LEAD + 2
    for i, step in enumerate(found, 1):
        head = f"{i}  {step.heading}: "
        first = width(head, SIZE, True) + 1.5
        lines = _wrapped_after(step.text, box.width, first)
        page.write(box.left, y, head.rstrip(), SIZE, bold=True)
        page.write(box.left + first, y, lines[0], SIZE)
        for line in lines[1:]:
            y -= LEAD
            page.write(box.left + 9, y, line, SIZE)
        y -= LEAD + 1.6
    if missed:
        for line in wrap(f"Not named on the plan: {listed(missed)}.", box.width, SIZE):
            page.write(box.left, y, line, SIZE)
            y -= LEAD
    return y


def _wrapped_after(text: str, room: float, first: float) -> list[str]:
    """Text in lines of which the first starts further in and the others a little."""
    words = text.split()
    count = len(words)
    while count and width(" ".join(words[:count]), SIZE) > room - first:
        count -= 1
    return [" ".join(words[:count]), *wrap(" ".join(words[count:]), room - 9, SIZE)]


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


def _columns(table: tuple[Offset, ...], box: Box, size: float) -> Columns:
    """How a table is set in a box in one type size."""
    name = max(width(line.name, size, True) for line in table)
    words = max(width(line.words, size) for line in table)
    lines = int((box.height - 24) / (size * 1.27))
    return Columns(size, max(1, int((box.width + 13) / (name + words + 18))), lines, name, words)


def _fitting_columns(table: tuple[Offset, ...], box: Box) -> Columns | None:
    """The largest type in which a whole table fits a box; None when none does."""
    settings = (_columns(table, box, size) for size in (9.5, 8.6, 8.0, SIZE))
    return next((each for each in settings if each.columns * each.lines >= len(table)), None)


def _write_table(page: Page, box: Box, table: tuple[Offset, ...], columns: Columns) -> None:
    """Write row offsets in columns, read downwards."""
    size = columns.size
    page.write(box.left, box.top - 9, "Row offsets", 9, bold=True)
    about = "row, and from cross line to end joint"
    page.write(box.right, box.top - 9, about, 6.4, "right", ink=ink.GREY)
    lines = -(-len(table) // columns.columns)
    for i, entry in enumerate(table):
        x = box.left + i // lines * columns.entry + columns.name
        y = box.top - 14 - (i % lines + 1) * size * 1.27
        page.write(x, y, entry.name, size, "right", bold=True)
        page.write(x + 5 + columns.words, y, entry.words, size, "right")


def _table_pages(
    job: Job, layout: Layout, zone: ZoneLayout, table: tuple[Offset, ...]
) -> list[Page]:
    """The row offsets on pages of their own."""
    pages = []
    while table:
        page = Page(job.system, landscape=False)
        box = _body(page.box.grown(-MARGIN))
        columns = _columns(table, box, SIZE)
        held = columns.columns * columns.lines
        _heading(page, job, layout, zone, ": row offsets")
        _write_table(page, box, table[:held], columns)
        table = table[held:]
        pages.append(page)
    return pages
