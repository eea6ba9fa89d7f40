"""The page: every alternative has its figures and bars, and nothing is written over another."""

from __future__ import annotations

import numpy as np
import pytest

from solver.sheets.drawing.page import Page
from solver.weigh.bars import COST_TONE, FLOOR_TONE, LEFT_TONE, WASTE_TONE
from solver.weigh.outcome import Weighing
from solver.weigh.page import weigh_pages
from tests.sheets.drawn import fills, off_page, overlaps, texts
from tests.weigh.samples import REASON, SLIVER, full, job, outcome, weighed, weighing

TWO = weighing(
    outcome("Driftwood plank", weighed(5, 400)), outcome("Shingle tile", weighed(20, 300))
)


def lengths(page: Page, tone: tuple[str, object]) -> list[float]:
    """How long the parts of the bars in one tone are, from the top of the page down."""
    boxes = [patch.get_path().get_extents() for patch in fills(page, tone[0])]
    return [float(box.width) for box in sorted(boxes, key=lambda box: -box.y0)]


def test_every_alternative_has_its_figures() -> None:
    (page,) = weigh_pages(TWO)
    found = texts(page)
    for text in ("Driftwood plank", "Shingle tile", "93, gap 2", "5.0 %", "20.0 %", "61 mm", "41"):
        assert text in found
    assert found.count("400.00") == 2  # in the table and at the end of the bar
    assert "lowest" in found
    assert "cheapest" in found


def test_bars_are_to_scale() -> None:
    (page,) = weigh_pages(TWO)
    floor, waste, left, cost = (
        lengths(page, tone) for tone in (FLOOR_TONE, WASTE_TONE, LEFT_TONE, COST_TONE)
    )
    assert floor[0] == pytest.approx(floor[1])
    np.testing.assert_allclose(waste, [floor[0] * 0.05, floor[0] * 0.20])
    np.testing.assert_allclose(left, [floor[0] * 0.9 / 12] * 2)
    assert cost[1] == pytest.approx(cost[0] * 0.75)


def test_all_pages_have_one_scale() -> None:
    pages = weigh_pages(
        weighing(*(outcome(f"plank {n}", weighed(3 + n, 100 + n)) for n in range(13)))
    )
    assert len(pages) == 2
    assert lengths(pages[1], FLOOR_TONE)[0] == pytest.approx(lengths(pages[0], FLOOR_TONE)[0])
    assert lengths(pages[1], COST_TONE)[0] > lengths(pages[0], COST_TONE)[-1]


@pytest.mark.parametrize(
    "found",
    [
        full(12),
        full(27),
        TWO,
        weighing(outcome("a", weighed(5)), outcome("b", None, REASON)),
        weighing(
            outcome("one", weighed(5, 9_999_999, (SLIVER,) * 3, 123_456)),
            outcome("A tile of an uncommonly long name, along the wall of the uncommon name", None),
            outcome("c", weighed(205, 12)),
            of=job(currency='"EUR"', system="feet-inches"),
        ),
    ],
)
def test_no_text_meets_another_or_leaves_the_page(found: Weighing) -> None:
    for page in weigh_pages(found):
        assert overlaps(page) == []
        assert off_page(page) == []


def test_twelve_fit_a_page() -> None:
    assert [len(weigh_pages(full(count))) for count in (12, 13, 24, 25)] == [1, 2, 2, 3]


def test_waste_is_defined_once() -> None:
    (page,) = weigh_pages(TWO)
    assert sum("Waste is the area" in text for text in texts(page)) == 1


def test_without_prices_there_is_no_cost() -> None:
    (page,) = weigh_pages(weighing(outcome("a", weighed(5)), outcome("b", weighed(6))))
    assert "Cost" not in texts(page)
    assert fills(page, COST_TONE[0]) == []


def test_what_has_no_figures_says_why() -> None:
    (page,) = weigh_pages(
        weighing(outcome("a", weighed(5)), outcome("b", None, REASON), outcome("c", None))
    )
    found = " ".join(texts(page))
    assert "Cannot be laid. Field, bond: 'tile' comes in several lengths" in found
    assert "Not solved: the work was stopped first." in found
    assert "of those solved" in found


def test_many_that_tie_are_named_as_far_as_there_is_room() -> None:
    (page,) = weigh_pages(
        weighing(*(outcome(f"Weathered driftwood plank {n}", weighed(5, 100)) for n in range(12)))
    )
    assert sum(text.endswith("…") for text in texts(page)) == 1
    assert overlaps(page) == []
    assert off_page(page) == []


def test_the_direction_of_a_pair_has_its_own_line() -> None:
    (page,) = weigh_pages(
        weighing(
            outcome("Shingle tile", weighed(5), way="along sea wall"),
            outcome("Shingle tile", weighed(6), way="along lane wall"),
        )
    )
    assert {"along sea wall", "along lane wall"} <= set(texts(page))
