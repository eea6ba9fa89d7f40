from __future__ import annotations

from itertools import permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from solver.audit.measured.fitting import Stock, fits
from solver.audit.measured.parts import Part
from tests.audit.conftest import Fresh
from tests.audit.rooms import plank_room, tile_room
from tests.audit.said import finds, finds_only, pieces, said
from tests.audit.scene import Document, document

FREE = (False, False, False, False)
LOW_U, HIGH_U = (True, False, False, False), (False, True, False, False)
LOW_V = (False, False, True, False)


def part(width: float, height: float, held: tuple[bool, bool, bool, bool] = FREE) -> Part:
    return Part(box(0, 0, width, height), held)


PLANK = Stock(1200, 150, 3, directional=True)
TURNED = Stock(1200, 150, 3, directional=False)
TILE = Stock(300, 300, 0, directional=False)


@pytest.mark.parametrize(
    ("stock", "parts", "fit"),
    [
        (PLANK, [part(700, 150, LOW_U), part(497, 150, HIGH_U)], True),
        (PLANK, [part(700, 150, LOW_U), part(498, 150, HIGH_U)], False),
        # Two start pieces need the same factory end, unless one may be turned round.
        (PLANK, [part(400, 150, HIGH_U), part(400, 150, HIGH_U)], False),
        (TURNED, [part(400, 150, HIGH_U), part(400, 150, HIGH_U)], True),
        # A piece cut at both ends goes anywhere between.
        (PLANK, [part(300, 150, LOW_U), part(300, 150, HIGH_U), part(594, 150)], True),
        (PLANK, [part(300, 150, LOW_U), part(300, 150, HIGH_U), part(595, 150)], False),
        # Rips from opposite walls share a width.
        (TURNED, [part(1200, 70, LOW_V), part(1200, 77, LOW_V)], True),
        (PLANK, [part(1200, 70, LOW_V), part(1200, 77, LOW_V)], False),
        (TURNED, [part(1200, 70, LOW_V), part(1200, 78, LOW_V)], False),
        # Four corners of one tile, and a strip that only fits turned a quarter.
        (TILE, [part(150, 150, (True, False, True, False))] * 4, True),
        (TILE, [part(151, 150, (True, False, True, False))] * 4, False),
        (TILE, [part(300, 200, LOW_V), part(100, 300)], True),
        (Stock(300, 300, 0, directional=True), [part(300, 200, LOW_V), part(100, 300)], False),
        (PLANK, [part(1200, 150), part(10, 10)], False),
    ],
)
def test_what_fits_in_one_unit(stock: Stock, parts: list[Part], fit: bool) -> None:
    assert fits(parts, stock) == fit


def test_slanted_ends_nest() -> None:
    # Two pieces of 650 by their boxes, 600 by their areas, cut along one slanted line.
    left = Part(Polygon([(0, 0), (650, 0), (550, 150), (0, 150)]), LOW_U)
    right = Part(Polygon([(100, 0), (650, 0), (650, 150), (0, 150)]), HIGH_U)
    assert fits([left, right], Stock(1200, 150, 0, directional=True))
    assert not fits([left, right], Stock(1190, 150, 0, directional=True))
    assert not fits([left, right], Stock(1200, 150, 3, directional=True))
    assert fits([left, right], Stock(1204, 150, 3, directional=True))


def test_a_free_piece_is_slid_up_to_a_slanted_one() -> None:
    left = Part(Polygon([(0, 0), (500, 0), (400, 150), (0, 150)]), LOW_U)
    middle = Part(Polygon([(100, 0), (400, 0), (400, 150), (0, 150)]), FREE)
    right = part(400, 150, HIGH_U)
    assert fits([left, middle, right], Stock(1200, 150, 0, directional=True))
    assert not fits([left, middle, right], Stock(1198, 150, 0, directional=True))


def brute(parts: list[Part], stock: Stock) -> bool:
    """Every whole-number place of every piece, turned every allowed way."""
    length, width, kerf = int(stock.length), int(stock.width), int(stock.kerf)

    def ways(one: Part) -> list[tuple[int, int, int, int]]:
        found = []
        w, h = (round(size) for size in one.size)
        low_u, high_u, low_v, high_v = one.held
        turns = [(w, h, low_u, high_u, low_v, high_v)]
        if not stock.directional:
            turns.append((w, h, high_u, low_u, high_v, low_v))
            if length == width:
                turns.append((h, w, high_v, low_v, low_u, high_u))
                turns.append((h, w, low_v, high_v, high_u, low_u))
        for dx, dy, lu, hu, lv, hv in turns:
            for u, v in product(range(length - dx + 1), range(width - dy + 1)):
                held = (not lu or u == 0, not hu or u + dx == length,
                        not lv or v == 0, not hv or v + dy == width)  # fmt: skip
                if all(held):
                    found.append((u, v, u + dx, v + dy))
        return found

    def apart(a: tuple[int, ...], b: tuple[int, ...]) -> bool:
        return max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3]) >= kerf

    def place(left: list[Part], placed: list[tuple[int, ...]]) -> bool:
        return not left or any(
            place(left[1:], [*placed, spot])
            for spot in ways(left[0])
            if all(apart(spot, other) for other in placed)
        )

    return place(parts, [])


