"""Packing: every unit can be cut, none is saved by a trick, and known cases come out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.bound import least_units
from solver.stock.pack import pack
from solver.stock.pairing import paired
from solver.stock.parts import Part, Sits, Stock
from solver.stock.place import placed
from tests.stock.sheet import can_be_cut, least, part, parts

PLANK = Stock(9, 5, 0, directional=True)
SAWN = replace(PLANK, kerf=1)
TURNED = replace(SAWN, directional=False)
SQUARE = Stock(6, 6, 1, directional=False)
STOCKS = (
    PLANK,
    SAWN,
    TURNED,
    SQUARE,
    replace(SAWN, within=1),
    replace(TURNED, within=1),
    replace(SQUARE, kerf=0, within=2),
    replace(SAWN, scrap=2),
    replace(TURNED, scrap=3, within=1),
    replace(SQUARE, scrap=2),
    replace(SAWN, shop_cuts=True),
    replace(SQUARE, shop_cuts=True, scrap=1),
)


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


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_a_handful_of_parts_takes_the_fewest_units(data: st.DataObject, stock: Stock) -> None:
    drawn = data.draw(st.lists(parts(stock, rows=3), max_size=5))
    found = [replace(one, cut=place, zone=place % 2) for place, one in enumerate(drawn)]
    assert checked(found, stock) == least(found, stock)


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_asking_more_never_takes_less(data: st.DataObject, stock: Stock) -> None:
    drawn = data.draw(st.lists(parts(stock, rows=3), min_size=1, max_size=8))
    found = [replace(one, cut=place) for place, one in enumerate(drawn)]
    units = len(pack(found, stock))
    assert len(pack(found[1:], stock)) <= units <= 1 + len(pack(found[1:], stock))
    assert units <= len(pack(found, replace(stock, kerf=stock.kerf + 1)))
    assert units <= len(pack(found, replace(stock, scrap=stock.scrap + 1)))
    assert units <= len(pack(found, replace(stock, directional=True)))
    assert units <= len(pack(found, replace(stock, shop_cuts=False)))
    assert units <= len(pack(found, replace(stock, within=0)))


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_a_floor_seen_in_a_mirror_takes_as_many_units(data: st.DataObject, stock: Stock) -> None:
    found = data.draw(st.lists(parts(stock, rows=3), max_size=10))
    # Parts of one row are laid in the order listed, mirrored or not.
    mirrored = [replace(one, along=one.along.flipped) for one in found]
    moved = [replace(one, row=one.row + 7, zone=3) for one in found]
    assert len(pack(found, stock)) == len(pack(mirrored, stock)) == len(pack(moved, stock))


@given(data=st.data())
@settings(max_examples=6, deadline=None, derandomize=True)
def test_looking_closer_never_takes_more(data: st.DataObject) -> None:
    stock = Stock(48, 12, 1, directional=False)
    found = data.draw(st.lists(parts(stock, rows=9), min_size=40, max_size=50))
    bins = pack(found, stock, looks=4)
    assert sorted(i for members in bins for i in members) == list(range(len(found)))
    assert least_units(found, stock) <= len(bins) <= len(pack(found, stock))


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


def test_zones_share_units_unless_rows_count() -> None:
    here, there = end(Sits.LOW, 5), replace(end(Sits.HIGH, 5), zone=1)
    assert checked([here, there], TILE) == 1
    assert checked([here, there], replace(TILE, within=0)) == 2
    assert checked([here, replace(there, zone=0)], replace(TILE, within=0)) == 1


def test_an_offcut_smaller_than_scrap_is_not_used_again() -> None:
    # Laid first, 8 of 12 leaves 3 beside a kerf of 1; laid second, it comes from 8.
    long, short = Part(0, 1, Sits.LOW, 8, Sits.FULL, 12), Part(1, 1, Sits.HIGH, 3, Sits.FULL, 12)
    assert checked([long, short], replace(TILE, scrap=3)) == 1
    assert checked([long, short], replace(TILE, scrap=4)) == 2
    assert checked([replace(long, row=2), short], replace(TILE, scrap=4)) == 1
    assert checked([replace(long, zone=1), short], replace(TILE, scrap=4)) == 1
    assert checked([replace(long, cut=2), short], replace(TILE, scrap=4)) == 1


def test_cut_edges_at_joints_let_ends_of_one_side_share() -> None:
    ends = [end(Sits.LOW, 3)] * 3
    assert checked(ends, TILE) == 3
    assert checked(ends, replace(TILE, shop_cuts=True)) == 1
    rips = [rip(Sits.HIGH, 3)] * 6
    assert checked(rips, TILE) == 6
    assert checked(rips, replace(TILE, shop_cuts=True)) == 2


def test_shop_cuts_leave_slanted_ends_nesting() -> None:
    stock = Stock(200, 40, 0, directional=True, shop_cuts=True)
    slanted = [part(sits, 115, Sits.FULL, 40, lean=30) for sits in (Sits.LOW, Sits.HIGH)]
    assert len(pack(slanted, stock)) == 1


def test_three_small_pieces_of_a_turned_tile() -> None:
    # Neither pairing nor placing one by one sees that one tile is enough: all ways are tried.
    found = [
        part(Sits.LOW, 3, Sits.HIGH, 4),
        part(Sits.FREE, 4, Sits.LOW, 1),
        part(Sits.FREE, 1, Sits.FREE, 5),
    ]
    assert len(paired(found, SQUARE)) == len(placed(found, SQUARE)) == 2
    assert checked(found, SQUARE) == 1


def test_no_part_takes_no_unit() -> None:
    assert pack([], TILE) == []
