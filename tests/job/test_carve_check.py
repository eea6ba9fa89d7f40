import pytest

from models.job.data import Job
from models.job.errors import JobError
from tests.job.sample import read

AXES = "[{name: up, through: [[2000, 0], [2000, 3000]]}]"


def job(zones: str, **sections: str) -> Job:
    return read(zones=f"[{zones}]", axes=AXES, **sections)


def test_a_width_is_tried_at_both_ends() -> None:
    assert job("{name: edge, border: {width: {from: 300, to: 1200}}}").zones[0].name == "edge"
    with pytest.raises(JobError) as caught:
        job("{name: edge, border: {width: {from: 300, to: 1600}}}")
    assert caught.value.item == "zones 'edge'"
    assert caught.value.problem.endswith("(with 'edge' at 1600 mm)")


def test_a_sliding_feature_is_tried_at_both_ends() -> None:
    zones = "{name: mat, corners: [[1500, 2000], [2500, 2000], [2500, 2500], [1500, 2500]]}"
    slide = "[{name: f, axis: up, along: {from: 1000, to: TO}, rectangle: [500, 500]}]"
    with pytest.raises(JobError, match=r"\(with 'f' at 2750 mm\)"):
        job(
            "{name: round, border: {width: 400, round: f}}",
            features=slide.replace("TO", "2750"),
        )
    assert job(zones, features=slide.replace("TO", "1500")).zones


def test_two_open_lengths_are_tried_alone_and_together() -> None:
    zones = (
        "{name: low, border: {width: {from: 100, to: 1800}, along: [s]}},"
        " {name: high, border: {width: {from: 100, to: 1800}, along: [n]}}"
    )
    with pytest.raises(JobError, match=r"'low' at 1800 mm and 'high' at 1800 mm\)"):
        job(zones)
    assert job(zones.replace("1800", "1400")).field.name == "field"


def test_a_field_in_two_parts_is_told_at_the_field() -> None:
    with pytest.raises(
        JobError,
        match=r"galley\.yaml:6: field: would be in 2 parts, at .* and .*; give all but one",
    ):
        job("{name: strip, band: {along: up, width: 300}}")


def test_absurdly_many_units_are_counted_zone_by_zone() -> None:
    products = "[{name: plank, length: 900, width: 150}, {name: chip, length: 5, width: 5}]"
    field = "{product: plank, bond: staggered}"
    chips = "product: chip, bond: straight, rules: {smallest_cut: off, smallest_end: off}"
    mat = "{name: mat, corners: [[0, 0], [SIZE, 0], [SIZE, 2500], [0, 2500]], " + chips + "}"
    assert job(mat.replace("SIZE", "900"), products=products, field=field).zones
    with pytest.raises(JobError, match="room: takes about 250000 units of 'chip', over 200000; ch"):
        job(mat.replace("SIZE", "2500"), products=products, field=field)
