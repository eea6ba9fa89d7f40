"""The claimed outcome of every rule, against the audit's own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from models.job.data import RULE_NAMES
from solver.audit.document.claims import Claims, LayoutClaim, RuleClaim
from solver.audit.findings import Finding, MeasuredRule
from solver.audit.measured import rules
from solver.audit.measured.centred import axes_for, off_centre
from solver.audit.measured.rules import Asked, Surveyed
from solver.audit.tolerances import NOISE, SIZE, TOUCH

AT_LEAST: dict[str, Callable[[Surveyed, Asked], float | None]] = {
    "smallest_cut": rules.smallest_cut,
    "half_unit_edges": rules.half_unit_edges,
    "half_unit_ends": rules.half_unit_ends,
    "smallest_end": rules.smallest_end,
    "joint_offset": rules.joint_offset,
    "second_joint_offset": rules.second_joint_offset,
    "tape_tolerance": rules.tape_tolerance,
}
"""Rules whose worst value is the least, kept when it is at least the limit."""

AT_MOST: dict[str, Callable[[Surveyed, Asked], float | None]] = {
    "no_stair": rules.no_stair,
    "balanced_cuts": rules.balanced_cuts,
    "reuse_within": rules.reuse_within,
    "linked": rules.linked,
    "mirrored": rules.mirrored,
    "centred": lambda zone, asked: off_centre(zone.laid, asked.claims, asked.rule),
}
"""Rules whose worst value is the most, kept when it is at most the limit."""

COUNTS = {"no_stair", "reuse_within"}
"""Rules that count rows."""


def measure_rules(
    claims: Claims, layout: LayoutClaim, zones: Sequence[Surveyed]
) -> tuple[MeasuredRule, ...]:
    """Every rule of a layout in the audit's own numbers, in the document's order."""
    return tuple(_measured(Asked(rule, claims, layout, zones)) for rule in layout.rules)


def _measured(asked: Asked) -> MeasuredRule:
    rule = asked.rule
    worst_of, measure = (
        (min, AT_LEAST[rule.key]) if rule.key in AT_LEAST else (max, AT_MOST[rule.key])
    )
    here = zones_of(rule, asked.zones)
    found = [value for zone in here if (value := measure(zone, asked)) is not None]
    worst = worst_of(found) if found else None
    return MeasuredRule(rule.key, rule.subject, rule.limit, worst, _kept(rule, worst, TOUCH))


def zones_of(rule: RuleClaim, zones: Sequence[Surveyed]) -> list[Surveyed]:
    """The zones a rule is measured in: its own, or all when the document names none."""
    return [zone for zone in zones if rule.zone in (None, zone.laid.zone.name)]


def _kept(rule: RuleClaim, worst: float | None, allowed: float) -> bool:
    """Whether a worst value keeps a rule, with some allowance in mm."""
    if worst is None:
        return True
    if rule.key in AT_LEAST:
        return worst >= rule.limit - allowed
    return worst <= rule.limit + allowed


def verdicts(
    claims: Claims, layout: LayoutClaim, measured: Sequence[MeasuredRule]
) -> Iterator[Finding]:
    """Each rule's name, worst value and outcome are the ones measured.

    A rule said to be broken that is broken is honest and no finding.
    """
    for rule, own in zip(layout.rules, measured, strict=True):
        where = named(claims, rule)
        if rule.rule != RULE_NAMES[rule.key]:
            found = f"the rule with key {rule.key}"
            yield Finding(layout.rank, "rules", where, f"called {rule.rule!r}", found)
        if not open_to_check(claims, rule):
            continue
        if not _same(rule, own.worst):
            claimed, found = _shown(rule, rule.worst), _shown(rule, own.worst)
            yield Finding(layout.rank, "rules", where, f"worst {claimed}", found)
        claimed = f"{'kept' if rule.kept else 'broken'} (limit {_shown(rule, rule.limit)})"
        if rule.kept and not _kept(rule, own.worst, TOUCH + 2 * NOISE):
            found = f"broken, worst {_shown(rule, own.worst)}"
            yield Finding(layout.rank, "rules", where, claimed, found)
        if not rule.kept and _kept(rule, own.worst, 0.0):
            found = f"kept, worst {_shown(rule, own.worst)}"
            yield Finding(layout.rank, "rules", where, claimed, found)


def named(claims: Claims, rule: RuleClaim) -> str:
    """A rule as findings name it, with its zone where the document has several."""
    subject = f" {rule.subject}" if rule.subject else ""
    zone = f", zone {rule.zone}" if rule.zone is not None and len(claims.zones) > 1 else ""
    return f"{RULE_NAMES[rule.key]}{subject}{zone}"


def open_to_check(claims: Claims, rule: RuleClaim) -> bool:
    """Whether the document says enough to measure a rule."""
    return rule.key != "centred" or bool(axes_for(claims, rule))


def half_unit_limits(layout: LayoutClaim, zones: Sequence[Surveyed]) -> Iterator[Finding]:
    """The half-unit rules are judged against half a unit."""
    for rule in layout.rules:
        column = {"half_unit_edges": rules.ACROSS, "half_unit_ends": rules.ALONG}.get(rule.key)
        here = [] if column is None else zones_of(rule, zones)
        halves = [zone.laid.pitch[column or 0] / 2 for zone in here]
        if halves and all(abs(rule.limit - half) > SIZE for half in halves):
            where, claimed = RULE_NAMES[rule.key], f"limit {rule.limit:.3f} mm"
            yield Finding(layout.rank, "rules", where, claimed, f"half a unit, {halves[0]:.3f} mm")


def _same(rule: RuleClaim, own: float | None) -> bool:
    """Whether the claimed worst value is the measured one."""
    if rule.worst is None or own is None:
        # No unit that serves twice is a distance of no rows.
        nothing = 0.0 if rule.key in COUNTS else None
        return (nothing if rule.worst is None else rule.worst) == (nothing if own is None else own)
    return abs(rule.worst - own) <= (NOISE if rule.key in COUNTS else SIZE)


def _shown(rule: RuleClaim, value: float | None) -> str:
    """A value in the rule's own unit."""
    if value is None:
        return "nothing measured"
    return f"{value:g} rows" if rule.key in COUNTS else f"{value:.3f} mm"
