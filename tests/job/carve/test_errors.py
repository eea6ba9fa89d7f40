from dataclasses import replace

import pytest

from models.job.carve.area import CarveError
from models.job.carve.plan import plan_of
from models.job.data import Axis, Band, Border, Extent, Fill, Job, Laying, Mirror, Point, Rest
from models.lengths import System
from tests.job.carve.rooms import ELL, FIELD, ROOM, UPRIGHT, border, box, job_of, laying, rug

BAND = laying("band", Band((500_000, 0), (0, 1), -50_000, 50_000))
NEAR_AXIS = Axis("near", (150_000, 0), (0, 1))
FAR_AXIS = Axis("far", (1_000_000, 0), (0, 1))


def part(name: str, at: Point) -> Laying:
    return laying(name, Rest(at))


def message(job: Job, **values: int) -> str:
    with pytest.raises(CarveError) as caught:
        plan_of(job, values)
    return str(caught.value)


@pytest.mark.parametrize(
    ("zones", "words"),
    [
        (
            [rug(-32_000, 0, 96_000, 96_000)],
            "zone 'rug' reaches outside the room near [-50 mm, 150 mm]: check its place",
        ),
        ([rug(-900, 0, 96_000, 96_000)], "zone 'rug' reaches outside the room"),
        ([rug(0, 700_000, 9_000, 800_000)], "zone 'rug' reaches outside the room"),
        (
            [rug(0, 0, 96_000, 96_000), rug(0, 0, 64_000, 64_000, "mat")],
            "zone 'mat' overlaps zone 'rug' near [100 mm, 100 mm]: move one of them",
        ),
        (
            [border(50_000, "w1"), rug(0, 0, 96_000, 96_000)],
            "zone 'rug' overlaps zone 'border' near",
        ),
        (
            [border(700_000, "w1")],
            "zone 'border' is wider than the room: 'border, w1' reaches outside it near",
        ),
        (
            [border(350_000, "w1", "w3")],
            "zone 'border' overlaps itself: 'border, w1' lies over 'border, w3' near",
        ),
        (
            [border(350_000, "w1", "w2", "w3", "w4")],
            "zone 'border' is too wide for a side as short as that of 'border, w2'",
        ),
        (
            [border(300_000, "w1", "w2", "w3", "w4")],
            "zone 'field' has no floor left: make the other zones smaller",
        ),
        ([laying("r", Fill("moon"))], "zone 'r' is held to feature 'moon', which is not there"),
        (
            [laying("r", Border(Extent(9, 9), feature="moon"))],
            "held to feature 'moon', which is not there",
        ),
        (
            [laying("band", Band((0, 0), (1, 0), -9_000, -3_000))],
            "zone 'band' lies outside the room: check the line",
        ),
        (
            [BAND],
            "zone 'field' would be in 2 parts, at [703.1 mm, 937.5 mm] and [2421.9 mm, 937.5 mm]: "
            "give all but one of them a zone of its own, with 'part_at' or 'mirror'",
        ),
        (
            [BAND, laying("aisle", Band((0, 0), (1, 0), 64_000, 96_000))],
            "zone 'aisle' overlaps zone 'band' near [1562.5 mm, 250 mm]: move one of them",
        ),
        (
            [BAND, rug(450_000, 0, 550_000, 600_000)],
            "zone 'band' has no floor left: make the other zones smaller, or leave it out",
        ),
        (
            [BAND, part("west", (500_000, 6_400))],
            "zone 'west' is to take the part of the floor at [1562.5 mm, 20 mm], where no floor "
            "is left by the other zones: write 'part_at' with a point in what is left, such as",
        ),
        (
            [BAND, part("west", (1, 1)), part("hall", (9, 9))],
            "zone 'hall' takes the same part of the floor as zone 'west': write 'part_at'",
        ),
        ([part("west", (1, 1))], "zone 'field' has no floor left"),
    ],
)
def test_zones_that_cannot_be_carved(zones: list[Laying], words: str) -> None:
    assert words in message(job_of(ROOM, *zones))


@pytest.mark.parametrize(
    ("zones", "words"),
    [
        (
            [rug(0, 0, 96_000, 96_000), laying("r2", Mirror("rug", "far"))],
            "zone 'r2' cannot mirror its zone: the reflection reaches outside the room by 300 mm",
        ),
        (
            [rug(100_000, 0, 196_000, 96_000), laying("r2", Mirror("rug", "near"))],
            "zone 'r2' cannot mirror its zone: the reflection overlaps zone 'rug' by",
        ),
        (
            [
                rug(0, 0, 96_000, 96_000),
                rug(936_000, 64_000, 999_000, 128_000, "mat"),
                laying("r2", Mirror("rug", "upright")),
            ],
            "the reflection overlaps zone 'mat' by 100 mm near [3023.4 mm, 250 mm]: check the axis",
        ),
        (
            [rug(0, 400_000, 96_000, 496_000), laying("r2", Mirror("rug", "upright"))],
            "the reflection overlaps column 'c1' by 20 mm",
        ),
        (
            [border(9_000, "w1"), laying("r2", Mirror("border", "upright"))],
            "zone 'r2' mirrors 'border', which is a border: mirror a zone of one piece",
        ),
        (
            [laying("r2", Mirror("field", "upright"))],
            "zone 'r2' mirrors 'field', the field, which takes whatever the others leave",
        ),
        ([laying("r2", Mirror("moon", "upright"))], "mirrors zone 'moon', which is not there"),
        (
            [laying("r2", Mirror("r3", "upright")), laying("r3", Mirror("r2", "upright"))],
            "zone 'r2' mirrors a zone that mirrors it in turn",
        ),
        (
            [
                rug(300_000, 0, 500_000, 96_000, trim=3_000),
                laying("r2", Mirror("rug", "upright"), trim=3_000),
            ],
            "zone 'r2' is not the mirror image of zone 'rug' once trim is taken off",
        ),
    ],
)
def test_mirrors_that_cannot_be(zones: list[Laying], words: str) -> None:
    column = box(960_000, 448_000, 1_000_000, 454_400)
    job = job_of(ROOM, *zones, columns=[column], axes=(UPRIGHT, NEAR_AXIS, FAR_AXIS))
    assert words in message(job)


