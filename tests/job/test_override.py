"""A job with something else laid in one zone is the job whose text says so."""

from __future__ import annotations

import pytest

from models.job.data import Job
from models.job.errors import JobError
from models.job.override import Override
from models.job.reader import read_text
from tests.job.sample import text

TWO = (
    "[{name: plank, length: 900, width: 150, kerf: 3}, "
    "{name: stave, length: 400, width: 70}, {name: tile, length: 300, width: 300}]"
)
WAYS = "[{along: s}, {along: e}]"
HEARTH = "{name: hearth, corners: [[0, 0], [1200, 0], [1200, 900], [0, 900]]}"


def over(override: Override, **sections: str) -> Job:
    return read_text(text(**sections), "galley.yaml", override)


def plain(**sections: str) -> Job:
    return read_text(text(**sections), "galley.yaml")


def test_another_product_reads_as_if_it_were_written() -> None:
    field = "{product: PRODUCT, bond: staggered, directions: [{along: s}, {along: e}]}"
    found = over(Override("field", "stave"), products=TWO, field=field.replace("PRODUCT", "plank"))
    assert found == plain(products=TWO, field=field.replace("PRODUCT", "stave"))
    assert found.field.rules.smallest_cut is not None
    assert found.field.rules.smallest_cut.limit == found.products[1].width // 2


def test_one_direction_reads_as_if_it_stood_alone() -> None:
    found = over(
        Override("field", direction="along e"), field=f"{{bond: staggered, directions: {WAYS}}}"
    )
    assert found == plain(field="{bond: staggered, directions: [{along: e}]}")


def test_both_at_once() -> None:
    field = "{name: floor, product: plank, bond: straight, directions: [{along: s}, {angle: 45}]}"
    found = over(Override("floor", "tile", "at 45 degrees"), products=TWO, field=field)
    assert found == plain(
        products=TWO,
        field="{name: floor, product: tile, bond: straight, directions: [{angle: 45}]}",
    )


def test_a_zone_that_took_the_fields_product_and_directions_keeps_them() -> None:
    field = f"{{product: plank, bond: staggered, directions: {WAYS}}}"
    before = plain(products=TWO, field=field, zones=f"[{HEARTH}]")
    found = over(
        Override("field", "stave", "along e"), products=TWO, field=field, zones=f"[{HEARTH}]"
    )
    assert found.zones[0] == before.zones[0]
    assert (found.field.product, len(found.field.directions)) == ("stave", 1)


def test_a_zone_is_laid_otherwise_and_the_field_stays() -> None:
    field = f"{{product: plank, bond: staggered, directions: {WAYS}}}"
    before = plain(products=TWO, field=field, zones=f"[{HEARTH}]")
    found = over(
        Override("hearth", "stave", "along s"), products=TWO, field=field, zones=f"[{HEARTH}]"
    )
    assert found.field == before.field
    assert found.zones[0].product == "stave"
    assert [each.label for each in found.zones[0].directions] == ["along s"]


def test_a_border_stays_along_its_sides() -> None:
    field = f"{{product: plank, bond: staggered, directions: {WAYS}}}"
    border = "[{name: edge, border: {width: 150, along: all}}]"
    found = over(Override("field", "stave"), products=TWO, field=field, zones=border)
    assert found.zones[0].product == "plank"
    assert found.zones[0].directions == ()


def test_no_override_changes_nothing() -> None:
    assert over(Override("field")) == plain()


def test_a_product_the_bond_cannot_take_is_told() -> None:
    products = "[{name: tile, length: 300, width: 300}, {name: plank, length: 900, width: 150}]"
    field = "{product: tile, bond: straight, marks: quarter-turned}"
    with pytest.raises(JobError, match="'plank' is not square, and only square units"):
        over(Override("field", "plank"), products=products, field=field)


def test_a_limit_the_product_cannot_keep_is_told() -> None:
    with pytest.raises(JobError, match="100 mm is more than the whole unit, which is 70 mm wide"):
        over(
            Override("field", "stave"),
            products=TWO,
            field="{product: plank, bond: staggered}",
            rules="{smallest_cut: {must: 100}}",
        )


def test_a_mirror_image_is_not_laid_by_itself() -> None:
    zones = "[{name: east, mirror: {zone: field, axis: middle}}]"
    with pytest.raises(JobError, match="is the mirror image of 'field'; name 'field' instead"):
        over(
            Override("east", "stave"),
            products=TWO,
            axes="[{name: middle, through: [[2000, 0], [2000, 3000]]}]",
            field="{product: plank, bond: staggered, part_at: [100, 100]}",
            zones=zones,
        )


@pytest.mark.parametrize(
    ("override", "said"),
    [
        (Override("feild", "plank"), "there is no zone called 'feild'; did you mean 'field'?"),
        (Override("field", direction="along n"), "gives no direction 'along n'"),
        (Override("field", "plan"), "there is no product called 'plan'; did you mean 'plank'?"),
    ],
)
def test_what_there_is_not_is_told(override: Override, said: str) -> None:
    with pytest.raises(JobError) as raised:
        over(override, field=f"{{bond: staggered, directions: {WAYS}}}")
    assert said in str(raised.value)
