from __future__ import annotations

import json
from functools import cache

import pytest

from solver.audit import audit
from tests.audit.compose import add_up
from tests.audit.floors import bordered
from tests.audit.said import finds, finds_only, moved, pieces, said
from tests.audit.scene import Document


@cache
def _written() -> str:
    return json.dumps(bordered())


@pytest.fixture
def floor() -> Document:
    """A bordered floor with a filled inset, to break."""
    found: Document = json.loads(_written())
    return found


def zone(document: Document, name: str) -> Document:
    """A zone of a document by its name."""
    return next(one for one in document["zones"] if one["name"] == name)


def of_zone(document: Document, name: str) -> list[Document]:
    """The pieces of a zone."""
    return [piece for piece in pieces(document) if piece["zone"] == name]


def test_a_border_a_field_and_a_filled_inset_laid_right_are_clean(floor: Document) -> None:
    report = audit(floor)
    assert report.findings == ()
    assert report.unchecked == ()
    assert len(report.measured[0].rules) == 3 + 5


def test_zones_that_share_floor(floor: Document) -> None:
    north = zone(floor, "border, north wall")["polygon"]["outer"]
    north[:] = [[x, 3080.0 if y == 3100.0 else y] for x, y in north]
    finds(floor, r"the document, zones: zone field and zone border, north wall: claimed side by "
                 r"side, found 80000.000 mm2 in both")  # fmt: skip


def test_a_piece_laid_over_another_zone(floor: Document) -> None:
    piece = of_zone(floor, "border, south wall")[4]
    moved(piece, 0, 25)
    pattern = rf"layout 1, zones: piece {piece['id']} \(zone border, south wall\) and piece field"
    finds(floor, rf"{pattern} P\d+ \(zone field\): claimed side by side, found overlap of \d+")


def test_a_zone_over_a_feature_it_does_not_fill(floor: Document) -> None:
    grate = [[900.0, 900.0], [1100.0, 900.0], [1100.0, 1000.0], [900.0, 1000.0]]
    axis = {"name": "middle", "point": [1000.0, 0.0], "direction": [0.0, 1.0]}
    floor["features"].append({"name": "Grate", "polygon": {"outer": grate, "holes": []},
                              "axis": axis, "off_axis": 0.0})  # fmt: skip
    finds(floor, "zones: zone field and feature Grate: claimed cut round, found 20000.000 mm2 in")
    finds(floor, r"features kept clear: feature Grate: .* mm2 of piece field P\d+ inside")


def test_a_filled_feature_is_entered_by_what_fills_it_only(floor: Document) -> None:
    tile = of_zone(floor, "compass inset")[0]
    tile["zone"] = "border, west wall"
    finds(floor, f"features kept clear: feature Compass: .* of piece {tile['id']} inside")


@pytest.mark.parametrize(
    ("name", "pattern"),
    [
        ("border, north wall", "claimed borders border, north wall, found 4000.000 mm of it else"),
        ("compass inset", "claimed borders compass inset, found 4000.000 mm of it elsewhere"),
        ("Compass", "claimed borders Compass, found 4000.000 mm of it elsewhere"),
    ],
)
def test_a_side_named_after_what_it_does_not_border(
    floor: Document, name: str, pattern: str
) -> None:
    side = next(s for s in zone(floor, "field")["sides"] if s["name"] == "border, south wall")
    side["name"] = name
    finds(floor, rf"sides: zone field, side from x 4300.0, y 300.0 mm: {pattern}")


def test_a_side_over_a_trim_strip_borders_the_zone_beyond(floor: Document) -> None:
    side = next(s for s in zone(floor, "field")["sides"] if s["name"] == "border, south wall")
    south = zone(floor, "border, south wall")["polygon"]["outer"]
    south[:] = [[x, 288.0 if y == 300.0 else y] for x, y in south]
    assert side["from"][1] == 300.0
    finds(floor, "sides: zone field, side from .*claimed borders border, south wall")
    zone(floor, "border, south wall")["trim"] = 12.0
    assert not any("zone field, side from" in sentence for sentence in said(floor))


def test_sides_that_do_not_go_all_round(floor: Document) -> None:
    del zone(floor, "field")["sides"][2]
    finds(floor, r"sides: zone field: claimed sides all round, found \d+.\d+ mm of its edge at no")
    zone(floor, "compass inset")["sides"][0]["from"][1] -= 50
    finds(floor, r"sides: zone compass inset: claimed sides on its edge, found \d+.\d+ mm off it")


