"""What in the room or the job forces a rule to break."""

from __future__ import annotations

import math

from models.floor.centring import runs_along
from models.floor.zone import Edge
from models.job.data import Axis, BondKind, Job, Kind, Share
from solver.search.draft import Draft
from solver.search.outcome import measures
from solver.search.outcome.measures import Measure, at_most

ON_LINES = (
    "smallest_cut",
    "smallest_end",
    "half_unit_edges",
    "half_unit_ends",
    "balanced_cuts",
    "tape_tolerance",
)
"""Rules that a line held on an axis may force to break."""

LEVEL_DEGREES = 0.01
"""Less than this is no angle: 1 mm in 6 m."""

HANGS_ON_ROWS = {"half_unit_edges": True, "half_unit_ends": False, "smallest_end": False}
"""Whether a rule is about cuts to row lines, or to end joints; the others are about both."""


def cause(draft: Draft, key: str, measure: Measure, subject: str) -> str:
    """What in the room or the job forces a break; empty when it is this layout's choice."""
    if measure.piece is not None:
        edges = draft.touching[measure.piece]
        slanted = next(
            (e for e in edges if _off_square(draft, e) and not _at_points(draft, e)), None
        )
        if slanted is not None:
            return _slant_words(draft, slanted)
    if key not in (*ON_LINES, "centred"):
        return ""
    along = _on_row_lines(draft, key, measure, subject)
    held = [axis for axis in _holding(draft, along) if axis != subject]
    if held:
        return f"lines are held on {' and '.join(held)}"
    return _shared(draft, along)


def _on_row_lines(draft: Draft, key: str, measure: Measure, subject: str) -> bool | None:
    """Whether a break hangs on row lines, or on end joints; None when it may be either."""
    if _herringbone(draft):
        return None
    if key == "centred":
        return runs_along(draft.zone, _axis(draft.job, subject))
    if key in HANGS_ON_ROWS:
        return HANGS_ON_ROWS[key]
    if measure.piece is None:
        return measure.along
    sizes = draft.cuts[measure.piece].sizes
    least = min(s for s in (sizes.along, sizes.across, sizes.slant) if s is not None)
    return {sizes.across: True, sizes.along: False}.get(least)


def _holding(draft: Draft, along: bool | None) -> list[str]:
    """The axes that row lines (or end joints) must be held on, and are."""
    return [
        rule.axis
        for rule in draft.zone.laying.rules.centred
        if rule.kind is Kind.MUST
        and along in (None, runs_along(draft.zone, _axis(draft.job, rule.axis)))
        and at_most(measures.centred(draft, rule).worst, 0)
    ]


def _shared(draft: Draft, along: bool | None) -> str:
    """Which zone the lines are shared with, and what holds them there; empty when none."""
    name = draft.zone.name
    for link in draft.job.links:
        if name not in (link.first, link.second) or along is (link.share is Share.JOINTS):
            continue
        other = link.second if name == link.first else link.first
        rules = next(zone.rules for zone in draft.job.zones if zone.name == other)
        holding = [
            rule.axis
            for rule in rules.centred
            if rule.kind is Kind.MUST
            and runs_along(draft.zone, _axis(draft.job, rule.axis))
            is not (link.share is Share.JOINTS)
        ]
        held = f", held on {' and '.join(holding)} there" if holding else ""
        return f"{link.share.value} are shared with {other}{held}"
    return ""


def _axis(job: Job, name: str) -> Axis:
    return next(axis for axis in job.axes if axis.name == name)


def _off_square(draft: Draft, edge: Edge) -> bool:
    """Whether an edge leaves the rows, or the square to them, by more than a tape shows."""
    du, dv = abs(edge.end[0] - edge.start[0]), abs(edge.end[1] - edge.start[1])
    return min(du, dv) > draft.job.tape_step


def _at_points(draft: Draft, edge: Edge) -> bool:
    """Whether an edge lies as the line of points of a herringbone does: no slant of its own."""
    slant = draft.zone.laying.bond.slant if _herringbone(draft) else 0
    return slant == 45 and abs(_angle_off(edge) - 45) < LEVEL_DEGREES


def _herringbone(draft: Draft) -> bool:
    return draft.zone.laying.bond.kind is BondKind.HERRINGBONE


def _slant_words(draft: Draft, edge: Edge) -> str:
    what = "units" if _herringbone(draft) else "rows"
    return f"{edge.name} runs {_angle_off(edge):.2f} degrees off the {what}"


def _angle_off(edge: Edge) -> float:
    """How far an edge is off the rows, or off square to them, in degrees; 45 at most."""
    angle = math.degrees(math.atan2(edge.end[1] - edge.start[1], edge.end[0] - edge.start[0]))
    return abs((angle + 45) % 90 - 45)
