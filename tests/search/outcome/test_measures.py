"""What each rule measures, on floors laid by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.job.data import Axis, Centred, CentreOn, Kind, Rules, Sight
from models.lengths import TICKS_PER_MM as MM
from solver.search.outcome import measures
from solver.search.outcome.measures import NOTHING, Measure
from tests.search.floors import STRAIGHT, TILE, box, job_of, laid, must

ROOM = box(3100, 1000)
"""Five rows of planks 1200 x 200 from row lines at 0, none of them ripped."""

OFFSETS = (500, 900, 250, 1000, 640)
"""Joints: 500 1700 2900 | 900 2100 | 250 1450 2650 | 1000 2200 | 640 1840 3040."""


def mm(measure: Measure) -> float | None:
    return None if measure.worst is None else measure.worst / MM


def test_the_shortest_end_piece_is_found() -> None:
    # Row 5 ends in 3100 - 3040 = 60.
    draft = laid(job_of(ROOM), 0, OFFSETS)
    assert mm(measures.smallest_end(draft)) == 60
    assert measures.smallest_end(draft).where == "row 5, piece 4, at wall 2"
    assert measures.smallest_cut(draft) == measures.smallest_end(draft)


def test_the_narrowest_rip_is_found() -> None:
    # Lines at 60 leave 60 below and 1000 - 860 = 140 above.
    draft = laid(job_of(box(3600, 1000)), 60, (0,) * 6)
    assert measures.smallest_cut(draft) == Measure(60 * MM, "row 1, piece 1, at wall 1", 0)
    assert measures.smallest_end(draft) == NOTHING


def test_a_floor_of_whole_units_has_nothing_to_measure() -> None:
    draft = laid(job_of(box(3600, 1000)), 0, (0,) * 5)
    assert measures.smallest_cut(draft) == NOTHING
    assert measures.half_unit_edges(draft) == NOTHING
    assert measures.reuse_within(draft) == NOTHING
    assert mm(measures.balanced_cuts(draft)) == 0


def hide(*walls: int) -> dict[int, Sight]:
    return dict.fromkeys(walls, Sight.HIDDEN)


@pytest.mark.parametrize(
    ("hidden", "worst"), [((), 60), ((1, 2, 4), 140), ((2, 3, 4), 60), ((1, 2, 3, 4), None)]
)
def test_rips_at_hidden_walls_are_not_seen(hidden: tuple[int, ...], worst: int | None) -> None:
    draft = laid(job_of(box(3600, 1000), sights=hide(*hidden)), 60, (0,) * 6)
    assert mm(measures.half_unit_edges(draft)) == worst


@pytest.mark.parametrize(("hidden", "worst"), [((), 40), ((1, 3, 4), 60), ((1, 2, 3), 40)])
def test_end_cuts_at_hidden_walls_are_not_seen(hidden: tuple[int, ...], worst: int) -> None:
    # Straight tile 300 in 1000: 40 at the left wall, 60 at the right one.
    draft = laid(job_of(box(1000, 300), TILE, STRAIGHT, sights=hide(*hidden)), 0, (40,))
    assert mm(measures.half_unit_ends(draft)) == worst


def test_the_smallest_cut_at_a_prominent_wall_is_found() -> None:
    draft = laid(job_of(ROOM, sights={4: Sight.PROMINENT}), 0, OFFSETS)
    # Start pieces are 500, 900, 250, 1000 and 640; the end of 60 lies at another wall.
    assert mm(measures.prominent_cut(draft)) == 250
    assert measures.prominent_cut(laid(job_of(ROOM), 0, OFFSETS)) == NOTHING


def test_the_nearest_end_joints_of_two_rows_are_found() -> None:
    # Rows 1 and 2 are 400 apart, 2 and 3 550, 3 and 4 450, 4 and 5 360.
    draft = laid(job_of(ROOM), 0, OFFSETS)
    assert measures.joint_offset(draft) == Measure(360 * MM, "rows 4 and 5")


def test_the_nearest_end_joints_of_rows_two_apart_are_found() -> None:
    # Rows 1 and 3 are 250 apart, 2 and 4 100, 3 and 5 390.
    draft = laid(job_of(ROOM), 0, OFFSETS)
    assert measures.second_joint_offset(draft) == Measure(100 * MM, "rows 2 and 4")


def test_joints_either_side_of_a_column_are_not_neighbours() -> None:
    # The column stands on rows 1 and 2 from 1000 to 1400, so joints at 990 and 1410 never meet.
    column = ((1000, 0), (1400, 0), (1400, 400), (1000, 400))
    draft = laid(job_of(box(2400, 600), columns=[column]), 0, (990, 1410, 400, 1800, 1100))
    # The frame starts at the far wall's right end, two planks from the left wall.
    assert [(run.row, run.start // MM + 2400) for run in draft.runs] == [
        (1, 0), (1, 1400), (2, 0), (2, 1400), (3, 0),
    ]  # fmt: skip
    # Left of it 990 and 400, right of it 1410 and 1800; above 400 to 1100 and 1800 to 2300.
    assert measures.joint_offset(draft) == Measure(390 * MM, "rows 1 and 2")


@pytest.mark.parametrize(
    ("offsets", "worst", "where"),
    [
        ((0, 300, 600, 900, 0), 4, "rows 1 to 5"),
        ((0, 300, 600, 700, 800), 2, "rows 1 to 3"),
        ((100, 0, 300, 612, 924), 3, "rows 2 to 5"),
        ((0, 300, 613, 20, 900), 1, "rows 1 to 2"),
    ],
    ids=["all the way", "two and two", "within 12.7 mm", "none"],
)
def test_the_longest_streak_of_equal_shifts_is_found(
    offsets: tuple[int, ...], worst: int, where: str
) -> None:
    assert measures.no_stair(laid(job_of(ROOM), 0, offsets)) == Measure(worst, where)


def test_opposite_rips_are_compared() -> None:
    draft = laid(job_of(box(3600, 1000)), 60, (0,) * 6)
    assert measures.balanced_cuts(draft) == Measure(80 * MM, "rows 1 and 6", along=True)


def test_opposite_end_cuts_of_a_straight_bond_are_compared() -> None:
    # 40 left and 60 right differ by 20; a whole row below and a rip of 100 above by 200.
    draft = laid(job_of(box(1000, 300), TILE, STRAIGHT), 0, (40,))
    assert measures.balanced_cuts(draft) == Measure(
        20 * MM, "row 1, first and last piece", along=False
    )
    draft = laid(job_of(box(1000, 400), TILE, STRAIGHT), 0, (40, 40))
    assert measures.balanced_cuts(draft) == Measure(200 * MM, "rows 1 and 2", along=True)


def test_how_far_offcuts_are_carried_is_counted_in_rows() -> None:
    # Row 1 ends in 500, row 4 starts with the other 700 of that unit; rows 2 and 3 are whole.
    job = job_of(((0, 0), (1700, 0), (1700, 200), (1200, 200), (1200, 600), (1900, 600),
                  (1900, 800), (0, 800)))  # fmt: skip
    draft = laid(job, 0, (0, 0, 0, 700))
    assert draft.units == 5
    assert measures.reuse_within(draft) == Measure(3, "rows 1 and 4")


def test_the_tape_margin_is_what_the_tightest_cut_has_to_spare() -> None:
    rules = Rules(smallest_cut=must(50), smallest_end=must(55))
    # The end of 60 has 10 to spare as a cut and 5 as an end; the rest have more.
    assert mm(measures.tape_margin(laid(job_of(ROOM, rules=rules), 0, OFFSETS))) == 5
    assert mm(measures.tape_margin(laid(job_of(ROOM), 0, OFFSETS))) is None


AXES = (
    Axis("middle", (0, 500 * MM), (1, 0)),
    Axis("door", (1550 * MM, 0), (0, 1)),
)


@pytest.mark.parametrize(
    ("on", "off"), [(CentreOn.JOINT, 80), (CentreOn.UNIT, 20), (CentreOn.EITHER, 20)]
)
def test_how_far_lines_are_off_an_axis_along_the_rows(on: CentreOn, off: int) -> None:
    # Lines at 20, 220, 420: the axis at 500 is 80 past one; unit centres lie at 320 and 520.
    draft = laid(job_of(ROOM, axes=AXES), 20, (*OFFSETS, 0))
    measured = measures.centred(draft, Centred(Kind.MUST, "middle", on))
    assert measured == Measure(off * MM, "axis middle")


@pytest.mark.parametrize(("on", "off"), [(CentreOn.JOINT, 150), (CentreOn.UNIT, 0)])
def test_how_far_joints_are_off_an_axis_square_to_the_rows(on: CentreOn, off: int) -> None:
    # Joints of tile 300 at 200 and every 300 on: 1400 and 1700 lie either side of 1550.
    draft = laid(job_of(box(3100, 300), TILE, STRAIGHT, axes=AXES), 0, (200,))
    assert mm(measures.centred(draft, Centred(Kind.MUST, "door", on))) == off


def test_sizes_are_compared_within_a_fiftieth_of_a_millimetre() -> None:
    assert measures.at_least(None, 100)
    assert measures.at_least(94, 100)
    assert not measures.at_least(93, 100)
    assert measures.at_most(None, 100)
    assert measures.at_most(106, 100)
    assert not measures.at_most(107, 100)


def test_a_rip_along_a_hidden_wall_is_not_seen_even_in_its_corner() -> None:
    # The first row's pieces of 60 go to the hidden wall 1; the corner one ends at wall 4 too.
    job = job_of(box(3600, 1000))
    walls = tuple(replace(w, sight=Sight.HIDDEN) if w.name == "wall 1" else w for w in job.walls)
    draft = laid(replace(job, walls=walls), 60, (0,) * 6)
    assert mm(measures.half_unit_edges(draft)) == 140
