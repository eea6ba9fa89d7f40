"""Whether parts can really be cut from one unit: every place is tried, on a coarse grid.

Written from the rules in ``solver.stock`` alone, with none of its code.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from hypothesis import strategies as st

from solver.stock.parts import NO_PIECE, Part, Sits, Stock

Box = tuple[int, int, int, int, int]
"""Left, low, right, high in a unit, and the place in the laying order."""

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
    """Whether straight cuts through what remains can free all parts from one unit.

    Parts are laid in the order of zone, row and piece; of those that tie, as listed.
    """
    order = sorted(members, key=lambda m: (m.zone, m.row, m.cut))
    if stock.within is not None:
        rows = [member.row for member in order]
        if max(rows) - min(rows) > stock.within or order[0].zone != order[-1].zone:
            return False
    return _can_be_cut(tuple(order), stock)


@cache
def _can_be_cut(order: tuple[Part, ...], stock: Stock) -> bool:
    return any(by_straight_cuts(boxes, stock) for boxes in _layouts(order, (), stock))


def least(found: Sequence[Part], stock: Stock) -> int:
    """The fewest units, by trying every way to share the parts out."""

    def share(left: tuple[Part, ...], units: tuple[tuple[Part, ...], ...], best: int) -> int:
        if len(units) >= best:
            return best
        if not left:
            return len(units)
        part, rest = left[0], left[1:]
        for i, unit in enumerate(units):
            if can_be_cut((*unit, part), stock):
                best = share(rest, (*units[:i], (*unit, part), *units[i + 1 :]), best)
        return share(rest, (*units, (part,)), best)

    order = sorted(found, key=lambda p: -p.length * p.width)
    return share(tuple(order), (), len(found)) if found else 0


def _layouts(
    members: Sequence[Part], taken: tuple[Box, ...], stock: Stock
) -> Iterator[tuple[Box, ...]]:
    if not members:
        yield taken
        return
    for box in _boxes(members[0], len(taken), stock):
        if all(_clear(box, other, stock.kerf) for other in taken):
            yield from _layouts(members[1:], (*taken, box), stock)


def _boxes(member: Part, place: int, stock: Stock) -> set[Box]:
    """Every place of a part in a unit, in every direction its unit may be turned to."""
    found = set()
    u, v = (member.length, *SIDES[member.along]), (member.width, *SIDES[member.across])
    if stock.shop_cuts:
        u, v = (u[0], False, False), (v[0], False, False)
    for turn in range(1 if stock.directional else 4):
        if turn % 2 == 0 or stock.length == stock.width:
            found |= {
                (left, low, left + u[0], low + v[0], place)
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


def by_straight_cuts(boxes: Sequence[Box], stock: Stock) -> bool:
    """Whether cuts right through, one after another, part all boxes; every cut is tried.

    Of two boxes a cut parts, the one laid first must leave scrap of the unit, or more.
    """
    if len(boxes) < 2:
        return True
    for axis, whole in ((0, stock.length), (1, stock.width)):
        for at in range(min(b[axis] for b in boxes), max(b[axis + 2] for b in boxes) + 1):
            one = [b for b in boxes if b[axis + 2] <= at]
            two = [b for b in boxes if b[axis] >= at + stock.kerf]
            if not one or not two or len(one) + len(two) < len(boxes):
                continue
            first = [min(a, b, key=lambda box: box[4]) for a in one for b in two]
            left = min(whole - (b[axis + 2] - b[axis]) - stock.kerf for b in first)
            enough = not stock.scrap or left >= stock.scrap
            if enough and by_straight_cuts(one, stock) and by_straight_cuts(two, stock):
                return True
    return False
