"""Search with units of several lengths in one carton."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
import shapely

from models.floor.pieces import Cut
from models.floor.sizes import SAME
from models.job.data import Kind, Limit, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds import mixed
from solver.search.found import QUICK, Found, Only, Searched, Task
from solver.search.outcome.mixed_measures import joint_offset, second_joint_offset
from solver.stock.mix import cartons_at_least, mix_of, needs_by_length, units_at_least
from tests.search.mixed_floors import PLANKS, box, cartons_of, cut, must, packed, task_of

RULES = Rules(smallest_cut=must(50), smallest_end=must(200), joint_offset=must(150))
LOFT = ((0, 0), (4100, 0), (4100, 1300), (2900, 1300), (2900, 2470), (0, 2470))
"""A room with a step."""


def found_in(task: Task) -> Searched:
    return mixed.search(replace(task, effort=QUICK), lambda _: None, lambda: False)


def least(task: Task) -> int:
    return cartons_at_least(mixed.length_at_least(task), mix_of(task.product))


def row_joints(cuts: Sequence[Cut]) -> dict[int, list[int]]:
    """The u at which two pieces of a row meet, from the pieces alone."""
    rows: dict[int, list[tuple[int, int]]] = {}
    for one in cuts:
        rows.setdefault(one.row, []).append((one.box[0], one.box[2]))
    return {
        row: [a[1] for a, b in pairwise(sorted(ends)) if a[1] == b[0]] for row, ends in rows.items()
    }


def nearest(joints: dict[int, list[int]], rows: int) -> int:
    """The least distance between joints of rows so many apart."""
    return min(
        abs(a - b)
        for row in joints
        if row + rows in joints
        for a in joints[row]
        for b in joints[row + rows]
    )


@pytest.fixture(scope="module")
def hall() -> tuple[Task, Searched]:
    """A plain room searched with full effort: 4 m by 2.6 m, thirteen rows."""
    task = task_of(box(4000, 2600), rules=RULES)
    return task, mixed.search(task, lambda _: None, lambda: False)


def test_a_plain_room_takes_as_few_cartons_as_its_area_allows(hall: tuple[Task, Searched]) -> None:
    # 13 rows of 4 m; a carton holds 2.4 + 2.7 + 1.8 = 6.9 m: 7.54 cartons, so 8.
    task, searched = hall
    assert least(task) == 8
    assert cartons_of(task, searched.found[0]) == 8
    assert searched.complete
    assert searched.admitted


def test_cartons_as_ordered_hold_what_is_laid(hall: tuple[Task, Searched]) -> None:
    task, searched = hall
    for found in searched.found:
        units = packed(task, found)
        counts = needs_by_length((length for _, length in units), mix_of(task.product))
        cartons = cartons_of(task, found)
        assert all(n <= cartons * held for n, (_, held) in zip(counts, PLANKS, strict=True))
        assert len(units) == found.units


def test_the_best_comes_first_and_none_is_below_the_bound(hall: tuple[Task, Searched]) -> None:
    task, searched = hall
    ranked = [(f.broken, cartons_of(task, f), f.units) for f in searched.found]
    assert ranked == sorted(ranked)
    assert all(f.units >= searched.at_least for f in searched.found)
    mix, length = mix_of(task.product), mixed.length_at_least(task)
    assert searched.at_least == units_at_least(length, mix)
    assert all(f.units >= units_at_least(length, mix, cartons_of(task, f)) for f in searched.found)


def test_rules_really_hold_by_the_pieces_alone(hall: tuple[Task, Searched]) -> None:
    task, searched = hall
    kept = [found for found in searched.found if not found.broken]
    assert searched.found[0] in kept
    for found in kept:
        cuts = cut(task, found)
        assert nearest(row_joints(cuts), 1) >= 150 * MM
        assert min(c.sizes.along for c in cuts if c.sizes.along is not None) >= 200 * MM - SAME


def test_what_is_measured_is_what_the_pieces_show(hall: tuple[Task, Searched]) -> None:
    task, searched = hall
    for found in searched.found:
        joints = row_joints(cut(task, found))
        for measure, rows in ((joint_offset, 1), (second_joint_offset, 2)):
            measured = measure(found.runs, found.cells)
            assert measured is not None
            assert measured[0] == nearest(joints, rows)


@pytest.mark.parametrize("corners", [box(3100, 1130), LOFT])
def test_pieces_tile_the_zone(corners: Sequence[tuple[int, int]]) -> None:
    task = task_of(corners, rules=RULES)
    for found in found_in(task).found:
        shapes = [shapely.Polygon(c.ring, c.holes) for c in cut(task, found)]
        assert sum(shape.area for shape in shapes) == pytest.approx(task.zone.polygon.area)
        assert shapely.union_all(shapes).symmetric_difference(task.zone.polygon).area < 1


def test_the_same_job_gives_the_same_answer() -> None:
    task = task_of(LOFT, rules=RULES)
    assert found_in(task) == found_in(task)


# Joint distances: trivially kept, forced and kept, forced and broken.

ONE_LINE = Only(rows=(0,))


def two_rows(apart: int, mix: Sequence[tuple[int, int]] = ((600, 1), (400, 1))) -> Found:
    """Two rows of 1 m, which 600 and 400 fill without a cut."""
    rules = Rules(smallest_end=must(150), joint_offset=must(apart))
    return found_in(task_of(box(1000, 400), mix, rules, only=ONE_LINE)).found[0]


def test_a_joint_distance_anything_keeps_costs_nothing() -> None:
    found = two_rows(1)
    assert (found.broken, found.units) == (0, 4)


def test_a_joint_distance_forces_the_order_of_lengths() -> None:
    # Joints at 400 and at 600: 200 apart at most without a cut.
    found = two_rows(200)
    assert (found.broken, found.units) == (0, 4)
    assert sorted(cells[0][1] for cells in found.cells) == [400 * MM, 600 * MM]


def test_a_joint_distance_no_joints_keep_is_counted_as_broken() -> None:
    assert two_rows(990).broken > 0


# End pieces: the same three.


def one_row(length: int, end: int) -> Found:
    rules = Rules(smallest_end=must(end))
    return found_in(task_of(box(length, 200), ((600, 1), (400, 1)), rules, only=ONE_LINE)).found[0]


def ends_of(found: Found, length: int) -> list[int]:
    first, last = found.cells[0][0], found.cells[0][-1]
    return [first[1] // MM, length - last[0] // MM]


def test_end_pieces_of_any_length_are_taken_when_none_is_asked() -> None:
    assert one_row(1000, 0).broken == 0


def test_a_least_end_piece_forces_two_cuts() -> None:
    # 1050: 50 is left beside whole units; with 150 asked the ends share it out.
    found = one_row(1050, 150)
    assert found.broken == 0
    assert min(ends_of(found, 1050)) >= 150


def test_a_least_end_piece_no_piece_is_long_enough_for_is_counted() -> None:
    # 1950 has no sum of whole units, so one end at least is cut, and 650 is longer than a unit.
    assert one_row(1950, 650).broken > 0


# Offcuts carried: the same three.


def carried(within: int | None) -> tuple[int, Task, Found]:
    reuse = None if within is None else Limit(Kind.MUST, within)
    rules = replace(RULES, reuse_within=reuse)
    task = task_of(box(2300, 1000), rules=rules, only=ONE_LINE)
    found = found_in(task).found[0]
    return cartons_of(task, found), task, found


def test_offcuts_carried_any_distance_change_nothing() -> None:
    assert carried(99)[0] == carried(None)[0]


@pytest.mark.parametrize("within", [0, 1])
def test_offcuts_are_carried_no_further_than_allowed(within: int) -> None:
    _, task, found = carried(within)
    cuts = cut(task, found)
    for members, _ in packed(task, found):
        rows = [cuts[i].row for i in members]
        assert max(rows) - min(rows) <= within


# Rips, mirrors, copies, one length.


def test_rips_under_the_smallest_cut_are_said_to_break_a_rule() -> None:
    task = task_of(box(3000, 1030), rules=RULES, only=ONE_LINE)
    searched = found_in(task)
    assert not searched.admitted
    assert searched.found[0].broken > 0
    assert found_in(replace(task, only=Only(rows=(100 * MM,)))).admitted


def test_a_room_seen_in_a_mirror_has_the_same_bound_and_about_the_same_cartons() -> None:
    there = task_of(LOFT, rules=RULES)
    back = task_of([(4100 - x, y) for x, y in reversed(LOFT)], rules=RULES)
    assert least(there) == least(back)
    cartons = [cartons_of(task, found_in(task).found[0]) for task in (there, back)]
    assert abs(cartons[0] - cartons[1]) <= 1
    assert min(cartons) >= least(there)


def test_copies_are_counted_in() -> None:
    one = task_of(box(2900, 1000), rules=RULES)
    two = replace(one, copies=2)
    single, double = found_in(one), found_in(two)
    assert mixed.length_at_least(two) == pytest.approx(2 * mixed.length_at_least(one))
    assert double.found[0].units >= 2 * min(f.units for f in single.found) - 2
    assert double.found[0].units >= double.at_least


def test_one_length_alone_is_bounded_like_units_of_one_length() -> None:
    task = task_of(box(3000, 1000), ((1200, 4),), RULES, only=ONE_LINE)
    # Five rows of 3 m: 12.5 units of 1.2 m, so 13, in four cartons.
    searched = found_in(task)
    assert searched.at_least == 13
    assert least(task) == 4
    assert cartons_of(task, searched.found[0]) >= 4
    assert searched.found[0].units >= 13


def test_a_search_told_to_stop_keeps_the_first_answer() -> None:
    said: list[str] = []
    searched = mixed.search(task_of(LOFT, rules=RULES), said.append, lambda: True)
    assert not searched.complete
    assert searched.found
    assert said == [f"loft, along x: start lines 1 of {said[0].split()[-1]}"]


def test_no_end_piece_is_needed_where_a_row_is_shorter_than_a_unit() -> None:
    searched = found_in(task_of(box(500, 600), rules=RULES))
    assert searched.found[0].broken == 0
    assert all(len(cells) == 1 for cells in searched.found[0].cells)
