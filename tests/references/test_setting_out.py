"""Setting out one dimension by the hand rule, against printed and worked examples.

Method: NAVEDTRA 14044 (US Navy, Builder), p. 7-23: n whole units fit, r is left over, the
edge unit is (r + t)/2 with n - 1 whole units between. Each example names its own source;
where the print does not add up the arithmetic is tested and the misprint noted.
"""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from models.floor.handrule import HandRule, SettingOut, hand_rule
from models.job.data import CentreOn
from models.lengths import parse

METRIC_LESSON = "flooringtech.com.au unit 4 section 3 lesson 4, read"
PARQUET_PAGE = "doityourself.com, parquet floor layout page, read"
EDGE_BALANCE = "ceramic tile education foundation article, fcimag.com 95138, read"
DROP_A_UNIT = "ceramic tile education foundation article, floortrendsmag.com 111279, read"
CLASSROOM = "mathforum.org, Dr. Math 56485, read"
MAKERS_BOOK = "a flooring maker's installation handbook, read"

# (source, width, unit, joint on centre: whole + cut, unit on centre: whole + cut)
EXAMPLES = [
    (METRIC_LESSON + "; split derived", "3540 mm", "300 mm", (10, "270 mm"), (11, "120 mm")),
    # Print: 7 whole and two cuts of 115 mm. That sums to 2330 mm, so it is a misprint for 8.
    (METRIC_LESSON, "2630 mm", "300 mm", (8, "115 mm"), (7, "265 mm")),
    (EDGE_BALANCE, "49.5 in", "24 in", (2, "3/4 in"), (1, "12-3/4 in")),
    # Print: a 4 in cut becomes 9 in after the half-unit shift. (8 + 12)/2 is 10: a misprint.
    (PARQUET_PAGE, "176 in", "12 in", (14, "4 in"), (13, "10 in")),
    (CLASSROOM, "60 in", "8 in", (6, "6 in"), (7, "2 in")),
    (CLASSROOM, "72 in", "8 in", (8, "4 in"), (9, "0 in")),
    (MAKERS_BOOK, "30' 3/4\"", "12 in", (30, "3/8 in"), (29, "6-3/8 in")),
]

widths = st.integers(min_value=1, max_value=10_000_000)
units = st.integers(min_value=1, max_value=500_000)


def ways(rule: HandRule) -> tuple[SettingOut, SettingOut]:
    return rule.joint_on_centre, rule.unit_on_centre


@pytest.mark.parametrize(("source", "width", "unit", "joint", "centred"), EXAMPLES)
def test_whole_units_and_edge_cuts(
    source: str, width: str, unit: str, joint: tuple[int, str], centred: tuple[int, str]
) -> None:
    rule = hand_rule(parse(width), parse(unit))
    for way, (whole, cut) in zip(ways(rule), (joint, centred), strict=True):
        assert (way.whole, way.cuts) == (whole, (parse(cut), parse(cut))), source


@pytest.mark.parametrize(
    ("width", "unit", "on", "cut"),
    [
        ("3540 mm", "300 mm", CentreOn.JOINT, "270 mm"),
        ("2630 mm", "300 mm", CentreOn.UNIT, "265 mm"),
        ("49.5 in", "24 in", CentreOn.UNIT, "12-3/4 in"),
        ("176 in", "12 in", CentreOn.UNIT, "10 in"),
        ("60 in", "8 in", CentreOn.JOINT, "6 in"),
        ("72 in", "8 in", CentreOn.UNIT, "0 in"),
        ("30' 3/4\"", "12 in", CentreOn.UNIT, "6-3/8 in"),
    ],
)
def test_the_way_the_rule_picks(width: str, unit: str, on: CentreOn, cut: str) -> None:
    # Common practice, no source: none under half a unit. Sources of the widths as above.
    picked = hand_rule(parse(width), parse(unit)).picked
    assert picked.on is on
    assert picked.cuts == (parse(cut), parse(cut))


def test_a_sliver_and_a_full_unit_become_two_generous_cuts() -> None:
    # Source: EDGE_BALANCE. One full unit and a 1-1/2 in sliver: 12-3/4 in at each side.
    sliver, unit = parse("1-1/2 in"), parse("24 in")
    assert hand_rule(2 * unit + sliver, unit).picked.cuts == (parse("12-3/4 in"),) * 2


@pytest.mark.parametrize("whole_between", [1, 2, 7, 12])
def test_two_slivers_become_two_generous_cuts_by_dropping_a_unit(whole_between: int) -> None:
    # Source: DROP_A_UNIT. Cuts of 1-3/4 and 1-1/4 in beside 11-3/4 in units: 7-3/8 in each.
    unit = parse("11-3/4 in")
    width = whole_between * unit + parse("1-3/4 in") + parse("1-1/4 in")
    picked = hand_rule(width, unit).picked
    assert picked.whole == whole_between - 1
    assert picked.cuts == (parse("7-3/8 in"),) * 2


def test_the_centre_of_walls_that_are_not_equal() -> None:
    # Source: MAKERS_BOOK. Walls of 30'0" and 30'1-1/2": the centre is at half their mean.
    mean = (parse("30'") + parse("30' 1-1/2\"")) // 2
    assert mean // 2 == parse("15' 3/8\"")
    rule = hand_rule(mean, parse("12 in"))
    assert rule.joint_on_centre.cuts[0] == parse("3/8 in")
    assert rule.unit_on_centre.cuts[0] == parse("6-3/8 in")


def test_the_other_pair_of_walls_of_that_room_keeps_a_joint_on_the_centre() -> None:
    # Derived from the same walls, 20'0" and 19'11": 19 units and 11-1/2 in left over.
    mean = (parse("20'") + parse("19' 11\"")) // 2
    rule = hand_rule(mean, parse("12 in"))
    assert rule.joint_on_centre.cuts[0] == parse("11-3/4 in")
    assert rule.unit_on_centre.cuts[0] == parse("5-3/4 in")
    assert rule.picked is rule.joint_on_centre


@given(width=widths, unit=units)
def test_exactly_one_way_gives_half_units_or_more(width: int, unit: int) -> None:
    assume(width >= unit)
    rule = hand_rule(width, unit)
    if width % unit:
        assert [way.half_or_more for way in ways(rule)].count(True) == 1
        assert rule.picked.half_or_more
    else:
        assert [way.needs_cut for way in ways(rule)].count(False) == 1
        assert not rule.picked.needs_cut


@given(width=widths, unit=units)
def test_widths_add_up_and_both_edges_are_equal(width: int, unit: int) -> None:
    assume(width >= unit)
    for way in ways(hand_rule(width, unit)):
        low, high = way.cuts
        assert way.width == width
        assert 0 <= high - low <= 1
        assert 0 <= low <= high <= unit


@given(width=widths, unit=units)
def test_the_two_ways_are_half_a_unit_apart(width: int, unit: int) -> None:
    assume(width >= unit)
    joint, centred = ways(hand_rule(width, unit))
    assert abs(2 * (joint.start - centred.start)) in {unit - 1, unit, unit + 1}


@pytest.mark.parametrize(
    ("width", "unit", "problem"),
    [(10, 0, "unit is 0 ticks; it must be more than 0"), (9, 10, "less than one unit of 10")],
)
def test_what_cannot_be_set_out_says_why(width: int, unit: int, problem: str) -> None:
    with pytest.raises(ValueError, match=problem):
        hand_rule(width, unit)
