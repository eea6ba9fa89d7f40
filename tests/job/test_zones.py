import pytest

from models.job.data import (
    Band,
    Bond,
    BondKind,
    Border,
    Direction,
    Extent,
    Fill,
    Job,
    Kind,
    Laying,
    Limit,
    Marks,
    Outline,
    Rest,
)
from models.job.errors import JobError
from tests.job.sample import MM, metres, read

PRODUCTS = (
    "[{name: plank, length: 900, width: 150, joint: 2},"
    " {name: tile, length: 300, width: 300, joint: 3}]"
)
FIELD = "{product: plank, bond: staggered, directions: [{along: s}]}"
AXES = "[{name: up, through: [[2000, 0], [2000, 3000]]}]"
FEATURES = "[{name: star, axis: up, along: 1500, rectangle: [600, 600]}]"


def job(*zones: str, **sections: str) -> Job:
    joined = ", ".join(f"{{{zone}}}" for zone in zones)
    given = {"products": PRODUCTS, "field": FIELD, "axes": AXES, "features": FEATURES}
    return read(**{**given, "zones": f"[{joined}]", **sections})


def zone(words: str, **sections: str) -> Laying:
    return job(f"name: z, {words}", **sections).zones[0]


def test_the_only_product_needs_no_naming() -> None:
    field = read().field
    assert (field.name, field.product) == ("field", "plank")


def test_the_product_is_named_among_several() -> None:
    job = read(products=PRODUCTS, field="{name: nave, product: tile, bond: straight}")
    assert (job.field.name, job.field.product) == ("nave", "tile")
    assert job.product_of(job.field).name == "tile"


def test_several_products_and_none_named() -> None:
    with pytest.raises(
        JobError, match="field: does not say which product is laid; add 'product: p"
    ):
        read(products=PRODUCTS)


def test_a_field_of_no_known_product() -> None:
    with pytest.raises(JobError, match="no product called 'plonk'; did you mean 'plank'"):
        read(field="{bond: straight, product: plonk}")


def test_without_zones_the_field_is_all_there_is() -> None:
    found = read()
    assert found.zones == (found.field,)
    assert found.field.shape == Rest()


def test_zones_keep_their_order_and_the_field_comes_last() -> None:
    found = job(
        "name: mat, corners: [[0, 0], [600, 0], [600, 600], [0, 600]]", "name: inlay, fill: star"
    )
    assert [laying.name for laying in found.zones] == ["mat", "inlay", "field"]
    assert found.field is found.zones[-1]


def test_a_zone_takes_from_the_field_what_it_does_not_say() -> None:
    found = zone("corners: [[0, 0], [600, 0], [600, 600], [0, 600]]")
    assert (found.product, found.bond) == ("plank", Bond(BondKind.STAGGERED))
    assert found.directions == (Direction("along s", (1, 0)),)
    assert (found.marks, found.trim) == (Marks.ONE_WAY, 0)
    assert found.shape == Outline(metres((0, 0), (0.6, 0), (0.6, 0.6), (0, 0.6)))


def test_a_zone_has_its_own_product_bond_directions_marks_and_trim() -> None:
    found = zone(
        "fill: star, product: tile, bond: straight, directions: [{angle: 45}],"
        " marks: quarter-turned, trim: 12.5"
    )
    assert found == Laying(
        "z",
        "tile",
        Bond(BondKind.STRAIGHT),
        (Direction("at 45 degrees", (1, 1)),),
        found.rules,
        Fill("star"),
        Marks.QUARTER_TURNED,
        4000,
    )


def test_the_field_may_have_quarter_turned_marks() -> None:
    field = "{product: tile, bond: straight, marks: quarter-turned}"
    assert job(field=field).field.marks is Marks.QUARTER_TURNED


@pytest.mark.parametrize(
    ("words", "shape"),
    [
        ("border: {width: 200}", Border(Extent(200 * MM, 200 * MM), ("s", "e", "n", "w"))),
        (
            "border: {width: 2 units, along: [n, s], corners: mitred}",
            Border(Extent(304 * MM, 304 * MM, 152 * MM), ("s", "n"), mitred=True),
        ),
        (
            "border: {width: {from: 1 unit, to: 3 units}, along: all}",
            Border(Extent(152 * MM, 456 * MM, 152 * MM), ("s", "e", "n", "w")),
        ),
        (
            "border: {width: {from: 100, to: 250.5}, round: star}",
            Border(Extent(100 * MM, 80160), feature="star"),
        ),
        (
            "product: tile, border: {width: 1 unit, along: [s]}",
            Border(Extent(303 * MM, 303 * MM, 303 * MM), ("s",)),
        ),
        ("fill: star", Fill("star")),
    ],
)
def test_shapes(words: str, shape: object) -> None:
    assert zone(words).shape == shape


