"""Units of several lengths against brute force and against HiGHS (through scipy).

Brute force lays every row of a tiny room in every way there is on a coarse tape and pairs
end pieces in every way. HiGHS solves the sharing of end pieces as a whole-number program:
an assignment problem with stock of several lengths, as in the cutting stock literature
(Gilmore and Gomory, Operations Research 9, 1961, for several stock lengths; from memory).
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import accumulate, combinations

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from models.job.data import Rules
from solver.search.bonds import mixed
from solver.search.found import Only
from solver.stock.ends import End, Share, share_ends
from solver.stock.mix import Mix, cartons_holding, shortest_for
from solver.stock.parts import Stock
from tests.search.mixed_floors import box, cartons_of, must, task_of

STEP = 10
"""The tape step, and every length, in whole tens of millimetres."""

Row = tuple[tuple[int, ...], int, tuple[int, ...], int]
"""End joints, cut start piece (0: none), whole lengths, cut end piece (0: none)."""


def rows(length: int, lengths: Sequence[int], end: int) -> Iterator[Row]:
    """Every way to lay a row whose cut ends are at least ``end`` long; one joint at least."""

    def go(at: int, joints: tuple[int, ...], first: int, whole: tuple[int, ...]) -> Iterator[Row]:
        left = length - at
        if left in lengths:
            yield joints, first, (*whole, left), 0
        elif end <= left < max(lengths):
            yield joints, first, whole, left
        for unit in lengths:
            if unit < left:
                yield from go(at + unit, (*joints, at + unit), first, (*whole, unit))

    for start in range(end, max(lengths), STEP):
        if start not in lengths and start < length:
            yield from go(start, (start,), start, ())
    for unit in lengths:
        if unit < length:
            yield from go(unit, (unit,), 0, (unit,))


def pairings(
    firsts: Sequence[int], lasts: Sequence[int], kerf: int, longest: int
) -> Iterator[list[int]]:
    """The lengths needed for every way end pieces share units with start pieces."""
    if not firsts:
        yield list(lasts)
        return
    mine, *rest = firsts
    for needs in pairings(rest, lasts, kerf, longest):
        yield [mine, *needs]
    for place, other in enumerate(lasts):
        if mine + other + kerf <= longest:
            left = [*lasts[:place], *lasts[place + 1 :]]
            for needs in pairings(rest, left, kerf, longest):
                yield [mine + other + kerf, *needs]


def cartons_needed(
    wholes: Sequence[int], needs: Sequence[int], mix: Sequence[tuple[int, int]]
) -> int:
    """The fewest cartons with the whole lengths, and a unit long enough for every need.

    One number after another is tried: the longest units left go to the longest needs.
    """
    cartons = max(-(-wholes.count(length) // held) for length, held in mix) or 1
    while True:
        left = [(length, held * cartons - wholes.count(length)) for length, held in mix]
        stock = sorted((length for length, count in left for _ in range(count)), reverse=True)
        wanted = sorted(needs, reverse=True)
        if len(wanted) <= len(stock) and all(
            have >= want for want, have in zip(wanted, stock, strict=False)
        ):
            return cartons
        cartons += 1


def fewest(
    length: int, count: int, mix: tuple[tuple[int, int], ...], end: int, apart: int, kerf: int
) -> int:
    """The fewest cartons for one or two rows, every way tried."""
    every = list(rows(length, [unit for unit, _ in mix], end))
    longest = mix[0][0]

    @cache
    def cost(firsts: tuple[int, ...], lasts: tuple[int, ...], wholes: tuple[int, ...]) -> int:
        return min(
            cartons_needed(wholes, needs, mix) for needs in pairings(firsts, lasts, kerf, longest)
        )

    def of(laid: Sequence[Row]) -> int:
        firsts = tuple(sorted(row[1] for row in laid if row[1]))
        lasts = tuple(sorted(row[3] for row in laid if row[3]))
        return cost(firsts, lasts, tuple(sorted(unit for row in laid for unit in row[2])))

    if count == 1:
        return min(of([row]) for row in every)
    return min(
        of([one, two])
        for one in every
        for two in every
        if all(abs(a - b) >= apart for a in one[0] for b in two[0])
    )


TINY = [
    # length, rows, mix, least end, joints apart, kerf
    (1000, 1, ((600, 1), (400, 1)), 100, 0, 0),
    (1050, 1, ((600, 1), (400, 1)), 100, 0, 0),
    (1050, 1, ((400, 2), (300, 1)), 150, 0, 10),
    (1000, 2, ((600, 1), (400, 1)), 100, 150, 0),
    (1000, 2, ((600, 1), (400, 1)), 100, 250, 0),
    (1100, 2, ((500, 2), (300, 1)), 150, 100, 10),
    (1240, 2, ((500, 1), (360, 2)), 120, 120, 10),
    (900, 2, ((400, 1), (240, 1)), 100, 80, 0),
    (900, 2, ((400, 1), (240, 3)), 200, 80, 10),
]


@pytest.mark.parametrize(("length", "count", "mix", "end", "apart", "kerf"), TINY)
def test_a_tiny_room_takes_the_fewest_cartons_brute_force_finds(
    length: int, count: int, mix: tuple[tuple[int, int], ...], end: int, apart: int, kerf: int
) -> None:
    rules = Rules(smallest_end=must(end), joint_offset=must(apart) if apart else None)
    task = task_of(box(length, 200 * count), mix, rules, kerf=kerf, step=STEP, only=Only(rows=(0,)))
    (best, *_) = mixed.search(task, lambda _: None, lambda: False).found
    assert best.broken == 0
    assert cartons_of(task, best) == fewest(length, count, mix, end, apart, kerf)


def by_highs(ends: Sequence[End], fixed: Sequence[int], stock: Stock, mix: Mix) -> tuple[int, int]:
    """Cartons and units of the best sharing of ends, by HiGHS.

    A 0-1 variable for every end alone and every pair that may share; the last counts cartons.
    """
    shares: list[Share] = [((i,), end.length) for i, end in enumerate(ends)]
    for a, b in combinations(range(len(ends)), 2):
        need = ends[a].length + ends[b].length + stock.kerf
        if need <= mix[0][0] and ends[a].high is not ends[b].high:
            shares.append(((a, b), need))
    size = len(shares) + 1
    once = np.zeros((len(ends), size))
    for column, (members, _) in enumerate(shares):
        once[list(members), column] = 1
    held = np.zeros((2 * len(mix), size))
    room = []
    together = list(accumulate(count for _, count in mix))
    taken = list(accumulate(fixed))
    for place in range(len(mix)):
        for column, (_, need) in enumerate(shares):
            held[place, column] = shortest_for(need, mix) <= place
        held[place, -1] = -together[place]
        held[len(mix) + place, -1] = -mix[place][1]
        room.append(-taken[place])
    room += [-count for count in fixed]
    costs = np.ones(size)
    costs[-1] = 1000
    result = milp(
        costs,
        constraints=[LinearConstraint(once, 1, 1), LinearConstraint(held, -np.inf, room)],
        bounds=Bounds(0, np.append(np.ones(size - 1), 1000)),
        integrality=np.ones(size, dtype=np.int64),
        options={"mip_rel_gap": 0.0},
    )
    assert result.x is not None
    return round(result.x[-1]), round(result.x[:-1].sum())


@pytest.mark.parametrize("seed", range(12))
def test_ends_take_the_cartons_highs_finds_and_at_most_one_unit_more(seed: int) -> None:
    rng = random.Random(seed)
    mix: Mix = ((120, rng.randint(1, 4)), (90, rng.randint(1, 4)), (60, rng.randint(1, 4)))
    stock = Stock(120, 20, 1, True)
    ends = [End(rng.randint(20, 100), row, high) for row in range(10) for high in (True, False)]
    fixed = [rng.randint(0, 8) for _ in mix]
    shares = share_ends(ends, fixed, stock, mix)
    asked = [sum(shortest_for(need, mix) == place for _, need in shares) for place in range(3)]
    cartons, units = by_highs(ends, fixed, stock, mix)
    assert cartons_holding(fixed, asked, mix) == cartons
    assert units <= len(shares) <= units + 1
