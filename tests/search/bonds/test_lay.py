"""Laying rows one after another: the same seed lays the same, and what it costs is true."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.lengths import TICKS_PER_INCH as INCH
from models.program.spans import Choice
from solver.search.bonds.lay import Laid, earlier_meets, judge, lay
from tests.program.laid import cost_of
from tests.program.solved import choice_of, meet_of, span_of
from tests.search.choices import choices


def laid(choice: Choice, seed: int = 0) -> Laid:
    return lay(choice, earlier_meets(choice), seed)


@given(choice=choices(), seed=st.integers(0, 99))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_seed_lays_the_same_offsets_again_on_the_tape_step(choice: Choice, seed: int) -> None:
    found = laid(choice, seed)
    assert laid(choice, seed) == found
    assert len(found.offsets) == len(choice.spans)
    assert all(0 <= p < choice.pitch and p % choice.step == 0 for p in found.offsets)


@given(choice=choices(), seed=st.integers(0, 99))
@settings(max_examples=100, deadline=None, derandomize=True)
def test_what_offsets_are_said_to_cost_is_what_counting_finds(choice: Choice, seed: int) -> None:
    found = laid(choice, seed)
    broken, units, soft = cost_of(choice, found.offsets)
    assert (found.broken, found.units) == (broken, units)
    # Broken preferences; a broken must rule of the same kind counts among them too.
    assert found.soft >= soft
    assert found.soft == soft or choice.second_must or choice.stair_must


def test_other_seeds_lay_other_offsets() -> None:
    choice = choice_of([span_of(row, 0, 100 + row) for row in range(1, 9)], pitch=24)
    assert len({laid(choice, seed).offsets for seed in range(8)}) > 1


def test_rows_start_from_what_the_row_before_left() -> None:
    # 30 + 30 in units of 12: five, if the second row starts with the first one's other half.
    assert laid(choice_of([span_of(1, 0, 30), span_of(2, 0, 30)])).units == 5


@pytest.mark.parametrize(("within", "units"), [(None, 5), (3, 5), (2, 6)])
def test_offcuts_are_carried_no_further_than_asked(within: int | None, units: int) -> None:
    # One row lies three rows above the other, and nothing between them.
    choice = choice_of([span_of(1, 0, 30), span_of(4, 0, 30)], kerf=0, within=within)
    halves = replace(choice, step=6 * INCH)
    assert min(laid(halves, seed).units for seed in range(4)) == units


def test_joints_are_kept_apart_where_they_can_be() -> None:
    rows = [span_of(row, 0, 60) for row in range(1, 8)]
    near = tuple(meet_of(rows, i, i + 1) for i in range(6))
    choice = choice_of(rows, meets=near, apart=4 * INCH)
    assert [laid(choice, seed).broken for seed in range(8)] == [0] * 8


def test_a_rule_no_offset_keeps_is_owned_up_to() -> None:
    rows = [span_of(1, 0, 60), span_of(2, 0, 60)]
    choice = choice_of(rows, meets=(meet_of(rows, 0, 1),), apart=7 * INCH)
    assert laid(choice).broken == 1


def test_broken_rules_weigh_more_than_units_and_these_more_than_preferences() -> None:
    rows = [span_of(row, 0, 60) for row in (1, 2, 3)]
    near, second = (meet_of(rows, 0, 1), meet_of(rows, 1, 2)), (meet_of(rows, 0, 2),)
    choice = choice_of(rows, 12, 1, meets=near, second=second, apart=INCH, second_apart=INCH)
    straight, shifted = (judge(choice, [at * INCH for at in row]) for row in ((0,) * 3, (0, 6, 0)))
    assert (straight.cost, shifted.cost) == ((2, 15, 1), (0, 16, 1))
    assert shifted.cost < straight.cost


def test_each_span_knows_the_spans_laid_before_it() -> None:
    rows = [span_of(row, 0, 60) for row in (1, 2, 3)]
    near, second = (meet_of(rows, 0, 1), meet_of(rows, 1, 2)), (meet_of(rows, 0, 2),)
    choice = choice_of(rows, meets=near, second=second)
    assert earlier_meets(choice) == ([[], [near[0]], [near[1]]], [[], [], [second[0]]])
