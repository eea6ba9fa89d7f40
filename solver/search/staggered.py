"""Search of one direction of a staggered bond: start lines first, then row offsets.

All start lines of one interval share their runs, so offsets are sought once for each
distinct set of runs (a *pattern*) and the line inside the interval is chosen for its rips.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from models.floor.centring import held_lines
from models.floor.ends import end_needs
from models.floor.lines import Stop as WallStop
from models.floor.lines import breaklines, candidates, smallest, stops_along
from models.floor.runs import Run, runs_of, slabs
from models.floor.sizes import SAME
from models.floor.zone import Zone
from models.job.data import Job, Kind
from models.program.spans import Choice, Span, meets_of
from solver.search.bounds import area_bound, flow_bound, quick_bound
from solver.search.draft import field_stock
from solver.search.engine import best_offsets
from solver.search.found import Found, Searched, Stop
from solver.search.improve import improve
from solver.search.lay import Laid, earlier_meets, judge, lay
from solver.stock.pack import Stock

FIRST_TRIES = 3
MORE_TRIES = 24
DEEP_PATTERNS = 3
FINISHED_PATTERNS = 6
CLOSE_UNITS = 400
"""CP-SAT is asked to close a gap only on jobs of at most this many share literals."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """Start lines with the same runs: the lines, the runs of each, the choice of offsets."""

    lines: tuple[int, ...]
    runs: tuple[tuple[Run, ...], ...]
    choice: Choice
    rip_short: int


@dataclass(frozen=True, slots=True)
class Tried:
    """A pattern with its bound and the best offsets so far (best first)."""

    pattern: Pattern
    at_least: int
    laid: tuple[Laid, ...]

    @property
    def cost(self) -> tuple[int, int, int, int]:
        """Broken rips first, then broken joints, units, broken preferences."""
        best = self.laid[0]
        return (self.pattern.rip_short, *best.cost)


def search(job: Job, zone: Zone, say: Callable[[str], None], stop: Stop) -> Searched:
    """The best start lines and offsets of one direction."""
    stock = field_stock(job)
    patterns = patterns_of(job, zone)
    tried = []
    for number, pattern in enumerate(patterns, 1):
        if tried and stop():
            break
        say(f"{zone.direction.label}: start lines {number} of {len(patterns)}")
        tried.append(_try(pattern, stock, range(FIRST_TRIES)))
    complete = len(tried) == len(patterns)
    tried.sort(key=lambda t: (t.cost, t.pattern.lines))
    for place in range(min(DEEP_PATTERNS, len(tried))):
        if not stop():
            tried[place] = _deepen(tried[place], stock)
    tried.sort(key=lambda t: (t.cost, t.pattern.lines))
    at_least = _bound(zone, tried, stock) if complete else area_bound(zone, stock)
    found = [f for t in tried[:FINISHED_PATTERNS] for f in _finish(zone, t)]
    return Searched(tuple(found), at_least, complete)


def patterns_of(job: Job, zone: Zone) -> list[Pattern]:
    """Every distinct set of runs the admitted start lines give, with its lines."""
    product, rules = job.product_of(job.field), job.field.rules
    pitch = product.pitch
    stops = stops_along(zone.edges, pitch[0])
    held = held_lines(zone, job, [r for r in rules.centred if r.kind is Kind.MUST], pitch[1], True)
    breaks = breaklines([v for e in zone.edges for v in (e.start[1], e.end[1])], pitch[1])
    lines = candidates(stops, breaks, pitch[1], job.tape_step, held or None,
                       0 if zone.rectilinear else 12)
    prefer = held_lines(zone, job, rules.centred, pitch[1], True)
    lines = sorted({*lines, *(round(line) % pitch[1] for line in prefer or [])})
    least = rules.smallest_cut.limit if rules.smallest_cut else 0
    levels = slabs(zone)
    groups: dict[object, list[tuple[int, tuple[Run, ...], int]]] = {}
    for line in lines:
        runs = runs_of(zone, levels, pitch[1], line)
        short = int(smallest(stops, line, pitch[1]) < least - SAME)
        key: object = (tuple((r.row, r.start, r.end) for r in runs), short) if zone.rectilinear else line
        groups.setdefault(key, []).append((line, runs, short))
    return [_pattern(job, members, stops) for members in groups.values()]


def _pattern(job: Job, members: list[tuple[int, tuple[Run, ...], int]],
             stops: list[WallStop]) -> Pattern:
    pitch = job.product_of(job.field).pitch[1]
    # The line with the largest smallest cut leads: it is the one finished first.
    members.sort(key=lambda m: (-smallest(stops, m[0], pitch), m[0]))
    return Pattern(tuple(m[0] for m in members), tuple(m[1] for m in members),
                   choice_of(job, members[0][1]), members[0][2])


def choice_of(job: Job, runs: tuple[Run, ...]) -> Choice:
    """The choice of row offsets the runs and the job's rules leave."""
    product, rules = job.product_of(job.field), job.field.rules
    spare = rules.tape_tolerance.limit if rules.tape_tolerance else 0
    cut = rules.smallest_cut.limit + spare if rules.smallest_cut else 0
    end = rules.smallest_end.limit + spare if rules.smallest_end else 0
    spans = tuple(_span(run, product.pitch, cut, end) for run in runs)
    near, second = meets_of(runs)
    return Choice(
        product.pitch[0], job.tape_step, product.kerf, spans, near, second,
        rules.joint_offset.limit if rules.joint_offset else 0,
        rules.second_joint_offset.limit if rules.second_joint_offset else 0,
        rules.no_stair.limit if rules.no_stair else None,
        rules.reuse_within.limit if rules.reuse_within else None,
        bool(rules.second_joint_offset and rules.second_joint_offset.kind is Kind.MUST),
        bool(rules.no_stair and rules.no_stair.kind is Kind.MUST))


