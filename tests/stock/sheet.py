"""Whether parts can really be cut from one unit: every place is tried, on a coarse grid."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hypothesis import strategies as st

from solver.stock.parts import NO_PIECE, Part, Sits, Stock

Box = tuple[int, int, int, int]
"""Left, low, right, high in a unit."""

SIDES = {
    Sits.FULL: (True, True),
    Sits.LOW: (True, False),
    Sits.HIGH: (False, True),
    Sits.FREE: (False, False),
}
"""Whether a part's low and high sides are joints, which only a unit's own edge can be."""


def part(
    along: Sits, length: int, across: Sits, width: int, row: int = 1, lean: int | None = 0
) -> Part:
    """A part of no piece."""
    return Part(NO_PIECE, row, along, length, across, width, lean)


@st.composite
def parts(draw: st.DrawFn, stock: Stock, rows: int = 1) -> Part:
    """A part cut along the row, across it, or both."""
    along, across = draw(st.sampled_from([(a, b) for a in Sits for b in Sits]))
    return part(
        along,
        stock.length if along is Sits.FULL else draw(st.integers(1, stock.length - 1)),
        across,
        stock.width if across is Sits.FULL else draw(st.integers(1, stock.width - 1)),
        draw(st.integers(1, rows)),
    )


def can_be_cut(members: Sequence[Part], stock: Stock) -> bool:
    """Whether straight cuts through what remains can free all parts from one unit."""
    if stock.within is not None:
        rows = [member.row for member in members]
        if max(rows) - min(rows) > stock.within:
            return False
    return any(by_straight_cuts(boxes, stock.kerf) for boxes in _layouts(members, (), stock))


def _layouts(members: Sequence[Part], taken: tuple[Box, ...], stock: Stock) -> Iterator[list[Box]]:
    if not members:
        yield list(taken)
        return
    for box in _boxes(members[0], stock):
        if all(_clear(box, other, stock.kerf) for other in taken):
            yield from _layouts(members[1:], (*taken, box), stock)


def _boxes(member: Part, stock: Stock) -> set[Box]:
    """Every place of a part in a unit, in every direction its unit may be turned to."""
    found = set()
    u, v = (member.length, *SIDES[member.along]), (member.width, *SIDES[member.across])
    for turn in range(1 if stock.directional else 4):
        if turn % 2 == 0 or stock.length == stock.width:
            found |= {
                (left, low, left + u[0], low + v[0])
                for left in _starts(*u, stock.length)
                for low in _starts(*v, stock.width)
            }
        # A quarter turn counter-clockwise: up becomes left, right becomes up.
        u, v = (v[0], v[2], v[1]), u
    return found


def _starts(size: int, low: bool, high: bool, room: int) -> list[int]:
    return [
        at
        for at in range(room - size + 1)
        if (at == 0 or not low) and (at + size == room or not high)
    ]


def _clear(one: Box, two: Box, kerf: int) -> bool:
    return any(
        a[axis + 2] + kerf <= b[axis] for a, b in ((one, two), (two, one)) for axis in (0, 1)
    )


def by_straight_cuts(boxes: Sequence[Box], kerf: int) -> bool:
    """Whether cuts right through, one after another, part all boxes; every cut is tried."""
    if len(boxes) < 2:
        return True
    for axis in (0, 1):
        for at in range(min(b[axis] for b in boxes), max(b[axis + 2] for b in boxes) + 1):
            one = [b for b in boxes if b[axis + 2] <= at]
            two = [b for b in boxes if b[axis] >= at + kerf]
            parted = one and two and len(one) + len(two) == len(boxes)
            if parted and by_straight_cuts(one, kerf) and by_straight_cuts(two, kerf):
                return True
    return False
