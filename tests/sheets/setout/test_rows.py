from dataclasses import replace

import pytest

from models.floor.layout import RowPlan, Solution
from models.job.data import Job
from solver.sheets.chalk import chalk, line_ends, toward
from solver.sheets.setout.rows import (
    Offset,
    edge_rows,
    offset_lines,
    row_width,
    run_letter,
)
from tests.sheets.jobs import inch

Pair = tuple[Job, Solution]


def test_offsets_are_listed_row_by_row(planks: Pair) -> None:
    job, solution = planks
    lines = offset_lines(job, solution.layouts[0].zones[0])
    assert lines[0] == Offset("1", "3' 0\"")
    assert len(lines) == len(solution.layouts[0].zones[0].rows)


def test_runs_with_their_own_offsets_get_letters(planks: Pair) -> None:
    job, solution = planks
    row = RowPlan(7, 0, (((0, 9), inch("1")), ((9, 20), inch("2-1/16"))))
    zone = replace(solution.layouts[0].zones[0], rows=(row, RowPlan(8, 9, (((0, 9), inch("1")),))))
    assert offset_lines(job, zone) == (
        Offset("7a", '1"'),
        Offset("7b", '2-1/16"'),
        Offset("8", '1"'),
    )


def test_one_line_does_for_a_straight_bond(tiles: Pair) -> None:
    job, solution = tiles
    assert offset_lines(job, solution.layouts[0].zones[0]) == (Offset("every row", "0 mm"),)


@pytest.mark.parametrize(("place", "letter"), [(0, "a"), (25, "z"), (26, "aa"), (53, "bb")])
def test_letters_do_not_run_out(place: int, letter: str) -> None:
    assert run_letter(place) == letter


def test_rows_are_laid_up_from_the_start_row_and_then_down(planks: Pair) -> None:
    zone = planks[1].layouts[0].zones[0]
    order = zone.laying_order
    assert order[:2] == (zone.start_row, zone.start_row + 1)
    assert order[-1] == 1
    assert sorted(order) == [row.row for row in zone.rows]


def test_edge_rows_name_their_walls_and_widths(planks: Pair) -> None:
    job, solution = planks
    found = {edge.wall: edge for edge in edge_rows(job, solution.layouts[0].zones[0])}
    # Start line 8 ft 5 in: 101 = 16 x 6 + 5, step at 139 leaves 2, garden wall at 213-1/2, 4-1/2.
    assert found["sea wall"].words(job) == 'row 1 at sea wall 5"'
    assert found["step"].words(job) == 'row 24 at step 2"'
    assert found["garden wall"].words(job) == 'row 36 at garden wall 4-1/2"'


def test_a_tapered_row_shows_its_range_without_the_joint(tiles: Pair) -> None:
    job, solution = tiles
    zone = solution.layouts[0].zones[0]
    # 1590 - 3 x 452 = 234 less the joint of 2.
    assert row_width(job, zone, 1) == "232 mm"
    # The lamp wall runs from 3180 to 3210: 1590 + 3 x 452 = 2946 leaves 234 to 263.
    assert row_width(job, zone, 8).startswith("232 mm to 2")


def test_chalk_lines_end_at_walls(tiles: Pair) -> None:
    job, solution = tiles
    zone = solution.layouts[0].zones[0]
    lines = chalk(job, zone)
    low, high = line_ends(lines.start)
    assert low == (0, zone.start_v)
    assert high[1] == zone.start_v
    assert lines.triangle is not None


def test_ways_are_named_as_the_plan_shows_them(planks: Pair) -> None:
    level, upright = planks[1].layouts[0].zones[0], planks[1].layouts[2].zones[0]
    assert [toward(level.frame, 1, 0), toward(level.frame, 0, 1)] == ["right", "top"]
    assert [toward(upright.frame, 1, 0), toward(upright.frame, 0, 1)] == ["top", "left"]
    slanted = replace(level, frame=replace(level.frame, direction=(1, 1)))
    assert toward(slanted.frame, 1, 0) == "upper right"


def test_of_a_sliver_within_the_joint_no_width_is_left(tiles: Pair) -> None:
    job, solution = tiles
    zone = solution.layouts[0].zones[0]
    (product,) = job.products
    first = next(piece for piece in zone.pieces if piece.row == 1)
    sliver = replace(first, size_across=product.joint // 2)
    assert product.joint > 0
    assert row_width(job, replace(zone, pieces=(sliver,)), 1) == "0 mm"
