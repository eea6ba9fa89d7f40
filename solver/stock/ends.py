"""End pieces of rows in units of several lengths: which two share a unit, so cartons are few.

Two ends in one unit save a unit, but may ask for a longer one, of which there may be too
few. Several ways to pair are weighed, each exact for the lengths it looks at; then pairs
are split again, the longest first, for as long as that saves cartons. Where there are few,
the ends of any two units are then divided anew while that saves something.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from solver.stock.match import pair_any, pair_ends
from solver.stock.mix import Mix, cartons_holding, shortest_for
from solver.stock.parts import Stock

FEW, MANY = 20, 60
"""Up to so many units every pairing is bettered end by end, and only the best one of them."""

Cost = tuple[int, int, int, int]
"""Cartons, units, how long the units must be together, and how evenly they are filled.

Short pieces left by themselves are easier to pair than middling ones.
"""


@dataclass(frozen=True, slots=True)
class End:
    """A start or end piece: its length in ticks and its row.

    ``high`` tells that it sits at the high end of its unit: it starts its run. Rows of
    different zones are numbered far apart.
    """

    length: int
    row: int
    high: bool


Share = tuple[tuple[int, ...], int]
"""The places of one or two ends that share a unit, and the length they need, in ticks."""


def share_ends(
    ends: Sequence[End], fixed: Sequence[int], stock: Stock, mix: Mix, thorough: bool = True
) -> list[Share]:
    """Ends by unit, each in exactly one, for the fewest cartons and then the fewest units.

    ``fixed`` are the units of each length the layout needs besides. Without ``thorough``
    only two ways to pair are weighed, which is several times faster.
    """
    rising = [length for length, _ in reversed(mix)]
    rooms = [rising, [mix[0][0]]]
    if thorough:
        rooms += [rising[:count] for count in range(1, len(mix))] + [[r] for r in rising[1:-1]]
    ways = [_split(_paired(ends, one, stock), ends, fixed, mix) for one in rooms]
    ways.sort(key=lambda way: _cost(way, fixed, mix))
    count = len(ways) if len(ways[0]) <= FEW else 1 if len(ways[0]) <= MANY else 0
    bettered = ways[: count if thorough else 0]
    anew = [_divided_anew(way, ends, fixed, stock, mix) for way in bettered]
    return min([*anew, ways[0]], key=lambda way: _cost(way, fixed, mix))


def _paired(ends: Sequence[End], rooms: Sequence[int], stock: Stock) -> list[Share]:
    """As many pairs as go into units of one length after another, and what is left singly."""
    left, way = list(range(len(ends))), list[Share]()
    for room in rooms:
        pairs = _pairs([ends[i] for i in left], room - stock.kerf, stock)
        met = [(left[a], left[b]) for a, b in pairs]
        way += [(pair, together(ends[pair[0]], ends[pair[1]], stock)) for pair in met]
        gone = {i for pair in met for i in pair}
        left = [i for i in left if i not in gone]
    return way + [((i,), ends[i].length) for i in left]


def _pairs(ends: Sequence[End], room: int, stock: Stock) -> list[tuple[int, int]]:
    if may_turn(stock):
        return pair_any([_sized(end, stock) for end in ends], room, stock.within)
    lows = [i for i, end in enumerate(ends) if not end.high]
    highs = [i for i, end in enumerate(ends) if end.high]
    sized = [[_sized(ends[i], stock) for i in side] for side in (lows, highs)]
    found = pair_ends(sized[0], sized[1], room, stock.within)
    return [(lows[a], highs[b]) for a, b in found]


def may_turn(stock: Stock) -> bool:
    """Whether any two ends may share a unit: it may be turned, or cut edges lie at joints."""
    return not stock.directional or stock.shop_cuts


def together(one: End, two: End, stock: Stock) -> int:
    """The length two ends and the kerf between them need in one unit, in ticks."""
    return _sized(one, stock)[0] + _sized(two, stock)[0] + stock.kerf


def _sized(end: End, stock: Stock) -> tuple[int, int]:
    """Length and row of an end that is to share: an offcut under the scrap size is not kept."""
    return max(end.length, stock.scrap), end.row


def _split(way: list[Share], ends: Sequence[End], fixed: Sequence[int], mix: Mix) -> list[Share]:
    """The same with as many of the longest pairs taken apart as make the fewest cartons."""
    asked = _asked(way, mix)
    best, least = 0, cartons_holding(fixed, asked, mix)
    paired = sorted((s for s in way if len(s[0]) > 1), key=lambda s: (-s[1], s[0]))
    for number, (members, need) in enumerate(paired, 1):
        asked[shortest_for(need, mix)] -= 1
        for member in members:
            asked[shortest_for(ends[member].length, mix)] += 1
        cartons = cartons_holding(fixed, asked, mix)
        if cartons < least:
            best, least = number, cartons
    singles = [s for s in way if len(s[0]) == 1]
    apart = [((i,), ends[i].length) for members, _ in paired[:best] for i in members]
    return paired[best:] + singles + apart


def _asked(way: Sequence[Share], mix: Mix) -> list[int]:
    asked = [0] * len(mix)
    for _, need in way:
        asked[shortest_for(need, mix)] += 1
    return asked


def _cost(way: Sequence[Share], fixed: Sequence[int], mix: Mix) -> Cost:
    return _counted(_asked(way, mix), sum(need * need for _, need in way), fixed, mix)


def _counted(asked: Sequence[int], uneven: int, fixed: Sequence[int], mix: Mix) -> Cost:
    long = sum(count * length for count, (length, _) in zip(asked, mix, strict=True))
    return cartons_holding(fixed, asked, mix), sum(asked), long, -uneven


def _divided_anew(
    way: list[Share], ends: Sequence[End], fixed: Sequence[int], stock: Stock, mix: Mix
) -> list[Share]:
    """What dividing the ends of two units anew leads to, while that makes anything better."""
    units = list(way)
    best = _cost(units, fixed, mix)
    changed = True
    while changed:
        changed = False
        for one, two in combinations(list(units), 2):
            if one not in units or two not in units:
                continue
            left = [unit for unit in units if unit not in (one, two)]
            asked, uneven = _asked(left, mix), sum(need * need for _, need in left)
            for anew in _divisions([*one[0], *two[0]], ends, stock, mix):
                more = _asked(anew, mix)
                after = _counted(
                    [a + b for a, b in zip(asked, more, strict=True)],
                    uneven + sum(need * need for _, need in anew),
                    fixed,
                    mix,
                )
                if after < best:
                    best, units, changed = after, [*left, *anew], True
    return units


def _divisions(
    left: Sequence[int], ends: Sequence[End], stock: Stock, mix: Mix
) -> Iterator[list[Share]]:
    """Every way to divide a few ends between units, one or two in each."""
    if not left:
        yield []
        return
    first, *rest = left
    for way in _divisions(rest, ends, stock, mix):
        yield [((first,), ends[first].length), *way]
    for other in rest:
        need = together(ends[first], ends[other], stock)
        meet = may_turn(stock) or ends[first].high is not ends[other].high
        far = stock.within is not None and abs(ends[first].row - ends[other].row) > stock.within
        if need <= mix[0][0] and meet and not far:
            for way in _divisions([i for i in rest if i != other], ends, stock, mix):
                yield [((first, other), need), *way]
