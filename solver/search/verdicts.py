"""How every rule of the job came out on a draft, and what forces each break."""

from __future__ import annotations

import math
from collections.abc import Callable

from models.floor.zone import Edge
from models.job.data import BondKind, Kind, Limit
from models.floor.layout import Verdict
from models.lengths import show
from solver.search import measures
from solver.search.draft import Draft
from solver.search.measures import Measure, at_least, at_most

LEAST: dict[str, Callable[[Draft], Measure]] = {
    "smallest_cut": measures.smallest_cut,
    "smallest_end": measures.smallest_end,
    "joint_offset": measures.joint_offset,
    "second_joint_offset": measures.second_joint_offset,
    "tape_tolerance": measures.tape_margin,
}
"""Rules whose value must be at least the limit."""

MOST: dict[str, Callable[[Draft], Measure]] = {
    "no_stair": measures.no_stair,
    "balanced_cuts": measures.balanced_cuts,
    "reuse_within": measures.reuse_within,
}
"""Rules whose value must be at most the limit."""


def verdicts(draft: Draft) -> tuple[Verdict, ...]:
    """One verdict a rule asked for, in the order of the job's rules."""
    rules = draft.job.field.rules
    found: list[Verdict] = []
    for key, measure in (LEAST | MOST).items():
        rule: Limit | None = getattr(rules, key)
        if rule is not None:
            found.append(_verdict(draft, key, rule.kind, rule.limit, measure(draft)))
    if rules.half_unit_edges is not None:
        kind, pitch = rules.half_unit_edges.kind, draft.product.pitch
        found.append(_verdict(draft, "half_unit_edges", kind, pitch[1] // 2,
                              measures.half_unit_edges(draft)))
        if draft.job.field.bond.kind is BondKind.STRAIGHT:
            found.append(_verdict(draft, "half_unit_ends", kind, pitch[0] // 2,
                                  measures.half_unit_ends(draft)))
    found += [_verdict(draft, "centred", rule.kind, 0, measures.centred(draft, rule), rule.axis)
              for rule in rules.centred]
    return tuple(found)


def _verdict(draft: Draft, key: str, kind: Kind, limit: int, measure: Measure,
             subject: str = "") -> Verdict:
    most = key in MOST or key == "centred"
    kept = at_most(measure.worst, limit) if most else at_least(measure.worst, limit)
    because = "" if kept else _cause(draft, key, measure)
    return Verdict(key, kind, limit, measure.worst, kept, measure.where, because, subject)


def _cause(draft: Draft, key: str, measure: Measure) -> str:
    """What forces a broken rule, in words."""
    if measure.piece is not None:
        edges = draft.touching[measure.piece]
        slanted = next((e for e in edges if _off_square(e)), None)
        if slanted is not None:
            return _slant_words(slanted)
    held = [rule.axis for rule in draft.job.field.rules.centred]
    if held and key in ("smallest_cut", "half_unit_edges", "half_unit_ends", "balanced_cuts",
                        "tape_tolerance"):
        return f"lines are held on axis {' and '.join(held)}"
    if key == "centred":
        return "the axis lies where a must rule admits no line; see the other rules"
    if key in ("joint_offset", "second_joint_offset", "no_stair"):
        return "the end pieces and offcuts of these rows leave no offset further off"
    if key == "reuse_within":
        return "no nearer row can use the offcut"
    if measure.piece is not None:
        return _span_words(draft, measure.piece)
    return "the opposite walls leave no start line that keeps it with the rules before it"


def _off_square(edge: Edge) -> bool:
    return edge.start[0] != edge.end[0] and edge.start[1] != edge.end[1]


def _slant_words(edge: Edge) -> str:
    angle = math.degrees(math.atan2(edge.end[1] - edge.start[1], edge.end[0] - edge.start[0]))
    off = abs((angle + 45) % 90 - 45)
    return f"{edge.name} runs {off:.2f} degrees off the rows"


def _span_words(draft: Draft, index: int) -> str:
    """The two dimensions a cut is left over from: its run's length, and the zone's width."""
    cut, system = draft.cuts[index], draft.job.system
    run = draft.runs[cut.run]
    pitch = draft.product.pitch
    along, across = cut.sizes.along, cut.sizes.across
    if along is not None and (across is None or along <= across):
        return (f"a run of {show(run.length, system)} leaves "
                f"{show(run.length % pitch[0], system)} over whole units")
    low, high = draft.zone.heights
    return (f"{show(high - low, system)} across the rows leaves "
            f"{show((high - low) % pitch[1], system)} over whole rows")
