"""Which pieces share a unit, and of what length, when a carton holds several."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.ends import End, share_ends
from solver.stock.mix import Mix, cartons_for, cartons_holding, needs_by_length, shortest_for
from solver.stock.mixed import Unit, pack_mixed
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, Stock
from tests.stock.sheet import can_be_cut, part

MIX: Mix = ((12, 2), (8, 2), (6, 2))
STOCK = Stock(12, 4, 1, True)
FULL, LOW, HIGH, FREE = Sits.FULL, Sits.LOW, Sits.HIGH, Sits.FREE


def lengths(units: Sequence[Unit]) -> list[int]:
    return sorted((length for _, length in units), reverse=True)


def test_a_whole_length_fixes_its_unit() -> None:
    parts = [part(FULL, 8, FULL, 4), part(FULL, 6, FULL, 4), part(FULL, 6, FULL, 4)]
    assert pack_mixed(parts, STOCK, MIX) == [([0], 8), ([1], 6), ([2], 6)]


def test_two_ends_share_the_shortest_unit_that_holds_both_and_a_kerf() -> None:
    parts = [part(LOW, 3, FULL, 4), part(HIGH, 4, FULL, 4)]
    assert pack_mixed(parts, STOCK, MIX) == [([0, 1], 8)]
    assert pack_mixed(parts, replace(STOCK, kerf=2), MIX) == [([0, 1], 12)]
    longer = [part(LOW, 6, FULL, 4), part(HIGH, 6, FULL, 4)]
    assert lengths(pack_mixed(longer, STOCK, MIX)) == [6, 6]


def test_two_ends_share_nothing_when_that_would_open_a_carton() -> None:
    # All four long units of the first two cartons are taken by whole lengths.
    taken = [part(FULL, 12, FULL, 4) for _ in range(4)]
    ends = [part(LOW, 6, FULL, 4), part(HIGH, 5, FULL, 4)]
    units = pack_mixed([*taken, *ends], STOCK, MIX)
    assert cartons_for(needs_by_length(lengths(units), MIX), MIX) == 2
    assert lengths(units) == [12, 12, 12, 12, 6, 6]


def test_two_start_pieces_share_only_a_unit_that_may_be_turned() -> None:
    parts = [part(HIGH, 5, FULL, 4), part(HIGH, 6, FULL, 4)]
    assert lengths(pack_mixed(parts, STOCK, MIX)) == [6, 6]
    assert lengths(pack_mixed(parts, replace(STOCK, directional=False), MIX)) == [12]


def test_ends_laid_too_many_rows_apart_share_nothing() -> None:
    parts = [part(LOW, 3, FULL, 4, row=1), part(HIGH, 4, FULL, 4, row=4)]
    assert lengths(pack_mixed(parts, replace(STOCK, within=3), MIX)) == [8]
    assert lengths(pack_mixed(parts, replace(STOCK, within=2), MIX)) == [6, 6]


def test_nothing_is_carried_to_another_zone_where_rows_count() -> None:
    parts = [part(LOW, 3, FULL, 4), replace(part(HIGH, 4, FULL, 4), zone=1)]
    assert lengths(pack_mixed(parts, STOCK, MIX)) == [8]
    assert lengths(pack_mixed(parts, replace(STOCK, within=9), MIX)) == [6, 6]


def test_an_offcut_under_the_scrap_size_is_not_used() -> None:
    parts = [part(LOW, 5, FULL, 4), part(HIGH, 2, FULL, 4)]
    assert lengths(pack_mixed(parts, STOCK, MIX)) == [8]
    assert lengths(pack_mixed(parts, replace(STOCK, scrap=6), MIX)) == [6, 6]
    # Of a longer unit enough is left for the offcut to be kept.
    assert lengths(pack_mixed(parts, replace(STOCK, scrap=5), MIX)) == [12]


def test_cut_edges_allowed_at_joints_let_any_two_ends_share() -> None:
    parts = [part(HIGH, 5, FULL, 4), part(HIGH, 6, FULL, 4)]
    assert lengths(pack_mixed(parts, replace(STOCK, shop_cuts=True), MIX)) == [12]


def test_rips_share_a_unit_of_their_own_length_only() -> None:
    one, two = part(FULL, 8, LOW, 1), part(FULL, 8, HIGH, 2)
    assert pack_mixed([one, two], STOCK, MIX) == [([0, 1], 8)]
    assert lengths(pack_mixed([one, replace(two, length=6)], STOCK, MIX)) == [8, 6]


def test_a_corner_comes_from_the_strip_beside_a_rip() -> None:
    rip, corner = part(FULL, 8, LOW, 1), part(HIGH, 5, HIGH, 2)
    assert pack_mixed([rip, corner], STOCK, MIX) == [([0, 1], 8)]
    assert len(pack_mixed([rip, replace(corner, width=3)], STOCK, MIX)) == 2


def test_a_piece_cut_at_both_ends_goes_beside_others() -> None:
    parts = [part(LOW, 3, FULL, 4), part(HIGH, 3, FULL, 4), part(FREE, 4, FULL, 4)]
    assert pack_mixed(parts, STOCK, MIX) == [([0, 1, 2], 12)]


def test_a_part_no_unit_has_the_length_of_is_an_error() -> None:
    with pytest.raises(ValueError, match="a part is 7 ticks from joint to joint"):
        pack_mixed([part(FULL, 7, FULL, 4)], STOCK, MIX)


@st.composite
def mixed_parts(draw: st.DrawFn, stock: Stock) -> Part:
    along, across = draw(st.sampled_from([(a, b) for a in Sits for b in Sits]))
    long = draw(st.sampled_from([n for n, _ in MIX]) if along is FULL else st.integers(1, 11))
    wide = stock.width if across is FULL else draw(st.integers(1, stock.width - 1))
    return part(along, long, across, wide, draw(st.integers(1, 4)))


STOCKS = st.builds(
    Stock,
    st.just(12),
    st.just(4),
    st.integers(0, 1),
    st.booleans(),
    st.sampled_from([None, 0, 2]),
    st.sampled_from([0, 0, 2, 3]),
    st.booleans(),
)


@given(st.data(), STOCKS)
@settings(max_examples=200, deadline=None)
def test_every_unit_can_be_cut_and_every_part_is_in_one(data: st.DataObject, stock: Stock) -> None:
    parts = data.draw(st.lists(mixed_parts(stock), min_size=1, max_size=8))
    units = pack_mixed(parts, stock, MIX)
    assert sorted(i for members, _ in units for i in members) == list(range(len(parts)))
    for members, length in units:
        assert can_be_cut([parts[i] for i in members], replace(stock, length=length))


@given(st.data(), st.booleans())
@settings(max_examples=60, deadline=None)
def test_units_of_one_length_pack_about_as_well_as_by_themselves(
    data: st.DataObject, directional: bool
) -> None:
    # The same pairs of ends and of rips; only the packing by places may do a little better.
    stock = Stock(12, 4, 1, directional)
    sits = st.sampled_from([(LOW, FULL), (HIGH, FULL), (FULL, LOW), (FULL, HIGH)])
    parts = [
        part(
            a, data.draw(st.integers(1, 11)) if a is not FULL else 12, c, 2 if c is not FULL else 4
        )
        for a, c in data.draw(st.lists(sits, min_size=1, max_size=10))
    ]
    assert len(pack_mixed(parts, stock, ((12, 1),))) <= len(pack(parts, stock)) + 1


def fewest(ends: Sequence[End], fixed: Sequence[int], stock: Stock, mix: Mix) -> tuple[int, int]:
    """The fewest cartons, then units, over every way to pair ends: brute force."""
    best: list[tuple[int, int]] = []

    def go(left: list[int], needs: list[int]) -> None:
        if not left:
            asked = [sum(shortest_for(n, mix) == p for n in needs) for p in range(len(mix))]
            best.append((cartons_holding(fixed, asked, mix), len(needs)))
            return
        first, *rest = left
        go(rest, [*needs, ends[first].length])
        for other in rest:
            need = ends[first].length + ends[other].length + stock.kerf
            turned = ends[first].high is ends[other].high
            if need <= mix[0][0] and not (stock.directional and turned):
                go([i for i in rest if i != other], [*needs, need])

    go(list(range(len(ends))), [])
    return min(best)


ENDS = st.builds(End, st.integers(1, 11), st.just(1), st.booleans())


@given(
    st.lists(ENDS, min_size=1, max_size=6),
    st.lists(st.integers(0, 5), min_size=3, max_size=3),
    st.booleans(),
)
@settings(max_examples=200, deadline=None)
def test_ends_never_take_fewer_cartons_than_brute_force_and_at_most_one_more(
    ends: list[End], fixed: list[int], directional: bool
) -> None:
    stock = Stock(12, 4, 1, directional)
    shares = share_ends(ends, fixed, stock, MIX)
    asked = [sum(shortest_for(n, MIX) == p for _, n in shares) for p in range(len(MIX))]
    least = fewest(ends, fixed, stock, MIX)
    found = cartons_holding(fixed, asked, MIX), len(shares)
    assert least <= found <= (least[0] + 1, 99)


@pytest.mark.parametrize("seed", range(0, 200, 3))
def test_ends_take_the_fewest_cartons_and_units_in_a_fixed_series(seed: int) -> None:
    ends = [End(1 + (seed * (7 + i) + 3 * i) % 11, 1, i % 2 == 0) for i in range(2 + seed % 5)]
    fixed = [seed % 4, seed // 4 % 4, seed // 16 % 4]
    shares = share_ends(ends, fixed, STOCK, MIX)
    asked = [sum(shortest_for(n, MIX) == p for _, n in shares) for p in range(len(MIX))]
    found = cartons_holding(fixed, asked, MIX), len(shares)
    assert found == fewest(ends, fixed, STOCK, MIX)
