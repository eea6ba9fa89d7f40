"""What can be cut from one unit: every sequence of straight cuts right through is tried.

A block is a rectangle some parts can be cut from. One part is its own block; a cut through
a block leaves two smaller ones, a kerf apart. Turned round: two blocks side by side or end
to end make a larger one, and some parts come from one unit when a block of them fits in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from solver.stock.parts import Part, Sits, Stock

Members = tuple[int, ...]
"""Kinds of parts, ascending, one that is cut twice listed twice."""

SIDES = ((1, 2), (4, 8))
"""Bits for the unit's low and high side, along and across."""

HELD = {Sits.FREE: (0, 0), Sits.LOW: (1, 0), Sits.HIGH: (0, 1), Sits.FULL: (1, 1)}

NEVER = 1 << 62
"""The place in the laying order of a part that is not there."""


class Spent(Exception):  # noqa: N818 (not an error: the search stops and says so)
    """The work allowed is used up; what was asked is not known."""


class Block(NamedTuple):
    """A rectangle that holds parts: its size, and the unit's sides it has to lie at.

    ``late`` tells for each direction which place in the laying order has the first of its
    parts that leaves less than the scrap size: what is cut beside it must be laid before.
    """

    size: tuple[int, int]
    sides: int
    late: tuple[int, int]


class Cutter:
    """Finds out, for parts of one stock, which can be cut from one unit together.

    ``kinds`` are parts that differ, as ``pack`` makes them plain: ``row`` tells how near,
    ``cut`` the laying order. ``work`` is how many pairs of blocks may be tried; after that
    ``Spent`` is raised.
    """

    def __init__(self, kinds: Sequence[Part], stock: Stock, work: int) -> None:
        self.kinds, self.stock, self.work = kinds, stock, work
        self._known: dict[Members, tuple[Block, ...]] = {
            (kind,): tuple(_alone(part, stock)) for kind, part in enumerate(kinds)
        }

    def fits(self, members: Members) -> bool:
        """Whether the members can be cut from one unit."""
        return bool(self.blocks(members))

    def blocks(self, members: Members) -> tuple[Block, ...]:
        """The smallest blocks of the members; none when they do not fit in one unit."""
        found = self._known.get(members)
        if found is None:
            found = self._known[members] = tuple(self._made(members))
        return found

    def _made(self, members: Members) -> list[Block]:
        if not self._may_be_near(members) or self._area(members) > _whole_area(self.stock):
            return []
        fewer = {members[:i] + members[i + 1 :] for i in range(len(members))}
        if not all(self.blocks(few) for few in sorted(fewer)):
            return []
        made = [self._nested()] if len(members) == 2 and self._nests(members) else []
        for one, two in _splits(members):
            ones, twos = self.blocks(one), self.blocks(two)
            self.work -= len(ones) * len(twos)
            if self.work < 0:
                raise Spent
            last = (self._last(one), self._last(two))
            for a, b, axis in product(ones, twos, (0, 1)):
                if a.late[axis] > last[1] and b.late[axis] > last[0]:
                    made += _beside(a, b, axis, self.stock)
        return _smallest(made)

    def _may_be_near(self, members: Members) -> bool:
        if self.stock.within is None:
            return True
        rows = [self.kinds[kind].row for kind in members]
        return max(rows) - min(rows) <= self.stock.within

    def _area(self, members: Members) -> int:
        kerf = self.stock.kerf
        parts = (self.kinds[kind] for kind in members)
        return sum((p.length - abs(p.lean or 0) + kerf) * (p.width + kerf) for p in parts)

    def _last(self, members: Members) -> int:
        return max(self.kinds[kind].cut for kind in members)

    def _nests(self, members: Members) -> bool:
        one, two = (self.kinds[kind] for kind in members)
        return nests(one, two, self.stock)

    def _nested(self) -> Block:
        """Two nested parts: they take their unit between them."""
        return Block((self.stock.length, self.stock.width), 15, (NEVER, NEVER))


