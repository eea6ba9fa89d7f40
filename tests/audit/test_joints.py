from __future__ import annotations

import pytest
from shapely.geometry import box

from tests.audit.conftest import Fresh
from tests.audit.rooms import plank_room, slanted_room, tile_room
from tests.audit.said import finds, pieces, said
from tests.audit.scene import document


def test_a_joint_that_is_not_square(fresh: Fresh) -> None:
    broken = fresh("plank")
    row = [p for p in pieces(broken) if p["row"] == 5]
    one, two = row[1], row[2]
    joint, low = max(x for x, _ in one["outer"]), min(y for _, y in one["outer"])
    for piece in (one, two):
        piece["outer"] = [[x - 20 if x == joint and y == low else x, y] for x, y in piece["outer"]]
    finds(broken, rf"cuts only at the edge: piece {one['id']} .*claimed no such side, "
                  "found a side at a slant inside the floor")  # fmt: skip


def test_a_unit_cut_inside_the_floor(fresh: Fresh) -> None:
    broken = fresh("plank")
    row = [p for p in pieces(broken) if p["row"] == 5]
    one, two = row[1], row[2]
    joint = max(x for x, _ in one["outer"])
    for piece in (one, two):
        piece["outer"] = [[x - 40 if x == joint else x, y] for x, y in piece["outer"]]
    finds(broken, rf"factory edges at joints: piece {one['id']} .*1200.000 mm long, "
                  "found joints 1160.000 mm apart")  # fmt: skip


def test_a_joint_between_rows_off_the_row_line(fresh: Fresh) -> None:
    broken = fresh("tile")
    row = [p for p in pieces(broken) if p["row"] == 3]
    line = max(y for _, y in row[2]["outer"])
    for piece in pieces(broken):
        piece["outer"] = [[x, y - 2 if y == line else y] for x, y in piece["outer"]]
    finds(
        broken,
        r"joints on row lines: piece P\d+ \(row 3\): claimed joined on a row line, found 2.000",
    )
    finds(
        broken, rf"at joints: piece {row[2]['id']} .*300.000 mm wide, found joints 298.000 mm apart"
    )


def test_a_straight_bond_that_is_not() -> None:
    broken = document(tile_room(offset=lambda row: 270.0 + 4.0 * (row == 4)))
    finds(broken, r"bond: row 4: claimed straight bond, found joints 4.000 mm off that bond")


def test_a_stepped_bond_that_is_not() -> None:
    broken = document(slanted_room(offset=lambda row: 150.0 * (row % 3) + 5.0 * (row == 5)))
    finds(broken, r"bond: row 5: claimed stepped 1/3 bond, found joints 5.000 mm off that bond")


@pytest.mark.parametrize("sign", [1, -1])
def test_a_stepped_bond_may_step_either_way(sign: int) -> None:
    stepped = slanted_room(offset=lambda row: 100.0 + sign * 150.0 * row, rules=())
    assert said(document(stepped)) == []


def test_a_step_may_be_written_as_a_number() -> None:
    stepped = document(slanted_room(rules=()))
    stepped["zones"][0].update(bond="stepped", step=0.333333)
    assert said(stepped) == []
    stepped["zones"][0]["step"] = 0.25
    finds(stepped, r"claimed stepped 1/4 bond")


def test_a_room_of_one_row_has_no_seams() -> None:
    assert said(document(plank_room(room=box(0, 0, 5230, 110), rules=()))) == []


def test_a_floor_of_one_piece_a_row_has_no_joints_to_measure() -> None:
    narrow = plank_room(room=box(0, 0, 900, 660), low=-40, offset=lambda _: 1000.0)
    assert said(document(narrow)) == []
