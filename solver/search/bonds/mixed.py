"""Search of one direction of a staggered bond with units of several lengths in a carton.

There are no row offsets: every run has its own list of units. For each pattern of start
lines the runs are filled several times over (``mixed_floor``, ``mixed_row``), the best
fillings bettered, and the best few of all cut to pieces and packed. What counts first is
cartons, then units, then the shortest end piece.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from models.floor.cells import RunCells, pieces_in_cells
from models.floor.combs import longest_comb
from models.floor.sizes import SAME
from models.job.data import Kind, Marks
from solver.search.bonds.mixed_floor import (
    Cost,
    Spread,
    Work,
    better,
    lay,
    spread_of,
    with_needs,
    work_of,
)
from solver.search.bonds.mixed_row import cells_of
from solver.search.bonds.patterns import Pattern, patterns_of
from solver.search.draft import zone_stock
from solver.search.found import Found, Say, Searched, Stop, Task
from solver.stock.mix import (
    Mix,
    cartons_at_least,
    cartons_for,
    mix_of,
    needs_by_length,
    units_at_least,
)
from solver.stock.mixed import pack_mixed
from solver.stock.parts import parts_of

TRIES = 3
"""First fillings of each pattern."""

PROMISING_PATTERNS = 5
"""Patterns that get a round of bettering before the few that get them all are chosen."""

DEEP_PATTERNS = 2
ROUNDS = 8
IDLE_ROUNDS = 3
EFFORT = 40_000
"""Work in one round of bettering (see ``mixed_floor.WEIGHED``)."""

TIDY_ROUNDS = 3
WIDER_STEPS = 3
KEPT = 3
FINISHED_PATTERNS = 3


@dataclass(frozen=True, slots=True)
class Tried:
    """A pattern with the best fillings so far, best first.

    ``others`` are good at something else: at preferred distances, at long end pieces.
    ``thin`` tells that a rip or a slanted piece is under the smallest cut asked for.
    """

    pattern: Pattern
    work: Work
    thin: bool
    spreads: tuple[Spread, ...]
    others: tuple[Spread, ...] = ()

    @property
    def promise(self) -> tuple[object, ...]:
        """Broken rips first, then what the best filling costs; start lines settle ties."""
        return self.thin, self.spreads[0].cost, self.pattern.lines

    def with_(self, spread: Spread) -> Tried:
        """The same with one more filling, if it is among the best."""
        return replace(self, spreads=_several([spread, *self.spreads]))


def search(task: Task, say: Say, stop: Stop) -> Searched:
    """The best start lines and units of every run for one direction; bounds as in ``Searched``.

    Each ``Found`` has ``cells`` and no offsets; the first of them is the best.
    """
    mix, length = mix_of(task.product), length_at_least(task)
    cartons = cartons_at_least(length, mix)
    goal = Cost(0, cartons, 0, units_at_least(length, mix, cartons), 0)
    patterns, tried = patterns_of(task), list[Tried]()
    where = f"{task.zone.name}, {task.zone.direction.label}"
    for number, pattern in enumerate(patterns, 1):
        if tried and stop():
            break
        say(f"{where}: start lines {number} of {len(patterns)}")
        tried.append(_try(task, pattern, mix, cartons))
    complete = len(tried) == len(patterns)
    if task.effort.deep:
        tried = _bettered(tried, goal, where, say, stop)
    tried.sort(key=lambda t: t.promise)
    found = [f for t in tried[:FINISHED_PATTERNS] for f in _finish(task, t, mix)]
    admitted = any(not t.pattern.narrow for t in tried) or not complete
    found.sort(key=lambda f: f[0])
    return Searched(tuple(f for _, f in found), units_at_least(length, mix), complete, admitted)


def length_at_least(task: Task) -> float:
    """Length in ticks of units end to end that any layout takes: by area, by the longest comb."""
    stock = zone_stock(task.job, task.zone.laying)
    area = task.zone.polygon.area / stock.width * task.copies
    held = stock.directional and not stock.shop_cuts and task.zone.laying.marks is Marks.ONE_WAY
    return max(area, longest_comb(task.zone, stock.width)) if held else area


def _try(task: Task, pattern: Pattern, mix: Mix, cartons: int) -> Tried:
    """A few first fillings of a pattern, for the fewest cartons and for one more."""
    runs, stock = pattern.runs[0], zone_stock(task.job, task.zone.laying)
    work = work_of(pattern.choice, [run.outline is None for run in runs], stock, mix, cartons)
    spreads = _several([lay(work, s, cartons + s % 2) for s in range(TRIES)])
    cuts = pieces_in_cells(runs, _cells(work, spreads[0]), stock.width)
    smallest = task.zone.laying.rules.smallest_cut
    least = smallest.limit if smallest and smallest.kind is Kind.MUST else 0
    sizes = [s for cut in cuts for s in (cut.sizes.across, cut.sizes.slant) if s is not None]
    return Tried(pattern, work, min(sizes, default=least) < least - SAME, spreads)


def _bettered(tried: list[Tried], goal: Cost, where: str, say: Say, stop: Stop) -> list[Tried]:
    """One round for promising patterns, all rounds for the best two, variety for the best."""
    tried = sorted(tried, key=lambda t: t.promise)
    for place in range(min(PROMISING_PATTERNS, len(tried))):
        tell = partial(say, f"{where}: rows of pattern {place + 1}")
        tried[place] = _deepen(tried[place], goal, range(1), tell, stop)
    tried.sort(key=lambda t: t.promise)
    for place in range(min(DEEP_PATTERNS, len(tried))):
        if place == 0 or tried[0].spreads[0].cost[:2] > goal[:2]:
            tell = partial(say, f"{where}: better rows of pattern {place + 1}")
            tried[place] = _deepen(tried[place], goal, range(1, ROUNDS), tell, stop)
    tried.sort(key=lambda t: t.promise)
    if not stop():
        say(f"{where}: joints and ends of the best rows")
        tried[0] = _varied(tried[0], goal)
    return tried


def _deepen(tried: Tried, goal: Cost, rounds: range, tell: Callable[[], None], stop: Stop) -> Tried:
    """Rounds of bettering until the goal is met or some bring nothing: mostly the best filling."""
    idle = 0
    for seed in rounds:
        best = tried.spreads[0]
        if stop() or best.cost <= goal or idle == IDLE_ROUNDS:
            break
        tell()
        start = tried.spreads[min(seed % 3 == 2, len(tried.spreads) - 1)]
        tried = tried.with_(better(tried.work, start, goal, seed, EFFORT))
        idle = idle + 1 if tried.spreads[0].cost == best.cost else 0
    return tried


def _varied(tried: Tried, goal: Cost) -> Tried:
    """The best filling with preferred distances before units, and one with longer end pieces."""
    work, best = tried.work, tried.spreads[0]
    neat = min(tried.spreads, key=lambda s: s.cost.by(tidy=True))
    tidy = better(work, neat, goal, 1, EFFORT * TIDY_ROUNDS, tidy=True)
    others = [tidy] if tidy.cost.soft < best.cost.soft else []
    low, high = best.shortest, min(tried.pattern.rip, work.mix[-1][0])
    for seed in range(WIDER_STEPS if 0 < low < high else 0):
        least = (low + high + 1) // 2
        tighter = with_needs(work, least)
        after = better(tighter, lay(tighter, seed, work.cartons), goal, seed, EFFORT)
        kept = after.cost[:2] <= best.cost[:2]
        others += [spread_of(work, after.filled)] if kept else []
        low, high = (least, high) if kept else (low, least)
    return replace(tried, others=tuple(others[:1] + others[1:][-1:]))


def _several(spreads: Sequence[Spread]) -> tuple[Spread, ...]:
    """The best different fillings, best first."""
    unique = {spread.filled: spread for spread in spreads}
    return tuple(sorted(unique.values(), key=lambda s: (s.cost, -s.shortest))[:KEPT])


def _finish(task: Task, tried: Tried, mix: Mix) -> list[tuple[tuple[object, ...], Found]]:
    """The fillings of a pattern at its best line, the best one at others too; how good each is."""
    pattern = tried.pattern
    chosen = [(0, spread) for spread in (*tried.spreads, *tried.others)]
    chosen += [(line, tried.spreads[0]) for line in range(1, min(3, len(pattern.lines)))]
    found: list[tuple[tuple[object, ...], Found]] = []
    for line, spread in chosen:
        cells = _cells(tried.work, spread)
        cartons, units = _packed(task, pattern, line, cells, mix)
        broken = int(tried.thin) + spread.cost.broken
        one = Found(
            task.zone,
            pattern.lines[line],
            pattern.runs[line],
            (),
            units * task.copies,
            broken,
            cells=cells,
        )
        found.append(((broken, cartons, units, -spread.shortest, spread.cost.soft, line), one))
    return found


def _cells(work: Work, spread: Spread) -> tuple[RunCells, ...]:
    """The cells of every run of a filling."""
    lanes = zip(work.lanes, spread.filled, strict=True)
    return tuple(cells_of(lane, one, work.mix) for lane, one in lanes)


def _packed(
    task: Task, pattern: Pattern, line: int, cells: tuple[RunCells, ...], mix: Mix
) -> tuple[int, int]:
    """Cartons and units of a filling cut to pieces and packed."""
    runs, stock = pattern.runs[line], zone_stock(task.job, task.zone.laying)
    cuts = pieces_in_cells(runs, cells, stock.width, measured=False)
    units = pack_mixed(parts_of(cuts, runs, task.zone.laying.marks), stock, mix)
    counts = needs_by_length((length for _, length in units), mix)
    return cartons_for([count * task.copies for count in counts], mix), len(units)
