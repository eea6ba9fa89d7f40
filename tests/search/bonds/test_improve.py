"""Small moves: never worse, the same again, and they find what laying in order misses."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from models.lengths import TICKS_PER_INCH as INCH
from models.program.spans import Choice
from solver.search.bonds.improve import improve
from solver.search.bonds.lay import Laid, earlier_meets, judge, lay
from tests.program.laid import cost_of
from tests.program.solved import choice_of, span_of
from tests.search.choices import choices


@given(choice=choices(), seed=st.integers(0, 99), moves=st.sampled_from([0, 1, 40, 300]))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_an_answer_is_never_made_worse(choice: Choice, seed: int, moves: int) -> None:
    first = lay(choice, earlier_meets(choice), seed)
    better = improve(choice, first, 0, seed, moves)
    assert better.cost <= first.cost
    assert better == judge(choice, better.offsets)
    assert better.units == cost_of(choice, better.offsets)[1]
    assert all(0 <= p < choice.pitch and p % choice.step == 0 for p in better.offsets)


@given(choice=choices(), offsets=st.lists(st.integers(0, 23), min_size=6, max_size=6))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_any_answer_may_be_improved_on_and_the_same_way_again(
    choice: Choice, offsets: list[int]
) -> None:
    first = judge(choice, [offset * INCH for offset in offsets[: len(choice.spans)]])
    better = improve(choice, first, 0, 1, 200)
    assert better.cost <= first.cost
    assert improve(choice, first, 0, 1, 200) == better


def worst(choice: Choice) -> Laid:
    """Every row started with a whole unit: each ends in a piece of its own."""
    return judge(choice, [0] * len(choice.spans))


def test_moves_save_the_units_that_rows_on_one_offset_waste() -> None:
    choice = choice_of([span_of(row, 0, 30) for row in range(1, 7)])
    assert worst(choice).units == 18
    # 6 rows of 30 in units of 12 are 15, and so many are reached.
    assert improve(choice, worst(choice), 15, 0, 2000).units == 15


def test_nothing_is_moved_once_the_bound_is_met() -> None:
    choice = choice_of([span_of(row, 0, 30) for row in range(1, 7)])
    assert improve(choice, worst(choice), 18, 0, 2000) == worst(choice)
