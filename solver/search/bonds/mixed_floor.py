"""A zone filled run by run with units of several lengths, and bettered run by run.

Each run is filled at prices that say how many units of each length are still left in the
cartons aimed at, with the offcuts at hand. When all are filled, a run or two at a time are
taken up and filled again at prices that press on the length the cartons are short of; what
is no better is put back. All chance comes from a seeded generator.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from models.program.spans import Choice, Meet
from solver.search.bonds.mixed_row import BROKEN, Filled, Filler, Lane, Near, Prices
from solver.search.outcome.mixed_measures import distance, within
from solver.stock.ends import End, Share, may_turn, share_ends
from solver.stock.mix import Mix, cartons_holding, hand_out, needs_by_length, shortest_for
from solver.stock.parts import Stock

PRESSED = 0.6
"""By how much of it the price of a length the cartons are short of is raised at most."""

STRIP = 0.05
"""What the strip left beside a rip is worth of a unit of its length."""

WRONG = 0.3
"""How often a run is filled anew because something is wrong in it."""

HOLD = 0.4, 0.95
"""Between what shares of its length an offcut's worth is drawn."""

NOISE = 0.02, 0.4
"""Between what shares of a unit's price the chance in it is drawn."""

WEIGHED = 10
"""Work, for each lane, in telling what a filling costs; a joint weighed in a run counts 1."""

FAR = 1 << 20
"""Rows of copies of a zone are numbered so far apart that nothing is carried between them."""


@dataclass(frozen=True, slots=True)
class Work:
    """What a zone is filled from and under: the choice of joints, lanes, stock and mix.

    ``cartons`` are the fewest any layout needs. ``copies`` as in ``Task``. ``rips`` are
    pairs of lanes whose rips can share units; ``meets`` the meetings of each lane: which
    lanes and where, the least distance of their joints, and whether it must be kept.
    """

    choice: Choice
    lanes: tuple[Lane, ...]
    stock: Stock
    mix: Mix
    cartons: int
    copies: int
    rips: tuple[tuple[int, int], ...]
    meets: tuple[tuple[tuple[Meet, int, bool], ...], ...]


class Cost(NamedTuple):
    """What a filling costs, what weighs most first.

    ``over`` counts the units too many for one carton less, where one less may do; ``soft``
    the places where preferred distances between joints are not kept.
    """

    broken: int
    cartons: int
    over: int
    units: int
    soft: int

    def by(self, tidy: bool) -> tuple[int, ...]:
        """The order in which costs are compared: ``tidy`` puts preferences before units."""
        first = (self.broken, self.cartons, self.over)
        return (*first, self.soft, self.units) if tidy else (*first, self.units, self.soft)


@dataclass(frozen=True, slots=True)
class Spread:
    """A whole filling, one for each lane, what it costs, and the lanes something is wrong in."""

    filled: tuple[Filled, ...]
    cost: Cost
    wrong: tuple[int, ...] = ()

    @property
    def shortest(self) -> int:
        """The shortest end piece, in ticks; 0 when no end is cut."""
        return min((p for one in self.filled for p in (one.first, one.last) if p), default=0)


def work_of(choice: Choice, plain: Iterable[bool], stock: Stock, mix: Mix, cartons: int) -> Work:
    """The work one choice makes; ``plain`` tells for each span whether its stops are square."""
    lanes = tuple(Lane(span, flag) for span, flag in zip(choice.spans, plain, strict=True))
    meets: list[list[tuple[Meet, int, bool]]] = [[] for _ in lanes]
    for found, apart, must in (
        (choice.meets, choice.apart, True),
        (choice.second, choice.second_apart, choice.second_must),
    ):
        for meet in found if apart else ():
            meets[meet.one].append((meet, apart, must))
            meets[meet.two].append((meet, apart, must))
    return Work(
        choice,
        lanes,
        stock,
        mix,
        cartons,
        choice.copies,
        _rip_pairs(lanes, stock),
        tuple(map(tuple, meets)),
    )


def _rip_pairs(lanes: Sequence[Lane], stock: Stock) -> tuple[tuple[int, int], ...]:
    """Lanes whose rips come two to a unit; each lane in at most one pair, widest first."""
    ripped = [i for i, lane in enumerate(lanes) if lane.span.width < stock.width]
    ripped.sort(key=lambda i: -lanes[i].span.width)
    pairs: list[tuple[int, int]] = []
    for one in ripped:
        for two in ripped:
            a, b = lanes[one].span, lanes[two].span
            sides = may_turn(stock) or a.side != b.side or a.side == 0
            near = stock.within is None or abs(a.row - b.row) <= stock.within
            wide = max(a.width, stock.scrap) + max(b.width, stock.scrap) + stock.kerf
            free = not any(i in pair for pair in pairs for i in (one, two))
            if one != two and sides and near and free and wide <= stock.width:
                pairs.append((min(one, two), max(one, two)))
    return tuple(pairs)


