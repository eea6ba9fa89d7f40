from models.job.carve.area import Side
from models.job.data import Sight
from tests.job.carve.rooms import ELL, FIELD, ROOM, box, carved, job_of, names_beside


def test_a_job_with_one_zone_has_the_rooms_corners_and_walls() -> None:
    area = carved(job_of(ELL))["field"]
    assert area.outer == ELL
    assert names_beside(area) == ["w1", "w2", "w3", "w4", "w5", "w6"]
    assert area.holes == ()
    assert area.around == frozenset()
    assert area.laying.directions == (FIELD,)


def test_sides_know_how_their_wall_is_seen() -> None:
    area = carved(job_of(ROOM, walls=["a", "hidden", "b", "c"]))["field"]
    assert area.sides[1] == Side(ROOM[1], ROOM[2], "hidden", Sight.HIDDEN)


def test_a_straight_wall_of_two_names_is_two_sides_without_a_corner() -> None:
    room = (ROOM[0], (400_000, 0), *ROOM[1:])
    area = carved(job_of(room))["field"]
    assert area.outer == ROOM
    assert area.sides[0] == Side((0, 0), (400_000, 0), "w1")
    assert area.sides[1] == Side((400_000, 0), ROOM[1], "w2")


def test_a_column_in_the_floor_is_a_hole_with_clockwise_sides() -> None:
    column = box(200_000, 200_000, 220_000, 230_000)
    area = carved(job_of(ROOM, columns=[column]))["field"]
    assert area.holes == ((column[0], column[3], column[2], column[1]),)
    assert [(s.start, s.end, s.name) for s in area.sides[4:6]] == [
        (column[0], column[3], "c1"),
        (column[3], column[2], "c1"),
    ]
    assert area.around == {"c1"}


def test_a_column_in_a_corner_is_bitten_out() -> None:
    area = carved(job_of(ROOM, columns=[box(0, 0, 5_000, 7_000)]))["field"]
    assert area.outer == (
        (1_000_000, 0),
        (1_000_000, 600_000),
        (0, 600_000),
        (0, 7_000),
        (5_000, 7_000),
        (5_000, 0),
    )
    assert names_beside(area) == ["w2", "w3", "w4", "c1", "c1", "w1"]


def test_a_column_through_a_wall_takes_only_what_is_inside() -> None:
    area = carved(job_of(ROOM, columns=[box(300_000, -9_000, 320_000, 8_000)]))["field"]
    bite = ((300_000, 0), (300_000, 8_000), (320_000, 8_000), (320_000, 0))
    assert area.outer == (ROOM[0], *bite, *ROOM[1:])
    assert names_beside(area) == ["w1", "c1", "c1", "c1", "w1", "w2", "w3", "w4"]


def test_a_column_a_hair_off_a_wall_touches_it() -> None:
    area = carved(job_of(ROOM, columns=[box(300_000, 3, 320_000, 8_000)]))["field"]
    assert area.holes == ()
    assert (300_000, 0) in area.outer


def test_a_feature_that_is_not_filled_stays_bare() -> None:
    area = carved(job_of(ROOM, features=[box(450_000, 250_000, 550_000, 350_000)]))["field"]
    assert area.around == {"f1"}
    assert len(area.holes) == 1
