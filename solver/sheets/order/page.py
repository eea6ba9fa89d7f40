"""The printable order: units, cartons and cost of every product in each layout, side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from models.floor.layout import Layout, Need, Solution
from models.job.data import Job
from solver.sheets.compare.figures import least_words
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.lettering import width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.order.table import spare_cartons
from solver.sheets.words import capital, counted, length, money, percent, unit_words

SIZE, LEAD, GAP = 9.0, 13.0, 14.0
LABEL = 118.0
ABOUT = "What each layout needs of each product. Bold figures are the lowest of those shown."
MIXED = "Of a product of several lengths, cartons go by the length that runs out first."
WASTE = (
    "Waste is the area of all units cut from, joints counted, less the floor they cover, as a "
    "share of that floor; breakage and spares are not in it."
)
SAME_LOT = (
    "Order each product in one go and check that all its cartons carry the same lot number: "
    "colour and size may differ from lot to lot, and what is bought later may not match."
)
_FOOT = 64.0


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: its name, a value and a rank for each layout.

    The lowest ranks are set in bold, unless all are alike or there are none.
    """

    name: str
    values: tuple[str, ...]
    ranks: tuple[float, ...] = ()

    @property
    def best(self) -> frozenset[int]:
        """Which layouts' values are the lowest."""
        if len(set(self.ranks)) < 2:
            return frozenset()
        return frozenset(i for i, rank in enumerate(self.ranks) if rank == min(self.ranks))


@dataclass(frozen=True, slots=True)
class Block:
    """A heading and its rows: one product, or the whole floor."""

    title: str
    rows: tuple[Row, ...]


def order_blocks(solution: Solution) -> tuple[Block, ...]:
    """The table of the order: a block for each product, then one for the whole floor."""
    job, layouts = solution.job, solution.layouts
    found = []
    for product in job.products:
        needs = [_need(layout, product.name) for layout in layouts]
        laid = [need for need in needs if need is not None]
        if len(laid) == len(needs):
            title = f"{product.name}, {unit_words(job, product)}, {product.per_carton} to a carton"
            found.append(Block(title, tuple(_product_rows(job, laid))))
    found.append(Block("The whole floor", tuple(_whole_rows(job, layouts))))
    return tuple(found)


def _need(layout: Layout, product: str) -> Need | None:
    return next((need for need in layout.figures.needs if need.product == product), None)


def _product_rows(job: Job, needs: list[Need]) -> Iterator[Row]:
    """What one product comes to in each layout."""

    def row(name: str, values: list[int]) -> Row:
        return Row(name, tuple(map(str, values)), tuple(values))

    yield row("Units to cut from", [need.units for need in needs])
    for each, _ in needs[0].lengths:
        counts = (dict(need.lengths).get(each, 0) for need in needs)
        yield Row(f"{length(job, each)} long", tuple(map(str, counts)))
    yield Row("Least possible", tuple(f"{n.units_at_least}, {_proof(n)}" for n in needs))
    yield Row(
        "Waste",
        tuple(percent(need.waste_percent) for need in needs),
        tuple(need.waste_percent for need in needs),
    )
    yield row("Units for breakage", [need.breakage_units for need in needs])
    yield row("Spare units", [need.spare_units for need in needs])
    yield Row("Cartons", tuple(map(_cartons, needs)), tuple(need.cartons for need in needs))
    if job.spare_carton_per:
        yield row("of them spare cartons", [spare_cartons(job, need) for need in needs])
    costs = [need.cost for need in needs if need.cost is not None]
    if len(costs) == len(needs):
        yield Row("Cost", tuple(money(job, cost) for cost in costs), tuple(map(float, costs)))


def _proof(need: Need) -> str:
    return least_words(need) if need.proved else f"gap {need.units - need.units_at_least}"


def _cartons(need: Need) -> str:
    if need.cartons == need.cartons_at_least:
        return f"{need.cartons}: no layout needs fewer"
    return f"{need.cartons}, least possible {need.cartons_at_least}"


def _whole_rows(job: Job, layouts: tuple[Layout, ...]) -> Iterator[Row]:
    """What all products come to in each layout."""
    figures = [layout.figures for layout in layouts]
    cartons = [f.cartons for f in figures]
    yield Row("Cartons to buy", tuple(map(str, cartons)), tuple(cartons))
    costs = [f.cost for f in figures if f.cost is not None]
    if len(costs) == len(figures):
        yield Row("Cost", tuple(money(job, cost) for cost in costs), tuple(map(float, costs)))
        least = min(costs)
        more = tuple(money(job, cost - least) if cost > least else "the least" for cost in costs)
        if max(costs) > least:
            yield Row("More than the least", more)
    elif any(need.cost is not None for f in figures for need in f.needs):
        yield Row("Cost", ("not every product has a price",) * len(figures))


