"""The search against the naive program that tries every layout, on rooms small enough."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import pytest

from models.job.data import Bond, BondKind, Product, Ring, Rules
from models.lengths import TICKS_PER_INCH as INCH
from solver.search import solve
from tests.references.jobs import FREE, STRAIGHT, make_job, must
from tests.references.naive import Task, l_shape, rectangle, solve_naively
from tests.references.naive_units import Stock

PLANK = Stock(8, 4)
SAWN = Stock(8, 4, kerf=1)
TURNED = Stock(8, 4, turn=True)
SQUARE = Stock(4, 4, turn=True)
CUT_AT_JOINTS = Stock(6, 3, kerf=1, shop_cuts=True)

THIRD = Bond(BondKind.STEPPED, Fraction(1, 3))


@dataclass(frozen=True)
class Room:
    """A rectangle, or an L when a notch is taken from its upper right, in inches."""

    width: int
    height: int
    notch: tuple[int, int] = (0, 0)

    @property
    def ring(self) -> Ring:
        w, h, (x, y) = self.width, self.height, self.notch
        corners = [(0, 0), (w, 0), (w, h - y), (w - x, h - y), (w - x, h), (0, h)]
        return tuple((a * INCH, b * INCH) for a, b in dict.fromkeys(corners))

    @property
    def cells(self) -> frozenset[tuple[int, int]]:
        return (
            l_shape(self.width, self.height, *self.notch)
            if all(self.notch)
            else rectangle(self.width, self.height)
        )


@dataclass(frozen=True)
class Case:
    """A room, the stock, limits (smallest cut, smallest end, joint offset) and the bond."""

    room: Room
    stock: Stock
    limits: tuple[int, int, int] = (0, 0, 0)
    bond: Bond = FREE


CASES = [
    Case(Room(10, 4), PLANK),
    Case(Room(9, 4), PLANK, (5, 0, 0)),
    Case(Room(16, 8), PLANK),
    Case(Room(20, 8), PLANK),
    Case(Room(15, 8), Stock(6, 3)),
    Case(Room(20, 13), PLANK, (2, 2, 2)),
    Case(Room(15, 8), Stock(6, 3, kerf=1), (0, 0, 2)),
    Case(Room(20, 14), SAWN, (2, 3, 2)),
    Case(Room(21, 12), PLANK, (0, 0, 3)),
    Case(Room(14, 9), CUT_AT_JOINTS, (0, 2, 2)),
    Case(Room(9, 10, (2, 3)), CUT_AT_JOINTS, (0, 0, 1)),
    Case(Room(23, 10), TURNED, (0, 2, 2)),
    Case(Room(13, 10), TURNED),
    Case(Room(7, 10), PLANK),
    Case(Room(17, 2), PLANK, (0, 2, 1)),
    Case(Room(4, 8), Stock(6, 3), (0, 1, 1)),
    Case(Room(22, 7), Stock(6, 3, turn=True), (0, 0, 2)),
    Case(Room(7, 4), Stock(6, 3, turn=True), (0, 1, 0)),
    Case(Room(19, 9), Stock(6, 4, turn=True)),
    Case(Room(8, 8, (3, 2)), PLANK, (2, 2, 0)),
    Case(Room(16, 8, (5, 4)), Stock(6, 3), (0, 0, 2)),
    Case(Room(21, 13, (6, 5)), PLANK, (2, 2, 2)),
    Case(Room(22, 12, (9, 6)), SAWN, (1, 2, 2)),
    Case(Room(20, 12, (5, 3)), TURNED, (2, 2, 2)),
    Case(Room(15, 10), SQUARE, bond=STRAIGHT),
    Case(Room(14, 9), Stock(4, 4, kerf=1, shop_cuts=True), bond=STRAIGHT),
    Case(Room(14, 10), Stock(6, 4, shop_cuts=True), (1, 0, 0), bond=STRAIGHT),
    Case(Room(13, 9, (4, 4)), SQUARE, bond=STRAIGHT),
    Case(Room(15, 10), Stock(4, 4), bond=STRAIGHT),
    Case(Room(18, 11), SQUARE, (2, 0, 0), bond=STRAIGHT),
    Case(Room(13, 11, (4, 3)), SQUARE, bond=STRAIGHT),
    Case(Room(7, 13), SQUARE, (1, 2, 0), bond=STRAIGHT),
    Case(Room(11, 7, (5, 2)), Stock(6, 3, turn=True), (0, 1, 1), bond=THIRD),
    Case(Room(17, 9), Stock(6, 3), bond=THIRD),
    Case(Room(20, 10), PLANK, (2, 0, 2), bond=Bond(BondKind.STEPPED, Fraction(1, 2))),
    # Lines judged by the walls alone once dropped the only ones that keep these rules.
    Case(Room(13, 5, (7, 1)), PLANK, (2, 2, 0), bond=STRAIGHT),
    Case(
        Room(6, 7, (2, 3)),
        Stock(6, 3, turn=True),
        (2, 2, 0),
        bond=Bond(BondKind.STEPPED, Fraction(1, 2)),
    ),
]


def task_of(case: Case) -> Task:
    shift = None if case.bond == FREE else int(case.bond.step * case.stock.length)
    return Task(case.room.cells, case.stock, *case.limits, shift=shift)


def product_of(stock: Stock) -> Product:
    return Product(
        "reference unit",
        length=stock.length * INCH,
        width=stock.width * INCH,
        kerf=stock.kerf * INCH,
        directional=not stock.turn,
        shop_cuts=stock.shop_cuts,
    )


def rules_of(case: Case) -> Rules:
    cut, end, joint = (must(limit * INCH) for limit in case.limits)
    return Rules(smallest_cut=cut, smallest_end=end, joint_offset=joint)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_search_finds_what_trying_everything_finds(case: Case) -> None:
    answer = solve_naively(task_of(case))
    job = make_job(case.room.ring, product_of(case.stock), case.bond, rules_of(case))
    solution = solve(job)
    figures = [layout.figures for layout in solution.layouts]
    kept = [f for f in figures if not f.broken_must]
    if not answer.least:
        assert figures
        assert not kept
        return
    assert min(f.units for f in kept) == answer.units
    for f in kept:
        cut = case.stock.length if f.smallest_cut is None else f.smallest_cut // INCH
        best = min(units for size, units in answer.least.items() if size >= cut)
        assert f.units >= best, f"{f.units} units with cuts of {cut} in, where {best} is least"
        assert f.units_at_least <= answer.units
