"""What fits one unit, against trying every place in it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.cutting import Cutter, Spent, nests
from solver.stock.parts import Part, Sits, Stock
from tests.stock.sheet import can_be_cut, part, parts

PLANK = Stock(8, 5, 1, directional=True)
STOCKS = (
    PLANK,
    replace(PLANK, kerf=0, directional=False),
    replace(PLANK, within=1),
    replace(PLANK, scrap=2),
    replace(PLANK, directional=False, scrap=3),
    Stock(6, 6, 1, directional=False),
    Stock(6, 6, 0, directional=False, scrap=2),
)


def fit(found: list[Part], stock: Stock, work: int = 10**6) -> bool:
    return Cutter(found, stock, work).fits(tuple(range(len(found))))


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=120, deadline=None, derandomize=True)
def test_parts_fit_when_some_places_can_be_cut(data: st.DataObject, stock: Stock) -> None:
    drawn = data.draw(st.lists(parts(stock, rows=3), min_size=1, max_size=4))
    found = [replace(one, cut=place) for place, one in enumerate(drawn)]
    # The sheet lays parts by row first, the cutter by their number alone.
    rows = found if stock.within is not None else [replace(one, row=1) for one in found]
    assert fit(rows, replace(stock, scrap=0)) == can_be_cut(rows, replace(stock, scrap=0))
    plain = [replace(one, row=1) for one in found]
    assert fit(plain, replace(stock, within=None)) == can_be_cut(plain, replace(stock, within=None))


def test_a_kind_may_be_cut_more_than_once() -> None:
    strip = part(Sits.FREE, 8, Sits.FREE, 1)
    cutter = Cutter([strip], PLANK, 1000)
    assert cutter.fits((0, 0, 0))
    assert not cutter.fits((0, 0, 0, 0))  # 4 strips and 3 kerfs are over 5


def test_four_parts_round_a_hole_cannot_be_cut() -> None:
    stock = Stock(11, 11, 1, directional=True)
    wide = [part(Sits.LOW, 7, Sits.LOW, 3), part(Sits.HIGH, 7, Sits.HIGH, 3)]
    tall = [part(Sits.LOW, 3, Sits.HIGH, 7), part(Sits.HIGH, 3, Sits.LOW, 7)]
    assert not fit([*wide, *tall], stock)
    assert fit([*wide, tall[0]], stock)


@pytest.mark.parametrize(("scrap", "kept"), [(0, True), (2, True), (3, False)])
def test_what_the_first_leaves_is_at_least_scrap(scrap: int, kept: bool) -> None:
    # 5 of 8 and a kerf of 1 leave 2.
    stock = replace(PLANK, scrap=scrap)
    first = Part(0, 1, Sits.LOW, 5, Sits.FULL, 5)
    assert fit([first, Part(1, 1, Sits.HIGH, 2, Sits.FULL, 5)], stock) == kept
    assert fit([replace(first, cut=2), Part(1, 1, Sits.HIGH, 2, Sits.FULL, 5)], stock)


def test_scrap_counts_across_the_unit_too() -> None:
    first, second = Part(0, 1, Sits.FULL, 8, Sits.LOW, 3), Part(1, 1, Sits.FULL, 8, Sits.HIGH, 1)
    assert fit([first, second], replace(PLANK, scrap=1))
    assert not fit([first, second], replace(PLANK, scrap=2))
    # Corner pieces may be parted either way.
    corners = [replace(first, along=Sits.LOW, length=3), replace(second, along=Sits.HIGH, length=3)]
    assert fit(corners, replace(PLANK, scrap=2))


def test_parallel_slants_nest_in_either_order() -> None:
    stock = Stock(200, 40, 0, directional=False)
    one, two = (part(sits, 115, Sits.FULL, 40, lean=30) for sits in (Sits.LOW, Sits.HIGH))
    for a, b in ((one, two), (two, one), (one, one)):
        assert nests(a, b, stock)
        assert fit([a, b], stock)
    assert not nests(one, one, replace(stock, directional=True))
    assert not nests(one, replace(two, lean=-30), stock)
    assert not nests(replace(one, length=116), two, stock)


def test_when_the_work_is_used_up_it_says_so() -> None:
    small = [part(Sits.FREE, size, Sits.FREE, 1) for size in (1, 2, 3)]
    with pytest.raises(Spent):
        fit(small, PLANK, work=3)