def _span(run: Run, pitch: tuple[int, int], cut: int, end: int) -> Span:
    needs = end_needs(run, pitch, cut, end)
    at_low, at_high = run.bottom == run.low, run.top == run.low + pitch[1]
    side = 0 if at_low == at_high else -1 if at_low else 1
    return Span(run.row, run.start, run.end, *needs, run.top - run.bottom, side)


def _try(pattern: Pattern, stock: Stock, seeds: range) -> Tried:
    earlier = earlier_meets(pattern.choice)
    at_least = quick_bound(pattern.choice, stock)
    laid = _several(lay(pattern.choice, earlier, seed) for seed in seeds)
    return Tried(pattern, at_least, laid)


def _several(found: object) -> tuple[Laid, ...]:
    unique = {laid.offsets: laid for laid in found}  # type: ignore[attr-defined]
    return tuple(sorted(unique.values(), key=lambda laid: (laid.cost, laid.offsets))[:3])


def _deepen(tried: Tried, stock: Stock) -> Tried:
    """More tries, then improvement, then CP-SAT, until the bound is met or effort is spent."""
    choice = tried.pattern.choice
    at_least = flow_bound(choice, stock)
    laid = tried.laid
    if laid[0].cost[:2] > (0, at_least):
        earlier = earlier_meets(choice)
        more = [lay(choice, earlier, seed) for seed in range(FIRST_TRIES, FIRST_TRIES + MORE_TRIES)]
        laid = _several([*laid, *more])
    if laid[0].cost > (0, at_least, 0):
        laid = _several([improve(choice, one, at_least, seed) for seed, one in enumerate(laid)] + list(laid))
    if laid[0].cost[:2] > (0, at_least) and len(choice.spans) ** 2 <= CLOSE_UNITS:
        answer = best_offsets(choice, laid[0].offsets, 1.0, may_break=laid[0].broken > 0)
        if answer.offsets is not None:
            laid = _several([judge(choice, answer.offsets), *laid])
        if answer.proved and answer.offsets is not None and not choice.stair:
            at_least = max(at_least, min(at_least, laid[0].units))
    return Tried(tried.pattern, at_least, laid)


def _bound(zone: Zone, tried: list[Tried], stock: Stock) -> int:
    """The least of the patterns' bounds; of the area alone where walls slant."""
    area = area_bound(zone, stock)
    if not zone.rectilinear:
        return area
    best = min(t.laid[0].units for t in tried)
    bounds = [t.at_least if t.at_least >= best else flow_bound(t.pattern.choice, stock) for t in tried]
    return max(area, min(bounds))


def _finish(zone: Zone, tried: Tried) -> list[Found]:
    """The layouts of a pattern worth cutting to pieces: its best line, and others beside it."""
    pattern = tried.pattern
    chosen = [0, *range(1, min(3, len(pattern.lines)))]
    found = [Found(zone, pattern.lines[i], pattern.runs[i], tried.laid[0].offsets,
                   tried.laid[0].units, pattern.rip_short + tried.laid[0].broken) for i in chosen]
    found += [Found(zone, pattern.lines[0], pattern.runs[0], laid.offsets, laid.units,
                    pattern.rip_short + laid.broken) for laid in tried.laid[1:]]
    return found
