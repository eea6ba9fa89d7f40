"""The stock flow on rows small enough to reckon by hand, solved by HiGHS through scipy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from models.program.flow import LinearProgram, stock_flow
from models.program.spans import Choice, Span


def minimum(program: LinearProgram) -> float:
    """The program's least cost."""
    matrix = np.zeros((len(program.rows), len(program.costs)))
    for number, terms in enumerate(program.rows):
        for variable, value in terms:
            matrix[number, variable] += value
    lows, highs = np.array(program.lows), np.array(program.highs)
    upper, lower = np.isfinite(highs), np.isfinite(lows)
    result = linprog(
        program.costs,
        A_ub=np.vstack([matrix[upper], -matrix[lower]]),
        b_ub=np.concatenate([highs[upper], -lows[lower]]),
        method="highs",
    )
    assert result.success, result.message
    assert result.fun is not None
    return float(result.fun)


def bound(
    lengths: list[int], kerf: int = 0, need: int = 0, step: int = 1, directional: bool = True
) -> float:
    """The flow's minimum for rows of these lengths from 0, in units 12 long."""
    spans = tuple(Span(i, 0, length, need, need, 1) for i, length in enumerate(lengths, 1))
    return minimum(stock_flow(Choice(12, step, kerf, spans), spans, directional))


@pytest.mark.parametrize("directional", [True, False])
def test_rows_of_whole_units_take_as_many(directional: bool) -> None:
    assert bound([36, 24], kerf=1, directional=directional) == pytest.approx(5)


def test_without_kerf_nothing_need_be_wasted() -> None:
    # 30 + 30 = 5 units: one row ends in half a unit and the other starts with its other half.
    assert bound([30, 30]) == pytest.approx(5)


def test_half_units_do_not_share_once_a_kerf_is_lost() -> None:
    # With offsets in steps of 6 the only cuts are halves, and two halves and a kerf exceed 12.
    assert bound([30, 30], step=6) == pytest.approx(5)
    assert bound([30, 30], kerf=1, step=6) == pytest.approx(6)


def test_a_kerf_is_lost_with_every_unit_that_is_shared() -> None:
    # Rows of 35 each lose a piece of 1: an end piece of 11 leaves nothing after a kerf of 1.
    assert bound([35] * 4, kerf=1) == pytest.approx(12)
    assert bound([35] * 4) < 12


def test_needs_keep_a_row_from_filling_its_last_unit() -> None:
    # 29 leaves 17 for both ends, or 5 and a whole unit: 8 and 9 is all that needs of 8 allow,
    # or 9 and 8, and neither leaves an offcut of 8 or more for another row. So 3 units a row.
    assert bound([29, 29]) == pytest.approx(58 / 12)
    assert bound([29, 29], need=8) == pytest.approx(6)


def test_runs_under_a_unit_are_cut_from_offcuts() -> None:
    # Each row of 17 leaves 7 of a unit, which holds a run of 7 in one piece.
    assert bound([17, 7], step=12) == pytest.approx(2)
    assert bound([17, 7], kerf=1, step=12) == pytest.approx(3)


def test_units_that_may_be_turned_need_no_more() -> None:
    rows = [17, 29, 31, 35]
    assert bound(rows, 1, 2, directional=False) <= bound(rows, 1, 2) + 1e-9