def with_needs(work: Work, least: int) -> Work:
    """The same work with no end piece shorter than ``least`` ticks."""
    lanes = []
    for lane in work.lanes:
        needs = max(lane.span.need_start, least), max(lane.span.need_end, least)
        span = replace(lane.span, need_start=needs[0], need_end=needs[1])
        lanes.append(replace(lane, span=span))
    return replace(work, lanes=tuple(lanes))


def spread_of(work: Work, filled: Sequence[Filled]) -> Spread:
    """What a whole filling costs."""
    near = _too_near(work, filled)
    soft = sum(not must for _, must in near)
    broken = len(near) - soft + sum(one.short for one in filled)
    taken = _taken(work, filled)
    cartons = cartons_holding(taken.fixed, taken.asked(work.mix), work.mix)
    over = _over(taken, cartons - 1, work.mix) if cartons > work.cartons else 0
    units = sum(taken.fixed) + len(taken.shares)
    wrong = {lane for meet, _ in near for lane in (meet.one, meet.two)}
    wrong |= {index for index, one in enumerate(filled) if one.short}
    return Spread(tuple(filled), Cost(broken, cartons, over, units, soft), tuple(sorted(wrong)))


@dataclass(frozen=True, slots=True)
class _Taken:
    """What fillings take of stock: whole units by length, ends, and how these share units."""

    fixed: tuple[int, ...]
    ends: tuple[End, ...]
    shares: tuple[Share, ...]

    def asked(self, mix: Mix) -> list[int]:
        """Units asked for by ends, by the shortest length that will do."""
        asked = [0] * len(mix)
        for _, need in self.shares:
            asked[shortest_for(need, mix)] += 1
        return asked


def _taken(work: Work, filled: Sequence[Filled | None]) -> _Taken:
    fixed, ends = [0] * len(work.mix), list[End]()
    for lane, one in zip(work.lanes, filled, strict=True):
        if one is not None:
            for unit in one.whole:
                fixed[unit] += 1
            ends += [End(one.first, lane.span.row, True)] if one.first else []
            ends += [End(one.last, lane.span.row, False)] if one.last else []
    for a, b in work.rips:
        one, two = filled[a], filled[b]
        if one is not None and two is not None:
            for unit in range(len(work.mix)):
                fixed[unit] -= min(one.whole.count(unit), two.whole.count(unit))
    every = [replace(e, row=e.row + FAR * copy) for copy in range(work.copies) for e in ends]
    counts = [count * work.copies for count in fixed]
    shares = share_ends(every, counts, work.stock, work.mix, thorough=False)
    return _Taken(tuple(counts), tuple(every), tuple(shares))


def _over(taken: _Taken, cartons: int, mix: Mix) -> int:
    """How many units are too many for so many cartons, over all lengths that run short."""
    asked = taken.asked(mix)
    over = wanted = held = 0
    for count, more, (_, per_carton) in zip(taken.fixed, asked, mix, strict=True):
        wanted, held = wanted + count + more, held + cartons * per_carton
        over += max(0, wanted - held) + max(0, count - cartons * per_carton)
    return over


def _too_near(work: Work, filled: Sequence[Filled]) -> list[tuple[Meet, bool]]:
    """The meetings of runs that have joints too near, and whether they must not."""
    found = []
    for index, meets in enumerate(work.meets):
        for meet, apart, must in meets:
            if meet.one == index:  # each meeting is listed with both its lanes
                ones = within(filled[meet.one].joints, meet.one_range)
                twos = within(filled[meet.two].joints, meet.two_range)
                if twos and any(distance(joint, twos) < apart for joint in ones):
                    found.append((meet, must))
    return found


def lay(work: Work, seed: int, aim: int) -> Spread:
    """A first filling, run after run, aiming at so many cartons."""
    rng = random.Random(seed)
    filled: list[Filled | None] = [None] * len(work.lanes)
    for index in range(len(work.lanes)):
        _fill(work, filled, index, aim, rng)
    return spread_of(work, [one for one in filled if one is not None])


