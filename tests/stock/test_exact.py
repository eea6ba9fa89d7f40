"""Sharing parts out in every way, against trying them one by one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.exact import fewer_units
from solver.stock.parts import Part, Sits, Stock
from tests.stock.sheet import can_be_cut, least, part, parts

PLANK = Stock(8, 4, 1, directional=True)
STOCKS = (PLANK, replace(PLANK, directional=False, kerf=0), Stock(6, 6, 1, directional=False))


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_the_fewest_units_are_found(data: st.DataObject, stock: Stock) -> None:
    found = data.draw(st.lists(parts(stock), min_size=1, max_size=6))
    units, known = fewer_units(found, stock, len(found) + 1, work=10**6)
    assert known
    assert units is not None
    assert sorted(i for unit in units for i in unit) == list(range(len(found)))
    assert all(can_be_cut([found[i] for i in unit], stock) for unit in units)
    assert len(units) == least(found, stock)
    assert fewer_units(found, stock, len(units), work=10**6) == (None, True)


HALVES = [part(Sits.LOW, 3, Sits.FULL, 4), part(Sits.HIGH, 3, Sits.FULL, 4)]


def test_two_halves_take_one_unit_however_many_were_thought_to_be_needed() -> None:
    assert fewer_units(HALVES, PLANK, 2, work=100) == ([[0, 1]], True)
    assert fewer_units(HALVES, PLANK, 1, work=100) == (None, True)


def test_parts_that_never_share_are_known_to_be_the_least() -> None:
    alike: list[Part] = [HALVES[0]] * 5
    assert fewer_units(alike, PLANK, 5, work=1000) == (None, True)


def test_without_work_nothing_is_found_nor_known() -> None:
    assert fewer_units(HALVES, PLANK, 2, work=0) == (None, False)
