"""The bound on units: never above the least there is, and met where it should be."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.bound import least_units, scales, weights
from solver.stock.parts import Part, Sits, Stock
from tests.stock.sheet import can_be_cut, least, part, parts

PLANK = Stock(8, 4, 1, directional=True)
TILE = Stock(6, 6, 1, directional=False)
STOCKS = (
    PLANK,
    replace(PLANK, directional=False),
    replace(PLANK, kerf=0, shop_cuts=True),
    TILE,
    replace(TILE, kerf=0, shop_cuts=True),
)


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=80, deadline=None, derandomize=True)
def test_no_packing_takes_less(data: st.DataObject, stock: Stock) -> None:
    found = data.draw(st.lists(parts(stock), max_size=6))
    assert least_units(found, stock) <= least(found, stock)


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=80, deadline=None, derandomize=True)
def test_no_unit_holds_more_than_one(data: st.DataObject, stock: Stock) -> None:
    found = data.draw(st.lists(parts(stock), min_size=1, max_size=4))
    if can_be_cut(found, stock):
        assert weights(found, [1] * len(found), stock, most=1000).sum(axis=1).max() <= 1 + 1e-9


def ends(*sizes: int, sits: Sits = Sits.LOW) -> list[Part]:
    return [part(sits, size, Sits.FULL, 4) for size in sizes]


def test_ends_of_one_side_are_one_a_unit() -> None:
    assert least_units(ends(1, 1, 1), PLANK) == 3
    # Turned round, two fit a unit but never three, short as they are.
    assert least_units(ends(1, 1, 1), replace(PLANK, directional=False)) == 2
    assert least_units(ends(1, 1, 1), replace(PLANK, shop_cuts=True)) == 1


def test_two_ends_that_are_too_long_together_are_two_units() -> None:
    assert least_units([*ends(4), *ends(4, sits=Sits.HIGH)], PLANK) == 2
    assert least_units([*ends(4), *ends(3, sits=Sits.HIGH)], PLANK) == 1


def test_more_than_half_a_unit_is_a_unit() -> None:
    # Area alone says 2.
    assert least_units(ends(5, 5, 5, sits=Sits.FREE), PLANK) == 3


def test_area_counts_with_its_kerfs() -> None:
    strips = [part(Sits.FREE, 8, Sits.FREE, 1)] * 4
    assert least_units(strips, PLANK) == 2
    assert least_units(strips, replace(PLANK, kerf=0)) == 1


def test_slanted_ends_count_for_what_they_take_over_their_whole_width() -> None:
    stock = Stock(200, 40, 0, directional=True)
    nested = [part(sits, 115, Sits.FULL, 40, lean=30) for sits in (Sits.LOW, Sits.HIGH)]
    assert least_units(nested, stock) == 1


def test_whole_units_are_counted() -> None:
    whole = part(Sits.FULL, 8, Sits.FULL, 4)
    assert least_units([], PLANK) == 0
    assert least_units([whole, whole], PLANK) == 2
    assert least_units([whole, *ends(2), whole], PLANK) == 3


def test_a_long_list_is_bounded_with_few_limits() -> None:
    sizes = [(Sits.LOW if i % 2 else Sits.HIGH, 1000 + 7 * i) for i in range(300)]
    found = scales(sizes, 5000, 3, turn=True, most=10)
    assert len(found) < 40
    assert np.all((found >= 0) & (found <= 1))
