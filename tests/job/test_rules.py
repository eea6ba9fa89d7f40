import pytest

from models.job.data import Centred, CentreOn, Kind, Limit, Rules
from models.job.errors import JobError
from models.lengths import parse
from tests.job.sample import MM, read

MUST, PREFER = Kind.MUST, Kind.PREFER
AXES = (
    "[{name: long, through: [[0, 1500], [4000, 1500]]},"
    " {name: cross, through: [[2000, 0], [2000, 3000]]},"
    " {name: skew, through: [[0, 0], [1000, 1001]]}]"
)


def rules(words: str = "{}", bond: str = "staggered", **sections: str) -> Rules:
    field = sections.pop("field", f"{{bond: {bond}}}")
    return read(rules=words, axes=AXES, field=field, **sections).field.rules


def imperial(product: str, bond: str) -> Rules:
    return read(
        system="feet-inches",
        bare_numbers="in",
        room="{corners: [[0, 0], [200, 0], [200, 150], [0, 150]]}",
        products=f"[{{name: p, {product}}}]",
        field=f"{{bond: {bond}}}",
    ).field.rules


def test_defaults_of_a_staggered_bond_in_millimetres() -> None:
    assert rules() == Rules(
        smallest_cut=Limit(MUST, 50 * MM),
        half_unit_edges=Limit(PREFER, 0),
        smallest_end=Limit(MUST, 200 * MM),
        joint_offset=Limit(MUST, 150 * MM),
        second_joint_offset=Limit(PREFER, 50 * MM),
        no_stair=Limit(PREFER, 3),
        balanced_cuts=Limit(PREFER, 25 * MM),
        reuse_within=None,
        tape_tolerance=Limit(PREFER, MM),
        centred=(),
    )


def test_defaults_of_a_staggered_bond_in_feet_and_inches() -> None:
    found = imperial("length: 48, width: 6", "staggered")
    assert found == Rules(
        smallest_cut=Limit(MUST, parse("2 in")),
        half_unit_edges=Limit(PREFER, 0),
        smallest_end=Limit(MUST, parse("8 in")),
        joint_offset=Limit(MUST, parse("6 in")),
        second_joint_offset=Limit(PREFER, parse("2 in")),
        no_stair=Limit(PREFER, 3),
        balanced_cuts=Limit(PREFER, parse("1 in")),
        tape_tolerance=Limit(PREFER, parse("1/16 in")),
    )


@pytest.mark.parametrize("bond", ["straight", "{stepped: 1/3}"])
def test_other_bonds_keep_no_joints_apart(bond: str) -> None:
    found = imperial("length: 18, width: 18", bond)
    assert found.smallest_end == found.smallest_cut == Limit(MUST, parse("2 in"))
    assert found.joint_offset is found.second_joint_offset is found.no_stair is None


def test_defaults_never_ask_for_more_than_a_part_of_a_small_unit() -> None:
    found = imperial("length: 12, width: 3", "staggered")
    assert found.smallest_cut == Limit(MUST, parse("1-1/2 in"))
    assert found.smallest_end == Limit(MUST, parse("3 in"))
    assert found.joint_offset == Limit(MUST, parse("4 in"))
    assert found.second_joint_offset == Limit(PREFER, parse("2 in"))
    assert imperial("length: 9, width: 3", "staggered").second_joint_offset == Limit(
        PREFER, parse("1-1/2 in")
    )


def test_each_rule_takes_must_or_prefer_with_a_limit() -> None:
    found = rules(
        "{smallest_cut: {prefer: 40}, half_unit_edges: must, smallest_end: {must: 300},"
        " joint_offset: {prefer: 20 cm}, second_joint_offset: {must: 45.5}, no_stair: {must: 2},"
        " balanced_cuts: {must: 0}, reuse_within: {must: 5}, tape_tolerance: {must: 2}}"
    )
    assert found == Rules(
        smallest_cut=Limit(PREFER, 40 * MM),
        half_unit_edges=Limit(MUST, 0),
        smallest_end=Limit(MUST, 300 * MM),
        joint_offset=Limit(PREFER, 200 * MM),
        second_joint_offset=Limit(MUST, 14560),
        no_stair=Limit(MUST, 2),
        balanced_cuts=Limit(MUST, 0),
        reuse_within=Limit(MUST, 5),
        tape_tolerance=Limit(MUST, 2 * MM),
    )


MIXED = (
    "[{name: mix, width: 150,"
    " lengths: [{length: 400, per_carton: 2}, {length: 900, per_carton: 1}]}]"
)


