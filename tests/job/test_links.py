import pytest

from models.job.data import Job, Link, Share
from models.job.errors import JobError
from tests.job.sample import read

PRODUCTS = (
    "[{name: plank, length: 900, width: 150}, {name: board, length: 900, width: 200},"
    " {name: tile, length: 300, width: 300}]"
)
EAST = "corners: [[3000, 0], [4000, 0], [4000, 3000], [3000, 3000]]"


def job(
    link: str, east: str = "", field: str = "product: plank, bond: straight", *more: str
) -> Job:
    zones = ", ".join((f"{{name: east, {EAST}{east and ', ' + east}}}", *more))
    return read(
        products=PRODUCTS,
        field=f"{{{field}}}",
        zones=f"[{zones}]",
        axes="[{name: up, through: [[1500, 0], [1500, 3000]]}]",
        links=f"[{link}]",
    )


def test_row_lines_and_joints_may_be_shared() -> None:
    found = job("{zones: [field, east], share: row lines}, {zones: [east, field], share: joints}")
    assert found.links == (
        Link("field", "east", Share.ROW_LINES),
        Link("east", "field", Share.JOINTS),
    )


def test_rows_of_different_widths_share_one_line_with_a_note() -> None:
    found = job("{zones: [field, east], share: row lines}", "product: board")
    assert found.notes[-1] == (
        "zones 'field' and 'east' have rows of different widths: they share one row line, where "
        "the second goes on from the first"
    )
    assert not any(
        "different widths" in n for n in job("{zones: [field, east], share: joints}").notes
    )


def test_the_order_of_directions_does_not_matter() -> None:
    found = job(
        "{zones: [field, east], share: row lines}",
        "directions: [{angle: 180}, {angle: 90}]",
        "product: plank, bond: staggered, directions: [{along: e}, {along: s}]",
    )
    assert len(found.links) == 1


@pytest.mark.parametrize(
    ("link", "east", "message"),
    [
        ("zones: [field, west], share: joints", "", "links 1, zones 2: there is no zone called 'w"),
        ("zones: [field], share: joints", "", "links 1, zones: has 1 entry; write"),
        ("zones: [east, east], share: joints", "", "links 1: names one zone twice; name two zones"),
        ("zones: [field, east], share: rows", "", "share: 'rows' will not do; did you mean 'row"),
        (
            "zones: [field, east], share: row lines",
            "directions: [{angle: 90}]",
            "links 1: the rows of 'field' may run in other directions than those of 'east'; give",
        ),
        (
            "zones: [field, east], share: row lines",
            "directions: [{angle: 0}, {angle: 90}]",
            "the rows of 'field' may run in other directions than those of 'east'",
        ),
        (
            "zones: [field, east], share: row lines",
            "bond: herringbone",
            "'east' is a herringbone, which has no row lines to share; leave the link out",
        ),
        (
            "zones: [field, east], share: joints",
            "bond: staggered",
            "'east' is staggered, and its end joints keep to no lines; share row lines, or lay",
        ),
        (
            "zones: [field, east], share: joints",
            "product: tile",
            "the units of 'field' and 'east' differ in length or bond, so their end joints cannot",
        ),
        (
            "zones: [field, east], share: joints",
            "bond: {stepped: 1/3}",
            "the units of 'field' and 'east' differ in length or bond",
        ),
        (
            "zones: [field, east], share: joints}, {zones: [east, field], share: joints",
            "",
            "links 2: these zones share these lines already; keep one of the two links",
        ),
    ],
)
def test_links_that_cannot_be(link: str, east: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        job(f"{{{link}}}", east)


def test_a_mirror_follows_what_it_reflects() -> None:
    mirror = "{name: west, mirror: {zone: east, axis: middle}}"
    with pytest.raises(
        JobError, match="'west' is a mirror: its lines are those of 'east'; link 'east'"
    ):
        read(
            products=PRODUCTS,
            field="{product: plank, bond: straight}",
            axes="[{name: middle, through: [[2000, 0], [2000, 3000]]}]",
            zones=f"[{{name: east, {EAST}}}, {mirror}]",
            links="[{zones: [field, west], share: row lines}]",
        )


def test_a_border_has_lines_of_many_ways() -> None:
    with pytest.raises(JobError, match="the strips of border 'edge' each lie along their own side"):
        read(
            zones="[{name: edge, border: {width: 300}}]",
            links="[{zones: [field, edge], share: row lines}]",
        )


def test_a_zone_in_two_parts_cannot_be_linked() -> None:
    with pytest.raises(
        JobError,
        match="links 1: zone 'band' lies in several parts, and lines are carried into one only; ",
    ):
        read(
            columns="[{name: screen, corner: [1900, 0], size: [100, 500]}]",
            zones="[{name: band, band: {along: s, width: 300}}]",
            links="[{zones: [field, band], share: row lines}]",
        )
