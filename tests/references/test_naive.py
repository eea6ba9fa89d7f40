"""The naive program checked by hand-worked cases, before anything is compared with it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.references.naive import Task, l_shape, rectangle, solve_naively
from tests.references.naive_units import Cut, Stock, least_units, matched_units

PLANK = Stock(8, 4)


def block(width: int, height: int, joints: str) -> Cut:
    """A rectangular piece; ``joints`` names its joint sides by l, r, b and t."""
    cells = tuple((x, y) for x in range(width) for y in range(height))
    return Cut(cells, *(side in joints for side in "lrbt"))


def start(width: int) -> Cut:
    return block(width, 4, "rbt")


def end(width: int) -> Cut:
    return block(width, 4, "lbt")


@pytest.mark.parametrize(
    ("pieces", "stock", "units"),
    [
        ((start(3), end(5)), PLANK, 1),
        ((start(3), end(6)), PLANK, 2),
        ((start(3), end(5)), Stock(8, 4, kerf=1), 2),
        ((start(3), end(4)), Stock(8, 4, kerf=1), 1),
        ((start(3), start(5)), PLANK, 2),
        ((start(3), start(5)), Stock(8, 4, turn=True), 1),
        # A run shorter than a unit is cut at both ends and fits the middle of an offcut.
        ((start(3), block(3, 4, "bt"), end(2)), PLANK, 1),
        # Rips share across only from opposite sides.
        ((block(8, 2, "lrt"), block(8, 2, "lrb")), PLANK, 1),
        ((block(8, 2, "lrt"), block(8, 2, "lrt")), PLANK, 2),
        # Four corners of a room, one factory corner each, from one unit.
        (tuple(block(4, 2, joints) for joints in ("rt", "lt", "rb", "lb")), PLANK, 1),
        # A square unit may turn a quarter: a start piece and a rip lie side by side.
        ((block(1, 4, "rbt"), block(4, 3, "lrt")), Stock(4, 4, turn=True), 1),
        ((block(1, 4, "rbt"), block(4, 3, "lrt")), Stock(4, 4), 2),
        # Cut edges at joints: no side holds its piece.
        ((start(3), start(3), start(2)), Stock(8, 4, shop_cuts=True), 1),
        ((start(3), start(3), start(2)), Stock(8, 4, kerf=1, shop_cuts=True), 2),
    ],
)
def test_sharing_a_unit(pieces: tuple[Cut, ...], stock: Stock, units: int) -> None:
    assert least_units(pieces, stock) == units


def test_a_notched_piece_takes_the_rectangle_round_it() -> None:
    # The corner piece would lie in the notch; nothing is cut out of a notch.
    cells = tuple((x, y) for x in range(8) for y in range(4) if x < 5 or y < 2)
    notched = Cut(cells, left=True, right=True, bottom=True, top=True)
    assert least_units((notched, block(3, 2, "rt")), PLANK) == 2


sizes = st.lists(st.integers(1, 7), max_size=5)


@given(starts=sizes, ends=sizes, kerf=st.integers(0, 1), turn=st.booleans())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_trying_everything_agrees_with_a_maximum_matching(
    starts: list[int], ends: list[int], kerf: int, turn: bool
) -> None:
    # At most two full-width start or end pieces share a unit, unless it may be turned
    # and then they are starts and ends all the same: networkx is exact either way.
    stock = Stock(8, 4, kerf, turn)
    pieces = (*map(start, starts), *map(end, ends))
    assert least_units(pieces, stock) == matched_units(pieces, stock)


def test_a_room_of_whole_units_cuts_nothing() -> None:
    answer = solve_naively(Task(rectangle(16, 8), PLANK, shift=0))
    assert answer.units == 4
    assert answer.least[8] == 4


def test_one_narrow_strip_left_over() -> None:
    # 10 wide in units of 8: a whole unit and 2, or two cuts, at best 5 and 5.
    answer = solve_naively(Task(rectangle(10, 4), PLANK))
    assert answer.smallest_cut == 5
    assert answer.units == 2


def test_a_rule_no_layout_keeps() -> None:
    # Rows of 9: two pieces whose lesser is 4 at most, so no end of 5 can be had.
    assert not solve_naively(Task(rectangle(9, 4), PLANK, smallest_end=5)).least


def test_neighbouring_joints_apart_in_both_halves_of_an_l() -> None:
    room = l_shape(20, 12, 8, 4)
    free = solve_naively(Task(room, PLANK))
    apart = solve_naively(Task(room, PLANK, joint_offset=4))
    assert apart.units >= free.units
    assert apart.least
