"""Pairing: every unit can be cut, and what it does by itself, without a closer look."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.pairing import paired
from solver.stock.parts import Part, Sits, Stock
from solver.stock.place import placed
from tests.stock.sheet import can_be_cut, part, parts

Way = Callable[[Sequence[Part], Stock], list[list[int]]]
PLANK = Stock(9, 5, 1, directional=True)
STOCKS = (
    PLANK,
    replace(PLANK, directional=False, within=1),
    replace(PLANK, scrap=2),
    replace(PLANK, directional=False, scrap=3, within=2),
    Stock(6, 6, 1, directional=False, scrap=2),
    Stock(6, 6, 0, directional=False, within=1),
)


@pytest.mark.parametrize("way", [paired, placed])
@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_every_unit_can_be_cut(data: st.DataObject, stock: Stock, way: Way) -> None:
    drawn = sorted(data.draw(st.lists(parts(stock, rows=4), max_size=8)), key=lambda p: p.row)
    found = [replace(one, cut=place) for place, one in enumerate(drawn) if not one.whole]
    units = way(found, stock)
    assert sorted(i for unit in units for i in unit) == list(range(len(found)))
    for unit in units:
        assert can_be_cut([found[i] for i in unit], stock), [found[i] for i in unit]


def free(*sizes: int) -> list[Part]:
    return [part(Sits.FREE, size, Sits.FULL, 5) for size in sizes]


@pytest.mark.parametrize("along", [True, False], ids=["along", "across"])
def test_free_parts_fill_one_unit_after_another(along: bool) -> None:
    # Each into the tightest gap gives 4 + 4, 3 + 3 + 3 and 3; filled to the full it is two.
    sizes = (4, 4, 3, 3, 3, 3)
    whole = Sits.FULL
    found = [
        part(Sits.FREE, size, whole, 10) if along else part(whole, 10, Sits.FREE, size)
        for size in sizes
    ]
    assert len(paired(found, Stock(10, 10, 0, directional=True))) == 2


def test_free_parts_go_beside_an_end_piece_first() -> None:
    units = paired([part(Sits.LOW, 4, Sits.FULL, 5), *free(4, 6)], PLANK)
    assert sorted(map(sorted, units)) == [[0, 1], [2]]


def test_a_row_too_far_is_no_partner() -> None:
    near = replace(PLANK, within=1)
    one, two = part(Sits.LOW, 4, Sits.FULL, 5), part(Sits.HIGH, 4, Sits.FULL, 5, row=3)
    assert len(paired([one, two], near)) == 2
    assert len(paired([one, replace(two, row=2)], near)) == 1


def test_slanted_ends_alike_are_paired_by_the_dozen() -> None:
    stock = Stock(200, 40, 0, directional=True, within=0)
    ends = [
        part(sits, 115, Sits.FULL, 40, row, lean=30)
        for row in range(12)
        for sits in (Sits.LOW, Sits.HIGH)
    ]
    assert len(paired(ends, stock)) == 12


def test_square_and_slanted_ends_find_their_partners_together() -> None:
    # The low slant fits both high ends, but the square low end only the short one.
    stock = Stock(200, 40, 0, directional=True)
    lows = [part(Sits.LOW, 115, Sits.FULL, 40, lean=30), part(Sits.LOW, 120, Sits.FULL, 40)]
    highs = [part(Sits.HIGH, 80, Sits.FULL, 40), part(Sits.HIGH, 115, Sits.FULL, 40, lean=30)]
    assert len(paired([*lows, *highs], stock)) == 2
