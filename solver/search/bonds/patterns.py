"""Patterns: the distinct sets of runs that the admitted start lines of one direction give.

All start lines between two breaklines share their runs, so row offsets are sought once a
pattern, and the line inside it is chosen for its rips.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import box

from models.floor.centring import held_lines
from models.floor.ends import end_needs
from models.floor.lines import (
    Stop,
    breaklines,
    candidates,
    cut_at,
    smallest,
    stops_along,
)
from models.floor.pieces import busy
from models.floor.runs import Run, parts_of, runs_of, slabs
from models.floor.sizes import SAME
from models.floor.zone import Zone
from models.job.data import Job, Kind, Laying, Limit
from models.program.spans import Choice, Span, meets_of
from solver.search.bounds import apart_across
from solver.search.draft import zone_stock
from solver.search.found import ANY_LINE, Only, Task

SLANT_LINES = 20
"""Start lines kept where walls slant and every line has runs of its own."""

SLANT_SAMPLES = 12


@dataclass(frozen=True, slots=True)
class Pattern:
    """Start lines with the same runs: the lines, the runs of each, the choice of offsets.

    ``bound`` is the same choice under must rules alone and with no more stock than any
    layout takes: what bounds are computed from. ``rip`` is the smallest rip at the first
    line. ``narrow`` is True when at all these lines some whole run is ripped under a must
    rule.
    """

    lines: tuple[int, ...]
    runs: tuple[tuple[Run, ...], ...]
    choice: Choice
    bound: Choice
    rip: int
    narrow: bool


def patterns_of(task: Task) -> list[Pattern]:
    """Every distinct pattern of one direction, with its start lines.

    With less than full effort, the few with the largest smallest rip.
    """
    job, zone = task.job, task.zone
    product = job.product_of(zone.laying)
    pitch = product.pitch
    stops = stops_along(zone.edges, pitch[0], zone.around)
    levels = slabs(zone)
    groups: dict[object, list[tuple[int, tuple[Run, ...], bool]]] = {}
    for line in start_lines(job, zone, stops, task.only):
        runs = runs_of(zone, levels, pitch[1], line)
        narrow = _narrow(zone, runs, pitch[1])
        key = (_shape(job, zone, runs), narrow) if zone.rectilinear else line
        groups.setdefault(key, []).append((line, runs, narrow))
    found = [_pattern(job, zone, members, stops, task.copies) for members in groups.values()]
    if task.effort.patterns is None:
        return found
    return sorted(found, key=lambda p: (p.narrow, -p.rip, p.lines))[: task.effort.patterns]


def start_lines(job: Job, zone: Zone, stops: Sequence[Stop], only: Only = ANY_LINE) -> list[int]:
    """The start lines worth trying, in [0, pitch)."""
    pitch, rules = job.product_of(zone.laying).pitch[1], zone.laying.rules
    low, high = zone.heights
    if only.rows is not None:
        return sorted({line % pitch for line in only.rows})
    if high - low <= pitch:
        return [low % pitch]  # one row: its line can only be the wall it lies against
    must = [r for r in rules.centred if r.kind is Kind.MUST]
    breaks = breaklines([v for e in zone.edges for v in (e.start[1], e.end[1])], pitch)
    lines = candidates(
        stops,
        breaks,
        pitch,
        job.tape_step,
        held_lines(zone, job, must, pitch, True) or None,
        0 if zone.rectilinear else SLANT_SAMPLES,
    )
    prefer = held_lines(zone, job, rules.centred, pitch, True) or []
    lines = sorted({*lines, *(round(line) % pitch for line in prefer)})
    if zone.rectilinear:
        return lines
    least = min(_must(rules.smallest_cut), pitch)
    return sorted(sorted(lines, key=lambda x: (*_worth(stops, x, pitch, least), x))[:SLANT_LINES])


def _worth(stops: Sequence[Stop], line: int, pitch: int, least: int) -> tuple[int, int]:
    """How a start line ranks where walls slant: at how many stops it leaves less than asked.

    Of some stops any line may leave nothing; the smallest cut at the others comes next.
    """
    cuts = [cut_at(stop, line, pitch) for stop in stops]
    kept = [cut for cut in cuts if cut >= least]
    return len(cuts) - len(kept), -min(kept, default=0)


def _shape(job: Job, zone: Zone, runs: Sequence[Run]) -> object:
    """What makes two start lines one pattern: stops, which rows are ripped, who may share."""
    spans = bound_spans(job, zone.laying, runs)
    pitch = job.product_of(zone.laying).pitch[1]
    kept = {id(s) for s in apart_across(spans, zone_stock(job, zone.laying))}
    return (
        tuple((r.row, r.start, r.end, r.bottom == r.low, r.top == r.low + pitch) for r in runs),
        tuple(id(s) in kept for s in spans),
    )


def _narrow(zone: Zone, runs: Sequence[Run], pitch: int) -> bool:
    """True when a whole run is ripped under the smallest cut that must be kept."""
    least = min(_must(zone.laying.rules.smallest_cut), pitch)
    return any(r.outline is None and r.top - r.bottom < least - SAME for r in runs)


def _pattern(
    job: Job,
    zone: Zone,
    members: list[tuple[int, tuple[Run, ...], bool]],
    stops: Sequence[Stop],
    copies: int,
) -> Pattern:
    pitch = job.product_of(zone.laying).pitch[1]
    # The line with the largest smallest cut leads: it is the one finished first.
    members.sort(key=lambda m: (-smallest(stops, m[0], pitch), m[0]))
    line, runs, narrow = members[0]
    choice = replace(choice_of(job, zone.laying, runs), copies=copies)
    spans = bound_spans(job, zone.laying, runs)
    # Seen in a mirror, a rip at the low side of its row is one at the high side.
    spans += [replace(s, side=-s.side) for s in spans] * (copies - 1)
    bound = Choice(choice.pitch, choice.step, choice.kerf, tuple(spans))
    return Pattern(
        tuple(m[0] for m in members),
        tuple(m[1] for m in members),
        choice,
        bound,
        smallest(stops, line, pitch),
        narrow,
    )


def choice_of(job: Job, laying: Laying, runs: Sequence[Run]) -> Choice:
    """The choice of row offsets the runs and all the job's rules leave, preferences too."""
    product, rules = job.product_of(laying), laying.rules
    spare = rules.tape_tolerance.limit if rules.tape_tolerance else 0
    cut = rules.smallest_cut.limit + spare if rules.smallest_cut else 0
    end = rules.smallest_end.limit + spare if rules.smallest_end else 0
    spans = tuple(
        _span(run, product.pitch, end_needs(run, product.pitch, cut, end)) for run in runs
    )
    near, second = meets_of(runs)
    return Choice(
        product.pitch[0],
        job.tape_step,
        product.kerf,
        spans,
        near,
        second,
        _limit(rules.joint_offset),
        _limit(rules.second_joint_offset),
        rules.no_stair.limit if rules.no_stair else None,
        rules.reuse_within.limit if rules.reuse_within else None,
        bool(rules.second_joint_offset and rules.second_joint_offset.kind is Kind.MUST),
        bool(rules.no_stair and rules.no_stair.kind is Kind.MUST),
    )


