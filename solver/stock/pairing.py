"""Pack parts by pairing them: first side by side and then end to end, or the other way.

The pairs are the most there can be in one direction at a time (``match``). Parts cut on
both sides then fill what is left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import product

import numpy as np
import numpy.typing as npt

from solver.stock.cutting import NEVER, nests
from solver.stock.fill import filled
from solver.stock.group import END_TO_END, SIDE_BY_SIDE, Group, joined, single
from solver.stock.match import pair_allowed, pair_any, pair_ends
from solver.stock.parts import Part, Sits, Stock

Chosen = Callable[[Group], bool]
"""Which groups are to be paired."""


def paired(parts: Sequence[Part], stock: Stock) -> list[list[int]]:
    """Units as lists of part numbers: the better of the two orders; parts as in ``Cutter``."""
    groups = [single(number, part, stock) for number, part in enumerate(parts)]
    tried = [filled(order(groups, stock), stock) for order in (_across_first, _along_first)]
    return min(tried, key=len)


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
    return kept + [joined(mine[a], mine[b], axis) for a, b in pairs]


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
