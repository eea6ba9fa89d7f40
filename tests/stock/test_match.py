"""The most pairs of offcuts, against trying every way to pair a few."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.match import Sized, pair_any, pair_ends

ROOM = 12

sizes = st.lists(st.tuples(st.integers(1, ROOM), st.integers(1, 6)), max_size=6)
rows_apart = st.none() | st.integers(0, 3)


def fit(one: Sized, two: Sized, within: int | None) -> bool:
    return one[0] + two[0] <= ROOM and (within is None or abs(one[1] - two[1]) <= within)


def most(count: int, pairs: Callable[[int, int], bool]) -> int:
    """The most disjoint pairs among ``count`` things, by trying every way."""

    def best(left: frozenset[int]) -> int:
        if not left:
            return 0
        first = min(left)
        rest = left - {first}
        return max(
            [best(rest), *(1 + best(rest - {other}) for other in rest if pairs(first, other))]
        )

    return best(frozenset(range(count)))


@given(lows=sizes, highs=sizes, within=rows_apart)
@settings(deadline=None, derandomize=True)
def test_as_many_ends_are_paired_as_can_be(
    lows: list[Sized], highs: list[Sized], within: int | None
) -> None:
    pairs = pair_ends(lows, highs, ROOM, within)
    assert len({a for a, _ in pairs}) == len({b for _, b in pairs}) == len(pairs)
    assert all(fit(lows[a], highs[b], within) for a, b in pairs)
    count = len(lows)

    def opposite(one: int, two: int) -> bool:
        return one < count <= two and fit(lows[one], highs[two - count], within)

    assert len(pairs) == most(count + len(highs), opposite)


@given(found=sizes, within=rows_apart)
@settings(deadline=None, derandomize=True)
def test_turned_parts_are_paired_with_their_like(found: list[Sized], within: int | None) -> None:
    pairs = pair_any(found, ROOM, within)
    assert len({i for pair in pairs for i in pair}) == 2 * len(pairs)
    assert all(fit(found[a], found[b], within) for a, b in pairs)
    assert len(pairs) == most(len(found), lambda a, b: fit(found[a], found[b], within))


@given(lows=sizes, highs=sizes, within=rows_apart)
@settings(deadline=None, derandomize=True)
def test_a_room_seen_in_a_mirror_has_as_many_pairs(
    lows: list[Sized], highs: list[Sized], within: int | None
) -> None:
    count = len(pair_ends(lows, highs, ROOM, within))
    assert count == len(pair_ends(highs, lows, ROOM, within))
    assert count == len(pair_ends(lows[::-1], highs[::-1], ROOM, within))


@pytest.mark.parametrize("within", [None, 5])
def test_the_longest_piece_does_not_take_the_only_partner_of_another(within: int | None) -> None:
    # 10 fits only with 2; 8 fits with 2 and with 4.
    pairs = pair_ends([(2, 1), (4, 1)], [(8, 1), (10, 1)], ROOM, within)
    assert sorted(pairs) == [(0, 1), (1, 0)]


@pytest.mark.parametrize("within", [None, 0])
def test_nothing_pairs_with_nothing(within: int | None) -> None:
    assert pair_ends([], [(1, 1)], ROOM, within) == pair_ends([(1, 1)], [], ROOM, within) == []
    assert pair_any([], ROOM, within) == pair_any([(1, 1)], ROOM, within) == []
