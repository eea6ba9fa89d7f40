import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Point as Spot
from shapely import Polygon

from models.job.arcs import arc_corners, rising
from models.job.carve.area import CarveError
from models.job.carve.ends import Leg
from models.job.carve.plan import plan_of
from models.job.carve.strips import strips
from models.job.data import Job, Outline, Point, Rest, Ring
from tests.job.carve.rooms import (
    border,
    box,
    carved,
    job_of,
    laying,
    names_beside,
    overlap,
    shape_of,
    turned,
)

MM = 320
WALLS = ("sea wall", "bow", "porch wall", "stair wall")
few = settings(max_examples=60, deadline=None)


def bowed(rise: int, *others: int, length: int = 5_200 * MM, breadth: int = 3_600 * MM) -> Job:
    """A room whose east wall bows outward by a rise, inward below 0; other walls in turn."""
    corners = box(0, 0, length, breadth)
    south, north, west = others or (0, 0, 0)
    room: list[Point] = []
    names: list[str] = []
    ends = corners[1:] + corners[:1]
    for name, start, end, off in zip(WALLS, corners, ends, (south, rise, north, west), strict=True):
        arc = arc_corners(start, end, rising(start, end, off)) if off else ()
        room += [start, *arc]
        names += [name] * (1 + len(arc))
    return job_of(tuple(room), walls=names)


def bordered(job: Job, width: int, *walls: str, mitred: bool = False) -> Job:
    """The job with a border."""
    names = [wall.name for wall in job.walls]
    return job_of(job.room, border(width, *walls, mitred=mitred), walls=names)


def set_in(room: Ring, width: int) -> Polygon:
    """Shapely's own set-in outline, worked out in another way."""
    inner = Polygon(room).buffer(-width, join_style="mitre", mitre_limit=100)
    assert isinstance(inner, Polygon)
    return inner


@pytest.mark.parametrize("mitred", [True, False])
@pytest.mark.parametrize("rise", [800 * MM, -500 * MM, 30 * MM])
def test_a_border_along_all_walls_of_a_room_with_a_bow(rise: int, mitred: bool) -> None:
    job = bowed(rise)
    plan = plan_of(bordered(job, 300 * MM, *WALLS, mitred=mitred))
    assert [area.name for area in plan.areas] == [*(f"border, {w}" for w in WALLS), "field"]
    field = shape_of(plan.areas[-1])
    inner = set_in(job.room, 300 * MM)
    assert field.symmetric_difference(inner).area <= 4 * inner.length
    assert overlap(plan) <= 4 * inner.length
    assert all(shape_of(area).is_valid for area in plan.areas)


@few
@given(
    st.lists(st.integers(-500, 1_500), min_size=4, max_size=4),
    st.integers(20, 400),
    st.booleans(),
    st.one_of(st.just(0.0), st.floats(-180, 180)),
)
def test_what_a_border_leaves_of_a_room_with_arcs(
    rises: list[int], width: int, mitred: bool, degrees: float
) -> None:
    flat = bowed(*(rise * MM for rise in rises))
    job = job_of(turned(flat.room, degrees), walls=[wall.name for wall in flat.walls])
    assume(Polygon(job.room).is_valid)
    inner = set_in(job.room, width * MM)
    plan = plan_of(bordered(job, width * MM, *WALLS, mitred=mitred))
    allowed = 8 * Polygon(job.room).length
    assert shape_of(plan.areas[-1]).symmetric_difference(inner).area <= allowed
    whole = sum(shape_of(area).area for area in plan.areas)
    assert abs(whole - Polygon(job.room).area) <= allowed
    assert overlap(plan) <= allowed
    assert len(plan.areas) == 5


@few
@given(st.integers(-500, 1_000), st.integers(20, 400))
def test_a_strip_beside_an_arc_runs_as_far_as_the_arc(rise: int, width: int) -> None:
    job = bowed(rise * MM)
    strip = carved(bordered(job, width * MM, "sea wall"))["border, sea wall"]
    below = Polygon(box(-MM, -MM, 8_000 * MM, width * MM))
    expected = Polygon(job.room).intersection(below)
    assert shape_of(strip).symmetric_difference(expected).area <= 8 * expected.length


@few
@given(st.integers(50, 1_400), st.integers(20, 400))
def test_the_strip_of_an_arc_into_the_room_runs_as_far_as_the_walls(rise: int, width: int) -> None:
    job = bowed(-rise * MM)
    strip = carved(bordered(job, width * MM, "bow"))["border, bow"]
    radius = (1_800**2 + rise**2) / 2 / rise
    middle = Spot((5_200 - rise + radius) * MM, 1_800 * MM)
    near = middle.buffer((radius + width) * MM, quad_segs=500)
    expected = Polygon(job.room).intersection(near)
    # Half a millimetre, the roundness of an arc, all along it.
    assert shape_of(strip).symmetric_difference(expected).area <= MM * expected.length


def test_an_arc_runs_through_a_butted_corner_when_it_is_longer() -> None:
    job = bowed(1_000 * MM, length=3_000 * MM)
    areas = carved(bordered(job, 300 * MM, "sea wall", "bow"))
    bow, sea = areas["border, bow"], areas["border, sea wall"]
    assert (3_000 * MM, 0) in bow.outer
    # The bow's circle: radius 2120 mm round (1880, 1800). Set in by 300 mm it starts 255 mm up
    # and goes on straight, 482 mm down its first side's line, to the sea wall at x = 2432 mm.
    end = max(x for x, y in sea.outer if y == 0)
    assert end == pytest.approx(2_432 * MM, abs=25 * MM)
    job = bowed(800 * MM)
    areas = carved(bordered(job, 300 * MM, "sea wall", "bow"))
    assert (5_200 * MM, 0) in areas["border, sea wall"].outer
    assert (5_200 * MM, 0) not in areas["border, bow"].outer


