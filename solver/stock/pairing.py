"""Pack parts by pairing them: first side by side and then end to end, or the other way.

The pairs are the most there can be in one direction at a time (``match``). Parts cut on
both sides then fill what is left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import numpy.typing as npt

from solver.stock.cutting import NEVER, late, nests
from solver.stock.match import pair_allowed, pair_any, pair_ends
from solver.stock.parts import Part, Sits, Stock

SIDE_BY_SIDE, END_TO_END = 1, 0

FILLS = 150
"""Ways tried to fill one unit with parts that may lie anywhere."""


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


Chosen = Callable[[Group], bool]
"""Which groups are to be paired."""


def paired(parts: Sequence[Part], stock: Stock) -> list[list[int]]:
    """Units as lists of part numbers: the better of the two orders; parts as in ``Cutter``."""
    groups = [_single(number, part, stock) for number, part in enumerate(parts)]
    tried = [_filled(order(groups, stock), stock) for order in (_across_first, _along_first)]
    return min(tried, key=len)


def _single(number: int, part: Part, stock: Stock) -> Group:
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


def _across_first(groups: list[Group], stock: Stock) -> list[Group]:
    for sits in Sits:
        groups = _merged(groups, stock, SIDE_BY_SIDE, _sitting(END_TO_END, sits))
    return _merged(groups, stock, END_TO_END, lambda _: True)


def _along_first(groups: list[Group], stock: Stock) -> list[Group]:
    for sits in Sits:
        groups = _merged(groups, stock, END_TO_END, _sitting(SIDE_BY_SIDE, sits))
    groups = _merged(groups, stock, SIDE_BY_SIDE, _sitting(END_TO_END, Sits.FULL))
    return _merged(groups, stock, END_TO_END, lambda _: True)


def _sitting(axis: int, sits: Sits) -> Chosen:
    return lambda group: group.sits(axis) is sits


def _merged(groups: list[Group], stock: Stock, axis: int, chosen: Chosen) -> list[Group]:
    """The groups after as many chosen ones as can be are paired in one direction."""
    held = (Sits.LOW, Sits.HIGH)
    mine = [g for g in groups if g.sits(axis) in held and chosen(g)]
    pairs = _pairs(mine, stock, axis)
    gone = {id(mine[i]) for pair in pairs for i in pair}
    kept = [g for g in groups if id(g) not in gone]
    return kept + [_joined(mine[a], mine[b], axis) for a, b in pairs]


def _pairs(mine: Sequence[Group], stock: Stock, axis: int) -> list[tuple[int, int]]:
    """The most pairs that fit a unit: by a sweep over sizes where only these count."""
    leaning = axis == END_TO_END and any(g.part.lean for g in mine)
    free_of_order = all(g.late[axis] == NEVER for g in mine)
    if leaning or stock.within is not None or not free_of_order:
        return pair_allowed(_allowed(mine, stock, axis), not stock.directional)
    room = (stock.width if axis else stock.length) - stock.kerf
    if not stock.directional:
        return pair_any([(g.size(axis), 0) for g in mine], room)
    lows = [i for i, g in enumerate(mine) if g.sits(axis) is Sits.LOW]
    highs = [i for i, g in enumerate(mine) if g.sits(axis) is Sits.HIGH]
    low_sizes = [(mine[i].size(axis), 0) for i in lows]
    high_sizes = [(mine[i].size(axis), 0) for i in highs]
    return [(lows[a], highs[b]) for a, b in pair_ends(low_sizes, high_sizes, room)]


def _allowed(mine: Sequence[Group], stock: Stock, axis: int) -> npt.NDArray[np.bool_]:
    """Which groups may share a unit; in a directional one, low ends (rows) with high ends."""
    room = (stock.width if axis else stock.length) - stock.kerf
    size = np.array([g.size(axis) for g in mine], dtype=np.int64)
    allowed = size[:, None] + size[None, :] <= room
    if axis == END_TO_END and mine:
        allowed |= _nesting(mine, stock)
    behind = np.array([g.late[axis] for g in mine], dtype=np.int64)
    last = np.array([g.last for g in mine], dtype=np.int64)
    in_order = behind[:, None] > last[None, :]
    allowed &= in_order & in_order.T
    if stock.within is not None:
        lows, highs = np.array([g.rows for g in mine], dtype=np.int64).reshape(-1, 2).T
        spread = np.maximum.outer(highs, highs) - np.minimum.outer(lows, lows)
        allowed &= spread <= stock.within
    if stock.directional:
        low = np.array([g.sits(axis) is Sits.LOW for g in mine], dtype=np.bool_)
        allowed &= low[:, None] & ~low[None, :]
    else:
        np.fill_diagonal(allowed, False)
    return allowed


def _nesting(mine: Sequence[Group], stock: Stock) -> npt.NDArray[np.bool_]:
    """Which slanted ends nest, two by two; asked but once of parts that are alike."""
    alike = [replace(g.part, row=0) for g in mine]
    kinds = {part: kind for kind, part in enumerate(dict.fromkeys(alike))}
    table = np.zeros((len(kinds), len(kinds)), dtype=np.bool_)
    leaning = [(kind, part) for part, kind in kinds.items() if part.lean]
    for (i, one), (j, two) in product(leaning, leaning):
        table[i, j] = nests(one, two, stock)
    number = [kinds[part] for part in alike]
    return table[np.ix_(number, number)]


def _joined(one: Group, two: Group, axis: int) -> Group:
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


def _filled(groups: list[Group], stock: Stock) -> list[list[int]]:
    """Units once the parts cut on both sides fill the gaps, across and then along."""
    rips = [g for g in groups if g.part.along is Sits.FULL]
    rest = [g for g in groups if g.part.along is not Sits.FULL]
    return _fill(rips, stock, SIDE_BY_SIDE) + _fill(rest, stock, END_TO_END)


def _fill(groups: Sequence[Group], stock: Stock, axis: int) -> list[list[int]]:
    """Units once the groups free along an axis lie in the gaps of the others."""
    free = sorted((g for g in groups if g.sits(axis) is Sits.FREE), key=lambda g: -g.size(axis))
    held = [_Bin([g], _gap(g, stock, axis)) for g in groups if g.sits(axis) is not Sits.FREE]
    ways = [_tightest(held, free, stock, axis)] if free else [held]
    if len(free) > 2:
        ways.append(_fullest(held, free, stock, axis))
    return [[i for g in b.groups for i in g.members] for b in min(ways, key=len)]


@dataclass(frozen=True, slots=True)
class _Bin:
    """A unit being filled: what it holds, and the length left after a kerf."""

    groups: list[Group]
    gap: int


def _with(held: _Bin, group: Group, stock: Stock, axis: int) -> _Bin:
    return _Bin([*held.groups, group], held.gap - group.size(axis) - stock.kerf)


def _fits(held: _Bin, group: Group, stock: Stock, axis: int) -> bool:
    return held.gap >= group.size(axis) and all(
        _near(one, group, stock) and one.late[axis] > group.last and group.late[axis] > one.last
        for one in held.groups
    )


def _near(one: Group, two: Group, stock: Stock) -> bool:
    rows = (*one.rows, *two.rows)
    return stock.within is None or max(rows) - min(rows) <= stock.within


def _tightest(held: list[_Bin], free: list[Group], stock: Stock, axis: int) -> list[_Bin]:
    """Each, longest first, into the tightest gap there is."""
    bins = list(held)
    for group in free:
        fitting = [i for i, one in enumerate(bins) if _fits(one, group, stock, axis)]
        if fitting:
            best = min(fitting, key=lambda i: bins[i].gap)
            bins[best] = _with(bins[best], group, stock, axis)
        else:
            bins.append(_Bin([group], _gap(group, stock, axis)))
    return bins


def _fullest(held: list[_Bin], free: list[Group], stock: Stock, axis: int) -> list[_Bin]:
    """One unit after another filled as full as it will go, the smallest gaps first.

    A new unit starts with the longest part left. (Minimum bin slack: Gupta and Ho 1999, from
    memory.)
    """
    bins, left = [], list(free)
    for one in sorted(held, key=lambda b: b.gap):
        filled = _best_fill(one, left, stock, axis)
        left = _without(left, filled.groups)
        bins.append(filled)
    while left:
        filled = _best_fill(_Bin(left[:1], _gap(left[0], stock, axis)), left[1:], stock, axis)
        left = _without(left, filled.groups)
        bins.append(filled)
    return bins


def _without(groups: Sequence[Group], gone: Sequence[Group]) -> list[Group]:
    taken = {group.members for group in gone}
    return [group for group in groups if group.members not in taken]


def _best_fill(held: _Bin, free: Sequence[Group], stock: Stock, axis: int) -> _Bin:
    """The unit with those of the free groups, longest first, that leave the smallest gap."""
    best, tries = held, FILLS
    waiting = [(held, 0)]
    while waiting and tries and best.gap > -stock.kerf:
        one, start = waiting.pop()
        last = None
        deeper = []
        for place in range(start, len(free)):
            size = free[place].size(axis)
            if size == last or not _fits(one, free[place], stock, axis):
                continue
            last = size
            deeper.append((_with(one, free[place], stock, axis), place + 1))
        tries -= 1
        waiting += reversed(deeper)
        best = min([best, *(more for more, _ in deeper)], key=lambda b: b.gap)
    return best


def _gap(group: Group, stock: Stock, axis: int) -> int:
    """What is left beside a group, less the kerf that frees it; none beside a pair."""
    if group.sits(axis) is Sits.FULL:
        return 0
    whole = stock.width if axis else stock.length
    return whole - group.size(axis) - stock.kerf
