"""How every rule of the job came out on a draft, or on the whole floor."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from models.floor.layout import Layout, Verdict
from models.job.data import BondKind, Kind, Limit
from solver.search.draft import Draft
from solver.search.floordraft import FloorDraft
from solver.search.links import lines_apart
from solver.search.outcome import measures
from solver.search.outcome.causes import cause
from solver.search.outcome.measures import Measure, at_least, at_most

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

COUNTED = ("no_stair", "reuse_within")
"""Rules that count rows, not lengths: no tolerance."""


def floor_verdicts(floor: FloorDraft) -> tuple[Verdict, ...]:
    """The verdicts of every zone, then of what ties zones to each other."""
    found = [v for draft in floor.zones for v in verdicts(draft)]
    drafts = {draft.zone.name: draft for draft in floor.zones}
    for link in floor.plan.job.links:
        apart = lines_apart(drafts[link.first], drafts[link.second], link.share)
        where = f"{link.share.value} of {link.first}"
        found.append(_tied("linked", link.second, link.first, Measure(apart, where)))
    for area in floor.plan.areas:
        if area.mirrors:
            where = f"pieces of {area.mirrors}"
            found.append(_tied("mirrored", area.name, area.mirrors, Measure(0, where)))
    return tuple(found)


def _tied(key: str, zone: str, other: str, measure: Measure) -> Verdict:
    kept = at_most(measure.worst, 0)
    because = "" if kept else f"no layout found keeps {zone} on the lines of {other}"
    return Verdict(key, Kind.MUST, 0, measure.worst, kept, measure.where, because, other, zone)


def verdicts(draft: Draft) -> tuple[Verdict, ...]:
    """One verdict a rule asked for, in the order of the zone's rules."""
    rules = draft.zone.laying.rules
    found: list[Verdict] = []
    for key, measure in (LEAST | MOST).items():
        rule: Limit | None = getattr(rules, key)
        if rule is not None:
            found.append(_verdict(draft, key, rule.kind, rule.limit, measure(draft)))
    if rules.half_unit_edges is not None:
        kind, pitch = rules.half_unit_edges.kind, draft.product.pitch
        found.append(
            _verdict(draft, "half_unit_edges", kind, pitch[1] // 2, measures.half_unit_edges(draft))
        )
        if draft.zone.laying.bond.kind is BondKind.STRAIGHT:
            found.append(
                _verdict(
                    draft, "half_unit_ends", kind, pitch[0] // 2, measures.half_unit_ends(draft)
                )
            )
    found += [
        _verdict(draft, "centred", rule.kind, 0, measures.centred(draft, rule), rule.axis)
        for rule in rules.centred
    ]
    return tuple(found)


def _verdict(
    draft: Draft, key: str, kind: Kind, limit: int, measure: Measure, subject: str = ""
) -> Verdict:
    most = key in MOST or key == "centred"
    if key in COUNTED:
        kept = measure.worst is None or measure.worst <= limit
    else:
        kept = at_most(measure.worst, limit) if most else at_least(measure.worst, limit)
    because = "" if kept else cause(draft, key, measure, subject)
    return Verdict(
        key, kind, limit, measure.worst, kept, measure.where, because, subject, draft.zone.name
    )


def explain(layout: Layout, others: Sequence[Layout]) -> Layout:
    """Say of each break whether another layout found keeps the rule after all.

    Then what seemed to force it does not; a must rule is left to what forces it. Layouts
    that break more must rules are no answer, whatever preference they keep.
    """

    def told(verdict: Verdict) -> Verdict:
        if verdict.kept or (verdict.because and verdict.kind is Kind.MUST):
            return verdict
        if verdict.kind is Kind.MUST:
            return replace(verdict, because="no layout found keeps all must rules together")
        keeping = [
            o.figures.units
            for o in others
            if o.figures.broken_must <= layout.figures.broken_must
            for v in o.verdicts
            if (v.key, v.subject, v.zone) == (verdict.key, verdict.subject, verdict.zone) and v.kept
        ]
        because = (
            f"given up here; the best layout that keeps it takes {min(keeping)} units"
            if keeping
            else verdict.because or "no layout found keeps it"
        )
        return replace(verdict, because=because)

    return replace(layout, verdicts=tuple(told(v) for v in layout.verdicts))
