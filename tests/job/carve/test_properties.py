from collections import defaultdict
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Geometry, LineString, Polygon

from models.job.carve.area import Area, Plan
from models.job.carve.plan import plan_of
from models.job.data import Job, Point, Ring
from tests.job.carve.meeting import seams
from tests.job.carve.random_jobs import Move, jobs, moved, rooms, turned_job
from tests.job.carve.rooms import border, job_of, overlap, shape_of, turned

few = settings(max_examples=60, deadline=None)
DEGREES = st.one_of(st.just(0.0), st.floats(-180, 180))

MOVES: dict[str, tuple[Move, bool]] = {
    "shifted": (lambda p: (p[0] - 123_457, p[1] + 7), False),
    "turned by a quarter": (lambda p: (-p[1], p[0]), False),
    "turned by a half": (lambda p: (-p[0], -p[1]), False),
    "mirrored": (lambda p: (-p[0], p[1]), True),
    "mirrored in a diagonal": (lambda p: (p[1], p[0]), True),
}


def rounding(job: Job) -> float:
    """What a tick off along every wall comes to, in square ticks, many times over."""
    return 50 * Polygon(job.room).length


def standing(job: Job, plan: Plan) -> Geometry:
    """What no zone covers: columns, and features no zone fills."""
    names = {area.name for area in plan.areas}
    things = [Polygon(column.outline) for column in job.columns]
    things += [Polygon(item.outline) for item in job.features if "inset" not in names]
    return shapely.union_all(things)


@few
@given(jobs(), DEGREES)
def test_areas_columns_and_features_make_up_the_room(flat: Job, degrees: float) -> None:
    job = turned_job(flat, degrees) if degrees else flat
    plan = plan_of(job)
    whole = sum(shape_of(area).area for area in plan.areas) + shapely.area(standing(job, plan))
    allowed = rounding(job) if degrees else 0.0
    assert abs(whole - Polygon(job.room).area) <= allowed
    assert overlap(plan) <= allowed
    assert all(shape_of(area).is_valid for area in plan.areas)


@few
@given(rooms(), st.integers(5_000, 60_000), st.booleans(), DEGREES)
def test_a_border_along_all_walls_leaves_the_room_set_in(
    room: Ring, width: int, mitred: bool, degrees: float
) -> None:
    names = [f"w{i}" for i in range(1, len(room) + 1)]
    room = turned(room, degrees)
    field = plan_of(job_of(room, border(width, *names, mitred=mitred))).areas[-1]
    # Shapely's own set-in outline, worked out in another way.
    inner = Polygon(room).buffer(-width, join_style="mitre", mitre_limit=100)
    assert shape_of(field).symmetric_difference(inner).area <= 4 * inner.length


@few
@given(jobs(), DEGREES)
def test_sides_follow_the_rings_and_name_what_lies_there(flat: Job, degrees: float) -> None:
    job = turned_job(flat, degrees) if degrees else flat
    plan = plan_of(job)
    things: dict[str, Geometry] = {
        wall.name: LineString([wall.start, wall.end]) for wall in job.walls
    }
    things |= {column.name: Polygon(column.outline) for column in job.columns}
    things |= {feature.name: Polygon(feature.outline) for feature in job.features}
    things |= {area.name: shape_of(area) for area in plan.areas}
    for area in plan.areas:
        assert follows(area)
        for side in area.sides:
            line = LineString([side.start, side.end])
            middle = line.interpolate(0.5, normalized=True)
            assert shapely.distance(things[side.name], middle) <= 2
            assert shape_of(area).boundary.distance(middle) <= 1


def follows(area: Area) -> bool:
    """Whether the sides go once round each ring of an area, corner to corner."""
    left = list(area.sides)
    for ring in (area.outer, *area.holes):
        assert left[0].start == ring[0]
        corners = [left[0].start]
        while left and left[0].start == corners[-1]:
            corners.append(left.pop(0).end)
            if corners[-1] == ring[0]:
                break
        passed = iter(corners)
        assert all(corner in passed for corner in ring)
    return not left


@few
@given(jobs(), DEGREES)
def test_what_two_areas_share_is_a_side_of_both(flat: Job, degrees: float) -> None:
    plan = plan_of(turned_job(flat, degrees) if degrees else flat)
    names = {area.name for area in plan.areas}
    shared: dict[tuple[str, str], set[frozenset[Point]]] = defaultdict(set)
    for area in plan.areas:
        for side in area.sides:
            if side.name in names:
                shared[area.name, side.name].add(frozenset({side.start, side.end}))
    for one, other in shared:
        assert shared[one, other] == shared[other, one]
    assert {(seam.one, seam.two) for seam in seams(plan)} == {
        (one, other) for one, other in shared if comes_first(plan, one, other)
    }


def comes_first(plan: Plan, one: str, other: str) -> bool:
    order = [area.name for area in plan.areas]
    return order.index(one) < order.index(other)


@few
@given(jobs(trims=True))
def test_trim_takes_from_neighbours_what_lies_within_it(job: Job) -> None:
    bare = replace(job, zones=tuple(replace(zone, trim=0) for zone in job.zones))
    before, after = by_zone(plan_of(bare)), by_zone(plan_of(job))
    assert before.keys() == after.keys()
    rank = {zone.name: (-zone.trim, i) for i, zone in enumerate(job.zones)}
    trims = {zone.name: zone.trim for zone in job.zones}
    for name, shape in before.items():
        strips = [
            shapely.buffer(before[other], trims[other], join_style="mitre")
            for other in before
            if trims[other] and rank[other] < rank[name]
        ]
        expected = shapely.difference(shape, shapely.union_all(strips))
        assert shapely.area(shapely.symmetric_difference(expected, after[name])) <= rounding(job)


def by_zone(plan: Plan) -> dict[str, Geometry]:
    """What each zone of the job has, all its areas together."""
    shapes = defaultdict(list)
    for area in plan.areas:
        shapes[area.laying.name].append(shape_of(area))
    return {name: shapely.union_all(found) for name, found in shapes.items()}


@few
@pytest.mark.parametrize("motion", MOVES)
@given(job=jobs(trims=True))
def test_moving_the_job_moves_its_areas(motion: str, job: Job) -> None:
    move, flips = MOVES[motion]
    there = plan_of(moved(job, move, flips))
    assert outlines(there, lambda point: point) == outlines(plan_of(job), move)


def outlines(plan: Plan, move: Move) -> set[tuple[str, frozenset[tuple[frozenset[Point], str]]]]:
    """Every area by zone, with the sides it has after a motion and what they go to.

    The parts of a zone are numbered by where they lie, which moves: numbers are left out.
    """

    def zone(name: str) -> str:
        return name.partition(", part")[0]

    return {
        (
            zone(area.name),
            frozenset(
                (frozenset({move(side.start), move(side.end)}), zone(side.name))
                for side in area.sides
            ),
        )
        for area in plan.areas
    }
