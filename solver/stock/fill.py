"""Fill what is left of units with parts that may lie anywhere: cutting stock in one direction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.stock.group import END_TO_END, SIDE_BY_SIDE, Group
from solver.stock.parts import Sits, Stock

FILLS = 150
"""Ways tried to fill one unit."""


def filled(groups: list[Group], stock: Stock) -> list[list[int]]:
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
