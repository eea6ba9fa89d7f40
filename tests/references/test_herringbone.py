"""Herringbones against a rule for single squares, worked out without any cell or polygon.

Where a unit is n squares long and one wide, the square in column x and row y belongs to a
flat unit when (x - y) mod 2n is less than n, and is then that many squares from its left
end; else to an upright one, n less than that many from its top. (The colouring of herringbone
paving by diagonals; worked out here, no source.) Squares of a room are counted by unit.
"""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.job.data import Ring
from tests.floor.herringbones import lay, zone_for
from tests.floor.rooms import shape_of

FINE = 4
"""Squares of the count to a unit's width, each way."""
SIDE = 2_000
"""Ticks to one of them."""

Unit = tuple[int, int, bool]
"""Left and lower end of a unit in fine squares, and whether it is upright."""


def unit_of(x: int, y: int, long: int, pair: int) -> Unit:
    """The unit that a fine square lies in; ``pair`` units of ``long`` widths zigzag as one."""
    wide = FINE * pair
    n = long // pair
    column, row = x // wide, y // wide
    place = (column - row) % (2 * n)
    if place < n:
        return (column - place) * wide, y // FINE * FINE, False
    low = row + (place - n) - (n - 1)
    return x // FINE * FINE, low * wide, True


def counted(
    room: set[tuple[int, int]], corner: tuple[int, int], long: int, pair: int
) -> Counter[Unit]:
    """How many fine squares of the room each unit takes."""
    u, v = corner
    found: Counter[Unit] = Counter()
    for x, y in room:
        left, low, upright = unit_of(x - u, y - v, long, pair)
        found[left + u, low + v, upright] += 1
    return found


def l_shape(width: int, height: int, x: int, y: int) -> tuple[Ring, set[tuple[int, int]]]:
    """An L of fine squares, as an outline in ticks and as a set; a rectangle when x is width."""
    squares = {(i, j) for i in range(width) for j in range(height) if i < x or j < y}
    corners = [(0, 0), (width, 0), (width, y), (x, y), (x, height), (0, height)]
    if x == width or y == height:
        corners = [(0, 0), (width, 0), (width, height), (0, height)]
    return tuple((i * SIDE, j * SIDE) for i, j in corners), squares


@settings(max_examples=80, deadline=None, derandomize=True)
@given(
    st.tuples(st.integers(3, 60), st.integers(3, 60)),
    st.tuples(st.integers(1, 60), st.integers(1, 60)),
    st.tuples(st.integers(-40, 40), st.integers(-40, 40)),
    st.sampled_from([(1, 1), (2, 1), (3, 1), (5, 1), (2, 2), (4, 2), (6, 2)]),
)
def test_every_unit_takes_as_much_of_the_room_as_counted(
    size: tuple[int, int], notch: tuple[int, int], corner: tuple[int, int], kind: tuple[int, int]
) -> None:
    x, y = min(notch[0], size[0]), min(notch[1], size[1])
    outline, squares = l_shape(*size, x, y)
    long, pair = kind
    zone = zone_for(outline, double=pair == 2)
    pitch = (long * FINE * SIDE, FINE * SIDE)
    found: Counter[Unit] = Counter()
    for cut in lay(zone, (corner[0] * SIDE, corner[1] * SIDE), pitch):
        left, low = cut.cell[0] // SIDE, cut.cell[1] // SIDE
        found[left, low, cut.quarter] += round(shape_of(cut).area) // (SIDE * SIDE)
    assert found == counted(squares, corner, long, pair)


@pytest.mark.parametrize(("long", "pair"), [(3, 1), (4, 2)])
def test_the_rule_for_squares_gives_whole_units(long: int, pair: int) -> None:
    inside = {(x, y) for x in range(120) for y in range(120)}
    taken = counted(inside, (0, 0), long, pair)
    margin = long * FINE
    middle = {
        unit: count
        for unit, count in taken.items()
        if all(margin <= place < 120 - margin for place in unit[:2])
    }
    assert set(middle.values()) == {long * FINE * FINE}