HELD = st.sampled_from([FREE, LOW_U, HIGH_U, LOW_V, (False, False, False, True),
                        (True, False, True, False), (False, True, True, False)])  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(
    sizes=st.lists(st.tuples(st.integers(1, 5), st.integers(1, 4), HELD), min_size=2, max_size=3),
    square=st.booleans(),
    directional=st.booleans(),
    kerf=st.integers(0, 1),
)
def test_fitting_against_every_place(
    sizes: list[tuple[int, int, tuple[bool, bool, bool, bool]]],
    square: bool,
    directional: bool,
    kerf: int,
) -> None:
    stock = Stock(6, 6 if square else 4, kerf, directional)
    parts = [part(width, height, held) for width, height, held in sizes]
    assert fits(parts, stock) == brute(parts, stock)
    assert any(fits(list(order), stock) for order in permutations(parts)) == fits(parts, stock)


def merge(broken: Document, one: Document, two: Document) -> None:
    """Say that two pieces come from one unit, and count the units again."""
    two["unit"] = one["unit"]
    count = len({piece["unit"] for piece in pieces(broken)})
    layout = broken["layouts"][0]
    for place in (layout["zones"][0], layout["order"][0], layout["figures"]):
        place["units"] = count


def test_two_whole_units_are_not_one(fresh: Fresh) -> None:
    broken = fresh("tile")
    one, two = [p for p in pieces(broken) if not p["cut"]][:2]
    merge(broken, one, two)
    claimed = rf"claimed piece {one['id']} .* and piece {two['id']} .* from one unit"
    found = "found 300.000 x 300.000 mm and 300.000 x 300.000 mm that do not fit"
    finds(broken, rf"units: unit {one['unit']}: {claimed}, {found}")


def test_an_offcut_less_a_kerf_is_too_short() -> None:
    # 1200 less 803 leaves 397 without the kerf and 394 with it: a start piece of 396 wants more.
    room = box(0, 0, 803 + 1200 * 3 + 396, 300)
    broken = document(plank_room(room=room, offset=lambda _: 396.0, low=0, rules=(), share=False))
    ends = [p for p in pieces(broken) if p["cut"]]
    start, end = ends[0], ends[1]
    assert {start["sizes"]["along"], end["sizes"]["along"]} == {396.0, 803.0}
    merge(broken, start, end)
    finds(broken, r"396.000 x 150.000 mm and 803.000 x 150.000 mm that do not fit in it 3.000 mm")


def test_two_ends_of_the_same_hand_need_the_same_factory_end() -> None:
    broken = document(plank_room(rules=(), share=False))
    starts = [p for p in pieces(broken) if p["cut"] and 1 < p["row"] < 13 and p["cell"] == 0]
    one, two = sorted(starts, key=lambda p: p["sizes"]["along"])[:2]
    assert one["sizes"]["along"] + two["sizes"]["along"] + 3 < 1200
    merge(broken, one, two)
    finds(broken, rf"units: unit {one['unit']}: .*that do not fit")
    broken["products"][0]["directional"] = False
    assert not any("that do not fit" in sentence for sentence in said(broken))


@pytest.mark.parametrize("where", ["zones", "order"])
def test_a_wrong_count_of_units(fresh: Fresh, where: str) -> None:
    broken = fresh("tile")
    broken["layouts"][0][where][0]["units"] += 1
    finds(
        broken, r"units: (zone Reading room|product Driftwood plank): claimed 121 units, found 120"
    )


def test_the_printed_room_takes_108_units_where_nothing_shares() -> None:
    # 2630 x 3540 mm in 300 mm tile is printed as 108 (flooringtech.com.au unit 4 section 3
    # lesson 4); reached with cuts of 265 across and 270 along, too large to share a tile.
    balanced = tile_room(low=265.0 - 300.0, rules=())
    right = document(balanced)
    assert right["layouts"][0]["order"][0]["units"] == 108
    assert said(right) == []
    cut = [p for p in pieces(right) if p["cut"]]
    merge(right, cut[0], cut[-1])
    finds(right, "that do not fit in it")


def test_a_bound_above_the_count_and_a_false_proof(fresh: Fresh) -> None:
    broken = fresh("tile")
    layout = broken["layouts"][0]
    for place in (layout["zones"][0], layout["order"][0], layout["figures"]):
        place["units_at_least"] = 121
    finds(
        broken, r"units: zone Reading room: claimed 120 units, at least 121 needed, found a least"
    )
    for place in (layout["zones"][0], layout["order"][0], layout["figures"]):
        place["units_at_least"] = 0
    finds(broken, "claimed 120 units, at least 0 needed")
    for place in (layout["zones"][0], layout["order"][0], layout["figures"]):
        place["units_at_least"] = 119
    finds(broken, r"units: zone Reading room: claimed proved least, found 120 units, at least 119")
    layout["zones"][0]["proved"] = layout["order"][0]["proved"] = False
    assert said(broken) == []
    layout["zones"][0]["units_at_least"] = 110
    finds_only(
        broken, r"product Driftwood plank: claimed at least 119 units, found at least 110 in"
    )
    layout["zones"][0]["units_at_least"] = 119
    layout["figures"]["units_at_least"] = 100
    finds_only(broken, r"units: figures: claimed at least 100 units, found 119 in the order")
