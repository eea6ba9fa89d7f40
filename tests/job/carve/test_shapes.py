from models.job.carve.area import Side
from models.job.data import Band, Fill, Outline, Rest
from tests.job.carve.rooms import (
    ELL,
    FIELD,
    ROOM,
    box,
    carved,
    corner_set,
    job_of,
    laying,
    names_beside,
    rug,
    shape_of,
    turned,
)


def test_an_outline_in_a_corner_goes_to_two_walls_and_the_field() -> None:
    areas = carved(job_of(ROOM, rug(0, 0, 200_000, 100_000)))
    assert areas["rug"].outer == box(0, 0, 200_000, 100_000)
    assert names_beside(areas["rug"]) == ["w1", "field", "field", "w4"]
    assert areas["field"].sides[-2:] == (
        Side((200_000, 100_000), (200_000, 0), "rug"),
        Side((200_000, 0), (1_000_000, 0), "w1"),
    )


def test_an_outline_in_the_middle_is_a_hole_of_the_field() -> None:
    areas = carved(job_of(ROOM, rug(200_000, 200_000, 300_000, 300_000)))
    assert areas["field"].outer == ROOM
    assert corner_set(areas["field"]) == {*ROOM, *areas["rug"].outer}
    assert names_beside(areas["field"])[4:] == ["rug"] * 4


def test_a_zone_without_directions_has_the_fields() -> None:
    assert carved(job_of(ROOM, rug(0, 0, 9_000, 9_000)))["rug"].laying.directions == (FIELD,)


def test_an_outline_goes_round_a_column_and_a_bare_feature_in_it() -> None:
    column, inset = box(250_000, 250_000, 260_000, 260_000), box(390_000, 250_000, 410_000, 260_000)
    job = job_of(ROOM, rug(200_000, 200_000, 400_000, 400_000), columns=[column], features=[inset])
    areas = carved(job)
    assert areas["rug"].around == {"c1", "f1"}
    assert areas["field"].around == {"f1"}
    assert len(areas["rug"].holes) == 1
    assert (390_000, 250_000) in areas["rug"].outer


def test_a_side_is_split_where_the_neighbour_changes() -> None:
    areas = carved(job_of(ROOM, rug(0, 0, 200_000, 400_000), rug(200_000, 0, 300_000, 90_000, "b")))
    assert areas["rug"].outer == box(0, 0, 200_000, 400_000)
    assert areas["rug"].sides[1:3] == (
        Side((200_000, 0), (200_000, 90_000), "b"),
        Side((200_000, 90_000), (200_000, 400_000), "field"),
    )


def test_a_band_is_clipped_to_the_room() -> None:
    band = laying("band", Band((500_000, 0), (0, 1), -30_000, 50_000))
    areas = carved(job_of(ELL, band, laying("left", Rest((1, 1)))))
    assert areas["band"].outer == box(450_000, 0, 530_000, 900_000)
    assert areas["left"].outer == box(0, 0, 450_000, 900_000)
    assert (530_000, 900_000) in areas["field"].outer


def test_a_band_along_a_wall_shares_its_corners() -> None:
    band = laying("band", Band(ELL[3], (0, 1), 0, 50_000))
    assert carved(job_of(ELL, band, laying("left", Rest((1, 1)))))["band"].outer == (
        (600_000, 900_000),
        (550_000, 900_000),
        (550_000, 0),
        (600_000, 0),
    )


def test_a_slanting_band_meets_the_walls_on_whole_ticks() -> None:
    band = laying("band", Band((500_000, 0), (1, 3), -40_000, 40_000))
    areas = carved(job_of(ROOM, band, laying("left", Rest((1, 1)))))
    shared = set(areas["band"].outer)
    assert shared <= {*areas["left"].outer, *areas["field"].outer}
    assert {y for _, y in shared} == {0, 600_000}
    assert len(areas["left"].outer) == len(areas["field"].outer) == 4


def test_a_band_in_two_legs_of_a_room_is_two_areas() -> None:
    room = (
        *((0, 0), (900_000, 0), (900_000, 500_000), (600_000, 500_000)),
        *((600_000, 200_000), (300_000, 200_000), (300_000, 500_000), (0, 500_000)),
    )
    band = laying("band", Band((0, 500_000), (1, 0), -100_000, 0))
    areas = carved(job_of(room, band))
    assert corner_set(areas["band, part 1"]) == set(box(0, 400_000, 300_000, 500_000))
    assert corner_set(areas["band, part 2"]) == set(box(600_000, 400_000, 900_000, 500_000))
    assert names_beside(areas["field"]).count("band, part 2") == 1


def test_a_filled_feature_is_an_area_the_field_goes_round() -> None:
    inset = box(450_000, 250_000, 550_000, 350_000)
    areas = carved(job_of(ROOM, laying("inset", Fill("f1")), features=[inset]))
    assert areas["inset"].outer == inset
    assert areas["field"].around == {"inset"}
    assert names_beside(areas["inset"]) == ["field"] * 4


def test_a_filled_feature_lies_in_an_outline_round_it() -> None:
    inset = box(450_000, 250_000, 550_000, 350_000)
    zones = rug(400_000, 200_000, 600_000, 400_000), laying("inset", Fill("f1"))
    areas = carved(job_of(ROOM, *zones, features=[inset]))
    assert areas["rug"].around == {"inset"}
    assert names_beside(areas["inset"]) == ["rug"] * 4


def test_outlines_a_hair_apart_touch() -> None:
    zones = rug(0, 0, 200_000, 100_003), rug(200_004, -2, 300_000, 100_000, "b")
    areas = carved(job_of(ROOM, *zones))
    assert "b" in names_beside(areas["rug"])
    assert "rug" in names_beside(areas["b"])
    assert corner_set(areas["b"]) == set(areas["b"].outer)
    assert areas["b"].outer[0][1] == 0


def test_a_zone_along_a_slanting_wall_leaves_no_slip() -> None:
    room = turned(ROOM, 17)
    (x0, y0), (x1, y1) = room[0], room[1]
    third = (x0 + (x1 - x0) // 3, y0 + (y1 - y0) // 3)
    half = (x0 + (x1 - x0) // 2 + 2, y0 + (y1 - y0) // 2 - 1)
    zone = laying("rug", Outline((third, half, (half[0] - 30_000, half[1] + 90_000))))
    areas = carved(job_of(room, zone))
    assert sorted(names_beside(areas["rug"])) == ["field", "field", "w1"]
    assert areas["field"].holes == ()
    whole = shape_of(areas["rug"]).area + shape_of(areas["field"]).area
    assert abs(whole - 6e11) < 1e7


def test_the_order_of_zones_does_not_change_what_they_get() -> None:
    zones = rug(0, 0, 90_000, 90_000), laying("band", Band((500_000, 0), (0, 1), -9_000, 9_000))
    rest = laying("left", Rest((1, 300_000)))
    one, other = job_of(ROOM, *zones, rest), job_of(ROOM, rest, *zones[::-1])
    assert list(carved(other)) == ["left", "band", "rug", "field"]
    assert carved(one) == carved(other)
