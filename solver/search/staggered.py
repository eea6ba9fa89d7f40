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
MORE_TRIES = 12
IMPROVED = 4
DEEP_PATTERNS = 4
FINISHED_PATTERNS = 6
SLANT_LINES = 20
"""Start lines kept where walls slant and every line has runs of its own."""
CLOSE_SPANS = 20
"""CP-SAT is asked to close a gap only for at most this many runs."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """Start lines with the same runs: the lines, the runs of each, the choice of offsets.

    ``narrow`` is True when at all these lines some whole run is ripped under a must rule.
    """

    lines: tuple[int, ...]
    runs: tuple[tuple[Run, ...], ...]
    choice: Choice
    narrow: bool


@dataclass(frozen=True, slots=True)
class Tried:
    """A pattern with its bound and the best offsets so far (best first)."""

    pattern: Pattern
    at_least: int
    laid: tuple[Laid, ...]

    @property
    def cost(self) -> tuple[int, int, int, int]:
        """Broken rips first, then broken joints, units, broken preferences."""
        return (int(self.pattern.narrow), *self.laid[0].cost)


def search(job: Job, zone: Zone, say: Callable[[str], None], stop: Stop) -> Searched:
    """The best start lines and offsets of one direction."""
    stock = field_stock(job)
    patterns = patterns_of(job, zone)
    tried: list[Tried] = []
    for number, pattern in enumerate(patterns, 1):
        if tried and stop():
            break
        say(f"{zone.direction.label}: start lines {number} of {len(patterns)}")
        tried.append(_try(pattern, stock, range(FIRST_TRIES)))
    complete = len(tried) == len(patterns)
    tried.sort(key=_promise)
    for place in range(min(DEEP_PATTERNS, len(tried))):
        best = min(tried, key=lambda t: t.cost)
        hopeless = tried[place].at_least > best.laid[0].units and not best.laid[0].broken
        if not stop() and not hopeless:
            say(f"{zone.direction.label}: offsets of pattern {place + 1}")
            tried[place] = _deepen(tried[place], stock, zone.rectilinear)
    tried.sort(key=lambda t: (t.cost, t.pattern.lines))
    at_least = _bound(zone, tried, stock) if complete else area_bound(zone, stock)
    found = [f for t in tried[:FINISHED_PATTERNS] for f in _finish(zone, t)]
    return Searched(tuple(found), at_least, complete)


def _promise(tried: Tried) -> tuple[int, int, int, tuple[int, ...]]:
    """Patterns that keep the rules and might need least come first."""
    return int(tried.pattern.narrow), tried.laid[0].broken, tried.at_least, tried.pattern.lines


def patterns_of(job: Job, zone: Zone) -> list[Pattern]:
    """Every distinct set of runs the admitted start lines give, with its lines."""
    product, rules = job.product_of(job.field), job.field.rules
    pitch = product.pitch
    stops = stops_along(zone.edges, pitch[0], zone.around)
    held = held_lines(zone, job, [r for r in rules.centred if r.kind is Kind.MUST], pitch[1], True)
    breaks = breaklines([v for e in zone.edges for v in (e.start[1], e.end[1])], pitch[1])
    lines = candidates(stops, breaks, pitch[1], job.tape_step, held or None,
                       0 if zone.rectilinear else 12)
    prefer = held_lines(zone, job, rules.centred, pitch[1], True)
    lines = sorted({*lines, *(round(line) % pitch[1] for line in prefer or [])})
    if not zone.rectilinear:
        lines = sorted(sorted(lines, key=lambda x: (-smallest(stops, x, pitch[1]), x))[:SLANT_LINES])
    levels = slabs(zone)
    groups: dict[object, list[tuple[int, tuple[Run, ...], bool]]] = {}
    for line in lines:
        runs = runs_of(zone, levels, pitch[1], line)
        narrow = _narrow(job, runs, pitch[1])
        plain = tuple((r.row, r.start, r.end) for r in runs) if zone.rectilinear else line
        groups.setdefault((plain, narrow), []).append((line, runs, narrow))
    return [_pattern(job, members, stops) for members in groups.values()]


def _narrow(job: Job, runs: tuple[Run, ...], pitch: int) -> bool:
    """True when a whole run is ripped under the smallest cut that must be kept."""
    rule = job.field.rules.smallest_cut
    if rule is None or rule.kind is not Kind.MUST:
        return False
    return any(r.outline is None and r.top - r.bottom < min(rule.limit, pitch) - SAME for r in runs)


def _pattern(job: Job, members: list[tuple[int, tuple[Run, ...], bool]],
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


def _deepen(tried: Tried, stock: Stock, exact: bool) -> Tried:
    """More tries, then improvement, then CP-SAT, until the bound is met or effort is spent."""
    choice, laid, at_least = tried.pattern.choice, tried.laid, tried.at_least
    if laid[0].cost[:2] > (0, at_least) and exact:
        at_least = flow_bound(choice, stock)
    if laid[0].cost[:2] > (0, at_least):
        earlier = earlier_meets(choice)
        more = [lay(choice, earlier, seed) for seed in range(FIRST_TRIES, FIRST_TRIES + MORE_TRIES)]
        laid = _several([*laid, *more])
    for seed in range(IMPROVED):
        if laid[0].cost > (0, at_least, 0):
            laid = _several([improve(choice, laid[seed % len(laid)], at_least, seed), *laid])
    if laid[0].cost[:2] > (0, at_least) and len(choice.spans) <= CLOSE_SPANS:
        answer = best_offsets(choice, laid[0].offsets, 1.0, may_break=laid[0].broken > 0)
        if answer.offsets is not None:
            laid = _several([judge(choice, answer.offsets), *laid])
    return Tried(tried.pattern, at_least, laid)


def _bound(zone: Zone, tried: list[Tried], stock: Stock) -> int:
    """The least of the patterns' bounds; of the area alone where walls slant.

    Patterns that break a must rule count only when every pattern does.
    """
    area = area_bound(zone, stock)
    if not zone.rectilinear:
        return area
    admitted = [t for t in tried if not t.pattern.narrow] or tried
    best = min(t.laid[0].units for t in admitted)
    bounds = [t.at_least if t.at_least >= best else flow_bound(t.pattern.choice, stock)
              for t in sorted(admitted, key=lambda t: t.at_least)]
    return max(area, min(bounds))


def _finish(zone: Zone, tried: Tried) -> list[Found]:
    """The layouts of a pattern worth cutting to pieces: its best line, and others beside it."""
    pattern = tried.pattern
    chosen = [0, *range(1, min(3, len(pattern.lines)))]
    found = [Found(zone, pattern.lines[i], pattern.runs[i], tried.laid[0].offsets,
                   tried.laid[0].units, int(pattern.narrow) + tried.laid[0].broken) for i in chosen]
    found += [Found(zone, pattern.lines[0], pattern.runs[0], laid.offsets, laid.units,
                    int(pattern.narrow) + laid.broken) for laid in tried.laid[1:]]
    return found
