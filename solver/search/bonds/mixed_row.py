"""Fill one run with units of several lengths: the cheapest way from stop to stop.

A dynamic program along the run: a state is a place an end joint may lie at, reached from a
few start pieces by whole units. Joints too near those of other rows cost more than any
unit, so a run is always filled, and the rules are broken only where nothing else is left.
"""

from __future__ import annotations

import heapq
import random
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import gcd
from typing import NamedTuple

from models.floor.cells import RunCells
from models.floor.sizes import SAME
from models.program.spans import Range, Span
from solver.stock.mix import Mix, shortest_for

BROKEN = 1e12
"""What a broken rule costs, in ticks of unit: more than any floor."""

STATES = 1500
"""Places along a run kept apart: two nearer than the run's length over this count as one."""

OFFERED = 4
"""Offcuts, fresh cuts and ways back from the run's end that a start piece is tried from."""


@dataclass(frozen=True, slots=True)
class Lane:
    """A run to fill: its span, and whether both stops are square, so a whole unit is no cut."""

    span: Span
    plain: bool


@dataclass(frozen=True, slots=True)
class Filled:
    """One run filled: its end joints in order, and what it takes of stock.

    ``first`` and ``last`` are the lengths of its cut start and end pieces in ticks (0 when
    whole), ``whole`` the places in the mix of all its other units, in order. A cut run
    without a joint is a start piece. ``short`` counts the end pieces under their need.
    """

    joints: tuple[int, ...]
    first: int
    whole: tuple[int, ...]
    last: int
    short: int = 0


@dataclass(frozen=True, slots=True)
class Near:
    """Joints of another run: none in ``mine`` is to be nearer than ``apart`` to ``others``.

    ``weight`` is what one that is costs, in ticks of unit.
    """

    mine: Range
    others: tuple[int, ...]
    apart: int
    weight: float

    def barred(self) -> Iterator[Range]:
        """The closed ranges too near, none of which meet; others are in rising order."""
        found: list[Range] = []
        for other in self.others:
            start = max(other - self.apart + 1, self.mine[0])
            end = min(other + self.apart - 1, self.mine[1])
            if found and start <= found[-1][1]:
                found[-1] = found[-1][0], max(found[-1][1], end)
            else:
                found.append((start, end))
        yield from found


class Bars:
    """What a joint costs for being near others, as a function of its place with few steps."""

    def __init__(self, nears: Sequence[Near]) -> None:
        steps: dict[int, float] = {}
        for near in nears:
            for low, high in near.barred():
                if low <= high:
                    steps[low] = steps.get(low, 0.0) + near.weight
                    steps[high + 1] = steps.get(high + 1, 0.0) - near.weight
        self._marks = sorted(steps)
        self._costs = [0.0, *accumulate(steps[mark] for mark in self._marks)]

    def cost(self, joint: int) -> float:
        """What a joint at ``joint`` costs, in ticks of unit."""
        return self._costs[bisect_right(self._marks, joint)]


@dataclass(frozen=True, slots=True)
class Prices:
    """What units cost, by place in the mix, and offcuts: ``hold`` is the worth of one tick.

    ``highs`` and ``lows`` are lengths of offcuts that start and end pieces may come from,
    in rising order. ``noise`` is by how much of it the price of any one unit is off by chance.
    """

    units: tuple[float, ...]
    hold: float
    noise: float
    highs: tuple[int, ...] = ()
    lows: tuple[int, ...] = ()


class Way(NamedTuple):
    """The cheapest way to an end joint: its cost, the way before, and the unit in between.

    The first one has a start piece: cut to ``first`` ticks, or whole when that is 0.
    """

    cost: float
    joint: int
    before: Way | None
    unit: int
    first: int = 0
    short: int = 0


