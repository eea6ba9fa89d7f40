"""Parts that already share a unit, taken as one part while more are added."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.stock.cutting import late
from solver.stock.parts import Part, Sits, Stock

SIDE_BY_SIDE, END_TO_END = 1, 0
"""The axis along which two groups are joined."""


@dataclass(frozen=True, slots=True)
class Group:
    """Parts already sharing a unit, taken as one.

    ``rows`` are the lowest and highest row they are laid in, ``last`` the latest of their
    places in the laying order, ``late`` as in ``cutting.Block``.
    """

    members: tuple[int, ...]
    part: Part
    rows: tuple[int, int]
    last: int
    late: tuple[int, int]

    def sits(self, axis: int) -> Sits:
        """How it sits along (0) or across (1) its unit."""
        return self.part.across if axis else self.part.along

    def size(self, axis: int) -> int:
        """Its size along (0) or across (1) its unit."""
        return self.part.width if axis else self.part.length


def single(number: int, part: Part, stock: Stock) -> Group:
    """A group of one part, as in ``cutting.Cutter``."""
    if stock.square and part.along is Sits.FULL:
        # A square unit's rip taken as an end cut: a quarter turn makes them the same.
        part = replace(
            part,
            along=part.across,
            length=part.width,
            across=Sits.FULL,
            width=part.length,
            lean=None if part.lean is None else 0,
        )
    behind = late(part.cut, (part.length, part.width), stock)
    return Group((number,), part, (part.row, part.row), part.cut, behind)


def joined(one: Group, two: Group, axis: int) -> Group:
    """Two groups in one unit, in a row along an axis, which they fill between them."""
    other = 1 - axis
    sits = one.sits(other)
    # Two parts that sit at the same end share only when one is turned half a turn, and
    # that turns its place in the other direction too.
    turned = one.sits(axis) is two.sits(axis)
    same = sits is two.sits(other) and (not turned or sits in (Sits.FULL, Sits.FREE))
    kept = sits if same else Sits.FULL
    size = max(one.size(other), two.size(other))
    part = (
        replace(one.part, along=Sits.FULL, across=kept, width=size, lean=None)
        if axis == END_TO_END
        else replace(one.part, across=Sits.FULL, along=kept, length=size, lean=None)
    )
    return Group(
        one.members + two.members,
        part,
        (min(one.rows[0], two.rows[0]), max(one.rows[1], two.rows[1])),
        max(one.last, two.last),
        (min(one.late[0], two.late[0]), min(one.late[1], two.late[1])),
    )
