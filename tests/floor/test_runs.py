import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.runs import Run, Slab, parts_of, rows_count, runs_of, slabs
from models.floor.zone import Zone
from models.job.data import Job
from tests.floor.rooms import any_jobs, box, field_zone, rectilinear_jobs, zone_for

WIDTH = 20_000
HALL = box(0, 0, 600_000, 100_000)


def rows(zone: Zone, line: int) -> tuple[Run, ...]:
    return runs_of(zone, slabs(zone), WIDTH, line)


def test_a_plain_room_has_one_rectangle_a_row() -> None:
    # 100000 = 8000 + 4 x 20000 + 12000.
    found = rows(zone_for(HALL), 8_000)
    assert [(r.row, r.low, r.bottom, r.top) for r in found] == [
        (1, -12_000, 0, 8_000),
        (2, 8_000, 8_000, 28_000),
        (3, 28_000, 28_000, 48_000),
        (4, 48_000, 48_000, 68_000),
        (5, 68_000, 68_000, 88_000),
        (6, 88_000, 88_000, 100_000),
    ]
    assert all((r.start, r.end, r.outline, r.length) == (0, 600_000, None, 600_000) for r in found)


def test_a_row_line_on_both_walls_leaves_no_rip() -> None:
    assert rows_count(zone_for(HALL), WIDTH, 0) == (0, 5)
    assert rows_count(zone_for(HALL), WIDTH, 60_000) == (0, 5)
    assert rows_count(zone_for(HALL), WIDTH, 1) == (1 - WIDTH, 6)


def test_a_column_right_across_a_row_makes_two_runs() -> None:
    zone = zone_for(HALL, [box(200_000, 30_000, 240_000, 70_000)])
    third = [r for r in rows(zone, 0) if r.row == 3]
    assert [(r.start, r.end, r.outline) for r in third] == [
        (0, 200_000, None),
        (240_000, 600_000, None),
    ]


def test_a_column_that_reaches_into_a_row_notches_its_one_run() -> None:
    zone = zone_for(HALL, [box(200_000, 30_000, 240_000, 70_000)])
    (second,) = [r for r in rows(zone, 0) if r.row == 2]
    assert second.outline is not None
    assert second.polygon.area == 600_000 * WIDTH - 40_000 * 10_000


def test_a_column_inside_a_row_is_a_hole_of_its_run() -> None:
    zone = zone_for(HALL, [box(200_000, 25_000, 240_000, 35_000)])
    (second,) = [r for r in rows(zone, 0) if r.row == 2]
    assert len(second.holes) == 1
    assert second.polygon.area == 600_000 * WIDTH - 40_000 * 10_000


def test_a_step_in_the_wall_makes_a_run_of_two_heights() -> None:
    room = (
        (0, 0),
        (600_000, 0),
        (600_000, 50_000),
        (250_000, 50_000),
        (250_000, 90_000),
        (0, 90_000),
    )
    (third,) = [r for r in rows(zone_for(room), 0) if r.row == 3]
    assert (third.start, third.end, third.bottom, third.top) == (0, 600_000, 40_000, 60_000)
    assert third.polygon.area == 250_000 * 20_000 + 350_000 * 10_000


def test_slabs_name_the_plain_parts_and_the_slanted_ones() -> None:
    room = ((0, 0), (600_000, 0), (600_000, 50_000), (550_000, 100_000), (0, 100_000))
    assert slabs(zone_for(room)) == (
        Slab(0, 50_000, ((0, 600_000),)),
        Slab(50_000, 100_000, None),
    )


def lowest(zone: Zone) -> tuple[int, int, list[tuple[int, int]]]:
    """The lowest slab's height and its spans, in the room's own axes."""
    slab = slabs(zone)[0]
    (u, v), spans = zone.frame.to_frame((0, 0)), slab.spans or ()
    return slab.low - v, slab.high - v, [(start - u, end - u) for start, end in spans]


def test_columns_side_by_side_leave_no_span_between_them() -> None:
    zone = zone_for(HALL, [box(200_000, 0, 300_000, 40_000), box(300_000, 0, 350_000, 40_000)])
    assert lowest(zone) == (0, 40_000, [(0, 200_000), (350_000, 600_000)])


def test_columns_that_overlap_by_a_hair_leave_no_span_between_them() -> None:
    zone = zone_for(HALL, [box(200_000, 0, 300_000, 40_000), box(299_997, 0, 350_000, 40_000)])
    assert lowest(zone) == (0, 40_000, [(0, 200_000), (350_000, 600_000)])


def test_a_column_a_hair_into_the_wall_leaves_no_span_outside() -> None:
    zone = zone_for(HALL, [box(-3, 0, 100_000, 40_000)])
    assert lowest(zone) == (0, 40_000, [(100_000, 600_000)])


def test_parts_of_leaves_out_points_and_lines() -> None:
    mixed = shapely.GeometryCollection(
        [shapely.Point(0, 0), shapely.box(0, 0, 1, 1), shapely.LineString([(0, 0), (1, 1)])]
    )
    assert [part.area for part in parts_of(mixed)] == [1]
    assert parts_of(shapely.Polygon()) == []
    assert len(parts_of(shapely.union_all([shapely.box(0, 0, 1, 1), shapely.box(2, 2, 3, 3)]))) == 2


@settings(max_examples=40, deadline=None, derandomize=True)
@given(rectilinear_jobs(), st.integers(0, 499))
def test_runs_cover_a_rectilinear_zone_exactly(job: Job, line: int) -> None:
    zone = field_zone(job)
    shapes = [run.polygon for run in rows(zone, 40 * line)]
    assert sum(shape.area for shape in shapes) == zone.polygon.area
    assert shapely.union_all(shapes).symmetric_difference(zone.polygon).area == 0


@settings(max_examples=40, deadline=None, derandomize=True)
@given(any_jobs(), st.integers(0, WIDTH - 1))
def test_runs_cover_any_zone_row_by_row(job: Job, line: int) -> None:
    zone = field_zone(job)
    found = rows(zone, line)
    first, count = rows_count(zone, WIDTH, line)
    assert first <= zone.heights[0] < first + WIDTH
    assert first + (count - 1) * WIDTH < zone.heights[1] <= first + count * WIDTH
    assert [run.row for run in found] == sorted(run.row for run in found)
    for run in found:
        assert run.low == first + (run.row - 1) * WIDTH
        assert run.low <= run.bottom < run.top <= run.low + WIDTH
        assert (run.start, run.bottom, run.end, run.top) == run.polygon.bounds
    # Corners are rounded to a tick: an edge of a run may be half a tick off all along.
    slack = sum(run.polygon.length for run in found if run.outline) + WIDTH * count
    shapes = [run.polygon for run in found]
    assert sum(shape.area for shape in shapes) == pytest.approx(zone.polygon.area, abs=slack)
    assert shapely.union_all(shapes).area == pytest.approx(zone.polygon.area, abs=slack)
