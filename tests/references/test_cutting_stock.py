"""Cutting-stock optima in print, and packing with cut edges at joints against HiGHS.

Where cut edges may lie at joints and every piece has its unit's whole width, sharing units
is the cutting-stock problem.
"""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.bound import least_units
from solver.stock.pack import pack
from solver.stock.parts import NO_PIECE, Part, Sits, Stock
from tests.references.arcflow import Items, least_stock

# The paper-roll example printed in many texts and in OR-Tools' MathOpt cutting stock sample.
PAPER_ROLLS = {
    1380: 22,
    1520: 25,
    1560: 12,
    1710: 14,
    1820: 18,
    1880: 18,
    1930: 20,
    2000: 10,
    2050: 12,
    2100: 14,
    2140: 16,
    2150: 18,
    2200: 20,
}
# Chvatal, Linear Programming, ch. 13: the attribution is from memory.
CHVATAL = {45: 97, 36: 610, 31: 395, 14: 211}
# OR-Tools sample arc_flow_cutting_stock_sat.py: 48 of items, least waste 2.
TWO_STOCKS = {12: 2, 8: 3}


@pytest.mark.parametrize(
    ("stock", "items", "optimum"),
    [((5600,), PAPER_ROLLS, 73), ((100,), CHVATAL, 453)],
    ids=["paper rolls", "Chvatal"],
)
def test_least_number_of_rolls(stock: tuple[int, ...], items: Items, optimum: int) -> None:
    assert least_stock(stock, items) == optimum * stock[0]


def test_least_waste_from_two_stock_lengths() -> None:
    need = sum(size * count for size, count in TWO_STOCKS.items())
    assert least_stock((10, 20), TWO_STOCKS) - need == 2


def strips(items: Items, along: bool, width: int = 10) -> list[Part]:
    """Full-width end pieces, or rips as long as their unit."""
    sizes = [size for size, count in items.items() for _ in range(count)]
    if along:
        return [Part(NO_PIECE, 1, Sits.LOW, size, Sits.FULL, width) for size in sizes]
    return [Part(NO_PIECE, 1, Sits.FULL, width, Sits.HIGH, size) for size in sizes]


@pytest.mark.parametrize("along", [True, False], ids=["ends", "rips"])
@pytest.mark.parametrize("directional", [True, False], ids=["directional", "turned"])
def test_chvatals_rolls_are_packed_at_the_optimum(along: bool, directional: bool) -> None:
    size = (100, 10) if along else (10, 100)
    stock = Stock(*size, 0, directional, shop_cuts=True)
    parts = strips(CHVATAL, along)
    assert len(pack(parts, stock)) == 453
    assert least_units(parts, stock) <= 453


def test_the_paper_rolls_are_packed_within_one_of_the_optimum() -> None:
    # Far more parts than are shared out in every way: one unit over, and the bound is met.
    stock = Stock(5600, 10, 0, directional=True, shop_cuts=True)
    parts = strips(PAPER_ROLLS, along=True)
    assert len(pack(parts, stock)) <= 74
    assert least_units(parts, stock) == 73


@given(
    sizes=st.lists(st.integers(3, 59), min_size=1, max_size=24),
    kerf=st.integers(0, 2),
    along=st.booleans(),
    directional=st.booleans(),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_strips_take_as_few_units_as_highs_finds(
    sizes: list[int], kerf: int, along: bool, directional: bool
) -> None:
    # A kerf between two pieces: every piece and the unit are longer by one.
    optimum = least_stock((60 + kerf,), dict(Counter(s + kerf for s in sizes))) // (60 + kerf)
    size = (60, 10) if along else (10, 60)
    stock = Stock(*size, kerf, directional, shop_cuts=True)
    parts = strips(dict(Counter(sizes)), along)
    assert least_units(parts, stock) <= optimum
    assert len(pack(parts, stock)) == optimum