def test_places_are_in_the_jobs_own_units() -> None:
    job = job_of(ROOM, rug(0, 0, 97_536, 97_536), rug(0, 0, 97_536, 97_536, "mat"))
    assert 'near [6", 6"]' in message(replace(job, system=System.IMPERIAL))


def test_a_mirror_short_of_the_other_part_leaves_the_field_in_parts() -> None:
    zones = (
        rug(0, 500_000, 1_000_000, 520_000, "sill"),
        rug(490_000, 0, 508_000, 500_000, "runner"),
        part("west", (1, 1)),
        laying("east", Mirror("west", "off")),
    )
    job = job_of(ROOM, *zones, axes=(Axis("off", (499_000, 0), (0, 1)),))
    assert "zone 'field' would be in 2 parts" in message(job)
    room = (ROOM[0], (998_000, 0), (998_000, 600_000), ROOM[3])
    even = job_of(room, rug(0, 500_000, 998_000, 520_000, "sill"), *zones[1:], axes=job.axes)
    assert plan_of(even).areas[-1].outer[0] == (998_000, 600_000)


FIELD_AT = laying("field", Rest((1, 1)), (FIELD,))


@pytest.mark.parametrize(
    ("zones", "words"),
    [
        (
            [BAND],
            "zone 'field' takes one part of the floor and leaves another, at "
            "[2421.9 mm, 937.5 mm]: give each part left a zone of its own, with 'part_at'",
        ),
        (
            [BAND, rug(550_000, 200_000, 1_000_000, 400_000)],
            "leaves others, at [2421.9 mm, 312.5 mm] and [2421.9 mm, 1562.5 mm]: give each part",
        ),
        (
            [BAND, laying("east", Mirror("field", "east of it"))],
            "zone 'east' cannot mirror its zone: the reflection reaches outside the room by 200 mm",
        ),
        (
            [BAND, laying("east", Mirror("field", "west of it"))],
            "the reflection overlaps zone 'band' by 200 mm near [1618.8 mm, 937.5 mm]: check the",
        ),
        (
            [laying("east", Mirror("field", "upright"))],
            "the reflection overlaps zone 'field' by",
        ),
        (
            [BAND, rug(550_000, 0, 1_000_000, 6_400), laying("east", Mirror("field", "upright"))],
            "zone 'east' cannot mirror its zone: the reflection overlaps zone 'rug' by 20 mm",
        ),
        (
            [BAND, rug(0, 590_000, 450_000, 600_000), laying("east", Mirror("field", "upright"))],
            "leaves another, at [2421.9 mm, 1859.4 mm]",
        ),
        (
            [
                replace(BAND, trim=1_000),
                rug(0, 590_000, 450_000, 600_000),
                laying("east", Mirror("field", "upright")),
            ],
            "leaves another, at [2421.9 mm, 1859.4 mm]",
        ),
    ],
)
def test_mirrors_of_a_field_with_a_part_of_its_own(zones: list[Laying], words: str) -> None:
    axes = (
        UPRIGHT,
        Axis("east of it", (532_000, 0), (0, 1)),
        Axis("west of it", (468_000, 0), (0, 1)),
    )
    job = job_of(ROOM, *zones, axes=axes)
    assert words in message(replace(job, zones=(*zones, FIELD_AT)))


def _sliding() -> Job:
    """A feature free to slide from wall to wall, past another one and a column."""
    job = job_of(
        ROOM,
        columns=[box(480_000, 500_000, 520_000, 520_000)],
        features=[
            box(480_000, 180_000, 520_000, 220_000),
            box(480_000, 380_000, 520_000, 400_000),
        ],
    )
    slides = replace(job.features[0], slide=Extent(0, 600_000))
    return replace(job, features=(slides, job.features[1]))


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (0, "feature 'f1', which reaches outside the room: let it slide less far"),
        (380_000, "feature 'f1', which lies over feature 'f2'"),
        (490_000, "feature 'f1', which lies over column 'c1'"),
    ],
)
def test_a_feature_must_not_slide_where_it_cannot_be(place: int, words: str) -> None:
    assert words in message(_sliding(), f1=place)


def test_an_error_knows_its_zone() -> None:
    with pytest.raises(CarveError) as caught:
        plan_of(job_of(ELL, laying("inset", Fill("moon"))))
    assert caught.value.zone == "inset"
    assert caught.value.remedy == "name one there is: none"
