"""The printed table of alternatives, with bars of what is bought beside the floor's area."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.lettering import shorten, width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.order.page import WASTE
from solver.sheets.words import capital
from solver.weigh.bars import Scale, draw_bars, draw_legend, scale_of
from solver.weigh.columns import (
    CANNOT,
    NO_BREAK,
    NOT_SOLVED,
    about,
    columns_of,
    merits_of,
    verdict_lines,
)
from solver.weigh.outcome import Outcome, Weighing

ON_A_PAGE = 12
SIZE, LEAD, GAP = 8.5, 10.0, 11.0
NAME, WIDEST = 142.0, 62.0
HEAD, FOOT, TALLEST = 26.0, 78.0, 44.0
LEFT = (
    "Left in the cartons are the spares, the units for breakage, and what whole cartons hold "
    "beyond them; joints are counted in all areas."
)


@dataclass(frozen=True, slots=True)
class Grid:
    """Where the columns stand: their left edges and widths, and the place of the bars."""

    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    bars: Box


def weigh_pages(weighing: Weighing) -> list[Page]:
    """The table on as many pages as it takes, all bars to one scale."""
    outcomes = weighing.outcomes
    groups = [outcomes[i : i + ON_A_PAGE] for i in range(0, len(outcomes), ON_A_PAGE)]
    return [
        _page(weighing, group, f", page {number}" if number > 1 else "")
        for number, group in enumerate(groups, 1)
    ]


def _page(weighing: Weighing, outcomes: Sequence[Outcome], more: str) -> Page:
    """One page of the table."""
    page = Page(weighing.job.system, landscape=True)
    body = write_head(page, weighing.job.name, f"Alternatives weighed{more}", about(weighing))
    grid = _grid(weighing, body)
    scale = scale_of(weighing, grid.bars)
    top = _write_heads(page, weighing, grid, body)
    most = min(ON_A_PAGE, len(weighing.outcomes))
    tall = min(TALLEST, (top - body.bottom - FOOT) / most)
    for outcome in outcomes:
        band = Box(body.left, top - tall, body.right, top)
        _write_row(page, weighing, grid, scale, band, outcome)
        top -= tall
        page.lines([((body.left, top), (body.right, top))], ink.RULE)
    _write_foot(page, weighing, body)
    return page


def _grid(weighing: Weighing, body: Box) -> Grid:
    """Columns as wide as their figures ask, the bars in what is left."""
    widths = []
    for column in columns_of(weighing):
        cells = [column.words(weighing.job, weighed) for _, weighed in weighing.solved]
        heads = [width(word, SIZE, True) for word in column.head.split()]
        widths.append(min(WIDEST, max(*heads, *(width(cell, SIZE, True) for cell in cells))))
    lefts, x = [], body.left + NAME + GAP
    for wide in widths:
        lefts.append(x)
        x += wide + GAP
    return Grid(tuple(lefts), tuple(widths), Box(x, body.bottom, body.right, body.top))


def _write_heads(page: Page, weighing: Weighing, grid: Grid, body: Box) -> float:
    """The heads of the columns; returns where the rows may start."""
    base = body.top - HEAD + 6
    page.write(body.left, base, "Alternative", SIZE, bold=True)
    columns = columns_of(weighing)
    for column, left, wide in zip(columns, grid.lefts, grid.widths, strict=True):
        lines = wrap(column.head, wide, SIZE, bold=True)
        for i, line in enumerate(lines):
            page.write(left, base + (len(lines) - 1 - i) * LEAD, line, SIZE, bold=True)
    words = "Bought, and its cost" if weighing.priced else "Bought"
    page.write(grid.bars.left, base, words, SIZE, bold=True)
    low = body.top - HEAD
    page.lines([((body.left, low), (body.right, low))], ink.HEAVY_RULE)
    return low


def _write_row(
    page: Page, weighing: Weighing, grid: Grid, scale: Scale, band: Box, outcome: Outcome
) -> None:
    """One alternative: its name and merits, its figures, its bars."""
    merits = merits_of(weighing, outcome.name)
    first = band.top - SIZE - 2.5
    for i, line in enumerate(_name_lines(outcome, bool(merits))):
        page.write(band.left, first - i * LEAD, line, SIZE, bold=bool(merits))
    if outcome.weighed is None:
        _write_reason(page, grid, band, outcome)
        return
    columns = columns_of(weighing)
    for column, left, wide in zip(columns, grid.lefts, grid.widths, strict=True):
        word = merits.get(column.head, "")
        lines = _wrap_cell(column.words(weighing.job, outcome.weighed), wide, bool(word))
        for i, line in enumerate(lines):
            page.write(left, first - i * LEAD, line, SIZE, bold=bool(word))
        if word:
            page.write(left, first - len(lines) * LEAD, word, 7, bold=True, ink=ink.CHALK)
    draw_bars(page, weighing.job, scale, band, outcome.weighed)


def _name_lines(outcome: Outcome, bold: bool) -> list[str]:
    """A name in at most three lines, the last for the direction of a pair."""
    first, *rest = outcome.alternative.parts
    lines = _at_most(3 - len(rest), first, NAME, SIZE, bold)
    return lines + [shorten(part, NAME, SIZE, bold) for part in rest]


def _at_most(count: int, text: str, room: float, size: float, bold: bool = False) -> list[str]:
    """The text in at most so many lines, the last one shortened."""
    lines = wrap(text, room, size, bold)
    if len(lines) <= count:
        return lines
    return [*lines[: count - 1], shorten(" ".join(lines[count - 1 :]), room, size, bold)]


def _wrap_cell(text: str, wide: float, bold: bool) -> list[str]:
    """A cell in at most three lines, no-break spaces kept whole."""
    words, lines = text.split(" "), [""]
    for word in words:
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width(longer, SIZE, bold) > wide:
            lines.append(word)
        else:
            lines[-1] = longer
    return [shorten(line.replace(NO_BREAK, " "), wide + GAP, SIZE, bold) for line in lines[:3]]


def _write_reason(page: Page, grid: Grid, band: Box, outcome: Outcome) -> None:
    """Why there are no figures."""
    why = outcome.alternative.reason
    words = f"{capital(CANNOT)}. {capital(why)}." if why else f"{capital(NOT_SOLVED)}."
    most = max(1, int((band.height - 4) / LEAD))
    for i, line in enumerate(_at_most(most, words, band.right - grid.lefts[0], SIZE)):
        page.write(grid.lefts[0], band.top - SIZE - 2.5 - i * LEAD, line, SIZE, ink=ink.GREY)


def _write_foot(page: Page, weighing: Weighing, body: Box) -> None:
    """The key of the bars, which alternatives are best, and what waste means."""
    y = body.bottom + FOOT - 8
    page.lines([((body.left, y), (body.right, y))], ink.HEAVY_RULE)
    y -= 14
    draw_legend(page, body.left, y, weighing)
    y -= 4
    lines = _at_most(2, " ".join(verdict_lines(weighing)), body.width, 8, bold=True)
    for line in lines:
        y -= 11
        page.write(body.left, y, line, 8, bold=True)
    for line in wrap(f"{WASTE} {LEFT}", body.width, 8)[: 5 - len(lines)]:
        y -= 10
        page.write(body.left, y, line, 8)