def test_a_piece_that_names_a_zone_it_does_not_touch(floor: Document) -> None:
    piece = next(p for p in of_zone(floor, "field") if p["touches"] == ["border, south wall"])
    piece["touches"] = ["border, north wall"]
    finds(floor, rf"what cuts touch: piece {piece['id']} .*found a cut edge at border, south wall")
    finds(floor, rf"touch: piece {piece['id']} .*border, north wall, found no edge of it there")


def test_an_id_used_in_two_zones(floor: Document) -> None:
    two = of_zone(floor, "field")[0], of_zone(floor, "compass inset")[0]
    two[0]["id"] = two[1]["id"]
    finds_only(floor, f"piece ids: piece {two[0]['id']}: .*found 2 pieces of that id")


def test_a_rule_is_measured_in_its_own_zone(floor: Document) -> None:
    rule = next(r for r in floor["layouts"][0]["rules"] if r["key"] == "smallest_cut")
    assert (rule["zone"], rule["worst"]) == ("field", 60.0)
    rule["zone"] = "border, south wall"
    finds_only(floor, r"rules: smallest cut, zone border, south wall: claimed worst 60.000 mm, "
                      r"found 100.000 mm")  # fmt: skip


def test_rules_are_of_zones_there_are(floor: Document) -> None:
    floor["layouts"][0]["rules"][0]["zone"] = "attic"
    with pytest.raises(ValueError, match=r"layouts\[0\].rules\[0\].zone: 'attic' is not one of"):
        audit(floor)


def share(document: Document, one: Document, two: Document) -> None:
    """Say that two pieces come from one unit, and add everything up again."""
    two["unit"] = one["unit"]
    add_up(document, breakage=2)


def test_zones_of_one_product_may_share_units(floor: Document) -> None:
    cuts = [p for p in of_zone(floor, "border, south wall") if p["cut"]]
    others = [p for p in of_zone(floor, "border, north wall") if p["cut"]]
    before = floor["layouts"][0]["order"][1]["units"]
    share(floor, cuts[0], others[0])
    assert floor["layouts"][0]["order"][1]["units"] == before - 1
    assert said(floor) == []
    share(floor, cuts[0], next(p for p in of_zone(floor, "compass inset") if not p["cut"]))
    finds(floor, r"units: unit .* from one unit, found .* that do not fit in it 0.000 mm apart")


def test_zones_of_different_products_share_none(floor: Document) -> None:
    share(floor, of_zone(floor, "border, south wall")[0], of_zone(floor, "field")[0])
    finds(floor, "units: unit .*found pieces of different products, Driftwood plank, Shingle tile")


ORDER = [
    ("breakage_units", -2, "order: product Driftwood plank: claimed -2 breakage units, found few"),
    ("breakage_units", 90, r"claimed \d+ cartons, found \d+ for \d+ units and 3 spare, 90 for br"),
    ("cost", 12.0, r"order: product Driftwood plank: claimed cost 12.00, found \d+.\d\d"),
    ("cost", None, r"order: product Driftwood plank: claimed cost none, found \d+.\d\d"),
    ("cartons_at_least", 99, "cartons, at least 99 needed, found a least number that cannot be"),
    ("cartons_at_least", 0, "cartons, at least 0 needed, found a least number that cannot be"),
    ("spare_cartons", 1, r"claimed \d+ cartons, found .* a carton and 1 on top"),
    ("lengths", [{"length": 900.0, "units": 4}], "claimed 1 lengths, found units of one length"),
]


@pytest.mark.parametrize(("key", "value", "pattern"), ORDER)
def test_a_wrong_line_of_the_order(floor: Document, key: str, value: object, pattern: str) -> None:
    floor["layouts"][0]["order"][0][key] = value
    finds_only(floor, pattern)


def test_one_spare_carton_for_every_so_many(floor: Document) -> None:
    line, figures = floor["layouts"][0]["order"][0], floor["layouts"][0]["figures"]
    for more, key in ((1, None), (0, "spare_cartons")):
        line["cartons"] += more
        line["cost"] += 40.5 * more
        figures["cartons"] += more
        figures["cost"] += 40.5 * more
        if key:
            line[key] = 1
        assert said(floor) == []


def test_a_wrong_cost_of_all(floor: Document) -> None:
    floor["layouts"][0]["figures"]["cost"] += 1
    finds_only(floor, r"figures: cost: claimed \d+.\d\d, found \d+.\d\d")
    del floor["layouts"][0]["figures"]["cost"]
    finds_only(floor, r"figures: cost: claimed none, found \d+.\d\d")
