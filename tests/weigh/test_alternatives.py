"""Alternatives are the job's own text read with one thing changed; what cannot be is told."""

from __future__ import annotations

import pytest

from models.job.errors import JobError
from scenarios.catalogue import SCENARIOS
from solver.weigh.alternatives import By, Contest, WeighError, contest_of
from tests.job.sample import read, text

PLANK, STAVE = "{name: plank, length: 900, width: 150}", "{name: stave, length: 400, width: 70}"
MIXED = (
    "{name: mixed, width: 90, lengths: [{length: 900, per_carton: 4}, "
    "{length: 600, per_carton: 2}]}"
)
FIELD = "{product: plank, bond: staggered, directions: [{along: s}, {along: e}]}"
ONE_WAY = "{product: plank, bond: staggered, directions: [{along: s}]}"
HEARTH = "{name: hearth, corners: [[0, 0], [1200, 0], [1200, 900], [0, 900]]}"


def contest(zone: str | None = None, by: By | None = None, **sections: str) -> Contest:
    given = {"products": f"[{PLANK}, {STAVE}]", "field": FIELD, **sections}
    return contest_of(text(**given), "galley.yaml", zone, by)


def names(found: Contest) -> list[str]:
    return [each.name for each in found.alternatives]


def test_products_come_in_the_jobs_order_with_all_directions() -> None:
    found = contest()
    assert (found.zone, found.by, names(found)) == ("field", By.PRODUCTS, ["plank", "stave"])
    assert all(each.directions == ("along s", "along e") for each in found.alternatives)


