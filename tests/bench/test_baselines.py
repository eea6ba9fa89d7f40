"""The simple ways to lay a job that the benchmark measures against."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.floor.handrule import hand_rule
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Job,
    Marks,
    Mirror,
    Outline,
    Product,
    Rules,
)
from models.lengths import TICKS_PER_INCH as INCH
from solver import baselines
from solver.baselines import Baseline
from tests.references.jobs import STRAIGHT, box, make_job, must
from tests.references.naive import Task, rectangle, solve_naively
from tests.references.naive_units import Stock

PLANK = Product("plank", 8 * INCH, 4 * INCH)


def by_hand_rule(job: Job) -> Baseline:
    return there(baselines.by_hand_rule(job))


def fresh_units(job: Job) -> Baseline:
    return there(baselines.fresh_units(job))


def by_scan(job: Job) -> Baseline:
    return there(baselines.by_scan(job))


def there(laid: Baseline | None) -> Baseline:
    assert laid is not None
    return laid


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


def test_scrap_is_not_used_again() -> None:
    # Every second half of 4 in came from the row before; kept only from 5 in on, none does.
    room = box(12 * INCH, 16 * INCH)
    for scrap, units in ((4, 6), (5, 8)):
        product = Product("plank", 8 * INCH, 4 * INCH, scrap=scrap * INCH)
        assert by_hand_rule(make_job(room, product)).units == units


def test_units_turned_by_turns_leave_nothing_for_the_next_row() -> None:
    job = make_job(box(12 * INCH, 16 * INCH), Product("tile", 8 * INCH, 8 * INCH))
    turned = replace(job, zones=(replace(job.field, marks=Marks.QUARTER_TURNED),))
    assert by_hand_rule(job).units < fresh_units(job).units
    assert by_hand_rule(turned).units == fresh_units(turned).units


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
    job = job_of(21, 12)
    assert there(baselines.by_scan(job, stop=lambda: True)).units >= by_scan(job).units


def bordered(**mirror: Mirror) -> Job:
    """A hall of 24 by 16 with a zone of its own at the right end, 8 wide, and its mirror."""
    job = make_job(box(24 * INCH, 16 * INCH), PLANK)
    right = ((16 * INCH, 0), (24 * INCH, 0), (24 * INCH, 16 * INCH), (16 * INCH, 16 * INCH))
    end = replace(job.field, name="end", shape=Outline(right))
    image = [replace(job.field, name=name, shape=shape) for name, shape in mirror.items()]
    axis = Axis("middle", (12 * INCH, 0), (0, 1))
    return replace(job, axes=(axis,), zones=(end, *image, job.field))


def test_zones_are_laid_one_by_one_and_add_up() -> None:
    # The end zone is four whole units; what is left of 16 by 16 is eight.
    for way in (by_hand_rule, fresh_units, by_scan):
        assert way(bordered()).units == 4 + 8
        # With its image at the left end, the field is 8 by 16: four each.
        assert way(bordered(image=Mirror("end", "middle"))).units == 3 * 4


def test_no_simple_way_lays_a_herringbone_or_several_lengths() -> None:
    job = job_of(24, 16)
    points = replace(job.field, bond=Bond(BondKind.HERRINGBONE))
    mixed = replace(PLANK, mix=((8 * INCH, 2), (4 * INCH, 4)))
    for other in (replace(job, zones=(points,)), replace(job, products=(mixed,))):
        for way in (baselines.by_hand_rule, baselines.fresh_units, baselines.by_scan):
            assert way(other) is None
