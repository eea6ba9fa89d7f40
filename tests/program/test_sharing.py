"""The rule on sharing units: three tests for fit, kerf and how far offcuts are carried."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from ortools.sat.python import cp_model

from models.lengths import TICKS_PER_INCH as INCH
from models.program.offsets import share_units
from models.program.rows import row
from models.program.spans import Choice, Span
from models.program.traced import Traced
from tests.program.laid import units
from tests.program.solved import choice_of, solver_of, span_of


def most_shares(
    choice: Choice, pinned: Sequence[int], asked: tuple[int, int] | None = None
) -> int | None:
    """The most pairs at given offsets, one asked for; None when it cannot be."""
    traced = Traced()
    rows = [row(traced, index, choice) for index in range(len(choice.spans))]
    for laid, offset in zip(rows, pinned, strict=True):
        traced.model.add(laid.offset == offset)
    shares = share_units(traced.model, rows, choice)
    if asked is not None:
        if asked not in shares:
            return None
        traced.model.add(shares[asked] == 1)
    traced.model.maximize(sum(shares.values()))
    solver = solver_of()
    if solver.solve(traced.model) == cp_model.INFEASIBLE:
        return None
    return round(solver.objective_value)


def two(first: int, second: int) -> list[Span]:
    """Two rows from a stop at 0, long enough to end in cut pieces; inches."""
    return [span_of(1, 0, 24 + first), span_of(2, 0, 24 + second)]


def test_rows_of_whole_units_have_nothing_to_share() -> None:
    assert most_shares(choice_of(two(0, 0)), (0, 0)) == 0


def test_an_end_piece_and_a_start_piece_that_fill_a_unit_share_it() -> None:
    # Row 1 ends in 7 in of a unit; row 2 starts with the other 5 in and ends whole.
    assert most_shares(choice_of(two(7, 5)), (0, 5), asked=(0, 1)) == 1


def test_pieces_longer_together_than_a_unit_do_not_share() -> None:
    assert most_shares(choice_of(two(7, 6)), (0, 6)) == 0
    assert most_shares(choice_of(two(7, 6)), (0, 6), asked=(0, 1)) is None


def test_pieces_a_kerf_shorter_than_a_unit_share_it() -> None:
    assert most_shares(choice_of(two(7, 4), kerf=1), (0, 4)) == 1


def test_pieces_that_leave_no_room_for_the_kerf_do_not_share() -> None:
    assert most_shares(choice_of(two(7, 5), kerf=1), (0, 5), asked=(0, 1)) is None


@pytest.mark.parametrize(("within", "pairs"), [(None, 1), (3, 1), (2, 0), (0, 0)])
def test_offcuts_are_carried_no_further_than_asked(within: int | None, pairs: int) -> None:
    rows = [span_of(1, 0, 31), span_of(4, 0, 29)]
    assert most_shares(choice_of(rows, within=within), (0, 5)) == pairs


def test_an_offcut_carried_too_far_cannot_be_asked_for() -> None:
    rows = [span_of(1, 0, 31), span_of(4, 0, 29)]
    assert most_shares(choice_of(rows, within=2), (0, 5), asked=(0, 1)) is None


def test_two_end_pieces_never_share() -> None:
    # Both must sit at the same end of their unit, however short they are.
    assert most_shares(choice_of(two(2, 3)), (0, 0)) == 0


def test_a_row_may_share_a_unit_with_itself() -> None:
    # 30 in from a joint at 3 in: starts with 3, two whole units, ends with 3 of the same unit.
    assert most_shares(choice_of([span_of(1, 0, 30)]), (3,), asked=(0, 0)) == 1


def test_a_run_in_one_piece_fills_one_offcut() -> None:
    # 5 in from stop to stop takes what the row's end piece of 7 in leaves, but only once.
    rows = [span_of(1, 0, 31), span_of(2, 0, 5), span_of(3, 0, 31)]
    choice = choice_of(rows)
    assert most_shares(choice, (0, 8, 0)) == 1
    assert units(choice, [0, 8 * INCH, 0]) == 6
