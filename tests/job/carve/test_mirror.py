from dataclasses import replace

from models.job.angles import mirrored_point, mirrored_vector
from models.job.data import Axis, Band, Border, Direction, Extent, Mirror, Rest
from tests.job.carve.rooms import (
    FIELD,
    ROOM,
    box,
    carved,
    corner_set,
    job_of,
    laying,
    names_beside,
    rug,
)

BAND = laying("band", Band((500_000, 0), (0, 1), -50_000, 50_000))
LEVEL = Axis("level", (0, 300_000), (7, 0))
UPRIGHT = Axis("upright", (500_000, 0), (0, 1))


def test_an_outline_is_reflected_about_an_axis() -> None:
    areas = carved(
        job_of(ROOM, rug(0, 0, 200_000, 100_000), laying("r2", Mirror("rug", "upright")))
    )
    assert corner_set(areas["r2"]) == set(box(800_000, 0, 1_000_000, 100_000))
    assert areas["r2"].mirrors == "rug"
    assert areas["rug"].mirrors == ""
    assert names_beside(areas["r2"]) == ["w2", "field", "field", "w1"]


def test_a_part_of_what_is_left_is_reflected() -> None:
    zones = BAND, laying("west", Rest((1, 1))), laying("east", Mirror("west", "upright"))
    areas = carved(job_of(ROOM, *zones, rug(0, 500_000, 99_000, 600_000, "nook")))
    assert areas["east"].mirrors == "west"
    assert corner_set(areas["west"]) >= {(0, 500_000), (99_000, 600_000)}
    assert corner_set(areas["east"]) >= {(1_000_000, 500_000), (901_000, 600_000)}
    assert corner_set(areas["field"]) == set(box(901_000, 500_000, 1_000_000, 600_000))


def test_a_mirror_may_be_mirrored() -> None:
    zones = (
        laying("r4", Mirror("r2", "level")),
        laying("r2", Mirror("rug", "upright")),
        rug(0, 0, 90_000, 80_000),
    )
    areas = carved(job_of(ROOM, *zones, axes=(UPRIGHT, LEVEL)))
    assert corner_set(areas["r4"]) == set(box(910_000, 520_000, 1_000_000, 600_000))
    assert areas["r4"].mirrors == "r2"
    assert list(areas) == ["r4", "r2", "rug", "field"]


def test_a_zone_in_parts_is_mirrored_part_by_part() -> None:
    column = box(0, 100_000, 300_000, 200_000)
    twin = box(700_000, 100_000, 1_000_000, 200_000)
    zones = rug(0, 0, 200_000, 300_000), laying("r2", Mirror("rug", "upright"))
    areas = carved(job_of(ROOM, *zones, columns=[column, twin]))
    assert areas["r2, part 2"].mirrors == "rug, part 2"
    assert corner_set(areas["r2, part 2"]) == set(box(800_000, 200_000, 1_000_000, 300_000))


def test_a_field_that_takes_one_part_is_reflected() -> None:
    zones = BAND, laying("east", Mirror("field", "upright"))
    field = laying("field", Rest((1, 1)), (FIELD,))
    areas = carved(replace(job_of(ROOM, *zones), zones=(*zones, field)))
    assert list(areas) == ["band", "east", "field"]
    assert corner_set(areas["field"]) == set(box(0, 0, 450_000, 600_000))
    assert corner_set(areas["east"]) == set(box(550_000, 0, 1_000_000, 600_000))
    assert areas["east"].mirrors == "field"
    assert areas["field"].laying.shape == Rest((1, 1))


def test_a_reflected_field_goes_round_what_stands_on_both_sides() -> None:
    columns = box(90_000, 90_000, 99_000, 120_000), box(901_000, 90_000, 910_000, 120_000)
    edge = laying("edge", Border(Extent(20_000, 20_000), ("w1", "w2", "w3", "w4"), mitred=True))
    zones = edge, BAND, laying("east", Mirror("field", "upright"))
    field = laying("field", Rest((50_000, 50_000)), (FIELD,))
    areas = carved(replace(job_of(ROOM, *zones, columns=columns), zones=(*zones, field)))
    assert areas["east"].around == {"c2"}
    assert areas["east"].outer == box(550_000, 20_000, 980_000, 580_000)
    assert areas["band"].outer == box(450_000, 20_000, 550_000, 580_000)


def test_holes_are_reflected_too() -> None:
    columns = box(50_000, 50_000, 60_000, 60_000), box(940_000, 50_000, 950_000, 60_000)
    zones = rug(0, 0, 200_000, 300_000), laying("r2", Mirror("rug", "upright"))
    areas = carved(job_of(ROOM, *zones, columns=columns))
    assert len(areas["r2"].holes) == 1
    assert areas["r2"].around == {"c2"}


def test_a_mirror_without_directions_has_those_of_its_zone_reflected() -> None:
    slant = Direction("at 30 degrees", (2, 1))
    zone = replace(rug(0, 0, 200_000, 100_000), directions=(slant,))
    areas = carved(job_of(ROOM, zone, laying("r2", Mirror("rug", "upright"))))
    (way,) = areas["r2"].laying.directions
    assert way.label == "at 30 degrees, mirrored"
    assert way.vector[0] * 1 == way.vector[1] * -2


def test_reflection_is_to_the_nearest_tick() -> None:
    axis = Axis("slant", (0, 0), (2, 1))
    assert mirrored_point((10, 0), axis) == (6, 8)
    assert mirrored_point((1, 0), axis) == (1, 1)
    assert mirrored_vector((1, 0), axis.direction) == (3, 4)
