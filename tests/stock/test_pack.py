"""Packing: every unit can be cut, none is saved by a trick, and known cases come out."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.bound import least_units
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, Stock
from tests.stock.sheet import can_be_cut, part, parts

PLANK = Stock(9, 5, 0, directional=True)
SAWN = Stock(9, 5, 1, directional=True)
TURNED = Stock(9, 5, 1, directional=False)
SQUARE = Stock(6, 6, 1, directional=False)
NEAR = Stock(9, 5, 1, directional=True, within=1)
NEAR_TURNED = Stock(9, 5, 1, directional=False, within=1)
NEAR_SQUARE = Stock(6, 6, 0, directional=False, within=2)
STOCKS = (PLANK, SAWN, TURNED, SQUARE, NEAR, NEAR_TURNED, NEAR_SQUARE)


def checked(found: Sequence[Part], stock: Stock) -> int:
    """Units packed, once each part is known to be in one and each unit to be possible."""
    bins = pack(found, stock)
    assert sorted(i for members in bins for i in members) == list(range(len(found)))
    for members in bins:
        assert can_be_cut([found[i] for i in members], stock), [found[i] for i in members]
    assert len(bins) >= least_units(found, stock)
    return len(bins)


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_every_unit_can_be_cut(data: st.DataObject, stock: Stock) -> None:
    checked(data.draw(st.lists(parts(stock, rows=4), max_size=8)), stock)


TILE = Stock(12, 12, 1, directional=True)
FREE_TILE = Stock(12, 12, 1, directional=False)
CORNERS = [part(a, 5, b, 5) for a in (Sits.LOW, Sits.HIGH) for b in (Sits.LOW, Sits.HIGH)]


@pytest.mark.parametrize("stock", [TILE, FREE_TILE], ids=["directional", "turned"])
def test_four_corners_come_from_one_tile(stock: Stock) -> None:
    assert checked(CORNERS, stock) == 1


def test_four_corners_of_one_kind_need_turning() -> None:
    alike = [part(Sits.LOW, 5, Sits.LOW, 5)] * 4
    assert checked(alike, TILE) == 4
    assert checked(alike, FREE_TILE) == 1


def test_corners_half_a_tile_wide_leave_no_room_for_the_kerf() -> None:
    halves = [part(p.along, 6, p.across, 6) for p in CORNERS]
    assert checked(halves, TILE) == 4
    assert checked(halves, Stock(12, 12, 0, directional=True)) == 1


def rip(across: Sits, width: int) -> Part:
    return part(Sits.FULL, 12, across, width)


def end(along: Sits, length: int) -> Part:
    return part(along, length, Sits.FULL, 12)


def test_two_rips_of_opposite_sides_share() -> None:
    assert checked([rip(Sits.LOW, 6), rip(Sits.HIGH, 5)], TILE) == 1
    assert checked([rip(Sits.LOW, 6), rip(Sits.HIGH, 6)], TILE) == 2


def test_two_rips_of_one_side_share_only_when_one_is_turned() -> None:
    assert checked([rip(Sits.LOW, 5), rip(Sits.LOW, 5)], TILE) == 2
    assert checked([rip(Sits.LOW, 5), rip(Sits.LOW, 5)], FREE_TILE) == 1


def test_a_rip_and_an_end_piece_share_a_tile_that_may_be_turned_a_quarter() -> None:
    assert checked([rip(Sits.LOW, 5), end(Sits.LOW, 5)], TILE) == 2
    assert checked([rip(Sits.LOW, 5), end(Sits.LOW, 5)], FREE_TILE) == 1
    # A plank is no tile: half a turn it may be given, a quarter never fits.
    plank = Stock(24, 12, 1, directional=False)
    assert checked([part(Sits.FULL, 24, Sits.LOW, 5), end(Sits.LOW, 5)], plank) == 2


def test_a_piece_cut_at_both_ends_fills_what_an_end_piece_leaves() -> None:
    assert checked([end(Sits.LOW, 5), end(Sits.FREE, 6)], TILE) == 1
    assert checked([end(Sits.LOW, 5), end(Sits.FREE, 7)], TILE) == 2


def test_a_rip_is_cut_along_its_unit_before_its_ends_are() -> None:
    # The end pieces of a rip at either side: all four from one unit.
    ends = [part(a, 5, b, 5) for b in (Sits.LOW, Sits.HIGH) for a in (Sits.LOW, Sits.HIGH)]
    assert checked([*ends, rip(Sits.LOW, 5), rip(Sits.HIGH, 6)], TILE) == 2


def test_offcuts_of_one_unit_stay_within_the_rows_asked_for() -> None:
    # Four corners of three rows: in pairs they are near enough, all together they are not.
    far = [part(p.along, 5, p.across, 5, row) for p, row in zip(CORNERS, (1, 1, 3, 3), strict=True)]
    assert checked(far, TILE) == 1
    assert checked(far, Stock(12, 12, 1, True, within=2)) == 1
    assert checked(far, Stock(12, 12, 1, True, within=1)) == 2


def test_what_already_shares_a_unit_is_carried_no_further_for_a_third_part() -> None:
    # The two corners of rows 1 and 2 make one; it is near the rip of row 4 by one of them only.
    corners = [part(Sits.LOW, 1, Sits.LOW, 1, row=1), part(Sits.LOW, 1, Sits.HIGH, 1, row=2)]
    found = [part(Sits.FULL, 6, Sits.LOW, 1, row=4), *corners]
    assert checked(found, Stock(6, 6, 0, False, within=2)) == 2
    assert checked(found, Stock(6, 6, 0, False, within=3)) == 1


def test_no_part_takes_no_unit() -> None:
    assert pack([], TILE) == []
