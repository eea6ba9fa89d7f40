"""Distances between end joints, from the joints themselves."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from models.floor.runs import Run
from models.program.spans import gap, meets_of
from solver.search.outcome.mixed_measures import distance, joint_offset, second_joint_offset, within


def runs(*spans: tuple[int, int]) -> list[Run]:
    """Plain runs, one a row, 10 wide."""
    return [Run(k + 1, 10 * k, a, b, 10 * k, 10 * k + 10) for k, (a, b) in enumerate(spans)]


def cells(*marks: int) -> tuple[tuple[int, int], ...]:
    return tuple(pairwise(marks))


def test_the_nearest_joints_of_three_rows_by_hand() -> None:
    rows = runs((0, 100), (0, 100), (0, 100))
    laid = [cells(0, 30, 70, 100), cells(0, 45, 80, 100), cells(0, 22, 60, 110)]
    assert joint_offset(rows, laid) == (10, (1, 2))  # 70 and 80
    assert second_joint_offset(rows, laid) == (8, (1, 3))  # 30 and 22


def test_stops_are_no_joints_and_rows_without_joints_measure_nothing() -> None:
    rows = runs((0, 100), (0, 100))
    assert joint_offset(rows, [cells(0, 100), cells(0, 2, 100)]) is None
    assert second_joint_offset(rows, [cells(0, 50, 100), cells(0, 50, 100)]) is None
    assert joint_offset(rows, [cells(0, 50, 100), cells(0, 50, 100)]) == (0, (1, 2))


def test_joints_count_only_in_the_length_two_rows_share() -> None:
    rows = runs((0, 100), (60, 200))
    assert joint_offset(rows, [cells(0, 50, 90, 100), cells(60, 120, 200)]) is None
    assert joint_offset(rows, [cells(0, 50, 90, 100), cells(60, 75, 200)]) == (15, (1, 2))


def test_runs_beside_a_column_are_measured_each_by_itself() -> None:
    low = Run(1, 0, 0, 100, 0, 10)
    left, right = Run(2, 10, 0, 40, 10, 20), Run(2, 10, 60, 100, 10, 20)
    laid = [cells(0, 50, 100), cells(0, 38, 40), cells(60, 63, 100)]
    assert joint_offset([low, left, right], laid) is None  # 50 lies under the column
    laid[0] = cells(0, 30, 70, 100)
    assert joint_offset([low, left, right], laid) == (7, (1, 2))


def test_nearest_and_inside() -> None:
    assert distance(5, (1, 8, 20)) == 3
    assert distance(50, (1, 8, 20)) == 30
    assert within((1, 8, 20), (8, 20)) == (8, 20)


@given(st.integers(0, 39), st.integers(0, 39), st.integers(0, 50), st.integers(60, 200))
def test_joints_one_length_apart_measure_as_row_offsets_do(
    one: int, two: int, start: int, end: int
) -> None:
    rows = runs((0, 150), (start, end))
    laid = []
    for run, offset in zip(rows, (one, two), strict=True):
        first = offset + (run.start - offset) // 40 * 40
        count = -((first - run.end) // 40)
        laid.append(cells(*(first + 40 * i for i in range(count + 1))))
    (meet,) = meets_of(rows)[0]
    measured = joint_offset(rows, laid)
    assert (measured[0] if measured else None) == gap(meet, one, two, 40)