def bound_spans(job: Job, laying: Laying, runs: Sequence[Run]) -> list[Span]:
    """The spans a bound may count: must rules alone, odd runs cut into plain stretches.

    A piece across two stretches counts as two that share its unit, so stretches are kept a
    kerf apart. What is left out of a run leaves out stock: the bound stays true.
    """
    product, rules = job.product_of(laying), laying.rules
    need = max(_must(rules.smallest_cut), _must(rules.smallest_end))
    found = []
    for run in runs:
        for part in [run] if run.outline is None else _stretches(run, product.pitch, product.kerf):
            needs = (need if part.start == run.start else 0, need if part.end == run.end else 0)
            plain = part.bottom == run.low or part.top == run.low + product.pitch[1]
            span = _span(part, product.pitch, needs if plain else (0, 0))
            if span.side and not _floor_beside(runs, part, span.side):
                span = replace(span, side=0)  # a wall on the row line holds no piece in place
            found.append(span)
    return found


def _floor_beside(runs: Sequence[Run], part: Run, side: int) -> bool:
    """Whether floor of the next row lies along the whole of a rip's factory edge."""
    row = part.row + (-1 if side < 0 else 1)
    return any(r.row == row and r.start <= part.start and r.end >= part.end for r in runs)


def _stretches(run: Run, pitch: tuple[int, int], kerf: int) -> list[Run]:
    """The rectangles an odd run of a rectilinear zone holds, side by side along the row.

    A notch shorter than a unit and away from both ends is no gap: every piece that reaches
    into it also reaches out of it, and pieces share units by the boxes round them.
    """
    crossed = [
        pair
        for pair in sorted(busy(run, pitch[1]))
        if pair[0] <= run.start or pair[1] >= run.end or pair[1] - pair[0] >= pitch[0]
    ]
    marks = sorted({run.start, run.end, *(u for pair in crossed for u in pair)})
    found: list[Run] = []
    for mark, high in pairwise(marks):
        low = mark + kerf if found else mark
        if low >= high:
            continue
        if not any(a < high and b > mark for a, b in crossed):
            found.append(Run(run.row, run.low, low, high, run.low, run.low + pitch[1]))
            continue
        for part in parts_of(run.polygon.intersection(box(low, run.low, high, run.low + pitch[1]))):
            left, bottom, right, top = (round(x) for x in part.bounds)
            if part.area == (right - left) * (top - bottom) and (left, right) == (low, high):
                found.append(Run(run.row, run.low, left, right, bottom, top))
    return found


def _span(run: Run, pitch: tuple[int, int], needs: tuple[int, int]) -> Span:
    at_low, at_high = run.bottom == run.low, run.top == run.low + pitch[1]
    side = 0 if at_low == at_high else -1 if at_low else 1
    return Span(run.row, run.start, run.end, *needs, run.top - run.bottom, side)


def _limit(rule: Limit | None) -> int:
    return rule.limit if rule else 0


def _must(rule: Limit | None) -> int:
    return rule.limit if rule and rule.kind is Kind.MUST else 0
