import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.pieces import Cut, edges_by_row, pieces_of, touches
from models.floor.runs import Run, rows_count
from models.floor.sizes import SAME, Sizes
from models.floor.zone import Zone
from models.job.data import Job
from tests.floor.rooms import (
    PITCH,
    any_jobs,
    box,
    field_zone,
    laid,
    rectilinear_jobs,
    shape_of,
    zone_for,
)

LENGTH, WIDTH = PITCH
HALL = box(0, 0, 600_000, 100_000)


def one_row(zone: Zone, row: int, spread: int = 0) -> list[Cut]:
    return [cut for cut in laid(zone, 0, spread)[1] if cut.row == row]


def test_a_plain_row_by_hand() -> None:
    # 250000 from an end joint at 70000: 70000, one whole unit of 120000, and 60000.
    run = Run(1, 0, 0, 250_000, 0, WIDTH)
    first, second, third = pieces_of([run], [70_000], PITCH)
    assert [cut.box for cut in (first, second, third)] == [
        (0, 0, 70_000, WIDTH),
        (70_000, 0, 190_000, WIDTH),
        (190_000, 0, 250_000, WIDTH),
    ]
    assert [cut.order for cut in (first, second, third)] == [1, 2, 3]
    assert (first.cell, third.cell) == ((-50_000, 0, 70_000, WIDTH), (190_000, 0, 310_000, WIDTH))
    assert (first.sizes, second.sizes, third.sizes) == (
        Sizes(along=70_000),
        Sizes(),
        Sizes(along=60_000),
    )
    assert [cut.whole for cut in (first, second, third)] == [False, True, False]


def test_any_end_joint_of_a_run_will_do_as_its_offset() -> None:
    run = Run(1, 0, 0, 250_000, 0, WIDTH)
    at = [pieces_of([run], [70_000 + times * LENGTH], PITCH) for times in (-3, 0, 2)]
    assert at[0] == at[1] == at[2]


def test_joints_on_both_stops_leave_whole_units_only() -> None:
    cuts = pieces_of([Run(1, 0, 0, 3 * LENGTH, 0, WIDTH)], [0], PITCH)
    assert [cut.whole for cut in cuts] == [True] * 3


def test_a_rip_is_measured_across() -> None:
    (cut,) = pieces_of([Run(1, 0, 0, LENGTH, 7_000, WIDTH)], [0], PITCH)
    assert cut.sizes == Sizes(across=13_000)


@pytest.mark.parametrize("short", [1, SAME])
def test_a_unit_short_of_its_place_by_a_hair_is_whole(short: int) -> None:
    # In a rectangular run and in one with a slanted end alike: less than 0.02 mm is no cut.
    plain = Run(1, 0, 0, 2 * LENGTH, short, WIDTH)
    outline = ((0, short), (3 * LENGTH, short), (3 * LENGTH - 9_000, WIDTH), (0, WIDTH))
    odd = Run(1, 0, 0, 3 * LENGTH, short, WIDTH, outline)
    for run in (plain, odd):
        first = pieces_of([run], [0], PITCH)[0]
        assert (first.whole, first.box, first.sizes) == (True, (0, 0, LENGTH, WIDTH), Sizes())


def test_a_unit_short_by_more_is_cut() -> None:
    (cut,) = pieces_of([Run(1, 0, 0, LENGTH, SAME + 1, WIDTH)], [0], PITCH)
    assert (cut.whole, cut.sizes) == (False, Sizes(across=WIDTH - SAME - 1))


def test_two_pieces_of_one_unit_stand_either_side_of_a_column() -> None:
    # The column takes 150000 to 180000 of the unit that lies from 120000 to 240000.
    zone = zone_for(HALL, [box(150_000, 10_000, 180_000, 50_000)])
    second = [cut for cut in one_row(zone, 2) if cut.cell[0] == LENGTH]
    assert [cut.box[::2] for cut in second] == [(120_000, 150_000), (180_000, 240_000)]
    assert [cut.sizes.along for cut in second] == [30_000, 60_000]


def test_the_hole_of_a_piece_leaves_necks_on_its_four_sides() -> None:
    # Of 20000 across, a hole from 24000 to 33000 leaves 4000 below and 7000 above; at its
    # ends the unit goes on for 20000 and 60000.
    zone = zone_for(HALL, [box(140_000, 24_000, 180_000, 33_000)])
    (cut,) = [cut for cut in one_row(zone, 2) if cut.cell[0] == LENGTH]
    assert cut.sizes == Sizes(neck=4_000)
    assert shape_of(cut).area == LENGTH * WIDTH - 40_000 * 9_000
    (hole,) = cut.holes
    assert not shapely.is_ccw(shapely.LinearRing(hole))


def test_pieces_that_are_not_measured_have_the_same_shapes() -> None:
    room = ((0, 0), (600_000, 20_000), (560_000, 110_000), (30_000, 90_000))
    runs, cuts = laid(zone_for(room), 3_000, 17_000)
    offsets = [17_000 * (run.row + 3 * i) % LENGTH for i, run in enumerate(runs)]
    again = pieces_of(runs, offsets, PITCH, measured=False)
    assert [(c.cell, c.box, c.outline) for c in again] == [(c.cell, c.box, c.outline) for c in cuts]
    assert any(c.sizes != a.sizes for c, a in zip(cuts, again, strict=True))


def names(zone: Zone, cut: Cut) -> list[str]:
    first, count = rows_count(zone, WIDTH, 0)
    return [e.name for e in touches(cut, edges_by_row(zone, first, WIDTH, count)[cut.row - 1])]


