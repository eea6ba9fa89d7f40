from __future__ import annotations

import pytest
from shapely.geometry import box

from solver.audit import audit
from tests.audit.conftest import Fresh
from tests.audit.rooms import column_room
from tests.audit.said import finds, finds_only, pieces
from tests.audit.scene import Held, document


def test_a_feature_off_its_axis(fresh: Fresh) -> None:
    broken = fresh("column")
    broken["features"][0]["off_axis"] = 1.5
    finds_only(broken, r"the document, features on axis: feature Compass inset: claimed 1.500 mm "
                       r"off its axis, found 0.000 mm")  # fmt: skip


def test_an_axis_moved_from_its_feature(fresh: Fresh) -> None:
    broken = fresh("column")
    broken["features"][0]["axis"]["point"][0] += 12.7
    finds_only(broken, r"claimed 0.000 mm off its axis, found 12.700 mm")


def test_off_axis_has_no_sign() -> None:
    inset = box(2600, 900, 3200, 1350)
    for side in (-3.0, 3.0):
        held = Held("Compass inset", inset, (2903, 0), (0, 100), side)
        assert audit(document(column_room(held=(held,)))).clean


def test_a_piece_that_enters_a_feature(fresh: Fresh) -> None:
    broken = fresh("column")
    piece = next(p for p in pieces(broken) if "Compass inset" in p["touches"])
    xs = [x for x, _ in piece["outer"]]
    ys = [y for _, y in piece["outer"]]
    piece["outer"] = [[min(xs), min(ys)], [2700, min(ys)], [2700, max(ys)], [min(xs), max(ys)]]
    finds(broken, rf"features kept clear: feature Compass inset: claimed cut round, "
                  rf"found \d+.* mm2 of piece {piece['id']} inside")  # fmt: skip


def test_cuts_beside_a_feature_are_measured_left_and_right() -> None:
    inset = box(1700, 300, 2150, 600)
    held = Held("Lamp plate", inset, (1925, 0), (0, 1), 0.0)
    room = box(0, 0, 3600, 900)
    scene = column_room(
        room=room, held=(held,), low=0.0, offset=lambda row: 500.0 * (row % 2), rules=()
    )
    beside = audit(document(scene)).measured[0].beside[0]
    assert beside.feature == "Lamp plate"
    assert beside.off_axis == pytest.approx(0)
    # Rows 3 and 4: joints at 500 + 1200 k and at 1200 k. Left pieces end at 1700, right ones
    # start at 2150; above and below it lie whole units that the axis crosses or not.
    assert beside.left.along == pytest.approx(500)
    assert beside.right.along == pytest.approx(250)
    assert beside.left.across is None
    assert beside.left.cut == 1
    assert beside.right.cut == 2
    assert beside.left.whole >= 2