def test_defaults_of_mixed_lengths_go_by_the_shortest() -> None:
    found = rules(products=MIXED)
    assert found.smallest_end == Limit(MUST, 100 * MM)
    assert found.joint_offset == Limit(MUST, 400 * MM // 3)
    assert found.second_joint_offset == Limit(PREFER, 50 * MM)
    assert found.no_stair is None


def test_limits_of_mixed_lengths_may_go_by_the_longest() -> None:
    found = rules("{joint_offset: {must: 450}, smallest_end: {must: 500}}", products=MIXED)
    assert found.joint_offset == Limit(MUST, 450 * MM)
    with pytest.raises(
        JobError, match="joint_offset: 451 mm is more than half a unit: end joints come at least ev"
    ):
        rules("{joint_offset: {must: 451}}", products=MIXED)
    with pytest.raises(JobError, match="no_stair: units of several lengths make no stair; leave"):
        rules("{no_stair: prefer}", products=MIXED)


def test_defaults_of_a_herringbone() -> None:
    assert rules(bond="herringbone") == Rules(
        smallest_cut=Limit(MUST, 50 * MM),
        smallest_end=Limit(MUST, 50 * MM),
        tape_tolerance=Limit(PREFER, MM),
    )


@pytest.mark.parametrize(
    ("key", "reason"),
    [
        ("joint_offset", "means nothing in a herringbone: the bond itself says where joints fall"),
        (
            "second_joint_offset",
            "means nothing in a herringbone: the bond itself says where joints fall",
        ),
        ("half_unit_edges", "means nothing in a herringbone: units meet every edge both ways"),
        ("balanced_cuts", "means nothing in a herringbone: units meet every edge both ways"),
        ("no_stair", "a herringbone bond repeats its shift in every row"),
    ],
)
def test_rules_a_herringbone_gives_no_meaning(key: str, reason: str) -> None:
    with pytest.raises(JobError, match=f"rules, {key}: {reason}; leave '{key}' out"):
        rules(f"{{{key}: must}}", "herringbone")
    assert getattr(rules(f"{{{key}: off}}", "herringbone"), key) is None


HALVES = "[{name: block, length: 600, width: 150}, {name: odd, length: 610, width: 150}]"


@pytest.mark.parametrize(
    ("bond", "product", "axis", "on"),
    [
        # long runs along the longest wall: along the line of points of the first
        ("herringbone", "odd", "long", "joint"),
        ("herringbone", "odd", "cross", "unit"),
        ("herringbone", "odd", "cross", "either"),
        ("herringbone", "block", "diagonal", "joint"),
        ("{herringbone: 90}", "odd", "diagonal", "joint"),
        ("{herringbone: 90}", "block", "long", "joint"),
    ],
)
def test_a_herringbone_can_be_centred_on(bond: str, product: str, axis: str, on: str) -> None:
    found = herringbone(bond, product, f"{axis}, on: {on}")
    assert found.centred == (Centred(MUST, axis, CentreOn(on)),)


@pytest.mark.parametrize(
    ("bond", "product", "axis", "message"),
    [
        (
            "herringbone",
            "odd",
            "cross, on: joint",
            "axis 'cross' is square to the line of points, and no joint runs along it; write ",
        ),
        (
            "herringbone",
            "odd",
            "diagonal",
            "axis 'diagonal' runs neither along the line of points nor square to it, and no other",
        ),
        ("{herringbone: 90}", "odd", "long", "lay the herringbone along 'long', its units at 45"),
        ("herringbone", "block", "skew", "axis 'skew' runs neither along the line of points"),
    ],
)
def test_a_herringbone_cannot_be_centred_on(
    bond: str, product: str, axis: str, message: str
) -> None:
    with pytest.raises(JobError, match=message):
        herringbone(bond, product, axis)


def herringbone(bond: str, product: str, centred: str) -> Rules:
    axes = AXES[:-1] + ", {name: diagonal, through: [[0, 0], [1000, 1000]]}]"
    axes = axes.replace("[1000, 1001]", "[1000, 300]")
    return read(
        products=HALVES,
        axes=axes,
        field=f"{{product: {product}, bond: {bond}}}",
        rules=f"{{centred: [{{must: {centred}}}]}}",
    ).field.rules


def test_a_bare_kind_keeps_the_usual_limit() -> None:
    found = rules("{smallest_cut: prefer, no_stair: must, tape_tolerance: must}")
    assert found.smallest_cut == Limit(PREFER, 50 * MM)
    assert found.no_stair == Limit(MUST, 3)
    assert found.tape_tolerance == Limit(MUST, MM)


def test_every_rule_can_be_switched_off() -> None:
    keys = [key for key in Rules.__dataclass_fields__ if key != "centred"]
    assert rules("{" + ", ".join(f"{key}: off" for key in keys) + "}") == Rules()


def test_tape_tolerance_goes_with_the_cut_limits() -> None:
    assert rules("{smallest_cut: off, smallest_end: off}").tape_tolerance is None
    with pytest.raises(JobError, match="rules, tape_tolerance: there is no cut limit to keep; ask"):
        rules("{smallest_cut: off, smallest_end: off, tape_tolerance: {must: 2}}")


def test_stepped_joints_may_be_asked_for_what_the_step_gives() -> None:
    found = rules("{joint_offset: {must: 300}}", "{stepped: 1/3}")
    assert found.joint_offset == Limit(MUST, 300 * MM)
    assert rules("{second_joint_offset: {must: 300}}", "{stepped: 1/3}").second_joint_offset


def test_half_a_pitch_can_be_asked_of_staggered_joints() -> None:
    assert rules("{joint_offset: {must: 450}}").joint_offset == Limit(MUST, 450 * MM)


@pytest.mark.parametrize(
    ("words", "bond", "message"),
    [
        (
            "{joint_offset: {must: 451}}",
            "staggered",
            "rules, joint_offset: 451 mm is more than half a unit: end joints come every 900 mm, "
            "so one is always within half of that; write at most 450 mm",
        ),
        ("{second_joint_offset: {prefer: 500}}", "staggered", "500 mm is more than half a unit"),
        (
            "{smallest_cut: {must: 151}}",
            "staggered",
            "smallest_cut: 151 mm is more than the whole unit, which is 150 mm wide; write at most",
        ),
        ("{smallest_end: {must: 901}}", "staggered", "more than the whole unit, which is 900 mm l"),
        ("{smallest_cut: {must: 0}}", "staggered", "smallest_cut: a limit of 0 asks for nothing"),
        ("{no_stair: {must: 0}}", "staggered", "no_stair: a limit of 0 asks for nothing; write a"),
        ("{smallest_cut: {must: -2}}", "staggered", "rules, smallest_cut, must: '-2' is below 0"),
        ("{smallest_cut: {must: big}}", "staggered", "must: 'big' is not a length"),
        ("{reuse_within: must}", "staggered", "reuse_within: has no default limit here; write {mu"),
        ("{joint_offset: must}", "straight", "joint_offset: has no default limit here"),
        (
            "{joint_offset: {must: 100}}",
            "straight",
            "100 mm cannot hold: in this straight bond these end joints are 0 mm apart; leave the",
        ),
        (
            "{joint_offset: {must: 301}}",
            "{stepped: 2/3}",
            "301 mm cannot hold: in this stepped bond these end joints are 300 mm apart",
        ),
        ("{second_joint_offset: {must: 1}}", "{stepped: 1/2}", "these end joints are 0 mm apart"),
        ("{no_stair: {prefer: 3}}", "{stepped: 1/2}", "a stepped bond repeats its shift in every"),
        ("{no_stair: {prefer: 3}}", "straight", "a straight bond repeats its shift in every row"),
        (
            "{centred: [{must: lung}]}",
            "straight",
            "rules, centred 1, must: there is no axis called 'lung'; did you mean 'long'",
        ),
        (
            "{centred: [{prefer: cross}]}",
            "staggered",
            "rules, centred 1: axis 'cross' is square to the rows, and in a staggered bond the end "
            "joints do not line up on it; write 'bond: straight', or lay the rows along 'cross'",
        ),
        ("{centred: [{prefer: cross}]}", "{stepped: 1/2}", "in a stepped bond the end joints"),
        (
            "{centred: [{must: skew}]}",
            "straight",
            r"axis 'skew' is oblique to every direction rows may run in \(45 degrees off the near",
        ),
    ],
)
def test_rules_that_could_never_hold(words: str, bond: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        rules(words, bond)


def test_centred_on_axes_along_and_square_to_the_rows() -> None:
    found = rules("{centred: [{must: long, on: joint}, {prefer: cross}]}", "straight")
    assert found.centred == (
        Centred(MUST, "long", CentreOn.JOINT),
        Centred(PREFER, "cross", CentreOn.EITHER),
    )
    assert rules("{centred: [{must: long, on: unit}]}").centred[0].on is CentreOn.UNIT


def test_one_fitting_direction_is_enough() -> None:
    field = "{bond: staggered, directions: [{along: s}, {along: skew}, {along: e}]}"
    found = rules("{centred: [{must: skew}, {must: cross}]}", field=field)
    assert [centred.axis for centred in found.centred] == ["skew", "cross"]