def test_a_mitre_goes_straight_from_the_corner_to_where_the_inner_curves_meet() -> None:
    job = bowed(800 * MM)
    areas = carved(bordered(job, 300 * MM, "sea wall", "bow", mitred=True))
    shared = [s for s in areas["border, bow"].sides if s.name == "border, sea wall"]
    (mitre,) = shared
    (x, y) = next(p for p in (mitre.start, mitre.end) if p != (5_200 * MM, 0))
    # The bow's circle goes through its ends and its middle: radius 2425 mm round (3575, 1800).
    assert y == 300 * MM
    assert math.dist((x, y), (3_575 * MM, 1_800 * MM)) == pytest.approx(2_125 * MM, abs=MM / 2)


def test_an_arc_is_laid_along_its_chord_and_keeps_its_place_among_the_walls() -> None:
    job = bowed(800 * MM)
    first = len(job.room) // 2
    names = [wall.name for wall in job.walls]
    job = job_of(job.room[first:] + job.room[:first], walls=names[first:] + names[:first])
    areas = carved(bordered(job, 300 * MM, *WALLS))
    assert next(iter(areas)) == "border, bow"
    (way,) = areas["border, bow"].laying.directions
    assert (way.label, way.vector[0]) == ("along bow", 0)


@pytest.mark.parametrize(("rise", "width"), [(1_800, 1_900), (-1_500, 1_850), (800, 1_900)])
def test_a_border_wider_than_an_arc_allows_is_refused(rise: int, width: int) -> None:
    with pytest.raises(CarveError, match=r"zone 'border' .*(as short as|overlaps itself|wider)"):
        plan_of(bordered(bowed(rise * MM), width * MM, *WALLS))


def test_a_notch_narrower_than_the_border_vanishes_in_its_inner_curve() -> None:
    corners = ((0, 0), (400, 0), (410, 10), (420, 0), (900, 0))
    legs = (
        Leg(1, corners, "a"),
        *(
            Leg(i, side, "")
            for i, side in enumerate(
                [((900, 0), (900, 500)), ((900, 500), (0, 500)), ((0, 500), (0, 0))], 2
            )
        ),
    )
    ((_, ring),) = strips(legs, 100, mitred=True, zone="border")
    assert set(ring) >= {(0, 100), (900, 100), *corners}


@pytest.mark.parametrize("share", [0.5, 0.37, 0.81])
@pytest.mark.parametrize("degrees", [0, 17])
def test_a_zone_along_part_of_an_arc_leaves_no_slips(share: float, degrees: float) -> None:
    # The bow's circle: radius 2425 mm round (3575, 1800); the bow turns by 95.85 degrees.
    angle = math.radians(-47.925 + share * 95.85)
    end = (
        round((3_575 + 2_425 * math.cos(angle)) * MM),
        round((1_800 + 2_425 * math.sin(angle)) * MM),
    )
    start = (5_200 * MM, 0)
    arc = arc_corners(start, end, math.radians(share * 95.85 / 2))
    zone = laying("bay", Outline(turned((start, *arc, end, (4_800 * MM, end[1])), degrees)))
    job = bowed(800 * MM)
    names = [wall.name for wall in job.walls]
    areas = carved(job_of(turned(job.room, degrees), zone, walls=names))
    assert set(names_beside(areas["bay"])) == {"bow", "field"}
    assert names_beside(areas["bay"]).count("field") == 2
    assert areas["field"].holes == ()
    assert set(areas["bay"].outer[1:-2]) & set(turned(job.room, degrees))


def test_a_chord_of_an_arc_stays_straight() -> None:
    job = bowed(800 * MM)
    chord = ((5_200 * MM, 0), (5_200 * MM, 3_600 * MM), (4_000 * MM, 3_600 * MM), (4_000 * MM, 0))
    zones = laying("mat", Outline(chord)), laying("bay", Rest((5_900 * MM, 1_800 * MM)))
    areas = carved(job_of(job.room, *zones, walls=[wall.name for wall in job.walls]))
    assert set(areas["mat"].outer) == set(chord)
    assert set(names_beside(areas["bay"])) == {"mat", "bow"}


def test_a_mitre_cannot_be_straight_in_a_corner_as_sharp_as_a_needle() -> None:
    job = bowed(-1_750 * MM)
    with pytest.raises(CarveError, match="zone 'border' cannot be mitred at a corner as sharp"):
        plan_of(bordered(job, 100 * MM, *WALLS, mitred=True))
    assert len(plan_of(bordered(job, 100 * MM, *WALLS)).areas) == 5


def test_a_strip_that_cannot_be_carried_on_as_far_as_an_arcs_is_mitred() -> None:
    job = bowed(971 * MM, 714 * MM, 2_205 * MM, 727 * MM, length=6_250 * MM, breadth=3_750 * MM)
    plan = plan_of(bordered(job, 422 * MM, *WALLS))
    field, inner = shape_of(plan.areas[-1]), set_in(job.room, 422 * MM)
    assert field.symmetric_difference(inner).area <= 8 * inner.length
    (edge,) = [s for s in plan.areas[1].sides if s.name == "border, porch wall"]
    assert (6_250 * MM, 3_750 * MM) in (edge.start, edge.end)
