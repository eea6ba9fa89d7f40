"""Search of one direction of a staggered bond: row offsets for every pattern of start lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.floor.zone import Zone
from models.program.spans import Choice, allowed, end_piece, start_piece
from solver.search.bonds.improve import improve
from solver.search.bonds.lay import Laid, earlier_meets, judge, lay
from solver.search.bonds.patterns import Pattern, patterns_of
from solver.search.bounds import cover_of, firm_units, flow_bound, quick_bound, together
from solver.search.draft import zone_stock
from solver.search.engine import best_offsets
from solver.search.found import Found, Say, Searched, Stop, Task
from solver.stock.parts import Stock

SMALL_UNITS = 40
"""Floors of at most this many units get many tries, all cut to pieces and packed."""
SMALL_TRIES = 80
SMALL_KEPT = 24
KEPT = 3
FIRST_TRIES = 2
FIRST_MOVES = 600
MORE_TRIES = 4
MORE_MOVES = 8000
MORE_ROUNDS = 10
IDLE_ROUNDS = 4
DEEP_PATTERNS = 2
SLANT_DEEP_PATTERNS = 4
"""Patterns searched in depth; where walls slant each start line is a pattern of its own."""
FINISHED_PATTERNS = 6
WIDENED = 1
"""Patterns for which offsets with longer end pieces are sought too."""
WIDER_STEPS = 4
CLOSE_EFFORT = 0.5
CLOSE_SPANS = 20
"""CP-SAT is asked to close a gap only for at most this many runs."""
BREAK_EFFORT = 2.0
BREAK_SPANS = 80
"""The same to avoid a broken joint rule."""


@dataclass(frozen=True, slots=True)
class Tried:
    """A pattern with its bound and the best offsets so far (best first).

    ``wider`` are offsets with longer end pieces and about as many units.
    """

    pattern: Pattern
    at_least: int
    laid: tuple[Laid, ...]
    wider: tuple[Laid, ...] = ()

    @property
    def cost(self) -> tuple[int, int, int, int]:
        """Broken rips first, then broken joints, units, broken preferences."""
        return (int(self.pattern.narrow), *self.laid[0].cost)


def search(task: Task, say: Say, stop: Stop, before: Sequence[Searched] = ()) -> Searched:
    """The best start lines and offsets of one direction.

    ``before`` is what other directions found: patterns that cannot need less than they do
    get no more effort than a first answer.
    """
    job, zone = task.job, task.zone
    stock = zone_stock(job, zone.laying)
    patterns = patterns_of(task)
    room = together([cover_of(job, zone)] * task.copies)
    firm = firm_units(job, zone) if task.copies == 1 and task.effort.deep else 0
    tried: list[Tried] = []
    for number, pattern in enumerate(patterns, 1):
        if tried and stop():
            break
        say(f"{zone.name}, {zone.direction.label}: start lines {number} of {len(patterns)}")
        tried.append(_try(pattern, stock, zone.rectilinear, max(room, firm)))
    complete = len(tried) == len(patterns)
    tried.sort(key=_promise)
    others = [f.units for s in before for f in s.found if not f.broken]
    deep = DEEP_PATTERNS if zone.rectilinear else SLANT_DEEP_PATTERNS
    for place in range(min(deep, len(tried)) if task.effort.deep else 0):
        kept = [t.laid[0].units for t in tried if t.cost[:2] == (0, 0)]
        goal = min(others + (kept if place else []), default=None)
        if not stop() and (goal is None or tried[place].at_least < goal):
            say(f"{zone.name}, {zone.direction.label}: offsets of pattern {place + 1}")
            tried[place] = _deepen(tried[place], stock, zone.rectilinear)
    tried.sort(key=lambda t: (t.cost, t.pattern.lines))
    if task.effort.deep:
        tried = [replace(t, wider=_wider(t)) for t in tried[:WIDENED]] + tried[WIDENED:]
    admitted = [t for t in tried if not t.pattern.narrow]
    floor = min((s.at_least for s in before if s.admitted), default=None)
    bounded = complete and zone.rectilinear and task.effort.deep
    if bounded:
        room = max(room, _bound(admitted or tried, stock, floor))
    if not any(laid.broken for t in tried for laid in (*t.laid, *t.wider)):
        room = max(room, firm)
    found = [f for t in tried[:FINISHED_PATTERNS] for f in _finish(zone, t)]
    told = tuple(t.pattern.bound for t in admitted or tried) if bounded else ()
    return Searched(tuple(found), room, complete, bool(admitted) or not complete, told)


def _promise(tried: Tried) -> tuple[int, int, int, tuple[int, ...]]:
    """Patterns that keep the rules and might need least come first."""
    best = tried.laid[0]
    return int(tried.pattern.narrow), best.broken, best.units, tried.pattern.lines


def _try(pattern: Pattern, stock: Stock, many: bool, room: int) -> Tried:
    """A first answer for a pattern: a few tries (or many, if small), the best improved a little."""
    earlier = earlier_meets(pattern.choice)
    at_least = max(room, quick_bound(pattern.bound, stock))
    tries = SMALL_TRIES if many and at_least <= SMALL_UNITS else FIRST_TRIES
    laid = _several([lay(pattern.choice, earlier, seed) for seed in range(tries)])
    better = improve(pattern.choice, laid[0], at_least, 0, FIRST_MOVES)
    return Tried(pattern, at_least, _several([better, *laid]))


def _several(found: Sequence[Laid]) -> tuple[Laid, ...]:
    """The best different ones, best first: a few, or on a small floor many."""
    unique = {laid.offsets: laid for laid in found}
    ordered = sorted(unique.values(), key=lambda laid: (laid.cost, laid.offsets))
    return tuple(ordered[: SMALL_KEPT if ordered[0].units <= SMALL_UNITS else KEPT])


def _deepen(tried: Tried, stock: Stock, exact: bool) -> Tried:
    """More tries, then improvement, then CP-SAT, until the bound is met or effort is spent."""
    choice, laid, at_least = tried.pattern.choice, tried.laid, tried.at_least
    if laid[0].cost[:2] > (0, at_least) and exact:
        at_least = max(at_least, flow_bound(tried.pattern.bound, stock))
    if laid[0].cost[:2] > (0, at_least):
        earlier = earlier_meets(choice)
        more = [lay(choice, earlier, seed) for seed in range(FIRST_TRIES, FIRST_TRIES + MORE_TRIES)]
        laid = _several([*laid, *more])
    idle = 0
    for seed in range(1, MORE_ROUNDS + 1):
        if laid[0].cost <= (0, at_least, 0) or idle == IDLE_ROUNDS:
            break
        # Mostly on from the best; every third round from the next best, for a way round.
        start = laid[min(seed % 3 == 0, len(laid) - 1)]
        cost = laid[0].cost
        laid = _several([improve(choice, start, at_least, seed, MORE_MOVES), *laid])
        idle = idle + 1 if laid[0].cost == cost else 0
    if _worth_solving(choice, laid[0], at_least):
        broken = laid[0].broken > 0
        effort = BREAK_EFFORT if broken else CLOSE_EFFORT
        answer = best_offsets(choice, laid[0].offsets, effort, may_break=broken)
        if answer.offsets is not None:
            laid = _several([judge(choice, answer.offsets), *laid])
    return Tried(tried.pattern, at_least, laid)


def _wider(tried: Tried) -> tuple[Laid, ...]:
    """Offsets with the longest end pieces that need no more units, and one unit more.

    The smallest cut of a layout is its narrowest rip or its shortest end piece: longer end
    pieces than that rip bring nothing.
    """
    choice, found = tried.pattern.choice, []
    for units in (tried.laid[0].units, tried.laid[0].units + 1):
        low, high = _shortest(choice, tried.laid[0].offsets), min(tried.pattern.rip, choice.pitch)
        best: Laid | None = None
        for seed in range(WIDER_STEPS):
            least = (low + high + 1) // 2
            spans = tuple(
                replace(s, need_start=max(s.need_start, least), need_end=max(s.need_end, least))
                for s in choice.spans
            )
            tighter = replace(choice, spans=spans)
            start = lay(tighter, earlier_meets(tighter), seed)
            after = improve(tighter, start, units, seed, FIRST_MOVES * 2)
            kept = not after.broken and after.units <= units
            best = judge(choice, after.offsets) if kept else best
            low, high = (least, high) if kept else (low, least)
        found += [best] if best is not None else []
    return tuple(found)


def _shortest(choice: Choice, offsets: Sequence[int]) -> int:
    """The shortest end piece of a set of offsets; the pitch when every end is whole."""
    ends = [
        piece(span, offset, choice.pitch)
        for span, offset in zip(choice.spans, offsets, strict=True)
        for piece in (start_piece, end_piece)
    ]
    return min(ends)


def _worth_solving(choice: Choice, laid: Laid, at_least: int) -> bool:
    """Whether CP-SAT may still do better: a gap on a small floor, or a break it could avoid."""
    hopeless = sum(not allowed(span, choice.pitch, choice.step) for span in choice.spans)
    if laid.broken > hopeless:
        return len(choice.spans) <= BREAK_SPANS
    return laid.cost[:2] > (0, at_least) and len(choice.spans) <= CLOSE_SPANS


def _bound(tried: list[Tried], stock: Stock, floor: int | None) -> int:
    """The least of the patterns' bounds, for a rectilinear zone.

    The stock flow is asked only for patterns that could lower it; ``floor`` is a bound of
    other directions, below which alone this one matters.
    """
    least = min(t.laid[0].units for t in tried)
    least = least if floor is None else min(least, floor)
    for one in sorted(tried, key=lambda t: t.at_least):
        if one.at_least >= least:
            break
        least = min(least, max(one.at_least, flow_bound(one.pattern.bound, stock)))
    return least


def _finish(zone: Zone, tried: Tried) -> list[Found]:
    """The layouts of a pattern worth cutting to pieces: its best line, and others beside it."""
    pattern, best = tried.pattern, tried.laid[0]
    chosen = [(0, laid) for laid in (best, *tried.wider, *tried.laid[1:])]
    chosen[1:1] = [(line, best) for line in range(1, min(3, len(pattern.lines)))]
    return [
        Found(
            zone,
            pattern.lines[line],
            pattern.runs[line],
            laid.offsets,
            laid.units,
            int(pattern.narrow) + laid.broken,
            pattern.choice,
        )
        for line, laid in chosen
    ]
