"""The rule on end pieces: three tests, and the pieces that follow from an offset."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from models.lengths import TICKS_PER_INCH as INCH
from models.program.rows import row
from models.program.traced import Traced
from tests.program.laid import end_is_short, pieces
from tests.program.solved import choice_of, every, solver_of, span_of


def test_without_needs_every_offset_is_left() -> None:
    assert every(choice_of([span_of(1, 0, 29)])) == {(p,) for p in range(12)}


def test_needs_can_leave_one_offset() -> None:
    # 29 less one whole unit leaves 17 for both ends: 8 and 9, and nothing else.
    assert every(choice_of([span_of(1, 0, 29, (8, 9))])) == {(8,)}


def test_needs_can_leave_no_offset() -> None:
    assert every(choice_of([span_of(1, 0, 29, (9, 9))])) == set()


def test_a_span_laid_in_one_piece_has_no_end_to_be_short() -> None:
    # Nothing but a joint outside the 7 in from stop to stop keeps ends of 4 in.
    assert every(choice_of([span_of(1, 3, 10, (4, 4))])) == {(p % 12,) for p in range(10, 16)}


@given(
    start=st.integers(-15, 15),
    length=st.integers(1, 40),
    needs=st.tuples(st.integers(0, 12), st.integers(0, 12)),
)
@settings(max_examples=80, deadline=None, derandomize=True)
def test_the_offsets_left_are_those_with_no_short_end(
    start: int, length: int, needs: tuple[int, int]
) -> None:
    span = span_of(1, start, start + length, needs)
    left = {(p,) for p in range(12) if not end_is_short(span, p * INCH, 12 * INCH)}
    assert every(choice_of([span])) == left


@given(start=st.integers(-15, 15), length=st.integers(1, 40), at=st.integers(0, 11))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_pieces_and_places_follow_from_the_offset(start: int, length: int, at: int) -> None:
    choice = choice_of([span_of(1, start, start + length)])
    traced = Traced()
    laid = row(traced, 0, choice)
    traced.model.add(laid.offset == at)
    solver = solver_of()
    assert solver.solve(traced.model) == cp_model.OPTIMAL
    cut = pieces(choice.spans[0], at * INCH, choice.pitch)
    assert solver.value(laid.places) == len(cut)
    assert solver.value(laid.first) == cut[0]
    # A span in one piece is a start piece only: its end takes a unit no other piece can share.
    assert solver.value(laid.last) == (cut[-1] if len(cut) > 1 else choice.pitch)


def test_a_row_that_may_break_takes_any_offset_and_says_so() -> None:
    choice = choice_of([span_of(1, 0, 29, (9, 9))])
    traced = Traced()
    breaks: list[cp_model.IntVar] = []
    laid = row(traced, 0, choice, breaks)
    traced.model.add(laid.offset == 3)
    solver = solver_of()
    assert solver.solve(traced.model) == cp_model.OPTIMAL
    assert [solver.value(literal) for literal in breaks] == [1]
