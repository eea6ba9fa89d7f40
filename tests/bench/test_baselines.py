"""The simple ways to lay a job that the benchmark measures against."""

from __future__ import annotations

import pytest

from models.floor.handrule import hand_rule
from models.job.data import Job, Product, Rules
from models.lengths import TICKS_PER_INCH as INCH
from solver.baselines import by_hand_rule, by_scan, fresh_units
from tests.references.jobs import STRAIGHT, box, make_job, must
from tests.references.naive import Task, rectangle, solve_naively
from tests.references.naive_units import Stock

PLANK = Product("plank", 8 * INCH, 4 * INCH)


def job_of(width: int, height: int, rules: Rules | None = None) -> Job:
    return make_job(box(width * INCH, height * INCH), PLANK, rules=rules)


def test_a_room_of_whole_units_needs_no_cut() -> None:
    for way in (by_hand_rule, fresh_units, by_scan):
        laid = way(job_of(16, 8))
        assert (laid.units, laid.smallest_cut, laid.kept) == (4, None, True)


def test_each_row_starts_with_what_the_row_before_left() -> None:
    # Rows of 12: a whole unit and a half; every second half comes from the one before.
    job = job_of(12, 16)
    assert fresh_units(job).units == 8
    assert by_hand_rule(job).units == 6


def test_a_kerf_can_cost_an_offcut() -> None:
    sawn = Product("plank", 8 * INCH, 4 * INCH, kerf=INCH)
    room = box(12 * INCH, 16 * INCH)
    # Halves no longer pair; 3 in is left, and it starts a row of 3 + 8 + 1, and so on.
    assert by_hand_rule(make_job(room, sawn)).units > 6


@pytest.mark.parametrize("height", [9, 10, 13])
def test_the_hand_rule_sets_the_edge_cuts(height: int) -> None:
    laid = by_hand_rule(make_job(box(16 * INCH, height * INCH), PLANK, STRAIGHT))
    assert laid.smallest_cut == hand_rule(height * INCH, 4 * INCH).picked.cuts[0]


def test_joints_too_near_are_owned_up_to() -> None:
    # Neighbouring joints can never be over half a unit apart.
    assert not by_hand_rule(job_of(30, 16, Rules(joint_offset=must(5 * INCH)))).kept
    assert by_hand_rule(job_of(30, 16, Rules(joint_offset=must(2 * INCH)))).kept


@pytest.mark.parametrize(("width", "height"), [(20, 13), (21, 12), (10, 9)])
@pytest.mark.parametrize("apart", [0, 2])
def test_no_simple_way_beats_trying_everything(width: int, height: int, apart: int) -> None:
    rules = Rules(joint_offset=must(apart * INCH))
    least = solve_naively(Task(rectangle(width, height), Stock(8, 4), joint_offset=apart)).units
    job = job_of(width, height, rules)
    scan = by_scan(job)
    assert scan.units >= least
    assert scan.units <= by_hand_rule(job).units <= fresh_units(job).units


def test_a_stopped_scan_keeps_what_it_has() -> None:
    assert by_scan(job_of(21, 12), stop=lambda: True).units >= by_scan(job_of(21, 12)).units
