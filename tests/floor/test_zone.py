import math
from dataclasses import replace
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from models.floor.runs import runs_of, slabs
from models.floor.zone import LEVEL, Edge, Zone, whole_ring, zone_of
from models.job.carve.plan import plan_of
from models.job.data import Border, Extent, Job, Sight
from models.lengths import TICKS_PER_MM as MM
from tests.floor.rooms import PITCH, any_jobs, box, field_zone, job_of, zone_for

HALL = box(0, 0, 1_000_000, 600_000)
ELL = (
    (0, 0),
    (900_000, 0),
    (900_000, 300_000),
    (400_000, 300_000),
    (400_000, 700_000),
    (0, 700_000),
)


def area_of(ring: tuple[tuple[int, int], ...]) -> float:
    return float(Polygon(ring).area)


def test_each_edge_has_its_walls_name_and_sight() -> None:
    sights = [Sight.PROMINENT, Sight.HIDDEN]
    zone = zone_for(HALL, sights=sights)
    assert [(edge.name, edge.sight) for edge in zone.edges] == [
        ("w1", Sight.PROMINENT),
        ("w2", Sight.HIDDEN),
        ("w3", Sight.PLAIN),
        ("w4", Sight.PLAIN),
    ]
    assert [edge.length for edge in zone.edges] == [1_000_000, 600_000, 1_000_000, 600_000]


def test_columns_and_features_are_cut_out_and_named() -> None:
    column, feature = (
        box(100_000, 100_000, 150_000, 150_000),
        box(500_000, 200_000, 600_000, 320_000),
    )
    zone = zone_for(HALL, [column], [feature])
    assert zone.around == {"c1", "f1"}
    assert len(zone.holes) == 2
    assert zone.polygon.area == 6e11 - 50_000**2 - 100_000 * 120_000
    assert [edge.name for edge in zone.edges][4:] == ["c1"] * 4 + ["f1"] * 4


def test_a_column_touching_a_wall_is_a_bite_and_not_a_hole() -> None:
    zone = zone_for(HALL, [box(200_000, 0, 260_000, 80_000)])
    assert zone.holes == ()
    assert len(zone.outer) == 8
    assert zone.polygon.area == 6e11 - 60_000 * 80_000


def test_a_column_in_a_corner_moves_the_corner() -> None:
    zone = zone_for(HALL, [box(0, 0, 60_000, 80_000)])
    # Measured from the far wall, now the longest side along the rows.
    assert zone.frame.origin == (1_000_000, 600_000)
    assert {(u + 1_000_000, v + 600_000) for u, v in zone.outer} == {
        (60_000, 0),
        (1_000_000, 0),
        (1_000_000, 600_000),
        (0, 600_000),
        (0, 80_000),
        (60_000, 80_000),
    }


def test_a_column_across_the_floor_is_refused() -> None:
    with pytest.raises(
        ValueError, match=r"zone 'floor' would be in 2 parts, at .* and .*: give all but one"
    ):
        zone_for(HALL, [box(200_000, 0, 260_000, 600_000)])


def test_a_slip_behind_a_column_is_no_second_part() -> None:
    # The upper wall rises by 5 ticks to its middle; the column's corners lie on it, 1 tick
    # under that, so that a slip of 200000 by 1 tick is left behind the column.
    room = ((0, 0), (1_000_000, 0), (1_000_000, 600_000), (500_000, 600_005), (0, 600_000))
    zone = zone_for(room, [box(400_000, 500_000, 600_000, 600_004)])
    slip = 200_000 * 1 / 2
    assert zone.polygon.area == area_of(room) - 200_000 * 100_004 - slip


def test_the_frame_starts_on_the_longest_wall_along_the_rows() -> None:
    # Along x: walls of 900000, 500000 and 400000 ticks; across: 300000, 400000 and 700000.
    job = job_of(ELL)
    assert field_zone(job).frame.origin == (0, 0)
    turned = job_of(ELL, vector=(0, 1))
    frame = field_zone(turned).frame
    assert frame.origin == (0, 700_000)
    assert frame.to_frame((0, 0)) == (-700_000, 0)


