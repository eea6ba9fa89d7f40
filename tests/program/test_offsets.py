"""The whole offset program: rules that may break, preferences, and the first answer."""

from __future__ import annotations

import random
from collections.abc import Sequence
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from models.lengths import TICKS_PER_INCH as INCH
from models.program.offsets import Program, build, hint
from models.program.spans import Choice
from solver.search.engine import best_offsets, sharing
from tests.program.laid import Cost, cost_of
from tests.program.solved import choice_of, meet_of, solver_of, span_of


def price(program: Program, cost: Cost) -> int:
    """The program's objective for what offsets cost."""
    broken, units, soft = cost
    return program.break_cost * broken + program.unit_cost * units + soft


def least(choice: Choice, may_break: bool = False) -> int | None:
    """The least objective; None when no offsets keep the rules."""
    program = build(choice, may_break)
    solver = solver_of()
    status = solver.solve(program.model)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE), solver.status_name(status)
    return None if status == cp_model.INFEASIBLE else round(solver.objective_value)


THREE = [span_of(row, 0, 60) for row in (1, 2, 3)]
NEXT = (meet_of(THREE, 0, 1), meet_of(THREE, 1, 2))
AFTER = (meet_of(THREE, 0, 2),)
CONTRADICTORY = choice_of(
    THREE,
    meets=NEXT,
    apart=6 * INCH,
    second=AFTER,
    second_apart=6 * INCH,
    second_must=True,
)


def test_rows_after_next_asked_no_distance_apart_are_free() -> None:
    assert least(choice_of(THREE, second=AFTER, second_must=True)) == 15


def test_rows_after_next_kept_apart_force_other_offsets() -> None:
    # Whole units to both stops are 15 units; only one of two rows two apart may have them.
    # The other starts and ends in halves of one unit, so it costs nothing.
    choice = choice_of(THREE, second=AFTER, second_apart=6 * INCH, second_must=True)
    assert least(choice) == 15
    # With a kerf the halves no longer come from one unit.
    sawn = choice_of(THREE, kerf=1, second=AFTER, second_apart=6 * INCH, second_must=True)
    assert least(sawn) == 16


def test_rows_after_next_kept_further_apart_than_can_be_are_refused() -> None:
    choice = choice_of(THREE, second=AFTER, second_apart=7 * INCH, second_must=True)
    assert least(choice) is None


def test_a_preference_gives_way_to_a_unit_and_to_nothing_less() -> None:
    choice = choice_of(THREE, kerf=1, second=AFTER, second_apart=6 * INCH)
    program = build(choice)
    assert least(choice) == price(program, (0, 15, 1)) < price(program, (0, 16, 0))
    free = choice_of(THREE, second=AFTER, second_apart=6 * INCH)
    assert least(free) == price(build(free), (0, 15, 0))


def test_a_stair_gives_way_to_a_unit_only_if_it_may() -> None:
    # Whole units to both stops in every row: two shifts of nothing, one after another.
    rule, wish = (choice_of(THREE, kerf=1, stair=1, stair_must=must) for must in (True, False))
    assert least(rule) == 16
    assert least(wish) == price(build(wish), (0, 15, 1))
    assert least(rule, may_break=True) == price(build(rule, may_break=True), (0, 16, 0))


def test_rules_that_can_be_kept_are_not_broken() -> None:
    choice = choice_of(THREE, meets=NEXT, apart=6 * INCH)
    assert least(choice, may_break=True) == least(choice) == 15


def test_a_rule_breaks_only_where_it_has_to() -> None:
    # Half a unit apart from row to row holds; half a unit to the row after next then cannot.
    broken = least(CONTRADICTORY, may_break=True)
    program = build(CONTRADICTORY, may_break=True)
    assert broken is not None
    assert price(program, (1, 0, 0)) < broken < price(program, (2, 0, 0))


def test_rules_that_contradict_each_other_leave_nothing_unless_they_may_break() -> None:
    assert least(CONTRADICTORY) is None
    short = choice_of([span_of(1, 0, 29, (9, 9))])
    assert least(short) is None
    assert least(short, may_break=True) == price(build(short, may_break=True), (1, 3, 0))


