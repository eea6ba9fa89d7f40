import math

import pytest

from models.job.carve.area import Area
from models.job.carve.plan import plan_of
from models.job.data import Border, Direction, Extent, Job
from tests.job.carve.rooms import (
    ELL,
    ROOM,
    border,
    box,
    carved,
    corner_set,
    job_of,
    laying,
    names_beside,
    overlap,
    shape_of,
    turned,
)

ALL = ("w1", "w2", "w3", "w4", "w5", "w6")
W = 100_000


def test_butted_corners_run_the_longer_wall_through() -> None:
    areas = carved(job_of(ROOM, border(W, *ALL[:4])))
    assert areas["border, w1"].outer == box(0, 0, 1_000_000, W)
    assert areas["border, w3"].outer == (
        ROOM[2],
        ROOM[3],
        (0, 500_000),
        (1_000_000, 500_000),
    )
    assert corner_set(areas["border, w2"]) == set(box(900_000, W, 1_000_000, 500_000))
    assert areas["field"].outer == box(W, W, 900_000, 500_000)


def test_of_equal_walls_the_earlier_runs_through() -> None:
    areas = carved(job_of(box(0, 0, 600_000, 600_000), border(W, *ALL[:4])))
    assert corner_set(areas["border, w1"]) == set(box(0, 0, 600_000, W))
    assert corner_set(areas["border, w2"]) == set(box(500_000, W, 600_000, 600_000))
    assert corner_set(areas["border, w3"]) == set(box(0, 500_000, 500_000, 600_000))
    assert corner_set(areas["border, w4"]) == set(box(0, W, W, 500_000))


def test_a_butted_strip_is_carried_on_round_a_corner_into_the_room() -> None:
    areas = carved(job_of(ELL, border(W, *ALL)))
    assert corner_set(areas["border, w3"]) == set(box(500_000, 500_000, 900_000, 600_000))
    assert corner_set(areas["border, w4"]) == set(box(500_000, 600_000, 600_000, 800_000))
    assert names_beside(areas["border, w4"]) == ["w4", "border, w5", "field", "border, w3"]


def test_mitred_corners_go_from_the_rooms_corner_to_the_inner_one() -> None:
    areas = carved(job_of(ELL, border(W, *ALL, mitred=True)))
    assert areas["border, w1"].outer == ((0, 0), (1_000_000, 0), (900_000, W), (W, W))
    assert corner_set(areas["border, w3"]) == {
        (1_000_000, 600_000),
        (600_000, 600_000),
        (500_000, 500_000),
        (900_000, 500_000),
    }
    assert areas["field"].outer == (
        (W, W),
        (900_000, W),
        (900_000, 500_000),
        (500_000, 500_000),
        (500_000, 800_000),
        (W, 800_000),
    )


def test_strips_are_laid_along_their_walls() -> None:
    areas = carved(job_of(ELL, border(W, *ALL)))
    assert areas["border, w2"].laying.directions == (Direction("along w2", (0, 1)),)
    assert areas["border, w3"].laying.directions == (Direction("along w3", (1, 0)),)
    assert {area.laying.name for area in areas.values()} == {"border", "field"}


def test_a_border_with_a_direction_keeps_it() -> None:
    way = (Direction("along upright", (0, 1)),)
    zone = laying("border", Border(Extent(W, W), ("w1",)), way)
    assert carved(job_of(ROOM, zone))["border, w1"].laying.directions == way


def test_a_strip_ends_at_the_line_of_a_wall_without_one() -> None:
    areas = carved(job_of(ELL, border(W, "w3")))
    assert corner_set(areas["border, w3"]) == set(box(600_000, 500_000, 1_000_000, 600_000))
    assert names_beside(areas["border, w3"]) == ["w3", "field", "field", "w2"]


def test_a_strip_ends_on_the_line_of_a_slanting_wall() -> None:
    room = ((0, 0), (1_000_000, 0), (900_000, 600_000), (0, 600_000))
    areas = carved(job_of(room, border(120_000, "w1")))
    assert areas["border, w1"].outer == ((0, 0), (1_000_000, 0), (980_000, 120_000), (0, 120_000))


def test_a_step_shallower_than_the_border_is_mitred() -> None:
    room = ((0, 0), (500_000, 0), (500_000, 60_000), (1_000_000, 60_000), *ELL[2:3], ELL[5])
    room = (*room[:4], (1_000_000, 900_000), (0, 900_000))
    plan = plan_of(job_of(room, border(W, *ALL)))
    assert overlap(plan) == 0
    step = next(area for area in plan.areas if area.name == "border, w2")
    assert corner_set(step) == {
        (500_000, 0),
        (500_000, 60_000),
        (400_000, 160_000),
        (400_000, 100_000),
    }


def test_a_straight_wall_of_two_names_has_two_strips_square_at_the_joint() -> None:
    room = (ROOM[0], (400_000, 0), *ROOM[1:])
    areas = carved(job_of(room, border(W, "w1", "w2")))
    assert corner_set(areas["border, w1"]) == set(box(0, 0, 400_000, W))
    assert corner_set(areas["border, w2"]) == set(box(400_000, 0, 1_000_000, W))


@pytest.mark.parametrize("mitred", [True, False])
def test_a_room_turned_by_thirty_degrees_has_the_same_strips(mitred: bool) -> None:
    zone = border(W, *ALL, mitred=mitred)
    flat, askew = plan_of(job_of(ELL, zone)), plan_of(job_of(turned(ELL, 30), zone))
    assert [area.name for area in askew.areas] == [area.name for area in flat.areas]
    for one, other in zip(flat.areas, askew.areas, strict=True):
        for corner in turned(one.outer, 30):
            assert min(math.dist(corner, there) for there in other.outer) < 2
        assert abs(shape_of(other).area / shape_of(one).area - 1) < 1e-5
    assert _shared_whole(askew.areas)


def _shared_whole(areas: tuple[Area, ...]) -> bool:
    """Whether every side between two areas is a side, the other way round, of both."""
    sides = {(s.start, s.end, area.name, s.name) for area in areas for s in area.sides}
    names = {area.name for area in areas}
    return all((b, a, to, own) in sides for a, b, own, to in sides if to in names)


def _apse(count: int) -> Job:
    """A room with a half-round end of one name, walked as many short walls."""
    arc = [
        (
            1_000_000 + round(300_000 * math.sin(math.pi * i / count)),
            300_000 - round(300_000 * math.cos(math.pi * i / count)),
        )
        for i in range(1, count)
    ]
    room = (ROOM[0], ROOM[1], *arc, ROOM[2], ROOM[3])
    names = ["south", *["apse"] * count, "north", "west"]
    return job_of(room, border(60_000, "apse", mitred=False), walls=names)


def test_the_sides_of_an_arc_have_one_strip() -> None:
    areas = carved(_apse(24))
    assert list(areas) == ["border, apse", "field"]
    strip = areas["border, apse"]
    assert len(strip.outer) == 50
    assert abs(shape_of(strip).area / (math.pi / 2 * (300_000**2 - 240_000**2)) - 1) < 0.01
    assert strip.laying.directions == (Direction("along apse", (0, 1)),)
    assert names_beside(areas["field"]).count("border, apse") == 26


def test_an_arc_and_its_neighbours_make_a_whole_border() -> None:
    job = _apse(12)
    zone = border(60_000, "south", "apse", "north", "west")
    plan = plan_of(job_of(job.room, zone, walls=[wall.name for wall in job.walls]))
    assert [area.name for area in plan.areas][:-1] == [
        "border, south",
        "border, apse",
        "border, north",
        "border, west",
    ]
    assert overlap(plan) < 1e6