def order_pages(solution: Solution) -> list[Page]:
    """The printable order; more than one page only when there are very many products."""
    pages: list[Page] = []
    blocks = list(order_blocks(solution))
    while blocks:
        page = Page(solution.job.system, landscape=True)
        more = f", page {len(pages) + 1}" if pages else ""
        body = write_head(page, solution.job.name, f"Order summary{more}", ABOUT)
        y = _write_layouts(page, body, solution.layouts)
        written = 0
        for block in blocks:
            needed = _height(block, _column(body, len(solution.layouts)))
            if written and y - needed < body.bottom + _FOOT:
                break
            y = _write_block(page, body, y, block)
            written += 1
        blocks = blocks[written:]
        _write_foot(page, body, solution.job)
        pages.append(page)
    return pages


def _column(body: Box, count: int) -> float:
    """The width of one layout's column."""
    return (body.width - LABEL - (count - 1) * GAP) / count


def _lefts(body: Box, count: int) -> list[float]:
    return [body.left + LABEL + i * (_column(body, count) + GAP) for i in range(count)]


def _write_layouts(page: Page, body: Box, layouts: tuple[Layout, ...]) -> float:
    """Number and merits of each layout over its column; returns where the table may start."""
    wide = _column(body, len(layouts))
    lowest = body.top
    for layout, left in zip(layouts, _lefts(body, len(layouts)), strict=True):
        page.write(left, body.top - 16, str(layout.rank), 15, bold=True, ink=ink.CHALK)
        x = left + width(str(layout.rank), 15, True) + 6
        lines = wrap(capital("; ".join(layout.best_at)), wide - (x - left), 8, True)[:3]
        for i, line in enumerate(lines):
            page.write(x, body.top - 10 - 10 * i, line, 8, bold=True)
        lowest = min(lowest, body.top - 10 - 10 * len(lines))
    return min(lowest, body.top - 20) - 4


def _lines(row: Row, wide: float) -> list[list[str]]:
    """Each layout's value broken into lines."""
    return [wrap(value, wide, SIZE, i in row.best) for i, value in enumerate(row.values)]


def _height(block: Block, wide: float) -> float:
    lines = sum(max(map(len, _lines(row, wide))) for row in block.rows)
    return (lines + 1) * LEAD + 8


def _write_block(page: Page, body: Box, top: float, block: Block) -> float:
    """Write one block of rows; return where the next may start."""
    count = len(block.rows[0].values)
    wide, lefts = _column(body, count), _lefts(body, count)
    y = top - LEAD
    page.write(body.left, y, block.title, SIZE + 0.5, bold=True)
    page.lines([((body.left, y - 3.5), (body.right, y - 3.5))], ink.HEAVY_RULE)
    for row in block.rows:
        y -= LEAD
        page.write(body.left, y, row.name, SIZE, ink=ink.GREY)
        lines = _lines(row, wide)
        for i, (left, words) in enumerate(zip(lefts, lines, strict=True)):
            for n, line in enumerate(words):
                page.write(left, y - n * LEAD, line, SIZE, bold=i in row.best)
        y -= (max(map(len, lines)) - 1) * LEAD
        page.lines([((body.left, y - 3.5), (body.right, y - 3.5))], ink.RULE)
    return y - 8


def _write_foot(page: Page, body: Box, job: Job) -> None:
    """What waste and spares mean, and the reminder on lots."""
    page.lines(
        [((body.left, body.bottom + _FOOT - 6), (body.right, body.bottom + _FOOT - 6))],
        ink.HEAVY_RULE,
    )
    mixed = [MIXED] if any(product.mix for product in job.products) else []
    words = " ".join((WASTE, _spare_words(job), *mixed))
    lines = wrap(words, body.width, 8) + wrap(SAME_LOT, body.width, 8)
    for i, line in enumerate(lines[:6]):
        page.write(body.left, body.bottom + _FOOT - 17 - i * 10, line, 8)


def _spare_words(job: Job) -> str:
    """What is bought on top, in the job's own terms."""
    parts = []
    if job.breakage_percent:
        parts.append(f"{float(job.breakage_percent):g} % of the units for breakage")
    if job.spare_percent:
        parts.append(f"{float(job.spare_percent):g} % of the units as spares")
    if job.spare_units:
        parts.append(f"{counted(job.spare_units, 'spare unit')} of each product")
    if job.spare_carton_per:
        parts.append(f"one spare carton for every {job.spare_carton_per} or part of them")
    if not parts:
        return "Cartons hold the units and nothing more: the job asks for no spares."
    return f"Cartons also hold {', '.join(parts)}."