def test_without_a_wall_along_the_rows_the_frame_starts_at_the_first_corner() -> None:
    job = job_of(ELL, vector=(1, 1))
    assert field_zone(job).frame.origin == (0, 0)


@pytest.mark.parametrize(
    ("vector", "forward"), [((-3, 0), (3, 0)), ((0, -2), (0, 2)), ((-4, -3), (4, 3))]
)
def test_rows_run_to_the_right_or_up(vector: tuple[int, int], forward: tuple[int, int]) -> None:
    assert zone_for(HALL, vector=vector).frame.direction == forward


def test_both_ends_of_a_slanted_wall_along_the_rows_have_one_v() -> None:
    # Four walls along and square to (123457, 76543): no coordinate in the frame is whole.
    a, b = (7, 11), (7 + 3 * 123_457, 11 + 3 * 76_543)
    c, d = (b[0] - 2 * 76_543, b[1] + 2 * 123_457), (a[0] - 2 * 76_543, a[1] + 2 * 123_457)
    zone = zone_for((a, b, c, d), vector=(123_457, 76_543))
    low, right, high, left = zone.edges
    assert (low.start[1], low.end[1]) == (0, 0)
    assert high.start[1] == high.end[1]
    assert right.start[0] == right.end[0]
    assert left.start[0] == left.end[0]
    assert zone.rectilinear
    assert zone.heights == (0, high.start[1])


def test_a_leaning_wall_makes_a_zone_that_is_not_rectilinear() -> None:
    assert zone_for(ELL).rectilinear
    assert not zone_for(((0, 0), (900_000, 40), (900_000, 300_000), (0, 300_000))).rectilinear


def test_fifteen_degrees_divide_rips_from_slanted_cuts_and_cross_cuts() -> None:
    def edge(degrees: float) -> Edge:
        way = math.radians(degrees)
        return Edge((0, 0), (round(1e6 * math.cos(way)), round(1e6 * math.sin(way))), "w")

    found = {turn: (edge(turn).along_rows, edge(turn).across_rows) for turn in (14.9, 15.1, 74.9)}
    assert found == {14.9: (True, False), 15.1: (False, False), 74.9: (False, False)}
    assert (edge(75.1).along_rows, edge(75.1).across_rows) == (False, True)
    assert edge(-14.9).along_rows
    assert edge(180 - 14.9).along_rows


@settings(max_examples=40, deadline=None, derandomize=True)
@given(any_jobs())
def test_the_floor_lies_on_the_left_of_every_edge_inside_the_zone(job: Job) -> None:
    zone = field_zone(job)
    assert zone.polygon.is_valid
    assert shapely.is_ccw(zone.polygon.exterior)
    solid = {column.name: column.outline for column in job.columns}
    for edge in zone.edges:
        # Inside the room, outside a column: seen from its middle, 20 ticks to either side.
        shape = Polygon(zone.frame.ring_to_frame(solid.get(edge.name, job.room)))
        (u, v), (u1, v1) = edge.start, edge.end
        off_u, off_v = -20 * (v1 - v) / edge.length, 20 * (u1 - u) / edge.length
        left = Point((u + u1) / 2 + off_u, (v + v1) / 2 + off_v)
        right = Point((u + u1) / 2 - off_u, (v + v1) / 2 - off_v)
        assert shape.covers(left) == (edge.name not in zone.around)
        assert shape.covers(right) == (edge.name in zone.around)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(any_jobs())
def test_the_zone_is_the_room_less_its_columns(job: Job) -> None:
    zone = field_zone(job)
    expected = area_of(job.room) - sum(area_of(column.outline) for column in job.columns)
    # Corners are rounded to a tick: the outline may be half a tick off all along.
    assert zone.polygon.area == pytest.approx(expected, abs=zone.polygon.length)


