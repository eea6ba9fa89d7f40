"""What counts of each length cost in cartons, and what is least."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.data import Product
from solver.stock.mix import (
    Mix,
    carton_length,
    cartons_at_least,
    cartons_for,
    cartons_holding,
    hand_out,
    mix_of,
    needs_by_length,
    shortest_for,
    units_at_least,
)

MIX: Mix = ((48, 2), (36, 3), (24, 4))


@st.composite
def mixes(draw: st.DrawFn) -> Mix:
    lengths = draw(st.lists(st.integers(4, 20), min_size=1, max_size=3, unique=True))
    return tuple((length, draw(st.integers(1, 3))) for length in sorted(lengths, reverse=True))


def test_a_mix_counts_joints_with_the_lengths() -> None:
    mixed = Product("plank", 48, 6, joint=1, per_carton=6, mix=((48, 2), (24, 4)))
    assert mix_of(mixed) == ((49, 2), (25, 4))
    assert mix_of(Product("plank", 48, 6, joint=1, per_carton=6)) == ((49, 6),)
    assert carton_length(MIX) == 2 * 48 + 3 * 36 + 4 * 24


def test_cartons_are_as_many_as_the_length_they_are_shortest_of_asks() -> None:
    assert needs_by_length([24, 48, 24, 36, 48, 48], MIX) == (3, 1, 2)
    assert cartons_for((3, 1, 2), MIX) == 2
    assert cartons_for((0, 0, 9), MIX) == 3
    assert cartons_for((0, 0, 0), MIX) == 0


def test_a_need_takes_the_shortest_length_that_holds_it() -> None:
    assert [shortest_for(need, MIX) for need in (48, 37, 36, 25, 24, 1)] == [0, 0, 1, 1, 2, 2]
    with pytest.raises(ValueError, match="no unit is 49 ticks long"):
        shortest_for(49, MIX)


def test_a_short_need_is_met_with_a_long_unit_when_short_ones_run_out() -> None:
    # One carton: four of 24. The fifth short piece comes from a 36, not a second carton.
    assert hand_out([10] * 5, (0, 0, 0), MIX) == [24, 24, 24, 24, 36]
    assert hand_out([10, 40, 30], (0, 3, 4), MIX) == [24, 48, 36]


@given(mixes(), st.lists(st.integers(1, 20), max_size=5), st.lists(st.integers(0, 4), max_size=3))
def test_no_hand_out_of_lengths_needs_fewer_cartons(
    mix: Mix, needs: list[int], more: list[int]
) -> None:
    needs = [min(need, mix[0][0]) for need in needs]
    fixed = (*more, 0, 0, 0)[: len(mix)]
    every = product(*([length for length, _ in mix if length >= need] for need in needs))

    def cartons(lengths: tuple[int, ...]) -> int:
        counts = needs_by_length(lengths, mix)
        return cartons_for([a + b for a, b in zip(counts, fixed, strict=True)], mix)

    least = min(cartons(lengths) for lengths in every)
    given = hand_out(needs, fixed, mix)
    assert all(length >= need for length, need in zip(given, needs, strict=True))
    assert cartons(tuple(given)) == least
    asked = [sum(shortest_for(need, mix) == place for need in needs) for place in range(len(mix))]
    assert cartons_holding(fixed, asked, mix) == least


@given(mixes(), st.lists(st.integers(0, 5), min_size=3, max_size=3))
def test_no_counts_are_below_either_bound(mix: Mix, counts: list[int]) -> None:
    mine = counts[: len(mix)]
    length = sum(n * unit for n, (unit, _) in zip(mine, mix, strict=True))
    cartons = cartons_for(mine, mix)
    if length:
        assert cartons_at_least(length, mix) <= cartons
        assert units_at_least(length, mix) <= units_at_least(length, mix, cartons) <= sum(mine)


def test_the_fewest_units_of_a_few_cartons_take_the_longest_first() -> None:
    # 300 from two cartons: four of 48 (192), then three of 36 (108).
    assert units_at_least(300, MIX, 2) == 7
    assert units_at_least(300, MIX) == 7  # 6.25 of 48
    assert units_at_least(600, MIX, 2) == 18  # all that two cartons hold
    assert cartons_at_least(300, MIX) == 1
    assert cartons_at_least(301, MIX) == 2
