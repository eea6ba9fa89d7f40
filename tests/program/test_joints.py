"""Rules on end joints from row to row: three tests each, then all offsets by brute force."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from models.lengths import TICKS_PER_INCH as INCH
from models.program.joints import joints_apart, no_stair
from models.program.rows import Row
from models.program.spans import Choice
from models.program.traced import Breaks, Traced
from tests.program.laid import stairs, too_near
from tests.program.solved import Rule, choice_of, every, meet_of, solve_broken, span_of

Offsets = tuple[int, ...]

LONG = [span_of(1, 0, 60), span_of(2, 0, 60)]
SHORT = [span_of(1, 0, 30), span_of(2, 25, 60)]
"""Two rows that share 5 in, less than a unit: joints at 25 to 30 in count."""


def apart(least: int, breaks: Breaks = None, pinned: dict[int, int] | None = None) -> Rule:
    """The rule between the first two spans, with some offsets given; inches."""

    def add(traced: Traced, rows: Sequence[Row], choice: Choice) -> None:
        joints_apart(traced, rows, meet_of(choice.spans, 0, 1), choice, least * INCH, breaks)
        for index, offset in (pinned or {}).items():
            traced.model.add(rows[index].offset == offset)

    return add


def test_joints_asked_to_be_no_distance_apart_are_free() -> None:
    assert len(every(choice_of(LONG), apart(0))) == 12 * 12


def test_half_a_unit_apart_leaves_one_offset_for_the_next_row() -> None:
    assert every(choice_of(LONG), apart(6, pinned={0: 2})) == {(2, 8)}


def test_joints_too_near_in_a_long_shared_length_are_refused() -> None:
    assert every(choice_of(LONG), apart(6, pinned={0: 2, 1: 9})) == set()


def test_more_than_half_a_unit_apart_can_never_hold() -> None:
    assert every(choice_of(LONG), apart(7)) == set()


def test_joints_outside_a_short_shared_length_are_free() -> None:
    # The lower row's joints at 19 and 31 lie outside, so the upper row may take any offset.
    assert len(every(choice_of(SHORT), apart(6, pinned={0: 7}))) == 12


def test_a_joint_inside_a_short_shared_length_keeps_others_out() -> None:
    # At 26 in the lower row has a joint; 26, 27 and 28 in are too near, 29 and 30 are not.
    left = {offset for _, offset in every(choice_of(SHORT), apart(3, pinned={0: 2}))}
    assert left == set(range(12)) - {26 % 12, 27 % 12, 28 % 12}


def test_joints_too_near_in_a_short_shared_length_are_refused() -> None:
    assert every(choice_of(SHORT), apart(3, pinned={0: 2, 1: 4})) == set()


def test_joints_near_round_the_unit_but_outside_the_shared_length_are_free() -> None:
    # From 0 to 13 in the rows' only joints are at 2 and 10 in; those at -2 and 14 lie outside.
    rows = [span_of(1, 0, 15), span_of(2, -3, 13)]
    assert every(choice_of(rows), apart(5, pinned={0: 2, 1: 10})) == {(2, 10)}
    assert every(choice_of(rows), apart(5, pinned={0: 1, 1: 10})) == set()


@given(
    ends=st.tuples(*[st.integers(0, 12), st.integers(1, 30)] * 2),
    lower=st.integers(0, 7),
    least=st.integers(1, 5),
)
@settings(max_examples=80, deadline=None, derandomize=True)
def test_the_offsets_left_are_those_with_joints_apart(
    ends: tuple[int, int, int, int], lower: int, least: int
) -> None:
    rows = [span_of(1, ends[0], ends[0] + ends[1]), span_of(2, ends[2], ends[2] + ends[3])]
    choice, meets = choice_of(rows, pitch=8), [meet_of(rows, 0, 1)]
    kept = {
        (lower, upper)
        for upper in range(8)
        if not too_near(choice, meets, (lower * INCH, upper * INCH), least * INCH)
    }
    assert every(choice, apart(least, pinned={0: lower})) == kept


def test_joints_may_break_at_a_place_that_says_so() -> None:
    assert solve_broken(choice_of(LONG), lambda b: apart(6, b, {0: 2, 1: 8})) == 0
    assert solve_broken(choice_of(LONG), lambda b: apart(6, b, {0: 2, 1: 9})) == 1
    assert solve_broken(choice_of(LONG), lambda b: apart(7, b)) == 1


ROWS = [span_of(row, 0, 60) for row in range(1, 6)]


def stair(most: int, pinned: Sequence[int] = (), breaks: Breaks = None) -> Rule:
    """The rule over all rows, the first ones' offsets given; inches."""

    def add(traced: Traced, rows: Sequence[Row], choice: Choice) -> None:
        no_stair(traced, rows, choice, most, breaks)
        for row, offset in zip(rows, pinned, strict=False):
            traced.model.add(row.offset == offset)

    return add


def test_fewer_rows_than_a_stair_takes_are_free() -> None:
    assert len(every(choice_of(ROWS[:3]), stair(2))) == 12**3


def test_a_stair_may_not_go_on() -> None:
    # 0, 3, 6, 9 are three equal shifts; a fourth, to 12 = 0, is one too many. A shift within
    # half an inch looks the same, and offsets are whole inches here.
    left = every(choice_of(ROWS), stair(3, (0, 3, 6, 9)))
    assert {offsets[4] for offsets in left} == set(range(12)) - {0}


def test_a_stair_that_goes_on_is_refused() -> None:
    assert every(choice_of(ROWS), stair(3, (0, 3, 6, 9, 0))) == set()


def test_equal_shifts_that_wrap_round_the_unit_are_a_stair() -> None:
    assert every(choice_of(ROWS[:4]), stair(2, (10, 5, 0, 7))) == set()
    assert every(choice_of(ROWS[:4]), stair(2, (10, 5, 0, 8))) == {(10, 5, 0, 8)}


def test_a_stair_runs_along_the_longest_run_of_each_row() -> None:
    rows = [span_of(1, 0, 60), span_of(2, 0, 20), span_of(2, 22, 60), span_of(3, 0, 60)]
    left = every(choice_of(rows, pitch=3), stair(1, (0, 0)))
    assert {(o[2], o[3]) for o in left} == {
        (a, b) for a in range(3) for b in range(3) if (b - a) % 3 != a
    }


def test_a_stair_may_break_at_a_shift_that_says_so() -> None:
    rows = choice_of(ROWS)
    assert solve_broken(rows, lambda b: stair(3, (0, 3, 6, 9, 1), b)) == 0
    assert solve_broken(rows, lambda b: stair(3, (0, 3, 6, 9, 0), b)) == 1
    assert solve_broken(rows, lambda b: stair(2, (0, 3, 6, 9, 0), b)) == 2


@given(most=st.integers(1, 3), pinned=st.lists(st.integers(0, 4), min_size=5, max_size=5))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_breaks_are_the_shifts_a_stair_is_too_long_by(most: int, pinned: list[int]) -> None:
    choice = choice_of(ROWS, pitch=5, stair=most)
    over = stairs(choice, [offset * INCH for offset in pinned])
    assert solve_broken(choice, lambda b: stair(most, pinned, b)) == over


def test_a_break_is_a_literal_for_each_place() -> None:
    breaks: list[cp_model.IntVar] = []
    every(choice_of(LONG, pitch=2), apart(1, breaks))
    assert len(breaks) == 1