def test_whole_ring_rounds_and_drops_what_does_not_turn() -> None:
    coords = [(0.2, 0.0), (5.0, 0.1), (9.8, 0.0), (10.0, 0.3), (10.0, 8.0), (0.0, 8.0), (0.2, 0.0)]
    assert whole_ring(coords) == ((0, 0), (10, 0), (10, 8), (0, 8))


def test_whole_ring_drops_a_spike_that_rounding_left() -> None:
    # The tail from (10, -5) to (90, -5) is less than half a tick wide: it closes on itself.
    coords = [(0, 0), (10, -5), (90, -4.9), (90, -4.7), (10, -4.6), (10, 8), (0, 8), (0, 0)]
    assert whole_ring(coords) == ((0, 0), (10, -5), (10, 8), (0, 8))


def bordered(angle: float, size: tuple[int, int], width: int) -> Job:
    """A room turned about its first corner, with a border along all walls; mm and degrees."""
    way = math.radians(angle)
    room = tuple(
        (
            round(MM * (x * math.cos(way) - y * math.sin(way))),
            round(MM * (x * math.sin(way) + y * math.cos(way))),
        )
        for x, y in box(0, 0, *size)
    )
    job = job_of(room, vector=(room[1][0] - room[0][0], room[1][1] - room[0][1]))
    form = Border(Extent(width * MM, width * MM), tuple(wall.name for wall in job.walls))
    return replace(job, zones=(replace(job.field, name="border", shape=form), job.field))


def zones_in(job: Job) -> list[Zone]:
    return [zone_of(area, area.laying.directions[0]) for area in plan_of(job).areas]


def steps(zone: Zone, axis: int) -> list[int]:
    """The distances from one corner's coordinate to the next."""
    values = sorted({point[axis] for ring in (zone.outer, *zone.holes) for point in ring})
    return [high - low for low, high in pairwise(values)]


def test_a_turned_room_with_a_border_has_no_row_a_tick_thick() -> None:
    for zone in zones_in(bordered(30, (4000, 3000), 300)):
        assert zone.rectilinear
        (across,) = steps(zone, 1)
        assert len(steps(zone, 0)) == 1
        # A breakline through either side leaves no row under a tick's rounding.
        for line in zone.heights:
            assert len(slabs(zone)) == 1
            heights = {run.top - run.bottom for run in runs_of(zone, slabs(zone), PITCH[1], line)}
            assert heights <= {PITCH[1], across % PITCH[1]}
            assert min(heights) > LEVEL


@settings(max_examples=15, deadline=None, derandomize=True)
@given(
    st.floats(0.1, 89.9),
    st.tuples(st.integers(1500, 6000), st.integers(1200, 4000)),
    st.integers(80, 500),
)
def test_corners_on_one_line_stay_on_it_whatever_the_turn(
    angle: float, size: tuple[int, int], width: int
) -> None:
    for zone in zones_in(bordered(angle, size, width)):
        assert zone.rectilinear
        assert all(step > LEVEL for axis in (0, 1) for step in steps(zone, axis))
        lengths = [step for axis in (0, 1) for step in steps(zone, axis)]
        expected = width if zone.name != "floor" else min(size) - 2 * width
        assert min(abs(length - expected * MM) for length in lengths) <= 4


def test_what_is_more_than_two_ticks_apart_stays_apart() -> None:
    step = LEVEL + 1
    room = (
        (0, 0),
        (500_000, 0),
        (500_000, step),
        (900_000, step),
        (900_000, 600_000),
        (0, 600_000),
    )
    assert steps(zone_for(room), 1) == [step, 600_000 - step]
    near = tuple((x, LEVEL if y == step else y) for x, y in room)
    assert len(steps(zone_for(near), 1)) == 1
