"""Placing parts one by one: where they may lie, and whether straight cuts can free them."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock.parts import Part, Sits, Stock
from solver.stock.place import Box, guillotine, placed
from tests.stock.sheet import by_straight_cuts, can_be_cut, part, parts

STOCK = Stock(12, 8, 1, directional=True)
Corners = tuple[int, int, int, int]
"""Left, low, right, high."""

PINWHEEL = [(0, 0, 7, 3), (8, 0, 11, 7), (4, 8, 11, 11), (0, 4, 3, 11)]
"""Four boxes round a hole, each a kerf of 1 from the next: no cut goes right through."""


def freed(corners: list[Corners], kerf: int) -> bool:
    return guillotine([Box((c[0], c[1]), (c[2], c[3])) for c in corners], kerf)


def freed_by_trying(corners: list[Corners], kerf: int) -> bool:
    return by_straight_cuts([(*c, 0) for c in corners], Stock(20, 20, kerf, directional=True))


@given(found=st.lists(parts(STOCK, rows=3), max_size=7), within=st.sampled_from([None, 1]))
@settings(max_examples=150, deadline=None, derandomize=True)
def test_every_part_is_placed_once_where_it_can_be_cut(
    found: list[Part], within: int | None
) -> None:
    stock = Stock(12, 8, 1, True, within)
    units = placed(found, stock)
    assert sorted(i for members in units for i in members) == list(range(len(found)))
    assert all(can_be_cut([found[i] for i in members], stock) for members in units)


def test_a_part_goes_where_it_leaves_least() -> None:
    # A full-width piece of 9 leaves 2, one of 5 leaves 6: a free piece of 2 fits the first.
    long, short = (part(Sits.LOW, size, Sits.FULL, 8) for size in (9, 5))
    units = placed([long, short, part(Sits.FREE, 2, Sits.FREE, 8)], STOCK)
    assert sorted(map(sorted, units)) == [[0, 2], [1]]


def test_small_parts_lie_side_by_side_in_an_offcut() -> None:
    small = [part(Sits.FREE, 5, Sits.FREE, 2)] * 3
    assert len(placed([part(Sits.LOW, 6, Sits.FULL, 8), *small], STOCK)) == 1


def test_a_part_may_be_turned_to_fit() -> None:
    alike = [part(Sits.LOW, 6, Sits.FULL, 8), part(Sits.LOW, 5, Sits.FULL, 8)]
    assert len(placed(alike, STOCK)) == 2
    assert len(placed(alike, Stock(12, 8, 1, directional=False))) == 1


def test_a_pinwheel_cannot_be_cut_apart() -> None:
    assert not freed(PINWHEEL, 1)
    assert not freed_by_trying(PINWHEEL, 1)
    assert freed(PINWHEEL[:3], 1)


@given(data=st.data(), kerf=st.integers(0, 1))
@settings(max_examples=150, deadline=None, derandomize=True)
def test_boxes_are_freed_as_trying_every_cut_frees_them(data: st.DataObject, kerf: int) -> None:
    boxes: list[Corners] = []
    for _ in range(data.draw(st.integers(2, 9))):
        left, low = data.draw(st.integers(0, 10)), data.draw(st.integers(0, 10))
        box = (left, low, left + data.draw(st.integers(1, 6)), low + data.draw(st.integers(1, 6)))
        apart = all(
            any(a[i + 2] + kerf <= b[i] for a, b in ((box, o), (o, box)) for i in (0, 1))
            for o in boxes
        )
        boxes += [box] if apart else []
    assert freed(boxes, kerf) == freed_by_trying(boxes, kerf)
