"""A zone filled run by run with units of several lengths."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.job.data import Rules
from solver.search.bonds.mixed_floor import Cost, Work, better, lay, spread_of, with_needs, work_of
from solver.search.bonds.mixed_row import Filled
from solver.search.bonds.patterns import patterns_of
from solver.search.draft import zone_stock
from solver.search.found import Only
from solver.stock.mix import mix_of
from tests.search.mixed_floors import box, must, task_of

RULES = Rules(smallest_end=must(200), joint_offset=must(100))
LEAST = Cost(0, 0, 0, 0, 0)


def work_in(width: int, height: int, line: int = 0, cartons: int = 1, **more: object) -> Work:
    task = task_of(box(width, height), only=Only(rows=(line,)), **{"rules": RULES, **more})  # type: ignore[arg-type]
    (pattern,) = patterns_of(task)
    plain = [run.outline is None for run in pattern.runs[0]]
    return work_of(
        pattern.choice, plain, zone_stock(task.job, task.zone.laying), mix_of(task.product), cartons
    )


def test_what_a_filling_by_hand_costs() -> None:
    # Two rows of 1800: 1200 + 600 and 600 + 1200, of cartons with 2, 3 and 3.
    work = work_in(1800, 400)
    long, short = work.mix[0][0], work.mix[2][0]
    filled = [Filled((long,), 0, (0, 2), 0), Filled((short,), 0, (2, 0), 0)]
    assert spread_of(work, filled).cost == Cost(0, 1, 0, 4, 0)
    assert spread_of(work, [filled[0]] * 2).cost == Cost(1, 1, 0, 4, 0)  # joint above joint


def test_units_too_many_for_one_carton_less_are_counted() -> None:
    work = work_in(3600, 200)
    long = work.mix[0][0]
    filled = [Filled((long, 2 * long), 0, (0, 0, 0), 0)]
    assert spread_of(work, filled).cost == Cost(0, 2, 2, 3, 0)  # both counts of 1200 are over
    assert spread_of(replace(work, cartons=2), filled).cost.over == 0  # one less can not do


def test_two_ends_that_share_a_unit_are_one() -> None:
    work = work_in(1500, 400)
    mm = work.mix[0][0] // 1200
    starts = Filled((300 * mm,), 300 * mm, (0,), 0)
    ends = Filled((1200 * mm,), 0, (0,), 300 * mm)
    assert spread_of(work, [starts, ends]).cost.units == 3
    assert spread_of(work, [starts, starts]).cost.units == 4


def test_rips_of_two_rows_share_units_length_by_length() -> None:
    # A start line 100 up: three rows, the first and the last ripped to 100 and 90 of 200.
    work = work_in(1800, 390, line=100)
    assert work.rips == ((0, 2),)
    long = work.mix[0][0]
    row = Filled((long,), 0, (0, 2), 0)
    assert spread_of(work, [row, row, row]).cost.units == 4
    assert work_in(1800, 400, line=100, kerf=0).rips == ((0, 2),)
    assert work_in(1800, 400, line=100, kerf=1).rips == ()


@pytest.mark.parametrize("tidy", [False, True])
def test_bettering_never_makes_it_worse_and_keeps_to_the_goal(tidy: bool) -> None:
    rules = replace(RULES, second_joint_offset=replace(must(60), kind=must(1).kind))
    work = work_in(3700, 1800, cartons=5, rules=rules)
    start = lay(work, 0, 5)
    after = better(work, start, LEAST, 0, 4000, tidy)
    assert after.cost.by(tidy) <= start.cost.by(tidy)
    assert better(work, start, start.cost, 0, 4000, tidy) == start
    assert better(work, start, LEAST, 0, 4000, tidy) == after


def test_fillings_of_a_whole_room_add_up() -> None:
    work = work_in(3700, 1800, cartons=5)
    for seed in range(3):
        for lane, one in zip(work.lanes, lay(work, seed, 5).filled, strict=True):
            units = sum(work.mix[unit][0] for unit in one.whole)
            assert one.first + one.last + units == lane.span.length


def test_longer_end_pieces_can_be_asked_for() -> None:
    work = work_in(3700, 1800, cartons=5)
    least = work.mix[2][0] // 2
    longer = lay(with_needs(work, least), 0, 5)
    assert longer.cost.broken == 0
    assert longer.shortest >= least


def test_preferences_come_after_units_unless_tidiness_is_asked() -> None:
    few, tidy = Cost(0, 3, 0, 20, 5), Cost(0, 3, 0, 21, 0)
    assert few.by(False) < tidy.by(False)
    assert few.by(True) > tidy.by(True)
