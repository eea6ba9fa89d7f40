from dataclasses import replace

import pytest

from models.job.carve.area import Chosen
from models.job.carve.plan import plan_of
from models.job.data import Axis, Border, Extent, Job
from tests.job.carve.rooms import ROOM, UPRIGHT, box, job_of, laying


def _job(axis: Axis = UPRIGHT) -> Job:
    zone = laying("border", Border(Extent(50_000, 90_000, 20_000), ("w1", "w3")))
    job = job_of(ROOM, zone, features=[box(480_000, 180_000, 520_000, 220_000)], axes=(axis,))
    slide = Extent(200_000, 400_000)
    return replace(job, features=(replace(job.features[0], slide=slide),))


def test_what_is_not_chosen_takes_its_low_end() -> None:
    plan = plan_of(_job())
    assert plan.chosen == (
        Chosen("border", 50_000, 90_000, 50_000),
        Chosen("f1", 200_000, 400_000, 200_000),
    )
    assert plan.areas[0].outer == box(0, 0, 1_000_000, 50_000)


def test_the_plan_has_the_widths_and_places_chosen() -> None:
    plan = plan_of(_job(), {"border": 70_000, "f1": 320_000})
    assert [chosen.value for chosen in plan.chosen] == [70_000, 320_000]
    shape = plan.job.zones[0].shape
    assert isinstance(shape, Border)
    assert shape.width == Extent(70_000, 70_000, 20_000)
    feature = plan.job.features[0]
    assert feature.centre == (500_000, 320_000)
    assert feature.outline == box(480_000, 300_000, 520_000, 340_000)
    assert feature.slide == Extent(320_000, 320_000)
    assert set(plan.areas[-1].holes[0]) == set(feature.outline)


def test_a_feature_slides_along_a_slanting_axis_by_whole_ticks() -> None:
    plan = plan_of(_job(Axis("slant", (100_000, 0), (3, 4))), {"f1": 300_001})
    assert plan.job.features[0].centre == (280_001, 240_001)
    assert plan.job.features[0].outline[0] == (260_001, 220_001)


def test_nothing_is_chosen_when_nothing_is_open() -> None:
    assert plan_of(job_of(ROOM)).chosen == ()


def test_a_value_out_of_range_is_refused() -> None:
    with pytest.raises(ValueError, match="border: 90001 is not in 50000 to 90000"):
        plan_of(_job(), {"border": 90_001})
