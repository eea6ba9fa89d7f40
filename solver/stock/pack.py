"""Pack the parts of a zone into as few units as the sharing rules let it find.

Pairs are exact in one direction at a time (``match``). Both orders, across first and along
first, are tried and the better kept; parts cut on both sides then fill what is left.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from solver.stock.match import pair_any, pair_ends
from solver.stock.parts import Part, Sits, Stock
from solver.stock.place import place

PLACED_AT_MOST = 60
"""Cut parts for which places are tried one by one as well."""


def pack(parts: Sequence[Part], stock: Stock) -> list[list[int]]:
    """Units as lists of part numbers; every part is in exactly one."""
    bins = [[i] for i, part in enumerate(parts) if part.whole]
    cut = [_Group((i,), part, (part.row,)) for i, part in enumerate(parts) if not part.whole]
    if stock.square:
        cut = [_quarter(group) for group in cut]
    tried = [_fill(order(cut, stock), stock) for order in (_across_first, _along_first)]
    if len(cut) <= PLACED_AT_MOST:
        mine = [i for i, part in enumerate(parts) if not part.whole]
        placed = place([parts[i] for i in mine], stock)
        tried.append([[mine[i] for i in members] for members in placed])
    best = min(tried, key=len)
    return bins + [sorted(members) for members in best]


@dataclass(frozen=True, slots=True)
class _Group:
    """Parts already sharing a unit, taken as one, and the rows they are laid in."""

    members: tuple[int, ...]
    part: Part
    rows: tuple[int, ...]


def _quarter(group: _Group) -> _Group:
    """A square unit's rip taken as an end cut: a quarter turn makes them the same."""
    part = group.part
    if part.along is not Sits.FULL:
        return group
    turned = replace(
        part,
        along=part.across,
        length=part.width,
        across=Sits.FULL,
        width=part.length,
        lean=None if part.lean is None else 0,
    )
    return replace(group, part=turned)


def _across_first(groups: list[_Group], stock: Stock) -> list[_Group]:
    for sits in Sits:
        groups = _merge_across(groups, stock, partial(_sits_along, sits))
    return _merge_along(groups, stock, _any)


def _along_first(groups: list[_Group], stock: Stock) -> list[_Group]:
    for sits in Sits:
        groups = _merge_along(groups, stock, partial(_sits_across, sits))
    groups = _merge_across(groups, stock, partial(_sits_along, Sits.FULL))
    return _merge_along(groups, stock, _any)


def _sits_along(sits: Sits, group: _Group) -> bool:
    return group.part.along is sits


def _sits_across(sits: Sits, group: _Group) -> bool:
    return group.part.across is sits


def _any(_: _Group) -> bool:
    return True


def _merge_along(
    groups: list[_Group], stock: Stock, chosen: Callable[[_Group], bool]
) -> list[_Group]:
    """Pair chosen groups end to end: first those whose slanted ends nest, then by their boxes."""
    leans = {g.part.lean for g in groups if g.part.lean and chosen(g)}
    for lean in sorted(leans, key=lambda lean: (lean is None, lean)):
        groups = _nest(groups, stock, chosen, lean or 0)
    return _merge(groups, stock, chosen, along=True)


def _nest(
    groups: list[_Group], stock: Stock, chosen: Callable[[_Group], bool], lean: int
) -> list[_Group]:
    """Pair parallel slanted ends: measured at the low side, one cut serves both."""
    kerf = math.ceil(stock.kerf * math.hypot(1, lean / stock.width))
    mine = [i for i, g in enumerate(groups) if g.part.lean == lean and chosen(g)]
    lows = [i for i in mine if groups[i].part.along is Sits.LOW]
    highs = [i for i in mine if groups[i].part.along is Sits.HIGH]
    # At the low side an end piece lacks a lean to the right, a start piece one to the left.
    low_sizes = [(groups[i].part.length - max(lean, 0), groups[i].part.row) for i in lows]
    high_sizes = [(groups[i].part.length + min(lean, 0), groups[i].part.row) for i in highs]
    pairs = pair_ends(low_sizes, high_sizes, stock.length - kerf, stock.within)
    return _joined(groups, [(lows[a], highs[b]) for a, b in pairs], stock, along=True)