def test_a_cut_piece_touches_what_its_sides_lie_on() -> None:
    zone = zone_for(box(0, 0, 600_000, 110_000), [box(150_000, 10_000, 180_000, 50_000)])
    cuts = laid(zone, 0, 0)[1]
    at_column = {(cut.row, cut.box[0]): names(zone, cut) for cut in cuts if cut.cell[0] == LENGTH}
    # The column stands in the second unit of rows 1 to 3, with one side or three; row 1 lies
    # along the wall too, and row 6 is ripped at the far wall.
    assert at_column == {
        (1, 120_000): ["w1", "c1", "c1", "c1"],
        (2, 120_000): ["c1"],
        (2, 180_000): ["c1"],
        (3, 120_000): ["c1", "c1", "c1"],
        (4, 120_000): [],
        (5, 120_000): [],
        (6, 120_000): ["w3"],
    }
    assert all(not names(zone, cut) for cut in cuts if cut.whole)
    last = max(cuts, key=lambda cut: (cut.row, cut.box[2]))
    assert names(zone, last) == ["w2", "w3"]


def test_meeting_an_edge_in_a_point_is_no_touch() -> None:
    # The column's corner (120000, 20000) is a corner of the piece beside it below.
    zone = zone_for(HALL, [box(120_000, 20_000, 180_000, 40_000)])
    (cut,) = [cut for cut in laid(zone, 0, 0)[1] if cut.row == 2 and cut.box[2] == 240_000]
    assert names(zone, cut) == ["c1"]
    cuts = pieces_of([Run(1, 0, 0, LENGTH - 900, 0, WIDTH)], [0], PITCH)
    assert "c1" not in names(zone, cuts[0])


@settings(max_examples=40, deadline=None, derandomize=True)
@given(any_jobs(), st.integers(0, WIDTH - 1))
def test_edges_by_row_are_those_that_reach_into_the_row(job: Job, line: int) -> None:
    zone = field_zone(job)
    first, count = rows_count(zone, WIDTH, line)
    for row, edges in enumerate(edges_by_row(zone, first, WIDTH, count)):
        low, high = first + row * WIDTH, first + (row + 1) * WIDTH
        reaching = [
            edge
            for edge in zone.edges
            if min(edge.start[1], edge.end[1]) <= high and max(edge.start[1], edge.end[1]) >= low
        ]
        assert edges == reaching


def inside(box_: tuple[int, ...], cell: tuple[int, ...]) -> bool:
    return box_[0] >= cell[0] and box_[1] >= cell[1] and box_[2] <= cell[2] and box_[3] <= cell[3]


def check_place(cut: Cut, runs: tuple[Run, ...]) -> None:
    run = runs[cut.run]
    assert inside(cut.box, cut.cell)
    assert (cut.cell[2] - cut.cell[0], cut.cell[3] - cut.cell[1]) == PITCH
    assert (cut.row, cut.cell[1]) == (run.row, run.low)
    shape = shape_of(cut)
    assert shape.is_valid
    assert shape.bounds == cut.box
    assert shapely.is_ccw(shape.exterior)
    assert all(not shapely.is_ccw(hole) for hole in shape.interiors)
    if cut.whole:
        assert (cut.box, cut.sizes) == (cut.cell, Sizes())


@settings(max_examples=60, deadline=None, derandomize=True)
@given(rectilinear_jobs(), st.integers(0, 499), st.integers(0, 2999))
def test_pieces_tile_a_rectilinear_zone_exactly(job: Job, line: int, spread: int) -> None:
    zone = field_zone(job)
    runs, cuts = laid(zone, 40 * line, 40 * spread)
    for cut in cuts:
        check_place(cut, runs)
    shapes = [shape_of(cut) for cut in cuts]
    assert sum(shape.area for shape in shapes) == zone.polygon.area
    assert shapely.union_all(shapes).symmetric_difference(zone.polygon).area == 0


@settings(max_examples=60, deadline=None, derandomize=True)
@given(any_jobs(), st.integers(0, WIDTH - 1), st.integers(0, LENGTH - 1))
def test_pieces_tile_any_zone(job: Job, line: int, spread: int) -> None:
    zone = field_zone(job)
    runs, cuts = laid(zone, line, spread)
    for cut in cuts:
        check_place(cut, runs)
    shapes = [shape_of(cut) for cut in cuts]
    # Corners are rounded to a tick, and what is narrower than a cut is left out or filled up.
    slack = sum(shape.length for shape in shapes) * SAME / 4
    union = shapely.union_all(shapes)
    assert sum(shape.area for shape in shapes) == pytest.approx(zone.polygon.area, abs=slack)
    assert union.area == pytest.approx(zone.polygon.area, abs=slack)
    assert zone.polygon.buffer(SAME + 1, join_style="mitre").covers(union)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(rectilinear_jobs(), st.integers(0, 499), st.integers(0, 2999))
def test_every_cut_piece_touches_something_and_only_what_it_lies_on(
    job: Job, line: int, spread: int
) -> None:
    zone = field_zone(job)
    _, cuts = laid(zone, 40 * line, 40 * spread)
    first, count = rows_count(zone, WIDTH, 40 * line)
    by_row = edges_by_row(zone, first, WIDTH, count)
    for cut in cuts:
        if cut.whole:
            continue
        found = touches(cut, by_row[cut.row - 1])
        rim = shape_of(cut).boundary
        lying = [
            edge
            for edge in zone.edges
            if rim.intersection(shapely.LineString([edge.start, edge.end])).length > SAME
        ]
        assert list(found) == lying
        assert found


def test_the_ring_of_a_plain_piece_is_its_box() -> None:
    (cut,) = pieces_of([Run(1, 0, 0, 100_000, 0, WIDTH)], [0], PITCH)
    assert cut.ring == box(0, 0, 100_000, WIDTH)