@pytest.mark.parametrize(
    ("words", "band"),
    [
        ("along: s, width: 400", Band((0, 0), (1, 0), 0, 400 * MM)),
        ("along: n, from: 100, width: 300", Band(metres((4, 3))[0], (-1, 0), 100 * MM, 400 * MM)),
        ("along: up, width: 400", Band((2000 * MM, 0), (0, 1), -200 * MM, 200 * MM)),
        ("along: up, from: -700, width: 200", Band((2000 * MM, 0), (0, 1), -700 * MM, -500 * MM)),
    ],
)
def test_bands(words: str, band: Band) -> None:
    # A band may leave two parts: one of them is then a zone of its own.
    corner = "name: corner, part_at: [3950, 2980]"
    rest = [] if words.startswith("along: s") else [corner]
    assert job(f"name: z, band: {{{words}}}", *rest, features="[]").zones[0].shape == band


def test_a_band_runs_into_the_room_whichever_way_round_that_is_given() -> None:
    room = "{corners: [[0, 0], [0, 3000], [4000, 3000], [4000, 0]], walls: [w, n, e, s]}"
    band = zone("band: {along: s, width: 400}", room=room, features="[]").shape
    assert band == Band((0, 0), (1, 0), 0, 400 * MM)


def test_parts_of_what_is_left() -> None:
    found = job(
        "name: middle, band: {along: up, width: 400}",
        "name: east, part_at: [3900, 1500]",
        features="[]",
    )
    assert found.zones[1].shape == Rest(metres((3.9, 1.5))[0])


def test_columns_may_split_a_floor_whose_parts_are_zones() -> None:
    wall = "[{name: screen, corner: [1900, 0], size: [100, 3000]}]"
    found = job("name: east, part_at: [3000, 1500]", columns=wall, features="[]")
    assert [laying.name for laying in found.zones] == ["east", "field"]


def test_strips_of_a_border_lie_along_their_sides_unless_it_has_directions() -> None:
    assert zone("border: {width: 200}").directions == ()
    given = zone("border: {width: 200}, directions: [{angle: 90}]")
    assert given.directions == (Direction("at 90 degrees", (0, 1)),)


def test_what_was_assumed_is_noted_with_the_zone() -> None:
    notes = job("name: edge, border: {width: 200}", "name: in, fill: star, bond: straight").notes
    assert "zone 'edge': corners are butted, the longer side running through" in notes
    assert not any("'in'" in note for note in notes)
    one = job("name: edge, border: {width: 200, along: [s]}").notes
    assert not any("butted" in note for note in one)
    twice = job("name: in, fill: star, directions: [{angle: 0}, {angle: 180}]").notes
    assert "zone 'in': direction 'at 180 degrees' left out: it is that of 'at 0 degrees'" in twice


def test_the_jobs_rules_hold_in_a_zone_with_the_zones_own_usual_limits() -> None:
    found = zone(
        "fill: star, product: tile, bond: straight",
        rules="{smallest_cut: {must: 60}, joint_offset: {must: 300}, balanced_cuts: off,"
        " centred: [{prefer: up}]}",
        field="{product: plank, bond: staggered, directions: [{along: up}]}",
    ).rules
    assert found.smallest_cut == Limit(Kind.MUST, 60 * MM)
    assert found.smallest_end == Limit(Kind.MUST, 50 * MM)
    assert found.joint_offset is None
    assert found.balanced_cuts is None
    assert found.centred == ()


def test_a_rule_left_behind_is_noted_unless_it_was_off() -> None:
    notes = job(
        "name: in, fill: star, product: tile, bond: straight",
        rules="{joint_offset: {must: 300}, no_stair: off}",
    ).notes
    assert notes[-1] == (
        "zone 'in': not asked of it, for they mean nothing in its bond: the job's joint_offset"
    )


def test_a_zone_of_the_fields_bond_takes_its_joint_rules() -> None:
    found = zone("fill: star", rules="{joint_offset: {must: 300}, no_stair: {prefer: 2}}").rules
    assert found.joint_offset == Limit(Kind.MUST, 300 * MM)
    assert found.no_stair == Limit(Kind.PREFER, 2)