def _merge_across(
    groups: list[_Group], stock: Stock, chosen: Callable[[_Group], bool]
) -> list[_Group]:
    return _merge(groups, stock, chosen, along=False)


def _merge(
    groups: list[_Group], stock: Stock, chosen: Callable[[_Group], bool], along: bool
) -> list[_Group]:
    sits = [g.part.along if along else g.part.across for g in groups]
    size = [(g.part.length if along else g.part.width, g.part.row) for g in groups]
    room = (stock.length if along else stock.width) - stock.kerf
    lows = [i for i, g in enumerate(groups) if sits[i] is Sits.LOW and chosen(g)]
    highs = [i for i, g in enumerate(groups) if sits[i] is Sits.HIGH and chosen(g)]
    if stock.directional:
        found = pair_ends([size[i] for i in lows], [size[i] for i in highs], room, stock.within)
        pairs = [(lows[a], highs[b]) for a, b in found]
    else:
        ends = lows + highs
        pairs = [
            (ends[a], ends[b]) for a, b in pair_any([size[i] for i in ends], room, stock.within)
        ]
    return _joined(groups, pairs, stock, along)


def _joined(
    groups: list[_Group], pairs: list[tuple[int, int]], stock: Stock, along: bool
) -> list[_Group]:
    # Pairing goes by one row of each; what a group of several brings may still be too far.
    pairs = [(a, b) for a, b in pairs if _near(groups[a].rows + groups[b].rows, stock.within)]
    gone = {i for pair in pairs for i in pair}
    kept = [g for i, g in enumerate(groups) if i not in gone]
    return kept + [_join(groups[a], groups[b], along) for a, b in pairs]


def _join(one: _Group, two: _Group, along: bool) -> _Group:
    """Two groups in one unit, side by side in one direction."""
    a, b = one.part, two.part
    # Two parts that sit at the same end share only when one is turned half a turn, and
    # that turns its place in the other direction too.
    turned = a.along is b.along if along else a.across is b.across
    other = (a.across, b.across) if along else (a.along, b.along)
    same = other[0] is other[1] and (not turned or other[0] in (Sits.FULL, Sits.FREE))
    kept = other[0] if same else Sits.FULL
    if along:
        part = replace(a, along=Sits.FULL, across=kept, width=max(a.width, b.width), lean=None)
    else:
        part = replace(a, across=Sits.FULL, along=kept, length=max(a.length, b.length), lean=None)
    return _Group(one.members + two.members, part, one.rows + two.rows)


def _near(rows: Sequence[int], within: int | None) -> bool:
    return within is None or max(rows) - min(rows) <= within


def _fill(groups: list[_Group], stock: Stock) -> list[list[int]]:
    """Parts cut on both sides along the row, longest first, into the tightest gap there is."""
    free = [g for g in groups if g.part.along is Sits.FREE]
    bins = [
        _Bin(list(g.members), _gap(g.part, stock), g.rows)
        for g in groups
        if g.part.along is not Sits.FREE
    ]
    for group in sorted(free, key=lambda g: -g.part.length):
        taken = group.part.length + stock.kerf
        near = [
            b
            for b in bins
            if b.gap >= group.part.length and _near(b.rows + group.rows, stock.within)
        ]
        if near:
            chosen = min(near, key=lambda b: b.gap)
            chosen.members += group.members
            chosen.gap -= taken
            chosen.rows += group.rows
        else:
            bins.append(_Bin(list(group.members), stock.length - taken, group.rows))
    return [b.members for b in bins]


@dataclass(slots=True)
class _Bin:
    """A unit being filled: its parts, the length left after a kerf, their rows."""

    members: list[int]
    gap: int
    rows: tuple[int, ...]


def _gap(part: Part, stock: Stock) -> int:
    """What is left beside an anchored part, less the kerf that frees it; none beside a pair."""
    if part.along not in (Sits.LOW, Sits.HIGH):
        return 0
    return stock.length - part.length - stock.kerf
