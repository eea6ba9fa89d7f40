"""Filling one run with units of several lengths."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.sizes import SAME
from models.program.spans import Span
from solver.search.bonds.mixed_row import BROKEN, Bars, Filled, Filler, Lane, Near, Prices, cells_of
from solver.stock.mix import Mix

MIX: Mix = ((100, 2), (60, 2), (40, 2))
FILLER = Filler(MIX, 2, 5)
PLAIN = Prices((100.0, 60.0, 40.0), 0.0, 0.0)


def lane(length: int, need: int = 0, plain: bool = True, start: int = 0) -> Lane:
    return Lane(Span(1, start, start + length, need, need, 20), plain)


def fill(
    a_lane: Lane, nears: tuple[Near, ...] = (), prices: Prices = PLAIN, seed: int = 0
) -> Filled:
    return FILLER.fill(a_lane, nears, prices, random.Random(seed))[0]


def near(joint: int, apart: int, length: int = 1000) -> Near:
    return Near((1, length - 1), (joint,), apart, BROKEN)


def test_whole_units_fill_a_run_they_fit_without_a_cut() -> None:
    filled = fill(lane(160))
    assert (filled.first, filled.last, filled.short) == (0, 0, 0)
    assert sorted(filled.whole) in ([0, 1], [1, 1, 2])  # 100 + 60 or 60 + 60 + 40


def test_a_run_no_longer_than_a_unit_is_one_piece() -> None:
    assert fill(lane(60)) == Filled((), 0, (1,), 0)
    assert fill(lane(70, need=50)) == Filled((), 70, (), 0)
    assert fill(lane(60, plain=False)).first == 60


# The three cases of the joints' distance.


def test_joints_far_from_those_of_other_rows_change_nothing() -> None:
    assert fill(lane(100, start=0), (near(900, 30),)) == fill(lane(100))


def test_joints_too_near_force_the_other_order() -> None:
    # 100 with no unit of 100 to be had: 60 + 40 or 40 + 60, and only 40 keeps 20 from 60.
    dear = Prices((9e9, 60.0, 40.0), 0.0, 0.0)
    filled = fill(lane(100), (near(60, 20),), dear)
    assert filled.joints == (40,)
    assert fill(lane(100), (near(40, 20),), dear).joints == (60,)


def test_where_every_joint_is_too_near_the_run_is_filled_all_the_same() -> None:
    filled = fill(lane(150), (near(75, 200),))
    assert filled.first + filled.last + sum(MIX[i][0] for i in filled.whole) == 150
    assert len(filled.joints) == 1  # as few as can be


# The three cases of the end pieces' least length.


def test_end_pieces_long_enough_change_nothing() -> None:
    assert fill(lane(160, need=10)) == fill(lane(160))


def test_a_need_forces_a_cut_start_piece() -> None:
    # No whole units add up to 290: an end is cut, and one by itself may be as short as 10.
    filled = fill(lane(290, need=45))
    ends = [piece for piece in (filled.first, filled.last) if piece]
    assert ends
    assert min(ends) >= 45
    assert filled.short == 0


def test_a_need_no_piece_can_meet_is_counted() -> None:
    # Slanted stops: the end pieces are cut, whatever they are, and 105 is more than a unit.
    filled = fill(lane(210, need=105, plain=False))
    assert filled.short == 2
    assert filled.first + filled.last + sum(MIX[i][0] for i in filled.whole) == 210


def test_a_start_piece_comes_from_an_offcut_that_fits() -> None:
    # 30 of stock already paid for; a fresh cut would cost a whole unit.
    held = Prices((100.0, 60.0, 40.0), 0.1, 0.0, highs=(30,))
    assert fill(lane(130, need=20), prices=held).first == 30


def test_an_end_piece_comes_from_an_offcut_that_fits() -> None:
    held = Prices((100.0, 60.0, 40.0), 0.1, 0.0, lows=(30,))
    assert fill(lane(130, need=20), prices=held).last == 30


def test_the_dearer_of_two_lengths_is_left_alone() -> None:
    assert fill(lane(120), prices=Prices((100.0, 90.0, 40.0), 0.0, 0.0)).whole == (2, 2, 2)
    assert fill(lane(120), prices=Prices((100.0, 60.0, 60.0), 0.0, 0.0)).whole == (1, 1)


@given(st.integers(1, 900), st.integers(0, 50), st.integers(0, 99), st.booleans())
@settings(max_examples=80, deadline=None)
def test_pieces_add_up_and_cut_joints_lie_on_the_tape_step(
    length: int, need: int, seed: int, plain: bool
) -> None:
    prices = Prices((100.0, 60.0, 40.0), 0.7, 0.3, (20, 33), (15, 48))
    a_lane = lane(length, need, plain, start=3)
    filled = fill(a_lane, (near(length // 2, 12, length),), prices, seed)
    # A last unit that is longer than its place by less than can be cut counts as whole.
    over = filled.first + filled.last + sum(MIX[i][0] for i in filled.whole) - length
    assert 0 <= over <= SAME
    assert len(filled.joints) == (filled.first > 0) + (filled.last > 0) + len(filled.whole) - 1
    if filled.first and filled.joints:
        assert filled.joints[0] % 5 == 0
    cells = cells_of(a_lane, filled, MIX)
    assert cells[0][0] <= 3
    assert cells[-1][1] >= 3 + length
    assert all(one[1] == two[0] for one, two in pairwise(cells))
    assert {end - start for start, end in cells} <= {100, 60, 40}


@pytest.mark.parametrize(
    ("joint", "cost"),
    [(19, 0.0), (20, 7.0), (50, 7.0), (60, 12.0), (64, 12.0), (65, 5.0), (99, 0.0)],
)
def test_bars_add_up_where_two_rows_are_near(joint: int, cost: float) -> None:
    # Two joints of one row bar 20 to 64 (they overlap); one of another row bars 56 to 74.
    nears = [Near((0, 100), (34, 50), 15, 7.0), Near((0, 100), (65,), 10, 5.0)]
    assert Bars(nears).cost(joint) == cost


def test_bars_end_where_the_rows_no_longer_meet() -> None:
    bars = Bars([Near((40, 60), (50,), 20, 7.0), Near((40, 60), (0,), 20, 7.0)])
    assert [bars.cost(joint) for joint in (39, 40, 60, 61)] == [0.0, 7.0, 7.0, 0.0]


def test_cells_reach_over_the_stops_where_units_are_cut() -> None:
    filled = Filled((30, 130), 30, (0,), 50)
    assert cells_of(lane(180), filled, MIX) == ((-10, 30), (30, 130), (130, 190))
    assert cells_of(lane(70), Filled((), 70, (), 0), MIX) == ((0, 100),)
    assert cells_of(lane(60), Filled((), 0, (1,), 0), MIX) == ((0, 60),)


def test_what_is_barred_moves_with_the_run_below_nought_too() -> None:
    near = Near((0, 1000), (300, 700), 50, 1.0)
    moved = Near((-2000, -1000), (-1700, -1300), 50, 1.0)
    assert list(near.barred()) == [(251, 349), (651, 749)]
    assert list(moved.barred()) == [(low - 2000, high - 2000) for low, high in near.barred()]


def test_first_joints_lie_midway_between_the_joints_of_another_run() -> None:
    filler = Filler(((480, 1), (360, 1)), 0, 1)
    near = Near((0, 2000), (500, 980), 60, 1.0)
    assert list(filler._between(0, near)) == [80, 200, 320, 440]
    assert list(filler._between(0, Near((0, 2000), (500, 980), 61, 1.0))) == []
