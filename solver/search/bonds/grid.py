"""Search of one direction of a straight or stepped bond: one row line and one joint line.

Between breaklines, in either direction, which pieces share a unit does not change: two
cuts that share grow and shrink together. So every pair of intervals is weighed once.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from models.floor.centring import held_lines
from models.floor.lines import Stop as WallStop
from models.floor.lines import breaklines, candidates, smallest, stops_across, stops_along
from models.floor.runs import Run, runs_of, slabs
from models.floor.sizes import SAME
from models.floor.zone import Zone
from models.job.data import Job, Kind, Laying
from solver.search.bounds import cover_of, together
from solver.search.draft import zone_stock
from solver.search.found import Found, Only, Say, Searched, Stop, Task
from solver.stock.bound import least_units
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, end_parts, mirrored_parts

FINISHED = 16
SLANT_SAMPLES = 8
FULL_SCAN = 900
"""Pairs of lines weighed at most; beyond it the pairs with the largest cuts are taken."""
SLANT_SCAN = 90
"""The same where walls slant and every row has to be clipped."""


def search(task: Task, say: Say, stop: Stop) -> Searched:
    """The best pairs of lines of one direction, and a bound over all of them."""
    job, zone, copies = task.job, task.zone, task.copies
    stock, step = zone_stock(job, zone.laying), zone.laying.bond.step
    pitch = job.product_of(zone.laying).pitch
    levels = slabs(zone)
    rows = _lines(job, zone, task.only, along=True)
    joints = _lines(job, zone, task.only, along=False)
    pairs, all_pairs = _pairs(task, rows, joints, pitch)
    runs: dict[int, tuple[Run, ...]] = {}
    found: list[tuple[tuple[int, ...], Found]] = []
    bounds: list[int] = []
    for number, (row, joint) in enumerate(pairs):
        if number % 50 == 0:
            say(f"{zone.name}, {zone.direction.label}: line pairs {number} of {len(pairs)}")
            if found and stop():
                break
        if row not in runs:
            runs[row] = runs_of(zone, levels, pitch[1], row)
        offsets = row_offsets(runs[row], row, joint, pitch, step)
        whole, parts = end_parts(runs[row], offsets, pitch, zone.laying.marks)
        whole, parts = whole * copies, parts + mirrored_parts(parts) * (copies - 1)
        units = whole + len(pack(parts, stock))
        bounds.append(whole + least_units(parts, stock))
        short, cut = _judged(job, zone.laying, parts)
        key = (short, units, -cut, row, joint)
        found.append((key, Found(zone, row, runs[row], offsets, units, short)))
    found.sort(key=lambda item: item[0])
    complete = len(found) == len(pairs)
    proved = complete and all_pairs and zone.rectilinear
    room = together([cover_of(job, zone)] * copies)
    at_least = max(room, min(bounds)) if proved else room
    return Searched(tuple(f for _, f in _varied(found)), at_least, complete)


def row_offsets(
    runs: Sequence[Run], start_line: int, joint: int, pitch: tuple[int, int], step: Fraction
) -> tuple[int, ...]:
    """The u of an end joint of each run when each row is shifted ``step`` of a unit."""
    return tuple(
        joint + int((run.low - start_line) // pitch[1] * step * pitch[0] % pitch[0]) for run in runs
    )


def _lines(job: Job, zone: Zone, only: Only, along: bool) -> list[int]:
    pitch = job.product_of(zone.laying).pitch
    mine = pitch[1] if along else pitch[0]
    given = only.rows if along else only.joints
    if given is not None:
        return sorted({line % mine for line in given})
    low, high = zone.heights
    if along and high - low <= mine:
        return [low % mine]  # one row: its line can only be the wall it lies against
    stops = _stops(zone, pitch, along)
    axis = 1 if along else 0
    values = [p[axis] for e in zone.edges for p in (e.start, e.end)]
    step = zone.laying.bond.step
    if not along and step:
        values = [value - int(k * step * mine) for value in values for k in range(step.denominator)]
    must = [r for r in zone.laying.rules.centred if r.kind is Kind.MUST]
    held = held_lines(zone, job, must, mine, along) or None
    samples = 0 if zone.rectilinear else SLANT_SAMPLES
    lines = candidates(stops, breaklines(values, mine), mine, job.tape_step, held, samples)
    prefer = held_lines(zone, job, zone.laying.rules.centred, mine, along)
    return sorted({*lines, *(round(line) % mine for line in prefer or [])})


def _stops(zone: Zone, pitch: tuple[int, int], along: bool) -> list[WallStop]:
    return (
        stops_along(zone.edges, pitch[0], zone.around)
        if along
        else stops_across(zone.edges, pitch[1], zone.around)
    )


def _judged(job: Job, laying: Laying, parts: Sequence[Part]) -> tuple[int, int]:
    """How many must rules on cuts some part falls short of, and the smallest cut of all."""
    rules = laying.rules
    ends = [p.length for p in parts if p.along is not Sits.FULL]
    cuts = ends + [p.width for p in parts if p.across is not Sits.FULL]
    short = 0
    for rule, sizes in ((rules.smallest_cut, cuts), (rules.smallest_end, ends)):
        if rule and rule.kind is Kind.MUST:
            short += min(sizes, default=rule.limit) < rule.limit - SAME
    return short, min(cuts, default=max(job.product_of(laying).pitch))


def _pairs(
    task: Task, rows: list[int], joints: list[int], pitch: tuple[int, int]
) -> tuple[list[tuple[int, int]], bool]:
    """Pairs of a row line and a joint line, largest wall cuts first, and if that is all."""
    zone = task.zone
    along, across = _stops(zone, pitch, True), _stops(zone, pitch, False)
    row_cut = {row: smallest(along, row, pitch[1]) for row in rows}
    # Only a straight bond has one joint line; in a stepped one every row has its own.
    joint_cut = {
        joint: min(
            smallest(across, joint + int(k * zone.laying.bond.step * pitch[0]), pitch[0])
            for k in range(zone.laying.bond.step.denominator)
        )
        for joint in joints
    }
    scored = sorted((-min(row_cut[r], joint_cut[j]), r, j) for r in rows for j in joints)
    pairs = [(row, joint) for _, row, joint in scored]
    most = task.effort.pairs or (FULL_SCAN if zone.rectilinear else SLANT_SCAN)
    return pairs[:most], len(pairs) <= most


def _varied(found: list[tuple[tuple[int, ...], Found]]) -> list[tuple[tuple[int, ...], Found]]:
    """The first ones by units, and the first ones by smallest cut."""
    by_cut = sorted(found, key=lambda item: (item[0][0], item[0][2], item[0][1], item[0][3:]))
    chosen = {
        (f.start_line, f.offsets): (key, f)
        for key, f in found[: FINISHED // 2] + by_cut[: FINISHED // 2]
    }
    return list(chosen.values())
