import math
from dataclasses import replace

from models.job.carve.plan import plan_of
from models.job.data import Border, Extent, Fill
from tests.job.carve.rooms import ROOM, box, carved, corner_set, job_of, laying, names_beside

INSET = box(450_000, 250_000, 550_000, 330_000)
ROUND = laying("frame", Border(Extent(20_000, 20_000), feature="f1"))


def test_a_butted_border_round_a_feature_has_a_strip_a_side() -> None:
    areas = carved(job_of(ROOM, ROUND, features=[INSET]))
    assert list(areas) == [*(f"frame, side {i}" for i in (1, 2, 3, 4)), "field"]
    assert corner_set(areas["frame, side 1"]) == set(box(430_000, 230_000, 570_000, 250_000))
    assert corner_set(areas["frame, side 2"]) == set(box(550_000, 250_000, 570_000, 330_000))
    assert names_beside(areas["frame, side 2"]).count("f1") == 1
    assert areas["frame, side 2"].around == {"f1"}
    assert areas["field"].holes == (
        ((430_000, 230_000), (430_000, 350_000), (570_000, 350_000), (570_000, 230_000)),
    )
    assert areas["field"].around == frozenset()


def test_a_mitred_border_round_a_feature() -> None:
    zone = replace(ROUND, shape=Border(Extent(20_000, 20_000), feature="f1", mitred=True))
    areas = carved(job_of(ROOM, zone, features=[INSET]))
    assert corner_set(areas["frame, side 3"]) == {
        (550_000, 330_000),
        (450_000, 330_000),
        (430_000, 350_000),
        (570_000, 350_000),
    }


def test_a_filled_feature_is_an_area_and_its_frame_goes_to_it() -> None:
    areas = carved(job_of(ROOM, ROUND, laying("inset", Fill("f1")), features=[INSET]))
    assert areas["inset"].outer == INSET
    assert names_beside(areas["inset"]) == [f"frame, side {i}" for i in (1, 2, 3, 4)]
    assert "inset" in names_beside(areas["frame, side 1"])
    assert areas["frame, side 1"].around == {"inset"}


def test_a_border_round_a_circle_is_one_ring() -> None:
    ring = tuple(
        (
            500_000 + round(100_000 * math.cos(math.pi * i / 24)),
            300_000 + round(100_000 * math.sin(math.pi * i / 24)),
        )
        for i in range(48)
    )
    job = job_of(ROOM, ROUND, features=[ring])
    job = replace(job, features=(replace(job.features[0], round_diameter=200_000),))
    frame, field = plan_of(job).areas
    assert frame.name == "frame"
    assert len(frame.outer) == 48
    assert len(frame.holes) == 1
    assert set(names_beside(frame)) == {"field", "f1"}
    assert frame.laying.directions == field.laying.directions
    radii = [math.dist(corner, (500_000, 300_000)) for corner in frame.outer]
    assert all(abs(radius * math.cos(math.pi / 48) - 119_786) < 2 for radius in radii)
