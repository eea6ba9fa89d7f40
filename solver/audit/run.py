"""The audit of a finished layout: every claim of its document against its own geometry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain

import numpy as np

from models.job.data import RULE_NAMES
from solver.audit.checks import (
    features,
    figures,
    herringbone,
    joints,
    marks,
    mirrored,
    mixed,
    order,
    rows,
    scrap,
    seams,
    sizes,
    tiling,
    touches,
    units,
    verdicts,
    zones,
)
from solver.audit.document.claims import Claims, LayoutClaim
from solver.audit.document.reader import read
from solver.audit.findings import (
    AuditReport,
    Finding,
    MeasuredLayout,
    MeasuredRule,
    SmallestCut,
    shorten,
)
from solver.audit.measured.laid import Laid, lay
from solver.audit.measured.mirrored import is_turned_over
from solver.audit.measured.rules import Surveyed
from solver.audit.measured.runs import runs_of
from solver.audit.measured.sizes import measure_cuts

CHECKS = (
    "pieces tile the zone: no overlap, no gap, none over its edge",
    "zones apart from each other, clear of features, bordered as named",
    "every piece lies in one unit, in its own row",
    "row lines, start line and runs are where the pieces lie",
    "joints inside the floor are factory edge to factory edge",
    "joints follow the bond; herringbone units lie in their pattern",
    "unit lengths, listed joints and quarter turns",
    "mirrored zones are reflections, piece for piece",
    "seams between zones: length, strip and edges",
    "cut marks, cut sizes and what cuts touch",
    "every rule's worst value and outcome",
    "pieces of one unit fit in it, offcuts large enough; units counted",
    "features on their axes and kept clear",
    "order, cartons, cost and figures",
)
"""What is checked, in words for people."""


def audit(document: Mapping[str, object]) -> AuditReport:
    """Check a layouts.json document from its geometry alone.

    Raises AuditInputError when the document has not the keys and types of the contract.
    """
    claims = read(document)
    setting = list(tiling.sound_setting(claims))
    findings = [*setting, *features.on_axis(claims)]
    if not setting:
        findings += shorten(_of_setting(claims))
    measured = []
    for layout in claims.layouts:
        unsound = [*tiling.sound(layout), *tiling.complete(claims, layout)]
        findings += shorten(unsound)
        if not setting and not unsound:
            surveyed = [_survey(lay(claims, layout, zone)) for zone in layout.zones]
            outcome = verdicts.measure_rules(claims, layout, surveyed)
            findings += shorten(_findings(claims, layout, surveyed, outcome))
            measured.append(_measured(claims, layout, surveyed, outcome))
    findings += _ranks(claims)
    return AuditReport(tuple(dict.fromkeys(findings)), tuple(measured), CHECKS, _unchecked(claims))


def _survey(laid: Laid) -> Surveyed:
    return Surveyed(laid, measure_cuts(laid), runs_of(laid) if laid.in_rows else ())


def _of_setting(claims: Claims) -> Iterator[Finding]:
    """The findings on what all layouts share."""
    return chain(zones.zones_apart(claims), zones.zones_clear(claims), zones.sides(claims))


def _findings(
    claims: Claims,
    layout: LayoutClaim,
    surveyed: list[Surveyed],
    outcome: tuple[MeasuredRule, ...],
) -> Iterator[Finding]:
    """All findings on one layout."""
    laid = [zone.laid for zone in surveyed]
    return chain(
        *(_of_zone(one, is_turned_over(claims, one.laid.zone.name)) for one in surveyed),
        zones.pieces_apart(claims, layout),
        mirrored.reflections(claims, layout),
        seams.seams(layout, surveyed),
        features.kept_clear(claims, layout),
        verdicts.verdicts(claims, layout, outcome),
        verdicts.half_unit_limits(layout, surveyed),
        units.shared_units(layout, laid),
        scrap.offcuts(layout.rank, laid),
        units.unit_counts(claims, layout),
        order.order_lines(layout, laid),
        figures.figures(claims, layout, surveyed),
    )


def _of_zone(zone: Surveyed, turned_over: bool) -> Iterator[Finding]:
    """The findings on one zone by itself."""
    laid, cuts = zone.laid, zone.cuts
    return chain(
        tiling.overlaps(laid),
        tiling.over_the_edge(laid),
        tiling.gaps(laid),
        tiling.inside_one_unit(laid),
        mixed.unit_lengths(laid),
        _of_rows(zone, turned_over) if laid.in_rows else _of_herringbone(zone),
        tiling.whole_or_cut(laid),
        sizes.claimed_sizes(laid, cuts),
        touches.claimed_touches(laid, cuts),
        touches.named_sides(laid),
    )


def _of_rows(zone: Surveyed, turned_over: bool) -> Iterator[Finding]:
    """The findings on how rows lie."""
    laid = zone.laid
    return chain(
        rows.row_numbers(laid),
        rows.corners(laid),
        rows.row_lines(laid),
        rows.chalk_lines(laid),
        rows.listed_runs(laid, zone.runs),
        mixed.listed_joints(laid, zone.runs),
        marks.quarter_turns(laid, turned_over),
        joints.square_joints(laid),
        joints.seams_on_row_lines(laid),
        joints.whole_between_joints(laid),
        joints.rows_meet_in_order(laid),
        joints.bond(laid),
    )


def _of_herringbone(zone: Surveyed) -> Iterator[Finding]:
    """The findings on how the units of a herringbone lie."""
    laid = zone.laid
    return chain(
        herringbone.on_pattern(laid),
        herringbone.inside_units(laid),
        herringbone.factory_inside(laid, zone.cuts),
        herringbone.columns(laid),
        herringbone.chalk(laid),
    )


def _ranks(claims: Claims) -> Iterator[Finding]:
    """Layouts are ranked 1, 2, 3 in their order."""
    ranks = [layout.rank for layout in claims.layouts]
    if ranks != list(range(1, len(ranks) + 1)):
        claimed = ", ".join(map(str, ranks))
        yield Finding(None, "ranks", "layouts", f"ranks {claimed}", "not 1, 2, 3 in order")


def _measured(
    claims: Claims,
    layout: LayoutClaim,
    surveyed: list[Surveyed],
    outcome: tuple[MeasuredRule, ...],
) -> MeasuredLayout:
    """One layout in the audit's own numbers."""
    return MeasuredLayout(
        layout.rank,
        outcome,
        features.beside(claims, surveyed),
        _smallest(surveyed),
        sum(int((~zone.laid.whole).sum()) for zone in surveyed),
        len(set(layout.pieces.unit)),
        sum(float(zone.laid.areas.sum()) for zone in surveyed) / order.MM2_IN_M2,
    )


def _smallest(surveyed: list[Surveyed]) -> SmallestCut | None:
    """The smallest cut of a layout and where it lies."""
    found = None
    for zone in surveyed:
        size = zone.cuts.size
        if np.isnan(size).all():
            continue
        place = int(np.nanargmin(size))
        if found is None or size[place] < found.size:
            laid = zone.laid
            point = laid.pieces.shapes[place].representative_point()
            found = SmallestCut(
                float(size[place]),
                laid.pieces.ids[place],
                int(laid.rows[place]),
                (point.x, point.y),
            )
    return found


def _unchecked(claims: Claims) -> tuple[str, ...]:
    """What the document does not say enough about to check."""
    return tuple(
        f"layout {layout.rank}: {RULE_NAMES[rule.key]} {rule.subject}: "
        "the document does not give this axis"
        for layout in claims.layouts
        for rule in layout.rules
        if not verdicts.open_to_check(claims, rule)
    )
