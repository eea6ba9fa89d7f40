from __future__ import annotations

import pytest

from solver.audit import audit
from tests.audit.conftest import Fresh
from tests.audit.rooms import column_room, plank_room, tile_room
from tests.audit.said import finds, finds_only, pieces, rule, said
from tests.audit.scene import Scene, document

ALL = [
    ("plank", "smallest_cut", "smallest cut"),
    ("plank", "smallest_end", "smallest end piece"),
    ("plank", "joint_offset", "end joints apart, next row"),
    ("plank", "second_joint_offset", "end joints apart, row after next"),
    ("plank", "no_stair", "no repeating stair"),
    ("plank", "balanced_cuts", "balanced opposite cuts"),
    ("plank", "reuse_within", "offcuts reused within rows"),
    ("plank", "tape_tolerance", "cuts hold after tape error"),
    ("tile", "half_unit_edges", "half-unit edge cuts"),
    ("tile", "half_unit_ends", "half-unit end cuts"),
]


@pytest.mark.parametrize(("room", "key", "name"), ALL)
def test_a_wrong_worst_value(fresh: Fresh, room: str, key: str, name: str) -> None:
    broken = fresh(room)
    one = rule(broken, key)
    # Less than it is: no hidden wall can explain it.
    one["worst"] -= 1
    finds_only(broken, rf"layout 1, rules: {name}: claimed worst [-\d.]+ (mm|rows), found")


@pytest.mark.parametrize(("room", "key", "name"), ALL)
def test_a_broken_rule_said_to_be_kept(fresh: Fresh, room: str, key: str, name: str) -> None:
    broken = fresh(room)
    one = rule(broken, key)
    at_most = key in ("no_stair", "balanced_cuts", "reuse_within")
    one["limit"] = one["worst"] + (-1 if at_most else 1)
    one["kept"] = True
    finds(broken, rf"rules: {name}: claimed kept \(limit .*\), found broken, worst")


@pytest.mark.parametrize(("room", "key", "name"), ALL)
def test_a_kept_rule_said_to_be_broken(fresh: Fresh, room: str, key: str, name: str) -> None:
    broken = fresh(room)
    one = rule(broken, key)
    if key == "half_unit_edges" or not one["kept"]:
        one["limit"] = one["worst"]
    one["kept"] = False
    finds(broken, rf"rules: {name}: claimed broken \(limit .*\), found kept, worst")


def test_a_broken_rule_said_to_be_broken_is_honest() -> None:
    honest = document(plank_room())
    assert not rule(honest, "smallest_cut")["kept"]
    assert said(honest) == []


def test_a_rule_with_nothing_to_measure_is_kept() -> None:
    none = document(plank_room(share=False))
    assert rule(none, "reuse_within")["worst"] is None
    assert said(none) == []
    rule(none, "reuse_within")["worst"] = 0
    assert said(none) == []
    rule(none, "smallest_end")["worst"] = None
    finds_only(none, r"smallest end piece: claimed worst nothing measured, found 10.000 mm|kept")


def test_joints_too_near_are_measured() -> None:
    near = document(plank_room(offset=lambda row: 60.0 * (row % 7)))
    assert rule(near, "joint_offset")["worst"] == pytest.approx(60)
    assert not rule(near, "joint_offset")["kept"]
    assert said(near) == []
    rule(near, "joint_offset").update(kept=True, worst=150.0)
    finds(near, "end joints apart, next row: claimed worst 150.000 mm, found 60.000 mm")


def test_equal_shifts_are_a_stair() -> None:
    stair = document(plank_room(offset=lambda row: (400.0 * row) % 1200))
    assert rule(stair, "no_stair")["worst"] == 13
    assert said(stair) == []


def test_a_rule_called_by_another_name(fresh: Fresh) -> None:
    broken = fresh("plank")
    rule(broken, "smallest_cut")["rule"] = "least cut"
    finds_only(broken, "rules: smallest cut: claimed called 'least cut', found the rule with key")


