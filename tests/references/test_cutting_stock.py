"""Cutting-stock optima in print, and offcut matching against general-purpose solvers."""

from __future__ import annotations

import pytest

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
