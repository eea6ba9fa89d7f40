from __future__ import annotations

import pytest
from shapely.geometry import box

from tests.audit.compose import add_up
from tests.audit.rooms import plank_room, tile_room
from tests.audit.said import finds, finds_only, pieces, said
from tests.audit.scene import Document, document


def chequered(**changes: object) -> Document:
    """Square tiles, every second one turned a quarter."""
    found = document(tile_room(rules=(), **changes))
    found["zones"][0]["marks"] = "quarter-turned"
    for piece in pieces(found):
        piece["quarter"] = (piece["row"] + piece["cell"]) % 2 == 1
    return found


def test_quarter_turned_marks_are_clean() -> None:
    assert said(chequered()) == []


def test_a_quarter_turn_where_marks_lie_one_way() -> None:
    broken = chequered()
    broken["zones"][0]["marks"] = "one way"
    finds_only(broken, r"quarter turns: piece P\d+ .*claimed turned a quarter, found marks one way|"
                       r"quarter turns: elsewhere")  # fmt: skip


def test_neighbours_that_lie_one_way() -> None:
    broken = chequered()
    unit = next(p for p in pieces(broken) if not p["cut"] and p["quarter"])
    unit["quarter"] = False
    lie = r"(claimed one of them turned, found both lie one|claimed not turned, found unit \d+ of)"
    finds_only(broken, rf"quarter turns: piece .*{unit['id']} .*{lie}")


def test_the_wrong_half_of_all_units_turned() -> None:
    broken = chequered()
    for piece in pieces(broken):
        piece["cell"] += 1
    finds(
        broken, r"quarter turns: piece P\d+ .*claimed turned a quarter, found unit \d+ of its row"
    )


def test_only_square_units_have_quarter_turned_marks() -> None:
    broken = document(plank_room(rules=()))
    broken["zones"][0]["marks"] = "quarter-turned"
    finds(
        broken, "quarter turns: zone Reading room: claimed quarter-turned marks, found units 1200"
    )


def test_a_turned_unit_keeps_its_arrow() -> None:
    # A room of 3 x 3 with 70 mm at the right: start and end pieces of turned and unturned units.
    found = chequered(room=box(0, 0, 970, 900), low=0.0, offset=lambda _: 0.0, directional=True)
    row_ends = [p for p in pieces(found) if p["cut"]]
    turned = [p for p in row_ends if p["quarter"]]
    plain = [p for p in row_ends if not p["quarter"]]
    assert (len(turned), len(plain)) in {(1, 2), (2, 1)}
    # All are held at their left: two that lie alike want the same end of a unit, one that is
    # turned wants a side of it, which meets the other's end in a corner.
    alike, other = (turned, plain) if len(turned) == 2 else (plain, turned)
    alike[0]["unit"] = alike[1]["unit"]
    add_up(_priced(found))
    finds(found, "units: unit .*found 70.000 x 300.000 mm and 70.000 x 300.000 mm that do not fit")
    alike[0]["unit"] = other[0]["unit"]
    add_up(found)
    finds(found, "units: unit .*found 70.000 x 300.000 mm and 70.000 x 300.000 mm that do not fit")
    found["products"][0]["directional"] = False
    assert said(found) == []


def _priced(found: Document) -> Document:
    """With the keys a later document has, so that it can be added up again."""
    found["products"][0].update(price=None, lengths=[])
    for piece in pieces(found):
        piece.setdefault("unit_length", 0.0)
    return found


def planks(share: bool = True, **keys: object) -> Document:
    """Planks whose row ends start other rows (or not), with more said of the product."""
    found = document(plank_room(rules=(), share=share))
    found["products"][0].update(keys)
    return found


def test_offcuts_as_large_as_the_least_are_used_again() -> None:
    assert said(planks(scrap=200.0)) == []


def test_an_offcut_that_is_scrap_is_used() -> None:
    # The least offcut that serves again: what is left of 1200 by the longest end piece shared.
    found = planks(scrap=0.0)
    by_unit: dict[str, list[Document]] = {}
    for piece in pieces(found):
        by_unit.setdefault(piece["unit"], []).append(piece)
    shared = [those for those in by_unit.values() if len(those) == 2]
    least = min(1200 - those[0]["sizes"]["along"] - 3 for those in shared)
    assert said(planks(scrap=least)) == []
    left = f"found {least:.3f} mm left, scrap below {least + 1:.3f} mm"
    finds_only(planks(scrap=least + 1), f"offcuts: unit .* from what piece .* leaves, {left}")


@pytest.mark.parametrize("shop_cuts", [True, False])
def test_shop_cuts_may_lie_at_joints(shop_cuts: bool) -> None:
    found = planks(share=False, shop_cuts=shop_cuts)
    starts = [p for p in pieces(found) if p["cut"] and 1 < p["row"] < 13 and p["cell"] == 0]
    one, two = sorted(starts, key=lambda p: p["sizes"]["along"])[:2]
    assert one["sizes"]["along"] + two["sizes"]["along"] + 3 < 1200
    two["unit"] = one["unit"]
    add_up(_priced(found))
    if shop_cuts:
        assert said(found) == []
    else:
        finds_only(found, f"units: unit {one['unit']}: .*that do not fit")


def test_shop_cuts_must_fit_still() -> None:
    found = planks(shop_cuts=True)
    one, two = [p for p in pieces(found) if not p["cut"]][:2]
    two["unit"] = one["unit"]
    add_up(_priced(found))
    finds_only(found, f"units: unit {one['unit']}: .*that do not fit in it 3.000 mm apart")


@pytest.mark.parametrize("shop_cuts", [True, False])
def test_a_joint_moved_by_a_shop_cut(shop_cuts: bool) -> None:
    found = planks(shop_cuts=shop_cuts)
    row = [p for p in pieces(found) if p["row"] == 5]
    joint = max(x for x, _ in row[1]["outer"])
    for piece in row[1:3]:
        piece["outer"] = [[x - 40 if x == joint else x, y] for x, y in piece["outer"]]
    broken = any("factory edges at joints" in sentence for sentence in said(found))
    assert broken != shop_cuts
