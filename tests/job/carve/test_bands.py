from itertools import permutations

import pytest

from models.job.carve.plan import plan_of
from models.job.data import Band, Border, Extent, Fill, Rest
from tests.job.carve.rooms import (
    ROOM,
    border,
    box,
    carved,
    corner_set,
    job_of,
    laying,
    names_beside,
    overlap,
    rug,
)

ALL = ("w1", "w2", "w3", "w4")
W = 30_000
BAND = laying("band", Band((500_000, 0), (0, 1), -50_000, 50_000))
WEST = laying("west", Rest((100_000, 100_000)))


@pytest.mark.parametrize("mitred", [True, False])
def test_a_band_runs_from_border_to_border(mitred: bool) -> None:
    areas = carved(job_of(ROOM, border(W, *ALL, mitred=mitred), BAND, WEST))
    assert areas["band"].outer == box(450_000, W, 550_000, 570_000)
    assert names_beside(areas["band"]) == ["border, w1", "field", "border, w3", "west"]
    assert names_beside(areas["border, w1"]).count("band") == 1


def test_a_band_goes_round_a_filled_inset_and_its_frame() -> None:
    inset = box(480_000, 280_000, 520_000, 320_000)
    frame = laying("frame", Border(Extent(9_000, 9_000), feature="f1"))
    job = job_of(ROOM, BAND, WEST, frame, laying("inset", Fill("f1")), features=[inset])
    areas = carved(job)
    assert corner_set(areas["band"]) == {
        *box(450_000, 0, 550_000, 600_000),
        *box(471_000, 271_000, 529_000, 329_000),
    }
    assert overlap(plan_of(job)) == 0


def test_a_frame_as_wide_as_the_band_leaves_it_in_two_parts() -> None:
    inset = box(460_000, 280_000, 540_000, 320_000)
    frame = laying("frame", Border(Extent(10_000, 10_000), feature="f1"))
    areas = carved(job_of(ROOM, BAND, WEST, frame, features=[inset]))
    assert corner_set(areas["band, part 1"]) == set(box(450_000, 0, 550_000, 270_000))
    assert corner_set(areas["band, part 2"]) == set(box(450_000, 330_000, 550_000, 600_000))
    assert "frame, side 1" in names_beside(areas["band, part 1"])


def test_bands_may_cross_where_neither_is_laid() -> None:
    aisle = laying("aisle", Band((0, 300_000), (1, 0), -20_000, 20_000))
    crossing = rug(400_000, 250_000, 600_000, 350_000)
    parts = [laying(f"p{i}", Rest(at)) for i, at in enumerate([(1, 1), (1, 599_999), (999_999, 1)])]
    areas = carved(job_of(ROOM, BAND, aisle, crossing, *parts))
    assert areas["rug"].outer == box(400_000, 250_000, 600_000, 350_000)
    assert corner_set(areas["aisle, part 2"]) == set(box(600_000, 280_000, 1_000_000, 320_000))


def test_a_band_gives_way_wherever_it_stands_in_the_list() -> None:
    zones = BAND, border(W, *ALL), rug(430_000, 200_000, 470_000, 400_000), WEST
    wanted = carved(job_of(ROOM, *zones))
    for order in permutations(zones):
        assert carved(job_of(ROOM, *order)) == wanted


def test_a_band_beside_a_column_goes_round_it() -> None:
    column = box(440_000, 200_000, 460_000, 220_000)
    areas = carved(job_of(ROOM, BAND, WEST, columns=[column]))
    assert areas["band"].around == areas["west"].around == {"c1"}
    assert {(450_000, 200_000), (460_000, 200_000)} <= corner_set(areas["band"])
