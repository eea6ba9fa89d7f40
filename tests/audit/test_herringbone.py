from __future__ import annotations

import pytest

from tests.audit.cells import Zigzag
from tests.audit.compose import add_up, as_zone, join
from tests.audit.floors import tied
from tests.audit.said import finds, finds_only, moved, pieces, said
from tests.audit.scene import Document

ROOMS = [
    Zigzag(),
    Zigzag(double=True),
    Zigzag(slant=90),
    Zigzag(slant=90, double=True),
    Zigzag(length=470.0, width=110.0),
]


@pytest.mark.parametrize("room", ROOMS)
def test_a_herringbone_laid_right_is_clean(room: Zigzag) -> None:
    document = room.document()
    assert sum(piece["quarter"] for piece in pieces(document)) > 15
    assert said(document) == []


def pair() -> Document:
    """A herringbone and its reflection about x = 4200."""
    parts = [as_zone(Zigzag().document(), "north cabin", "Spar block", lambda _: "wall")]
    axis = {"point": [4200.0, 7.0], "direction": [0.0, 1.0], "name": "between cabins"}
    other = Zigzag(mirror=4200.0).document()
    parts.append(as_zone(other, "south cabin", "Spar block", lambda _: "wall",
                         mirrors={"zone": "north cabin", "axis": axis}))  # fmt: skip
    parts[1]["layouts"][0]["rules"].append(tied("mirrored", "south cabin", "north cabin"))
    whole = join(parts)
    whole["layouts"][0]["figures"]["balance"] = None
    return whole


def test_a_herringbone_and_its_reflection_are_clean() -> None:
    assert said(pair()) == []


def test_a_pattern_of_the_other_hand_is_none_of_an_own_zone() -> None:
    broken = Zigzag(mirror=4200.0).document()
    finds(broken, r"herringbone: piece P\d+ .*unit of the pattern, found \d+.\d+ mm off the near")


