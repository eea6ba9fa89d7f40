from dataclasses import replace
from fractions import Fraction

from models.floor.layout import Need, Solution
from models.job.data import Job
from solver.sheets.order.page import Block, order_blocks, order_pages
from tests.sheets.drawn import overlaps, texts
from tests.sheets.floors import border_solution, mirror_solution

Pair = tuple[Job, Solution]


def rows(block: Block) -> dict[str, tuple[str, ...]]:
    return {row.name: row.values for row in block.rows}


def with_needs(solution: Solution, *needs: Need) -> Solution:
    """A solution whose layouts need these of one product."""
    layouts = tuple(
        replace(layout, figures=replace(layout.figures, needs=(need,), cost=need.cost))
        for layout, need in zip(solution.layouts, needs, strict=True)
    )
    return replace(solution, layouts=layouts)


def test_every_product_and_the_whole_floor_have_a_block() -> None:
    titles = [block.title for block in order_blocks(border_solution())]
    assert titles == [
        'Driftwood plank 48 x 6, unit 4\' 0" × 6", 12 to a carton',
        'Shingle tile 9, unit 9" × 9", 20 to a carton',
        "The whole floor",
    ]


def test_costs_are_compared(planks: Pair) -> None:
    need = planks[1].layouts[0].figures.needs[0]
    costs = [replace(need, cost=Fraction(cost)) for cost in ("1200", "1261.5", "1200")]
    job = replace(planks[0], currency="$")
    *_, whole = order_blocks(replace(with_needs(planks[1], *costs), job=job))
    assert rows(whole)["Cost"] == ("$1,200.00", "$1,261.50", "$1,200.00")
    assert rows(whole)["More than the least"] == ("the least", "$61.50", "the least")
    cost = next(row for row in whole.rows if row.name == "Cost")
    assert cost.best == {0, 2}


def test_without_prices_there_is_no_cost(planks: Pair) -> None:
    assert all("Cost" not in rows(block) for block in order_blocks(planks[1]))


def test_a_product_without_a_price_leaves_the_whole_cost_open() -> None:
    solution = border_solution()
    layouts = tuple(
        replace(
            layout,
            figures=replace(
                layout.figures,
                needs=(layout.figures.needs[0], replace(layout.figures.needs[1], cost=None)),
                cost=None,
            ),
        )
        for layout in solution.layouts
    )
    *_, whole = order_blocks(replace(solution, layouts=layouts))
    assert rows(whole)["Cost"][0] == "not every product has a price"


def test_least_cartons_are_called_so_only_when_they_are(planks: Pair) -> None:
    need = planks[1].layouts[0].figures.needs[0]
    fewer = replace(need, cartons_at_least=need.cartons - 1)
    first, _ = order_blocks(with_needs(planks[1], need, fewer, need))
    least, more, _ = rows(first)["Cartons"]
    assert least == f"{need.cartons}: no layout needs fewer"
    assert more == f"{need.cartons}, least possible {need.cartons - 1}"


def test_mixed_lengths_are_counted_one_by_one() -> None:
    solution = mirror_solution()
    first, *_ = order_blocks(solution)
    found = rows(first)
    counts = [int(found[f"{feet}' 0\" long"][0]) for feet in (4, 3, 2)]
    assert sum(counts) == int(found["Units to cut from"][0])


def test_the_page_defines_waste_once_and_reminds_of_the_lot() -> None:
    (page,) = order_pages(border_solution())
    told = " ".join(texts(page))
    assert told.count("as a share of that floor") == 1
    assert "same lot number" in told
    assert "2 % of the units for breakage, 5 % of the units as spares" in told
    assert overlaps(page) == []


def test_many_products_go_on_over_pages() -> None:
    solution = border_solution()
    names = [f"tile {i}" for i in range(9)]
    products = tuple(replace(solution.job.products[1], name=name) for name in names)
    layouts = tuple(
        replace(
            layout,
            figures=replace(
                layout.figures,
                needs=tuple(replace(layout.figures.needs[1], product=name) for name in names),
            ),
        )
        for layout in solution.layouts
    )
    job = replace(solution.job, products=products)
    pages = order_pages(replace(solution, job=job, layouts=layouts))
    assert len(pages) > 1
    assert "Order summary, page 2" in texts(pages[1])
    assert all(overlaps(page) == [] for page in pages)