@st.composite
def choices(draw: st.DrawFn, rows: int, pitch: int) -> Choice:
    """Rows of any length, some under a unit, with all the rules there are."""
    spans = []
    for row in range(1, draw(st.integers(1, rows)) + 1):
        start = draw(st.integers(0, pitch))
        needs = draw(st.tuples(st.integers(0, 2), st.integers(0, 2)))
        spans.append(span_of(row, start, start + draw(st.integers(2, 3 * pitch)), needs))
    near, second = (
        [
            meet_of(spans, i, i + apart)
            for i in range(len(spans) - apart)
            if max(s.start for s in spans[i : i + apart + 1])
            < min(s.end for s in spans[i : i + apart + 1])
        ]
        for apart in (1, 2)
    )
    return choice_of(
        spans,
        pitch,
        draw(st.integers(0, 1)),
        meets=tuple(near),
        second=tuple(second),
        apart=draw(st.integers(0, 2)) * INCH,
        second_apart=draw(st.integers(0, 1)) * INCH,
        stair=draw(st.sampled_from([None, 1, 2])),
        within=draw(st.sampled_from([None, 1])),
        second_must=draw(st.booleans()),
        stair_must=draw(st.booleans()),
    )


def every_cost(choice: Choice) -> list[Cost]:
    """What all offsets there are cost, by the validator."""
    offsets = range(0, choice.pitch, choice.step)
    return [cost_of(choice, tried) for tried in product(offsets, repeat=len(choice.spans))]


@given(choice=choices(rows=3, pitch=5))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_the_program_finds_what_trying_every_offset_finds(choice: Choice) -> None:
    best = min(every_cost(choice))
    assert least(choice, may_break=True) == price(build(choice, may_break=True), best)
    kept = price(build(choice), best) if best[0] == 0 else None
    assert least(choice) == kept


@st.composite
def answers(draw: st.DrawFn, rows: int, pitch: int) -> tuple[Choice, list[int]]:
    choice = draw(choices(rows, pitch))
    return choice, [draw(st.integers(0, pitch - 1)) * INCH for _ in choice.spans]


def hinted(choice: Choice, offsets: Sequence[int]) -> Program:
    program = build(choice, may_break=True)
    hint(program, offsets, sharing(choice, offsets))
    return program


@given(answer=answers(rows=6, pitch=12))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_the_first_answer_is_given_whole_and_costs_what_it_costs(
    answer: tuple[Choice, list[int]],
) -> None:
    program = hinted(*answer)
    given_ = list(program.model.proto.solution_hint.vars)
    assert sorted(given_) == list(range(len(program.model.proto.variables)))
    solver = solver_of()
    solver.parameters.fix_variables_to_their_hinted_value = True
    assert solver.solve(program.model) == cp_model.OPTIMAL
    assert round(solver.objective_value) == price(program, cost_of(*answer))


class _First(cp_model.CpSolverSolutionCallback):
    """Stops at the first solution."""

    def on_solution_callback(self) -> None:
        self.stop_search()


@pytest.mark.parametrize("seed", range(4))
def test_the_solver_starts_from_the_first_answer(seed: int) -> None:
    rng = random.Random(seed)
    spans = [span_of(row, 0, rng.randrange(40, 90), (2, 2)) for row in range(1, 15)]
    near = tuple(meet_of(spans, i, i + 1) for i in range(13))
    choice = choice_of(spans, kerf=1, meets=near, apart=3 * INCH, stair=2)
    first = [rng.randrange(12) * INCH for _ in spans]
    program = hinted(choice, first)
    solver = solver_of()
    assert solver.solve(program.model, _First()) == cp_model.FEASIBLE
    assert round(solver.objective_value) == price(program, cost_of(choice, first))


@given(answer=answers(rows=6, pitch=12), effort=st.sampled_from([1e-6, 0.01, 0.1]))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_with_little_effort_an_answer_is_no_worse_than_the_first(
    answer: tuple[Choice, list[int]], effort: float
) -> None:
    choice, first = answer
    found = best_offsets(choice, first, effort, may_break=True)
    assert found.offsets is None or cost_of(choice, found.offsets) <= cost_of(choice, first)
    assert not found.infeasible


def test_a_second_first_answer_replaces_the_first() -> None:
    choice = choice_of(THREE)
    program = hinted(choice, [0, INCH, 0])
    hint(program, [0, 0, 0], sharing(choice, [0, 0, 0]))
    solver = solver_of()
    solver.parameters.fix_variables_to_their_hinted_value = True
    assert solver.solve(program.model) == cp_model.OPTIMAL
    assert round(solver.objective_value) == 15


def test_offsets_that_cannot_be_are_said_to_be_infeasible() -> None:
    short = choice_of([span_of(1, 0, 29, (9, 9))])
    assert best_offsets(short, None, 1.0).infeasible
    assert best_offsets(short, [0], 1.0, may_break=True).proved
