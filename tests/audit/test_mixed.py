from __future__ import annotations

import pytest

from tests.audit.cells import MIX, joints_of, mixed
from tests.audit.compose import add_up
from tests.audit.said import finds, finds_only, pieces, rule, said
from tests.audit.scene import Document


def row_of(document: Document, number: int) -> Document:
    """A row as the document lists it."""
    found: Document = document["layouts"][0]["zones"][0]["rows"][number - 1]
    return found


def test_rows_of_several_lengths_laid_right_are_clean() -> None:
    document = mixed()
    lengths = document["layouts"][0]["order"][0]["lengths"]
    # Rows hold 3, 3, 2 and 2 of 1200; 1, 1, 2 and 2 of 900; 1, 1, 1 and 1 of 600.
    assert [(one["length"], one["units"]) for one in lengths] == [(1200, 10), (900, 6), (600, 4)]
    assert said(document) == []


def test_joints_may_count_from_the_cross_line() -> None:
    document = mixed()
    for number in range(1, 5):
        row_of(document, number)["joints"] = [[at - 100 for at in joints_of(number - 1, 4300.0)]]
    assert said(document) == []


def test_a_unit_of_a_length_there_is_not() -> None:
    broken = mixed()
    piece = next(p for p in pieces(broken) if p["unit_length"] == 900)
    piece["unit_length"] = 950.0
    finds(broken, rf"unit lengths: piece {piece['id']} .*claimed of a unit 950.000 mm long, found "
                  "lengths 1200.000, 900.000, 600.000 mm")  # fmt: skip


def test_a_piece_longer_than_its_unit() -> None:
    broken = mixed()
    piece = next(p for p in pieces(broken) if p["unit_length"] == 1200 and not p["cut"])
    piece["unit_length"] = 900.0
    finds(broken, rf"pieces inside one unit: piece {piece['id']} .*claimed cut from one unit of "
                  "900.000 x 150.000 mm, found 1200.000 x 150.000 mm")  # fmt: skip
    finds(broken, rf"at joints: piece {piece['id']} .*900.000 mm long, found joints 1200.000 mm")


def test_a_whole_unit_said_to_be_cut_from_a_longer_one() -> None:
    broken = mixed()
    piece = next(p for p in pieces(broken) if p["unit_length"] == 900 and not p["cut"])
    piece["unit_length"] = 1200.0
    finds(broken, rf"cut marks: piece {piece['id']} .*claimed a whole unit, found 13\d+.\d+ mm2")
    finds(broken, rf"at joints: piece {piece['id']} .*1200.000 mm long, found joints 900.000 mm")


def test_lengths_of_a_product_of_one_length() -> None:
    broken = mixed()
    broken["products"][0]["lengths"] = []
    finds(broken, r"unit lengths: piece P1 .*claimed of a unit 1200.000 mm long, found one length")


def test_joints_that_are_elsewhere() -> None:
    broken = mixed()
    row_of(broken, 2)["joints"][0][1] += 5
    finds_only(broken, r"joints listed: row 2 from u -?0.0 to 4300.0 mm: claimed joints 500.000, "
                       r"1705.000, .* found joints 500.000, 1700.000")  # fmt: skip
    del row_of(broken, 2)["joints"][0][1]
    finds_only(broken, "joints listed: row 2 .*claimed joints 500.000, 2300.000, 3200.000 mm")
    del row_of(broken, 2)["joints"]
    finds_only(broken, "joints listed: row 2 .*claimed no joints, found 4 joints")
    row_of(broken, 2)["joints"] = []
    with pytest.raises(ValueError, match=r"rows\[1\].joints: a list of 0 is not a list with the"):
        said(broken)


def test_joints_apart_are_real_joints() -> None:
    broken = mixed()
    rule(broken, "joint_offset")["worst"] = 150.0
    finds_only(broken, "rules: end joints apart, next row: claimed worst 150.000 mm, found 100.000")


def shared(document: Document, one: float, two: float) -> tuple[Document, Document]:
    """Two end pieces of given sizes, the second said to come from the unit of the first."""
    first, second = (
        next(p for p in pieces(document) if p["sizes"]["along"] == size) for size in (one, two)
    )
    second["unit"] = first["unit"]
    add_up(document)
    return first, second


def test_the_end_of_one_row_starts_another_from_a_unit_of_one_length() -> None:
    # Row 3 ends with 400 of a 900; row 4 begins with 240 of a 600, row 2 with 500 of a 1200.
    document = mixed()
    shared(document, 650.0, 500.0)
    assert said(document) == []
    broken = mixed()
    shared(broken, 400.0, 240.0)
    found = "found pieces of units 600.000 and 900.000 mm long"
    finds(broken, rf"units: unit U\d+: claimed piece .* from one unit, {found}")


def test_a_unit_is_as_long_as_it_is_and_no_longer() -> None:
    broken = mixed()
    shared(broken, 650.0, 950.0)
    finds_only(
        broken, r"units: unit U\d+: .*found 950.000 x 150.000 mm and 650.000 x 150.000 mm that"
    )


def test_units_of_each_length_are_counted() -> None:
    broken = mixed()
    lengths = broken["layouts"][0]["order"][0]["lengths"]
    lengths[1]["units"] += 1
    lengths[2]["units"] -= 1
    lie = "7 units of 900.000 mm, found 6|3 units of 600.000 mm, found 4"
    finds_only(broken, f"order: .*claimed ({lie})")
    lengths[2]["units"] += 1
    finds(broken, "order: .*claimed 21 units in all lengths, found 20 units in the order")


def test_cartons_hold_enough_of_each_length() -> None:
    broken = mixed()
    line = broken["layouts"][0]["order"][0]
    assert line["cartons"] == 2
    # Twelve a carton still, but ten of 1200 take five cartons of two.
    for one, count in zip(broken["products"][0]["lengths"], (2, 6, 4), strict=True):
        one["per_carton"] = count
    finds_only(broken, "order: product Driftwood plank: claimed 2 cartons, found 5 for 20 units")
    broken["products"][0]["lengths"][0]["per_carton"] = 3
    with pytest.raises(ValueError, match=r"products\[0\].lengths: a list of 3 is not a list whose"):
        said(broken)


def test_waste_is_of_the_units_as_long_as_they_are() -> None:
    document = mixed()
    bought = (10 * MIX[0] + 6 * MIX[1] + 4 * MIX[2]) * 150
    waste = (bought / (4300 * 600) - 1) * 100
    assert document["layouts"][0]["order"][0]["waste_percent"] == pytest.approx(waste)
    document["layouts"][0]["order"][0]["waste_percent"] = (20 * 1200 * 150 / 2.58e6 - 1) * 100
    finds_only(document, r"order: product Driftwood plank: claimed 39.535 % waste, found \d+.\d+ %")