def inner(document: Document, quarter: bool) -> Document:
    """A whole unit well inside, flat or upright."""
    whole = [p for p in pieces(document) if not p["cut"] and p["quarter"] == quarter]
    return whole[len(whole) // 2]


@pytest.mark.parametrize("quarter", [False, True])
def test_a_unit_off_the_pattern(quarter: bool) -> None:
    broken = Zigzag(slant=90).document()
    unit = inner(broken, quarter)
    moved(unit, 6, 0)
    unit["corner"][0] += 6
    lies = "an upright" if quarter else "a flat"
    finds(broken, rf"herringbone: piece {unit['id']} .*claimed of {lies} unit of the pattern, "
                  rf"found 6.000 mm off the nearest")  # fmt: skip
    finds(broken, rf"pieces tile the zone: piece .*{unit['id']} .*found overlap")


def test_a_unit_said_to_lie_the_other_way() -> None:
    broken = Zigzag().document()
    cut = next(p for p in pieces(broken) if p["cut"] and p["quarter"])
    cut["quarter"] = False
    finds(broken, rf"herringbone: piece {cut['id']} .*claimed of a flat unit of the pattern, found")


def test_a_piece_out_of_its_unit() -> None:
    broken = Zigzag().document()
    cut = next(p for p in pieces(broken) if p["cut"] and not p["quarter"])
    cut["corner"] = [cut["corner"][0] + 100, cut["corner"][1] + 100]
    finds(broken, rf"unit corners: piece {cut['id']} .*found \d+.\d+ mm out of it")


def test_a_cut_inside_the_floor() -> None:
    broken = Zigzag(slant=90).document()
    unit = inner(broken, False)
    xs = [x for x, _ in unit["outer"]]
    left, right = min(xs), max(xs)
    unit["outer"] = [[x - 50 if x == right else x, y] for x, y in unit["outer"]]
    other = {**unit, "id": "extra", "unit": "extra", "outer": [
        [right if x == right - 50 else right - 50, y] for x, y in unit["outer"]]}  # fmt: skip
    assert right - left == 500
    pieces(broken).append(other)
    finds(broken, rf"cuts only at the edge: piece {unit['id']} .*found a cut side inside the floor")


def test_a_wrong_column_and_a_row_in_a_herringbone() -> None:
    broken = Zigzag().document()
    piece = pieces(broken)[30]
    piece["row"] += 1
    finds_only(
        broken, rf"herringbone: piece {piece['id']} .*claimed column \d+, found column \d+ by"
    )
    piece["row"] -= 1
    broken["layouts"][0]["zones"][0]["rows"] = [{"row": 1, "low": 0.0, "runs": []}]
    finds_only(broken, "herringbone: zone Reading room: claimed 1 rows, found no rows in a herring")


def test_sizes_are_along_and_across_the_unit_itself() -> None:
    broken = Zigzag(slant=90).document()
    piece = next(p for p in pieces(broken) if p["quarter"] and p["sizes"]["along"] is not None)
    sizes = piece["sizes"]
    assert sizes["along"] > 100
    sizes["along"], sizes["across"] = None, sizes["along"]
    finds_only(broken, rf"cut sizes: piece {piece['id']} .*(along: claimed no cut|across: claimed)")


def test_chalk_lines_of_a_herringbone() -> None:
    lies = (
        ((10, -10), "on a line of tips, found 14.142 mm off it"),
        ((25, 25), "crosses at the corner of a flat unit, found 25.000 mm"),
    )
    for by, pattern in lies:
        broken = Zigzag().document()
        zone = broken["layouts"][0]["zones"][0]
        zone["start_line"] = Zigzag().points(by, (by[0] + 500, by[1] + 500))
        zone["cross_line"] = Zigzag().points(by, (by[0] - 500, by[1] + 500))
        finds(broken, f"start line: .*claimed {pattern}")
        zone["cross_line"][1][0] += 9
        finds_only(broken, "start line: cross line: claimed square to the start line, found out")
        zone["start_line"] = Zigzag().points((0, 0), (500, 200))
        zone["cross_line"] = Zigzag().points((0, 0), (-200, 500))
        finds_only(broken, "claimed along the line of points, found neither along the points nor")


# The flat end of a zigzag's unit is 100 wide and its tips lie at the end's two corners: the line
# of points halfway, 50 off the corner across u - v. The next one is 500 on.
CENTRED = [
    (Zigzag(), (0.0, 50.0), (1.0, 1.0), "joint", 0.0),
    (Zigzag(), (50.0 + 500.0, 100.0), (-2.0, -2.0), "unit", 250.0 * 0.5**0.5),
    (Zigzag(), (250.0, 50.0), (1.0, 1.0), "unit", 0.0),
    (Zigzag(), (250.0, 50.0), (1.0, 1.0), "either", 0.0),
    (Zigzag(), (12.0, 50.0), (1.0, 1.0), "joint", 12.0 * 0.5**0.5),
    (Zigzag(double=True), (0.0, 100.0), (1.0, 1.0), "joint", 0.0),
    # Square to the points: the middle of a flat unit is at (250, 50) from its corner.
    (Zigzag(), (250.0, 50.0), (1.0, -1.0), "unit", 0.0),
    (Zigzag(), (260.0, 50.0), (1.0, -1.0), "either", 10.0 * 0.5**0.5),
    # Along the units, five widths long: lines of joints one width apart.
    (Zigzag(slant=90), (0.0, 300.0), (1.0, 0.0), "joint", 0.0),
    (Zigzag(slant=90), (0.0, 345.0), (1.0, 0.0), "unit", 5.0),
    (Zigzag(slant=90), (108.0, 0.0), (0.0, 1.0), "either", 8.0),
]


@pytest.mark.parametrize(("room", "at", "way", "on", "off"), CENTRED)
def test_a_herringbone_centred_on_an_axis(
    room: Zigzag, at: tuple[float, float], way: tuple[float, float], on: str, off: float
) -> None:
    found = room.centred(at, way, on)
    if off:
        finds(
            found, rf"rules: centred on axis long axis: .*claimed worst 0.000 mm, found {off:.3f}"
        )
        found["layouts"][0]["rules"][0].update(worst=off, kept=False)
        found["layouts"][0]["figures"]["broken_must"] = 1
    assert said(found) == []


def test_nothing_of_a_herringbone_lies_on_an_axis_at_another_slant() -> None:
    finds_only(Zigzag().centred((0.0, 50.0), (3.0, 1.0), "joint"), "found nothing measured")
    uneven = Zigzag(length=470.0, width=110.0)
    finds_only(uneven.centred((0.0, 0.0), (1.0, 0.0), "either"), "found nothing measured")


def ends(document: Document, quarter: bool, held_low: bool) -> list[Document]:
    """Pieces cut at one end only: the factory end at the unit's low or high end."""
    found = []
    for piece in pieces(document):
        sizes = piece["sizes"]
        if piece["quarter"] != quarter or sizes["across"] or not sizes["along"] or sizes["slant"]:
            continue
        axis = 1 if quarter else 0
        # The frame of these rooms is the job's, moved by (700, -20).
        low = min(point[axis] for point in piece["outer"]) - (700.0, -20.0)[axis]
        if (abs(low - piece["corner"][axis]) < 1e-6) == held_low and sizes["along"] < 249:
            found.append(piece)
    return found


@pytest.mark.parametrize("directional", [True, False])
def test_an_upright_unit_is_turned_back_before_it_is_shared(directional: bool) -> None:
    flat, upright = (
        ends(Zigzag(slant=90, directional=directional).document(), quarter, low)
        for quarter, low in ((False, True), (True, False))
    )
    right = Zigzag(slant=90, directional=directional).document()
    by_id = {piece["id"]: piece for piece in pieces(right)}
    by_id[upright[0]["id"]]["unit"] = by_id[flat[0]["id"]]["unit"]
    add_up(right)
    assert said(right) == []
    same_hand = ends(right, True, True)[0]
    same_hand["unit"] = ends(right, False, True)[1]["unit"]
    add_up(right)
    if directional:
        finds_only(right, r"units: unit U\d+: .*that do not fit in it")
    else:
        assert said(right) == []