def nests(one: Part, two: Part, stock: Stock) -> bool:
    """Whether two parallel slanted ends fit one unit with a single slanted cut between."""
    lean = one.lean
    if not lean or lean != two.lean:
        return False
    if stock.directional and one.along is two.along:
        return False
    kerf = math.ceil(stock.kerf * math.hypot(1, lean / stock.width))
    first = min(one, two, key=lambda part: part.cut)
    kept = not stock.scrap or first.length + stock.kerf + stock.scrap <= stock.length
    return kept and one.length + two.length - abs(lean) + kerf <= stock.length


def _whole_area(stock: Stock) -> int:
    return (stock.length + stock.kerf) * (stock.width + stock.kerf)


def _alone(part: Part, stock: Stock) -> Iterator[Block]:
    """A part as a block, in each direction its unit may be turned to."""
    found = set()
    for along, length, across, width in turns(part, stock):
        (left, right), (low, high) = HELD[along], HELD[across]
        size = (length, width)
        found.add(Block(size, left + 2 * right + 4 * low + 8 * high, late(part.cut, size, stock)))
    yield from sorted(found)


def late(place: int, size: tuple[int, int], stock: Stock) -> tuple[int, int]:
    """Its place in the laying order where a part leaves less than scrap, along and across."""
    along, across = (
        place if stock.scrap and size[axis] + stock.kerf + stock.scrap > unit else NEVER
        for axis, unit in enumerate((stock.length, stock.width))
    )
    return along, across


def turns(part: Part, stock: Stock) -> Iterator[tuple[Sits, int, Sits, int]]:
    """How a part may lie in its unit: along, length, across, width."""
    along, length, across, width = part.along, part.length, part.across, part.width
    yield along, length, across, width
    if stock.directional:
        return
    yield along.flipped, length, across.flipped, width
    if stock.square:
        yield across.flipped, width, along, length
        yield across, width, along.flipped, length


def _beside(one: Block, two: Block, axis: int, stock: Stock) -> Iterator[Block]:
    """Two blocks in a row along an axis, whichever comes first, where that can be."""
    unit = (stock.length, stock.width)
    low, high = SIDES[axis]
    size = one.size[axis] + stock.kerf + two.size[axis]
    if size > unit[axis]:
        return
    if not (one.sides & high or two.sides & low) or not (two.sides & high or one.sides & low):
        sides = one.sides | two.sides
        other = max(one.size[1 - axis], two.size[1 - axis])
        # What reaches from side to side leaves its slack inside.
        size = unit[axis] if sides & low and sides & high else size
        if all(sides & side for side in SIDES[1 - axis]):
            other = unit[1 - axis]
        late = (min(one.late[0], two.late[0]), min(one.late[1], two.late[1]))
        yield Block((size, other) if axis == 0 else (other, size), sides, late)


def _smallest(blocks: Sequence[Block]) -> list[Block]:
    """The blocks that no other betters in every way."""
    kept: list[Block] = []
    for block in sorted(set(blocks)):
        if not any(_better(other, block) for other in kept):
            kept = [other for other in kept if not _better(block, other)]
            kept.append(block)
    return kept


def _better(one: Block, two: Block) -> bool:
    return (
        one.size[0] <= two.size[0]
        and one.size[1] <= two.size[1]
        and one.sides & ~two.sides == 0
        and one.late[0] >= two.late[0]
        and one.late[1] >= two.late[1]
    )


@lru_cache(maxsize=4096)
def _splits(members: Members) -> tuple[tuple[Members, Members], ...]:
    """Every way to share the members out in two, in no order."""
    kinds = sorted(set(members))
    counts = [members.count(kind) for kind in kinds]
    found = []
    for taken in product(*(range(count + 1) for count in counts)):
        one = tuple(k for k, n in zip(kinds, taken, strict=True) for _ in range(n))
        left = zip(kinds, counts, taken, strict=True)
        two = tuple(k for k, count, n in left for _ in range(count - n))
        if one and one <= two:
            found.append((one, two))
    return tuple(found)