def test_half_a_unit_is_half_a_unit(fresh: Fresh) -> None:
    broken = fresh("tile")
    rule(broken, "half_unit_edges")["limit"] = 100.0
    finds(broken, r"half-unit edge cuts: claimed limit 100.000 mm, found half a unit, 150.000 mm")


def hidden_tile_room() -> Scene:
    """Edge cuts of 30 mm along the low wall and 200 mm along the high one."""
    from shapely.geometry import box

    rules = (("half_unit_edges", "prefer", 150.0),)
    return tile_room(room=box(0, 0, 3540, 2630), low=30 - 300, rules=rules)


def test_cuts_at_hidden_walls_do_not_count() -> None:
    hidden = document(hidden_tile_room())
    low_wall = next(p["touches"][0] for p in pieces(hidden) if p["sizes"]["across"] == 30
                    and len(p["touches"]) == 1)  # fmt: skip
    one = rule(hidden, "half_unit_edges")
    assert one["worst"] == 30
    # The two corner pieces are cut to another wall too, so they still count.
    hidden["hidden_walls"] = [low_wall]
    assert said(hidden) == []
    corners = {n for p in pieces(hidden) if p["row"] == 1 for n in p["touches"]}
    hidden["hidden_walls"] = sorted(corners)
    finds(hidden, r"half-unit edge cuts: claimed worst 30.000 mm, found 200.000 mm")
    one.update(worst=200.0, kept=True)
    hidden["layouts"][0]["figures"]["broken_prefer"] = 0
    assert said(hidden) == []


def test_hidden_walls_may_go_unnamed() -> None:
    hidden = document(hidden_tile_room())
    one = rule(hidden, "half_unit_edges")
    hidden["layouts"][0]["figures"]["broken_prefer"] = 0
    one.update(worst=200.0, kept=True)
    assert said(hidden) == []
    one.update(worst=220.0)
    finds(hidden, r"half-unit edge cuts: claimed worst 220.000 mm, found (200.000 mm|nothing)")


def test_what_is_measured_is_there_to_print() -> None:
    measured = audit(document(column_room())).measured[0]
    assert [one.key for one in measured.rules][:2] == ["smallest_cut", "smallest_end"]
    assert measured.smallest is not None
    assert measured.smallest.size == pytest.approx(10)
    assert measured.laid_area_m2 == pytest.approx(8.6325)


CENTRED = (("centred", "must", 0.0),)


@pytest.mark.parametrize(
    ("on", "off"), [("joint", 0.0), ("unit", 75.0), ("either", 0.0), (None, 0.0), (None, 75.0)]
)
def test_centred_on_an_axis_along_the_rows(on: str | None, off: float) -> None:
    centred = document(column_room(rules=CENTRED, low=-50.0, held=()))
    centred["axes"] = [{"name": "corridor", "point": [0, 700], "direction": [-3, 0]}]
    one = rule(centred, "centred") if centred["layouts"][0]["rules"] else {}
    one.update(subject="corridor", worst=off, kept=off == 0, on=on)
    if on is None:
        del one["on"]
    centred["layouts"][0]["figures"]["broken_must"] = int(off > 0)
    assert said(centred) == []
    one.update(worst=4.0, kept=False)
    centred["layouts"][0]["figures"]["broken_must"] = 1
    finds_only(centred, r"rules: centred on axis corridor: claimed (worst 4.000 mm, found|broken)")


def test_centred_on_an_axis_square_to_the_rows_of_a_straight_bond() -> None:
    centred = document(tile_room(rules=(*CENTRED,)))
    centred["axes"] = [{"name": "door", "point": [1770, 0], "direction": [0, 1]}]
    one = rule(centred, "centred")
    one.update(subject="door", on="unit", worst=150.0, kept=False)
    centred["layouts"][0]["figures"]["broken_must"] = 1
    assert said(centred) == []
    one.update(on="joint")
    finds_only(centred, r"centred on axis door: claimed (worst 150.000 mm, found 0.000|broken)")


def test_an_axis_the_document_does_not_give_cannot_be_checked() -> None:
    centred = document(tile_room(rules=CENTRED))
    report = audit(centred)
    assert report.clean
    assert report.unchecked == ("layout 1: centred on axis : the document does not give this axis",)
