from __future__ import annotations

import copy

import pytest
from shapely.geometry import box

from tests.audit.conftest import Fresh
from tests.audit.rooms import plank_room
from tests.audit.said import finds, finds_only, moved, pieces, said, whole
from tests.audit.scene import document


def test_a_missing_piece_is_bare_floor(fresh: Fresh) -> None:
    broken = fresh("plank")
    pieces(broken).remove(whole(broken))
    finds(broken, r"layout 1, pieces tile the zone: zone Reading room, at u .*bare floor of 1799")


def test_a_narrow_gap_is_bare_floor(fresh: Fresh) -> None:
    broken = fresh("plank")
    piece = whole(broken)
    left = min(x for x, _ in piece["outer"])
    piece["outer"] = [[x + 0.06 if x == left else x, y] for x, y in piece["outer"]]
    finds(broken, r"claimed covered, found bare floor of \d.* \(0.0\d\d x 149.\d+ mm\)")


def test_a_piece_a_hair_off_its_place_passes(fresh: Fresh) -> None:
    close = fresh("plank")
    moved(whole(close), 0.008, 0.008)
    assert said(close) == []


def test_two_pieces_that_overlap(fresh: Fresh) -> None:
    broken = fresh("plank")
    piece = whole(broken)
    moved(piece, 0.5, 0)
    finds(broken, rf"piece {piece['id']} \(row 3\) and piece P\d+ .*claimed side by side, "
                  r"found overlap of 75.000 mm2")  # fmt: skip


def test_a_piece_laid_twice(fresh: Fresh) -> None:
    broken = fresh("plank")
    twin = copy.deepcopy(whole(broken))
    twin["id"], twin["unit"] = "P-again", "U-again"
    pieces(broken).append(twin)
    finds(broken, r"piece P-again \(row 3\): claimed side by side, found overlap of 180000.000 mm2")


def test_a_piece_over_the_wall(fresh: Fresh) -> None:
    broken = fresh("plank")
    edge = next(p for p in pieces(broken) if p["cut"] and p["row"] == 4)
    left = min(x for x, _ in edge["outer"])
    edge["outer"] = [[x - 30 if x == left else x, y] for x, y in edge["outer"]]
    finds(broken, rf"piece {edge['id']} \(row 4\): claimed inside the zone, found outside of 4500")


def test_a_piece_into_a_column(fresh: Fresh) -> None:
    broken = fresh("column")
    holed = next(p for p in pieces(broken) if len(p["outer"]) > 4 and p["row"] in (5, 6))
    xs, ys = zip(*holed["outer"], strict=True)
    holed["outer"] = [
        [min(xs), min(ys)],
        [max(xs), min(ys)],
        [max(xs), max(ys)],
        [min(xs), max(ys)],
    ]
    finds(broken, rf"piece {holed['id']} .*claimed inside the zone, found outside of \d+")


def test_a_shape_that_crosses_itself(fresh: Fresh) -> None:
    broken = fresh("plank")
    outer = whole(broken)["outer"]
    outer[0], outer[1] = outer[1], outer[0]
    finds_only(
        broken, r"sound shapes: piece P\d+: claimed a piece of floor, found a shape that crosses"
    )


def test_a_zone_that_crosses_itself(fresh: Fresh) -> None:
    broken = fresh("plank")
    outer = broken["zones"][0]["polygon"]["outer"]
    outer[0], outer[1] = outer[1], outer[0]
    finds_only(
        broken, r"the document, sound shapes: zone Reading room: claimed a floor, found Self-i"
    )


def test_an_id_used_twice(fresh: Fresh) -> None:
    broken = fresh("plank")
    pieces(broken)[3]["id"] = pieces(broken)[4]["id"]
    finds_only(broken, r"piece ids: piece P5: claimed one piece, found 2 pieces of that id")


def test_a_piece_longer_than_a_unit(fresh: Fresh) -> None:
    broken = fresh("plank")
    one = whole(broken)
    right = max(x for x, _ in one["outer"])
    one["outer"] = [[x + 5 if x == right else x, y] for x, y in one["outer"]]
    finds(broken, r"pieces inside one unit: .*1200.000 x 150.000 mm, found 1205.000 x 150.000 mm")


def test_cut_marks(fresh: Fresh) -> None:
    broken = fresh("tile")
    piece = whole(broken)
    piece["cut"] = True
    finds(broken, rf"cut marks: piece {piece['id']} .*claimed cut, found a whole unit")
    broken = fresh("tile")
    piece = next(p for p in pieces(broken) if p["cut"])
    piece["cut"] = False
    finds(broken, rf"cut marks: piece {piece['id']} .*claimed a whole unit, found \d+")


def test_a_small_notch_is_a_cut(fresh: Fresh) -> None:
    broken = fresh("column")
    notched = [p for p in pieces(broken) if len(p["outer"]) == 6]
    notched[0]["cut"] = False
    finds(broken, rf"cut marks: piece {notched[0]['id']} .*claimed a whole unit")


def test_a_zone_without_pieces_and_pieces_of_no_zone(fresh: Fresh) -> None:
    broken = fresh("plank")
    other = copy.deepcopy(broken["zones"][0])
    other["name"] = "Border"
    broken["zones"].append(other)
    finds(broken, "pieces tile the zone: zone Border: claimed laid, found no lines for it")
    broken["layouts"][0]["zones"].append({**broken["layouts"][0]["zones"][0], "zone": "Border"})
    finds(broken, "zone Border: claimed laid, found no pieces")
    del broken["layouts"][0]["zones"][1]
    pieces(broken)[0]["zone"] = "Border"
    finds(broken, "zone Border: claimed not laid, found pieces in it")


def test_many_findings_of_one_kind_are_counted(fresh: Fresh) -> None:
    broken = fresh("plank")
    for piece in pieces(broken):
        piece["cut"] = True
    finds(broken, r"cut marks: elsewhere: claimed nothing wrong, found \d+ more like these")


@pytest.mark.parametrize("low", [-39.995, -39.985, -39.9995])
def test_rows_split_by_rounding_hide_no_hole_and_make_none(low: float) -> None:
    # Row lines midway between two rounded values, turned: noise puts them on either side.
    scene = plank_room(room=box(0, 0, 9230, 2010), low=low, angle=31.7, rules=(), share=False)
    broken = document(scene)
    assert said(broken) == []
    for missing in [p for p in pieces(broken) if not p["cut"]][::7]:
        rest = {**broken, "layouts": [dict(broken["layouts"][0])]}
        rest["layouts"][0]["pieces"] = [p for p in pieces(broken) if p is not missing]
        finds(rest, "claimed covered, found bare floor of 1799")