def better(
    work: Work, spread: Spread, goal: Cost, seed: int, effort: int, tidy: bool = False
) -> Spread:
    """The filling after taking up runs and filling them again; never worse than it was.

    ``tidy`` as in ``Cost.by``; nothing better than the goal is looked for.
    """
    rng = random.Random(seed)
    while effort > 0 and spread.cost.by(tidy) > goal.by(tidy):
        filled: list[Filled | None] = list(spread.filled)
        chosen = _chosen(work, spread.wrong, rng)
        for index in chosen:
            filled[index] = None
        aim = max(work.cartons, spread.cost.cartons - 1)
        effort -= sum(_fill(work, filled, index, aim, rng) for index in chosen)
        after = spread_of(work, [one for one in filled if one is not None])
        spread = after if after.cost.by(tidy) <= spread.cost.by(tidy) else spread
    return spread


def _chosen(work: Work, wrong: Sequence[int], rng: random.Random) -> list[int]:
    """One to three lanes to fill anew: any, or one with something wrong, or some that meet."""
    first = rng.choice(wrong if wrong and rng.random() < WRONG else range(len(work.lanes)))
    beside = [meet.one + meet.two - first for meet, _, _ in work.meets[first]]
    count = rng.randrange(3)
    pool = beside if beside and rng.random() < 0.5 else range(len(work.lanes))
    more = {rng.choice(pool) for _ in range(count)} - {first}
    chosen = [first, *sorted(more)]
    rng.shuffle(chosen)
    return chosen


def _fill(work: Work, filled: list[Filled | None], index: int, aim: int, rng: random.Random) -> int:
    """Fill one lane in place, at prices for so many cartons; returns the work it took."""
    lane, choice = work.lanes[index], work.choice
    filler = Filler(work.mix, work.stock.kerf, choice.step)
    prices = _prices(work, filled, index, aim, rng)
    filled[index], effort = filler.fill(lane, _nears(work, filled, index), prices, rng)
    return effort + WEIGHED * len(work.lanes)


def _nears(work: Work, filled: Sequence[Filled | None], index: int) -> list[Near]:
    """The joints of lanes already filled that a lane's joints must keep away from."""
    found = []
    for meet, apart, must in work.meets[index]:
        first = meet.one == index
        mine, theirs = (meet.one_range, meet.two_range)[:: 1 if first else -1]
        other = filled[meet.two if first else meet.one]
        joints = within(other.joints, theirs) if other is not None else ()
        if joints:
            weight = BROKEN if must else float(work.mix[0][0])
            found.append(Near(mine, tuple(joints), apart, weight))
    return found


def _prices(
    work: Work, filled: Sequence[Filled | None], index: int, aim: int, rng: random.Random
) -> Prices:
    """Prices for one lane: dearer for lengths of which less is left than floor to lay."""
    mix, taken = work.mix, _taken(work, filled)
    given = hand_out([need for _, need in taken.shares], taken.fixed, mix)
    counts = needs_by_length(given, mix)
    share = _bare(work, filled)
    strength, strips = PRESSED * rng.random(), _strips(work, filled, index)
    units = []
    for place, (length, held) in enumerate(mix):
        left = 1 - (taken.fixed[place] + counts[place]) / max(aim * held, 1)
        press = min(max(1 - left / share, -1.0), 1.0)
        units.append(length * (STRIP if place in strips else 1 + strength * press))
    highs, lows = _offcuts(work, taken, given)
    hold, noise = rng.uniform(*HOLD), rng.uniform(*NOISE)
    return Prices(tuple(units), hold, noise, tuple(sorted(highs)), tuple(sorted(lows)))


def _bare(work: Work, filled: Sequence[Filled | None]) -> float:
    """The share of the floor that is not filled, more than none."""
    lengths = [lane.span.length for lane in work.lanes]
    bare = sum(n for n, one in zip(lengths, filled, strict=True) if one is None)
    return bare / sum(lengths)


def _offcuts(work: Work, taken: _Taken, given: Sequence[int]) -> tuple[list[int], list[int]]:
    """What units with one end piece leave for start pieces, and for end pieces."""
    highs, lows = list[int](), list[int]()
    for (members, need), length in zip(taken.shares, given, strict=True):
        rest = length - need - work.stock.kerf
        if len(members) == 1 and rest >= max(work.stock.scrap, 1):
            (lows if taken.ends[members[0]].high else highs).append(rest)
    return (highs + lows, highs + lows) if may_turn(work.stock) else (highs, lows)


def _strips(work: Work, filled: Sequence[Filled | None], index: int) -> set[int]:
    """The lengths of which the lane that shares its rips with this one has some."""
    others = [filled[a + b - index] for a, b in work.rips if index in (a, b)]
    return {unit for one in others if one is not None for unit in one.whole}