def test_a_zones_own_rules_stand_alone() -> None:
    found = zone(
        "fill: star, rules: {balanced_cuts: off, centred: [{must: up, on: unit}]},"
        " directions: [{along: up}]",
        rules="{smallest_cut: {must: 60}}",
    ).rules
    assert found.smallest_cut == Limit(Kind.MUST, 50 * MM)
    assert found.centred[0].axis == "up"


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("fill: sta", "zones 'z', fill: there is no feature called 'sta'; did you mean 'star'"),
        ("border: {width: 200, round: up}", "border, round: there is no feature called 'up'"),
        ("border: {width: 200, along: [x]}", "border, along 1: there is no wall called 'x'; know"),
        ("border: {width: 0 units}", "border, width: 0 units are no width; write 1 unit or more"),
        ("border: {width: 0}", "border, width: '0' is not above 0"),
        (
            "border: {width: {from: 2 units, to: 1 unit}}",
            "border, width: 'from' '2 units' is not below 'to' '1 unit'; write the least first",
        ),
        (
            "border: {width: {from: 100, to: 2 units}}",
            "border, width: mixes a length with a number of units; write both ends as lengths",
        ),
        ("border: {width: 200, along: some}", "border, along: 'some' will not do; write all, or a"),
        (
            "border: {width: 200, along: [s], round: star}",
            "border: these keys do not make one whole: width, along, round; write a 'width', with",
        ),
        ("border: {width: 200, corners: mitered}", "corners: 'mitered' will not do; did you mean"),
        ("band: {along: x, width: 9}", "band, along: there is no wall or axis called 'x'"),
        ("band: {along: s, from: -9, width: 90}", "band, from: '-9' is below 0; write 0"),
        ("product: tyle, fill: star", "zones 'z', product: there is no product called 'tyle'; did"),
        ("corners: [[0, 0], [9, 9], [18, 18]]", "zones 'z', corners: encloses nothing"),
        (
            "corners: [[0, 0], [9, 0], [9, 9]], fill: star",
            "zones 'z': these keys do not make one whole: name, corners, fill; write one shape",
        ),
        ("product: tile", "these keys do not make one whole: name, product; write one shape"),
        ("fil: star", "zones 'z': unknown key 'fil'; did you mean 'fill'"),
        (
            "fill: star, marks: quarter-turned",
            "marks: 'plank' is not square, and only square units can be quarter-turned; leave 'ma",
        ),
        ("fill: star, trim: -1", "zones 'z', trim: '-1' is below 0"),
        (
            "fill: star, rules: {smallest_cut: {must: 151}}",
            "zones 'z', rules, smallest_cut: 151 mm is more than the whole unit",
        ),
        (
            "border: {width: 200}, rules: {centred: [{must: up}]}",
            "rules, centred 1: the strips of this border each lie along their own side; leave",
        ),
        # as the floor is carved
        ("corners: [[0, 0], [5000, 0], [0, 900]]", "zones 'z': reaches outside the room near"),
        ("part_at: [2000, 1500]", "zones 'z': is to take the part of the floor at .*, where no"),
    ],
)
def test_zones_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        zone(words)


def test_a_rule_of_the_job_a_zone_cannot_keep_is_told_at_the_zone() -> None:
    with pytest.raises(
        JobError,
        match="zones 'z': takes the job's rules, and rules, smallest_cut: 200 mm is more than the "
        "whole unit, which is 150 mm wide; give the zone 'rules' of its own",
    ):
        zone(
            "fill: star, product: plank",
            rules="{smallest_cut: {must: 200}}",
            field="{product: tile, bond: straight}",
        )


def test_two_zones_in_one_feature() -> None:
    with pytest.raises(
        JobError, match="zones 'b': fills feature 'star', which zone 'a' fills already; keep one"
    ):
        job("name: a, fill: star", "name: b, fill: star")


@pytest.mark.parametrize(
    ("zones", "field", "message"),
    [
        (["name: up, fill: star"], "f", "zones 'up', name: the name 'up' is already used on line"),
        (["name: s, fill: star"], "f", "zones 's', name: the name 's' is already used"),
        (["name: a, fill: star"], "a", "field, name: the name 'a' is already used on line"),
        (["name: field, fill: star"], None, "field: the name 'field' is already used on line"),
        (
            ["name: edge, border: {width: 200}", "name: 'edge, s', fill: star"],
            "f",
            "zones 'edge, s': 'edge, s' is what an area of zone 'edge' may be called; give it a",
        ),
    ],
)
def test_names_used_twice(zones: list[str], field: str | None, message: str) -> None:
    named = "" if field is None else f"name: {field}, "
    with pytest.raises(JobError, match=message):
        job(*zones, field=f"{{{named}product: plank, bond: staggered}}")


def test_a_field_alone_may_be_called_as_anything() -> None:
    assert read(field="{name: s, bond: staggered}").field.name == "s"
    assert job(field="{name: plank, product: plank, bond: staggered}").field.name == "plank"
