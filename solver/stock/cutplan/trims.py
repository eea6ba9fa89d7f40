"""Parts of a unit, the straight cuts that halve them, and the cuts that leave one piece."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, NamedTuple

from solver.stock.cutplan.wanted import SAME, Taper, Want
from solver.stock.parts import Sits

Members = tuple[int, ...]
"""Numbers of pieces, the one laid first first."""

Side = Literal["factory", "cut", "slanted"]
"""What one side of a part of a unit is."""
FACTORY: Final = "factory"
CUT: Final = "cut"
SLANTED: Final = "slanted"


class Region(NamedTuple):
    """A part of a unit: its size, and its sides: low and high along, low and high across.

    Beyond a slanted side lies up to ``more`` of it, along and across, that is not counted;
    when that is negative, all is counted and it is so much less at its shortest.
    """

    size: tuple[int, int]
    sides: tuple[Side, Side, Side, Side]
    more: tuple[int, int] = (0, 0)


@dataclass(frozen=True, slots=True)
class Trim:
    """One cut on a piece's part: measured from its ``low`` side or the high one, in ticks.

    ``at`` has the measure at the low and at the high end of the other axis.
    """

    axis: int
    low: bool
    at: tuple[int, int]

    @property
    def square(self) -> bool:
        """True when it is not slanted."""
        return self.at[0] == self.at[1]


@dataclass(frozen=True, slots=True)
class Leaf:
    """The part one piece is cut from, and the cuts still to be made on it."""

    member: int
    want: Want
    region: Region
    trims: tuple[Trim, ...]


@dataclass(frozen=True, slots=True)
class Split:
    """A cut that parts a region, and what the low and the high half hold.

    ``trim`` is measured from the low side of the region, or from its high side.
    """

    region: Region
    trim: Trim
    low: Tree
    high: Tree


Tree = Leaf | Split


def members_of(tree: Tree) -> Members:
    """The pieces cut from a part, the one laid first first."""
    if isinstance(tree, Leaf):
        return (tree.member,)
    return tuple(sorted(members_of(tree.low) + members_of(tree.high)))


def shaped_members(tree: Tree) -> frozenset[int]:
    """The pieces that are cut to shape from the rectangle round them."""
    if isinstance(tree, Leaf):
        return frozenset((tree.member,) if tree.want.shaped else ())
    return shaped_members(tree.low) | shaped_members(tree.high)


def trims_of(want: Want, region: Region) -> tuple[Trim, ...] | None:
    """The cuts that leave one piece of a region, cross cuts first; None if it does not fit."""
    trims: list[Trim] = []
    for axis in (0, 1):
        sides = region.sides[2 * axis : 2 * axis + 2]
        spare = region.size[axis] - want.size[axis]
        taper = want.taper if want.taper and want.taper.axis == axis else None
        place = _place(want.sits[axis], sides, taper)
        if place is None or spare < 0:
            return None
        if taper:
            trims.append(Trim(axis, place, taper.at))
        elif spare > SAME or sides[1 if place else 0] is SLANTED:
            trims.append(Trim(axis, place, (want.size[axis],) * 2))
    # A slanted cut is made last, on a part that is as long as it should be.
    return tuple(sorted(trims, key=lambda trim: not trim.square))


def _place(sits: Sits, sides: tuple[Side, ...], taper: Taper | None) -> bool | None:
    """Whether a piece lies at the low side of its region; None when it can do neither."""
    low, high = (side is FACTORY for side in sides)
    if sits is Sits.FREE:
        low, high = (side is not SLANTED for side in sides)
    elif sits is Sits.FULL and not taper:
        return True if low and high else None
    if (taper and not taper.high) or sits is Sits.HIGH:
        low = False
    if (taper and taper.high) or sits is Sits.LOW:
        high = False
    return True if low else False if high else None


def half(
    region: Region, axis: int, low: bool, size: int, side: Side = CUT, more: int = 0
) -> Region:
    """The low or the high half of a region, of a size along the axis."""
    sides, sizes, beyond = list(region.sides), list(region.size), list(region.more)
    sides[2 * axis + (1 if low else 0)] = side
    sizes[axis] = size
    beyond[axis] = more
    a, b, c, d = sides
    return Region((sizes[0], sizes[1]), (a, b, c, d), (beyond[0], beyond[1]))