@dataclass(frozen=True, slots=True)
class Filler:
    """Fills runs from one mix, with joints after a cut start piece on the tape step."""

    mix: Mix
    kerf: int
    step: int

    def fill(
        self, lane: Lane, nears: Sequence[Near], prices: Prices, rng: random.Random
    ) -> tuple[Filled, int]:
        """The cheapest filling of a run at these prices, and how many joints were weighed."""
        span, bars = lane.span, Bars(nears)
        grain = max(1, span.length // STATES)
        ways: dict[int, Way] = {}
        for way in self._starts(lane, nears, prices, rng):
            cost, place = way.cost + bars.cost(way.joint), way.joint // grain
            if place not in ways or cost < ways[place].cost:
                ways[place] = way._replace(cost=cost)
        places, weighed = sorted(ways), 0
        best = self._alone(lane, prices)
        while places:
            way = ways[heapq.heappop(places)]
            weighed += 1
            left = span.end - way.joint
            if left <= self.mix[0][0]:
                best = min(best, self._ended(lane, way, left, prices), key=lambda end: end[0])
            for unit, (length, _) in enumerate(self.mix):
                if length < left:
                    joint = way.joint + length
                    price = prices.units[unit] * (1 + prices.noise * rng.random())
                    cost, place = way.cost + price + bars.cost(joint), joint // grain
                    known = ways.get(place)
                    if known is None:
                        heapq.heappush(places, place)
                    if known is None or cost < known.cost:
                        ways[place] = Way(cost, joint, way, unit)
        return best[1], weighed

    def _between(self, start: int, near: Near) -> Iterator[int]:
        """First joints that keep every later one midway between another run's joints.

        Where all lengths are multiples of one, joints lie in step with each other, and half
        a step off keeps clear of them all.
        """
        common = gcd(*(length for length, _ in self.mix))
        if near.others and common >= 2 * near.apart:
            first = start + (near.others[0] + common // 2 - start) % common
            yield from range(first, start + self.mix[0][0], common)

    def _starts(
        self, lane: Lane, nears: Sequence[Near], prices: Prices, rng: random.Random
    ) -> Iterator[Way]:
        """Ways to the first joint: whole units, offcuts, fresh cuts, and ones that end well."""
        span, longest = lane.span, self.mix[0][0]
        if lane.plain:
            for unit, (length, _) in enumerate(self.mix):
                if length < span.length:
                    yield Way(prices.units[unit], span.start + length, None, unit)
        # The longest cut there is is always tried, so that a way is found whatever the needs.
        least = min(max(span.need_start, self.step), longest - 1)
        marks = [span.start + rest for rest in (longest - 1, *_some(prices.highs, rng))]
        marks += [span.start + rng.randrange(least, longest) for _ in range(OFFERED)]
        marks += [mark for near in nears for mark in self._between(span.start, near)]
        # Down to the tape step: a start piece may be shorter than its offcut, never longer.
        marks = [mark // self.step * self.step for mark in marks]
        for end in (*([0] if lane.plain else []), *_some(prices.lows, rng)):
            mark = span.end - end
            while mark - span.start >= longest or (mark > span.start and rng.random() < 0.2):
                mark -= self.mix[rng.randrange(len(self.mix))][0]
            marks.append(-(-mark // self.step) * self.step)
        for mark in sorted(set(marks)):
            first = mark - span.start
            inside = 0 < first < min(longest, span.length)
            if inside and not (lane.plain and self._whole(first) is not None):
                short = int(first < span.need_start)
                cost = self._cut(first, prices.highs, prices) + BROKEN * short
                yield Way(cost, mark, None, -1, first, short)

    def _alone(self, lane: Lane, prices: Prices) -> tuple[float, Filled]:
        """A run filled with one piece; more than any other way when it is longer than a unit."""
        length = lane.span.length
        if length > self.mix[0][0]:
            return float("inf"), Filled((), length, (), 0)
        unit = self._whole(length) if lane.plain else None
        cost = prices.units[shortest_for(length, self.mix) if unit is None else unit]
        return cost, Filled((), length, (), 0) if unit is None else Filled((), 0, (unit,), 0)

    def _ended(self, lane: Lane, way: Way, left: int, prices: Prices) -> tuple[float, Filled]:
        """A way ended with the piece that is left, whole or cut."""
        unit = self._whole(left) if lane.plain else None
        short = int(unit is None and left < lane.span.need_end)
        if unit is None:
            cost = way.cost + self._cut(left, prices.lows, prices) + BROKEN * short
            return cost, _filled(way, (), left, short)
        return way.cost + prices.units[unit], _filled(way, (unit,), 0, 0)

    def _cut(self, piece: int, offcuts: Sequence[int], prices: Prices) -> float:
        """What a cut piece costs: the offcut it uses up, or a unit less the offcut it makes."""
        fresh = min(
            price - prices.hold * max(0, length - piece - self.kerf)
            for (length, _), price in zip(self.mix, prices.units, strict=True)
            if length >= piece
        )
        place = bisect_left(offcuts, piece)
        return min(fresh, prices.hold * offcuts[place]) if place < len(offcuts) else fresh

    def _whole(self, length: int) -> int | None:
        """The place in the mix of the length this is, or falls short of by less than a cut."""
        found = (i for i, (unit, _) in enumerate(self.mix) if 0 <= unit - length <= SAME)
        return next(found, None)


def _some(offcuts: Sequence[int], rng: random.Random) -> list[int]:
    """A few different lengths of offcuts."""
    different = sorted(set(offcuts))
    return different if len(different) <= OFFERED else rng.sample(different, OFFERED)


def _filled(way: Way, end: tuple[int, ...], last: int, short: int) -> Filled:
    """The filling a way stands for, ended with whole units ``end`` or a cut piece ``last``."""
    joints, units, here = [way.joint], [way.unit], way
    while here.before is not None:
        here = here.before
        joints.append(here.joint)
        units.append(here.unit)
    whole = tuple(reversed(units))[1 if here.first else 0 :] + end
    return Filled(tuple(reversed(joints)), here.first, whole, last, here.short + short)


def cells_of(lane: Lane, filled: Filled, mix: Mix) -> RunCells:
    """The cells of a filled run; a cut piece's is that of the shortest unit that holds it."""
    span, joints = lane.span, filled.joints
    if not joints:
        length = mix[filled.whole[0] if filled.whole else shortest_for(span.length, mix)][0]
        return ((span.start, span.start + length),)
    inner = list(pairwise(joints))
    units = list(filled.whole)
    first = filled.first or mix[units[0]][0]
    last = filled.last or mix[units[-1]][0]
    low = joints[0] - mix[shortest_for(first, mix)][0]
    high = joints[-1] + mix[shortest_for(last, mix)][0]
    return ((low, joints[0]), *inner, (joints[-1], high))
