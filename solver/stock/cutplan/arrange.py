"""Where in its unit each piece lies, and the straight cuts, right through, that set it free.

A part of a unit is halved by a cut, each half again, until every piece is by itself: a tree
of cuts. All trees worth trying are tried; the one with the fewest cuts is taken, and of
those the one that frees the piece laid first soonest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import NamedTuple

from solver.stock.cutplan.trims import (
    FACTORY,
    SLANTED,
    Leaf,
    Members,
    Region,
    Split,
    Tree,
    Trim,
    half,
    members_of,
    trims_of,
)
from solver.stock.cutplan.wanted import SAME, Want

MANY = 4
"""With so many pieces any tree with the fewest cuts will do, with more any tree at all."""


class Cost(NamedTuple):
    """What a tree costs, the worst first: halves below scrap kept, cuts, cuts to the first."""

    small: int
    cuts: int
    first: int


Found = tuple[Cost, Tree]


@dataclass(frozen=True, slots=True)
class Saw:
    """What is cut and how: real size of the unit, kerf, least offcut worth keeping; ticks."""

    unit: tuple[int, int]
    kerf: int
    scrap: int


def arranged(ways: Sequence[tuple[Want, ...]], saw: Saw) -> Tree | None:
    """The best tree of cuts for the pieces of one unit, None when they do not fit.

    ``ways`` has for each piece, the one laid first first, how it may lie in the unit.
    """
    whole = Region(saw.unit, (FACTORY,) * 4)
    # The unit is the same whichever way it is turned: so may the first piece lie.
    ways = [ways[0][:1], *ways[1:]]
    found = _Search(ways, saw).best(whole, tuple(range(len(ways))))
    return found[1] if found else None


class _Search:
    """Tries the trees for one unit's pieces; what a region can hold is worked out once."""

    def __init__(self, ways: Sequence[tuple[Want, ...]], saw: Saw) -> None:
        self.ways, self.saw = ways, saw
        self._known: dict[tuple[Region, Members], Found | None] = {}

    def best(self, region: Region, members: Members) -> Found | None:
        """The best tree for these pieces in a region."""
        key = (region, members)
        if key not in self._known:
            self._known[key] = self._tried(region, members)
        return self._known[key]

    def _tried(self, region: Region, members: Members) -> Found | None:
        if len(members) == 1:
            return min(self._leaves(region, members[0]), key=lambda found: found[0], default=None)
        spare = _area(region) - self._area(members)
        if spare < 0 or not all(self.best(region, (member,)) for member in members):
            return None
        # Cuts make one part more each: the pieces, and scrap unless it is all dust.
        dust = self.saw.kerf * sum(region.size) * len(members)
        shaped = sum(self.ways[member][0].shaped for member in members)
        soon = 1 if len(members) < MANY else len(members)
        least = Cost(0, len(members) - (spare <= dust) + shaped, soon)
        best: Found | None = None
        for found in self._splits(region, members):
            if best is None or found[0] < best[0]:
                best = found
                if best[0] <= least or len(members) > MANY:
                    break
        return best

    def _area(self, members: Members) -> int:
        return sum(_lean_area(self.ways[member][0]) for member in members)

    def _leaves(self, region: Region, member: int) -> Iterator[Found]:
        for want in self.ways[member]:
            trims = trims_of(want, region)
            if trims is not None:
                cuts = len(trims) + want.shaped
                yield Cost(0, cuts, cuts), Leaf(member, want, region, trims)

    def _splits(self, region: Region, members: Members) -> Iterator[Found]:
        for low, high in _shared_out(members):
            for axis in (0, 1):
                yield from self._square(region, low, high, axis)
                if len(low) == 1:
                    yield from self._slanted(region, low[0], high, axis, True)
                if len(high) == 1:
                    yield from self._slanted(region, high[0], low, axis, False)

    def _square(self, region: Region, low: Members, high: Members, axis: int) -> Iterator[Found]:
        """Square cuts that leave as little as can be to the low half, or to the high one."""
        whole, cross = region.size[axis], region.size[1 - axis]
        for tight, loose, at_low in ((low, high, True), (high, low, False)):
            least, most = self._area(tight), whole * cross - self._area(loose)
            for size in self._sizes(tight, axis):
                rest = whole - size - self.saw.kerf
                if rest <= 0 or size * cross > most:
                    break
                if size * cross < least:
                    continue
                if self.best(half(region, axis, at_low, size), tight):
                    ends = (size, rest) if at_low else (rest, size)
                    yield from self._parted(region, axis, ends, (low, high))
                    break

    def _parted(
        self, region: Region, axis: int, ends: tuple[int, int], halves: tuple[Members, Members]
    ) -> Iterator[Found]:
        low = self.best(half(region, axis, True, ends[0]), halves[0])
        high = self.best(half(region, axis, False, ends[1]), halves[1])
        sides = region.sides[2 * axis : 2 * axis + 2]
        first_low = halves[0][0] < halves[1][0]
        square = [side is not SLANTED for side in sides]
        if low and high and any(square):
            from_low = square[0] if first_low else not square[1]
            trim = Trim(axis, from_low, (ends[0 if from_low else 1],) * 2)
            kept = ends[1 if first_low else 0]
            yield self._found(Split(region, trim, low[1], high[1]), low[0], high[0], kept)

    def _slanted(
        self, region: Region, member: int, rest: Members, axis: int, at_low: bool
    ) -> Iterator[Found]:
        """One piece set free by its own slanted cut."""
        other = 1 - axis
        for want in self.ways[member]:
            taper = want.taper
            if not taper or taper.axis != axis or taper.high is not at_low:
                continue
            if abs(want.size[other] - region.size[other]) > SAME:
                continue
            own = half(region, axis, at_low, want.size[axis], SLANTED)
            if trims_of(want, own) != (Trim(axis, at_low, taper.at),):
                continue
            gap = _slanted_kerf(want, self.saw)
            more = max(taper.at) - min(taper.at)
            size = region.size[axis] - max(taper.at) - gap
            beyond = half(region, axis, not at_low, size, SLANTED, more)
            trees = [self.best(beyond, rest)] if size > 0 else []
            trees.append(self._nested(region, want, rest, axis, at_low))
            for tree in trees:
                if tree:
                    leaf = Leaf(member, want, own, ())
                    pair = (leaf, tree[1]) if at_low else (tree[1], leaf)
                    split = Split(region, Trim(axis, at_low, taper.at), *pair)
                    first = member < rest[0]
                    kept = tree[1].region.size[axis] if first else want.size[axis]
                    mine = Cost(0, 0, 0)
                    costs = (mine, tree[0]) if at_low else (tree[0], mine)
                    yield self._found(split, *costs, kept)

    def _nested(
        self, region: Region, want: Want, rest: Members, axis: int, at_low: bool
    ) -> Found | None:
        """A second slanted end behind the first: their boxes overlap, they do not."""
        taper = want.taper
        if len(rest) > 1 or not taper:
            return None
        gap, whole = _slanted_kerf(want, self.saw), region.size[axis]
        size = whole - min(taper.at) - gap
        for two in self.ways[rest[0]]:
            behind = two.taper
            if not behind or behind.axis != axis or behind.high is at_low or size <= 0:
                continue
            spare = [whole - a - gap - b for a, b in zip(taper.at, behind.at, strict=True)]
            less = min(taper.at) - max(taper.at)
            beyond = half(region, axis, not at_low, size, SLANTED, less)
            trims = trims_of(two, beyond)
            if min(spare) < 0 or trims is None:
                continue
            if max(spare) <= SAME:
                trims = tuple(trim for trim in trims if trim.axis != axis)
            return Cost(0, len(trims), len(trims)), Leaf(rest[0], two, beyond, trims)
        return None

    def _found(self, split: Split, low: Cost, high: Cost, kept: int) -> Found:
        """A split with its cost; ``kept`` is the size of the half laid later."""
        first = low if members_of(split.low)[0] < members_of(split.high)[0] else high
        small = low.small + high.small + (kept < self.saw.scrap)
        return Cost(small, 1 + low.cuts + high.cuts, 1 + first.first), split

    def _sizes(self, members: Members, axis: int) -> list[int]:
        """Every size a tight half of these pieces may have along an axis, smallest first."""
        sums = {-self.saw.kerf}
        for member in members:
            more = {want.size[axis] for want in self.ways[member]}
            sums |= {one + size + self.saw.kerf for one in sums for size in more}
        return sorted(size for size in sums if size > 0)


def _shared_out(members: Members) -> Iterator[tuple[Members, Members]]:
    """Every way to share pieces out between two halves, those with one piece by itself first."""
    counts = range(1, len(members))
    for count in sorted(counts, key=lambda count: min(count, len(members) - count)):
        for low in combinations(members, count):
            yield low, tuple(member for member in members if member not in low)


def _slanted_kerf(want: Want, saw: Saw) -> int:
    """What a slanted cut eats, measured along the axis of its measures."""
    taper = want.taper
    if not taper or not saw.kerf:
        return saw.kerf
    return math.ceil(
        saw.kerf * math.hypot(1, (taper.at[1] - taper.at[0]) / want.size[1 - taper.axis])
    )


def _area(region: Region) -> int:
    return region.size[0] * region.size[1]


def _lean_area(want: Want) -> int:
    """The area a piece takes at least."""
    if want.taper:
        return want.size[1 - want.taper.axis] * sum(want.taper.at) // 2
    return want.size[0] * want.size[1]
