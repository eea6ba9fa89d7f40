from dataclasses import replace

from models.job.carve.plan import plan_of
from models.job.data import Fill, Mirror
from tests.job.carve.meeting import Seam, seams
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
    rug,
)


def test_trim_is_taken_from_the_neighbours_and_not_from_the_zone() -> None:
    areas = carved(job_of(ROOM, rug(0, 0, 200_000, 100_000, trim=4_000)))
    assert areas["rug"].outer == box(0, 0, 200_000, 100_000)
    assert names_beside(areas["rug"]) == ["w1", "field", "field", "w4"]
    assert corner_set(areas["field"]) == {
        *ROOM[1:],
        (0, 104_000),
        (204_000, 104_000),
        (204_000, 0),
    }
    assert names_beside(areas["field"]).count("rug") == 2


def test_a_side_over_trim_is_split_where_what_lies_beyond_changes() -> None:
    zones = (
        rug(200_000, 200_000, 400_000, 400_000, trim=4_000),
        rug(400_000, 100_000, 500_000, 300_000, "b"),
    )
    areas = carved(job_of(ROOM, *zones))
    assert [(s.end, s.name) for s in areas["rug"].sides[1:3]] == [
        ((400_000, 300_000), "b"),
        ((400_000, 400_000), "field"),
    ]
    assert (404_000, 300_000) in areas["b"].outer
    assert (400_000, 196_000) in areas["b"].outer


def test_between_two_trims_lies_the_wider_one_only() -> None:
    zones = (
        rug(0, 0, 400_000, 600_000, trim=4_000),
        rug(400_000, 0, 500_000, 600_000, "b", trim=6_000),
    )
    areas = carved(job_of(ROOM, *zones))
    assert areas["rug"].outer == box(0, 0, 394_000, 600_000)
    assert areas["b"].outer == box(400_000, 0, 500_000, 600_000)


def test_of_equal_trims_the_first_zone_keeps_its_shape() -> None:
    zones = (
        rug(0, 0, 400_000, 600_000, trim=4_000),
        rug(400_000, 0, 500_000, 600_000, "b", trim=4_000),
    )
    areas = carved(job_of(ROOM, *zones))
    assert areas["rug"].outer == box(0, 0, 400_000, 600_000)
    assert areas["b"].outer == box(404_000, 0, 500_000, 600_000)


def test_the_strips_of_a_border_have_no_trim_between_them() -> None:
    areas = carved(job_of(ROOM, border(60_000, "w1", "w2", "w3", "w4", trim=4_000)))
    assert areas["field"].outer == box(64_000, 64_000, 936_000, 536_000)
    assert corner_set(areas["border, w2"]) == set(box(940_000, 60_000, 1_000_000, 540_000))
    assert names_beside(areas["field"]) == [f"border, w{i}" for i in (1, 2, 3, 4)]


def test_the_fields_own_trim_is_taken_from_the_others() -> None:
    job = job_of(ROOM, rug(0, 0, 200_000, 600_000))
    field = laying("field", job.field.shape, job.field.directions, trim=5_000)
    areas = carved(replace(job, zones=(job.zones[0], field)))
    assert areas["field"].outer == ((1_000_000, 0), *ROOM[2:3], (200_000, 600_000), (200_000, 0))
    assert areas["rug"].outer == box(0, 0, 195_000, 600_000)


def test_trim_round_a_filled_feature() -> None:
    inset = box(450_000, 250_000, 550_000, 350_000)
    areas = carved(job_of(ROOM, laying("inset", Fill("f1"), trim=3_000), features=[inset]))
    assert areas["inset"].outer == inset
    assert set(areas["field"].holes[0]) == set(box(447_000, 247_000, 553_000, 353_000))
    assert areas["field"].around == {"inset"}


def test_zones_and_mirrors_with_trim_stay_mirror_images() -> None:
    zones = (
        rug(0, 0, 90_000, 80_000, trim=2_000),
        laying("r2", Mirror("rug", "upright"), trim=2_000),
    )
    areas = carved(job_of(ROOM, *zones))
    assert corner_set(areas["r2"]) == set(box(910_000, 0, 1_000_000, 80_000))


def test_a_seam_is_as_long_as_the_side_two_areas_share() -> None:
    plan = plan_of(job_of(ELL, rug(0, 0, 200_000, 100_000), rug(200_000, 0, 300_000, 90_000, "b")))
    assert seams(plan) == (
        Seam("rug", "b", 90_000.0, 0),
        Seam("rug", "field", 210_000.0, 0),
        Seam("b", "field", 190_000.0, 0),
    )


def test_a_seam_over_trim_is_measured_along_the_zone_that_keeps_its_shape() -> None:
    zones = (
        rug(200_000, 200_000, 400_000, 400_000, trim=4_000),
        rug(400_000, 100_000, 500_000, 300_000, "b"),
    )
    assert seams(plan_of(job_of(ROOM, *zones))) == (
        Seam("rug", "b", 100_000.0, 4_000),
        Seam("rug", "field", 700_000.0, 4_000),
        Seam("b", "field", 492_000.0, 0),
    )


def test_a_job_of_one_zone_has_no_seams() -> None:
    assert seams(plan_of(job_of(ELL))) == ()


def test_a_side_over_trim_round_a_corner_goes_to_the_strip_beside_it() -> None:
    zone = border(5_000, "w3", "w4", mitred=True, trim=1_600)
    sides = {(s.start, s.end, s.name) for s in carved(job_of(ELL, zone))["field"].sides}
    assert ((1_000_000, 593_400), (593_400, 593_400), "border, w3") in sides
    assert ((593_400, 593_400), (593_400, 900_000), "border, w4") in sides