def test_the_products_own_limits_are_read_again() -> None:
    plank, stave = (each.job for each in contest().alternatives)
    assert plank is not None
    assert stave is not None
    for job, width in ((plank, 150), (stave, 70)):
        assert job.field.rules.smallest_cut is not None
        assert job.field.rules.smallest_cut.limit == min(50, width // 2) * 320


def test_the_alternative_that_is_the_job_is_the_job() -> None:
    found = contest()
    assert found.alternatives[0].job == found.job


def test_directions_are_weighed_one_by_one() -> None:
    found = contest(by=By.DIRECTIONS)
    assert names(found) == ["along s", "along e"]
    jobs = [each.job for each in found.alternatives]
    assert [[d.label for d in job.field.directions] for job in jobs if job] == [
        ["along s"],
        ["along e"],
    ]
    assert {each.product for each in found.alternatives} == {"plank"}


def test_both_are_every_pair() -> None:
    assert names(contest(by=By.BOTH)) == [
        "plank, along s", "plank, along e", "stave, along s", "stave, along e",
    ]  # fmt: skip


def test_both_with_the_usual_direction_alone_are_the_products() -> None:
    assert names(contest(by=By.BOTH, field="{product: plank, bond: staggered}")) == [
        "plank", "stave",
    ]  # fmt: skip


def test_one_product_is_weighed_by_directions_unless_told() -> None:
    assert contest(products=f"[{PLANK}]").by is By.DIRECTIONS


def test_products_of_which_only_one_can_be_laid_leave_the_directions_to_weigh() -> None:
    found = contest(
        products=f"[{PLANK}, {MIXED}]",
        field="{product: plank, bond: straight, directions: [{along: s}, {along: e}]}",
    )
    assert found.by is By.DIRECTIONS


@pytest.mark.parametrize(
    ("products", "field", "rules", "reason"),
    [
        (
            f"[{PLANK}, {MIXED}]",
            "{product: plank, bond: straight}",
            "{}",
            "field, bond: 'mixed' comes in several lengths, which no straight bond can take",
        ),
        (
            f"[{PLANK}, {STAVE}]",
            "{product: plank, bond: staggered}",
            "{smallest_cut: {must: 80}}",
            "rules, smallest_cut: 80 mm is more than the whole unit, which is 70 mm wide",
        ),
        (
            f"[{PLANK}, {STAVE}]",
            "{product: plank, bond: {stepped: 1/3}}",
            "{joint_offset: {must: 200}}",
            "rules, joint_offset: 200 mm cannot hold: in this stepped bond these end joints are "
            "133.3 mm apart",
        ),
        (
            f"[{{name: tile, length: 300, width: 300}}, {PLANK}]",
            "{product: tile, bond: straight, marks: quarter-turned}",
            "{}",
            "field, marks: 'plank' is not square, and only square units can be quarter-turned",
        ),
    ],
)
def test_what_cannot_be_laid_has_its_reason(
    products: str, field: str, rules: str, reason: str
) -> None:
    found = contest(by=By.PRODUCTS, products=products, field=field, rules=rules)
    laid, refused = found.alternatives
    assert (laid.job is not None, laid.reason) == (True, "")
    assert (refused.job, refused.reason) == (None, reason)


def test_another_zone_is_weighed_and_the_field_left_alone() -> None:
    found = contest("hearth", zones=f"[{HEARTH}]")
    assert (found.zone, names(found)) == ("hearth", ["plank", "stave"])
    jobs = [each.job for each in found.alternatives]
    assert [(job.zones[0].product, job.field) for job in jobs if job] == [
        ("plank", found.job.field),
        ("stave", found.job.field),
    ]


@pytest.mark.parametrize(
    ("zone", "by", "sections", "said"),
    [
        ("heart", None, {"zones": f"[{HEARTH}]"}, "no zone is called 'heart'; did you mean"),
        ("hall", None, {}, "no zone is called 'hall'; known here: field"),
        (
            None,
            By.PRODUCTS,
            {"products": f"[{PLANK}]"},
            "only one product is listed, 'plank'; add another under 'products', or weigh by",
        ),
        (
            None,
            By.DIRECTIONS,
            {"field": ONE_WAY},
            "zone 'field' has only one direction, 'along s'; list more under the 'directions'",
        ),
        (
            None,
            None,
            {"products": f"[{PLANK}]", "field": ONE_WAY},
            "only one product is listed, 'plank', and zone 'field' has only one direction, "
            "'along s'; add another under 'products', or list more",
        ),
        (
            "edge",
            By.DIRECTIONS,
            {"zones": "[{name: edge, border: {width: 150, along: all}}]"},
            "the strips of zone 'edge' each lie along their own side; list more",
        ),
    ],
)  # fmt: skip
def test_nothing_to_weigh_is_told_with_what_to_do(
    zone: str | None, by: By | None, sections: dict[str, str], said: str
) -> None:
    with pytest.raises(WeighError) as raised:
        contest(zone, by, **sections)
    assert said in str(raised.value)


def test_a_mirror_image_is_not_weighed_by_itself() -> None:
    with pytest.raises(WeighError, match="mirror image of 'field'; weigh that zone instead"):
        contest(
            "east",
            axes="[{name: middle, through: [[2000, 0], [2000, 3000]]}]",
            zones="[{name: wall, band: {along: middle, width: 300}}, "
            "{name: east, mirror: {zone: field, axis: middle}}]",
            field="{product: plank, bond: staggered, part_at: [100, 100]}",
        )


def test_alternatives_none_of_which_can_be_laid_are_no_contest() -> None:
    with pytest.raises(
        WeighError, match="none of the alternatives can be laid: along one: rules, centred 2"
    ):
        contest(
            by=By.DIRECTIONS,
            axes="[{name: one, through: [[0, 0], [3, 1]]}, {name: two, through: [[0, 0], [1, 2]]}]",
            field="{product: plank, bond: staggered, directions: [{along: one}, {along: two}]}",
            rules="{centred: [{must: one}, {must: two}]}",
        )


def test_a_bad_job_is_a_job_error() -> None:
    with pytest.raises(JobError, match=r"galley\.yaml:5: products"):
        contest(products="[]")


def test_the_job_is_the_one_written() -> None:
    found = contest(products=f"[{PLANK}]")
    assert found.job == read(products=f"[{PLANK}]", field=FIELD)


def test_the_net_store_shows_three_priced_products_both_ways() -> None:
    path = SCENARIOS["net-store"].path
    found = contest_of(path.read_text(encoding="utf-8"), str(path), by=By.BOTH)
    assert len(found.alternatives) == 6
    assert all(each.job is not None for each in found.alternatives)
    assert all(product.price for product in found.job.products)
