"""The rules a layout is judged by, each measured from the pieces of one zone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from models.job.data import BondKind
from solver.audit.document.claims import Bools, Claims, Floats, Ints, LayoutClaim, RuleClaim
from solver.audit.measured.laid import Laid
from solver.audit.measured.linked import lines_apart, share_of
from solver.audit.measured.mirrored import mirror_between, reflection
from solver.audit.measured.offsets import longest_stair, nearest_joints, reuse_distance
from solver.audit.measured.runs import Run, joints_by_row
from solver.audit.measured.sizes import CutPieces, least
from solver.audit.tolerances import SIZE, TOUCH

ALONG, ACROSS = 0, 1


@dataclass(frozen=True, slots=True)
class Surveyed:
    """A zone with its measured cuts and runs: all that rules are measured from."""

    laid: Laid
    cuts: CutPieces
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """One rule of a layout with what else it depends on: ``zones`` are all of the layout."""

    rule: RuleClaim
    claims: Claims
    layout: LayoutClaim
    zones: Sequence[Surveyed]

    def limit_of(self, key: str) -> float | None:
        """The limit of another rule of the same zone, None when it is not asked for."""
        rules = (rule for rule in self.layout.rules if rule.zone == self.rule.zone)
        return next((rule.limit for rule in rules if rule.key == key), None)


def _lowest(values: Floats) -> float | None:
    """The least of the values that are there."""
    there = values[~np.isnan(values)]
    return float(there.min()) if len(there) else None


def smallest_cut(zone: Surveyed, _: Asked) -> float | None:
    """The least cut size of any piece."""
    return _lowest(zone.cuts.size)


def smallest_end(zone: Surveyed, _: Asked) -> float | None:
    """The least size along the row of any piece."""
    return _lowest(zone.cuts.sizes[:, ALONG])


def half_unit_edges(zone: Surveyed, asked: Asked) -> float | None:
    """The least size across the rows, hidden walls aside."""
    return _seen(zone, asked, ACROSS)


def half_unit_ends(zone: Surveyed, asked: Asked) -> float | None:
    """The least size along the rows, hidden walls aside."""
    return _seen(zone, asked, ALONG)


def _seen(zone: Surveyed, asked: Asked, column: int) -> float | None:
    """The least size of pieces whose cuts that way do not all go to hidden walls."""
    sizes, pieces = zone.cuts.sizes[:, column], zone.laid.pieces
    touches = pieces.rip_at if column == ACROSS else pieces.end_at
    hidden = asked.claims.hidden_walls
    if hidden is None:
        # The document does not name the hidden walls. If its worst value is right, those of
        # all smaller pieces are hidden; the value must then be found among the others.
        worst = asked.rule.worst
        smaller = sizes < (np.inf if worst is None else worst - SIZE)
        hidden = frozenset(name for k in np.flatnonzero(smaller) for name in touches[k])
    unseen = np.array([bool(names) and hidden.issuperset(names) for names in touches])
    return _lowest(np.where(unseen, np.nan, sizes))


def joint_offset(zone: Surveyed, _: Asked) -> float | None:
    """The least distance between end joints of neighbouring rows."""
    return _nearest_joints(zone, 1)


def second_joint_offset(zone: Surveyed, _: Asked) -> float | None:
    """The least distance between end joints of rows two apart."""
    return _nearest_joints(zone, 2)


def _nearest_joints(zone: Surveyed, gap: int) -> float | None:
    """The least distance between end joints of rows so many apart; none in a herringbone."""
    if not zone.laid.in_rows:
        return None
    return nearest_joints(zone.laid, joints_by_row(zone.laid), gap, zone.runs)


def no_stair(zone: Surveyed, _: Asked) -> float | None:
    """The longest streak of equal shifts from row to row, of units of one length."""
    if zone.laid.zone.bond is not BondKind.STAGGERED or zone.laid.mixed:
        return None
    return longest_stair(zone.runs, zone.laid.pitch[0])


def balanced_cuts(zone: Surveyed, _: Asked) -> float | None:
    """The larger difference between two opposite cuts."""
    return balance(zone)


def balance(zone: Surveyed) -> float | None:
    """The larger difference between two opposite cuts: across, and in a straight bond along."""
    laid = zone.laid
    if not laid.in_rows:
        return None
    low, high = laid.rows == 1, laid.rows == laid.rows.max()
    difference = abs(_least_or(zone, low, ACROSS) - _least_or(zone, high, ACROSS))
    if laid.zone.bond is not BondKind.STRAIGHT:
        return difference
    run = max(zone.runs, key=lambda one: round(one.length / TOUCH))
    ends = laid.bounds[run.pieces, 0].argmin(), laid.bounds[run.pieces, 2].argmax()
    one, two = (_least_or(zone, run.pieces[[end]], ALONG) for end in ends)
    return max(difference, abs(one - two))


def _least_or(zone: Surveyed, chosen: Bools | Ints, column: int) -> float:
    """The least size of chosen pieces, the whole unit where none is cut."""
    found = _lowest(zone.cuts.sizes[chosen, column])
    return zone.laid.pitch[column] if found is None else found


def reuse_within(zone: Surveyed, _: Asked) -> float | None:
    """The most rows between two pieces of one unit."""
    return reuse_distance(zone.laid)


def tape_tolerance(zone: Surveyed, asked: Asked) -> float | None:
    """How far a wall may move before a cut limit breaks."""
    margins = []
    for key, sizes in (
        ("smallest_cut", zone.cuts.size),
        ("smallest_end", zone.cuts.sizes[:, ALONG]),
    ):
        limit = asked.limit_of(key)
        if limit is not None:
            margins.append(sizes - limit)
    return _lowest(least(np.column_stack(margins))) if margins else None


def linked(zone: Surveyed, asked: Asked) -> float | None:
    """Distance between the nearest lines shared with another zone."""
    share = share_of(asked.claims, zone.laid.zone.name, asked.rule.subject)
    others = [one for one in asked.zones if one.laid.zone.name == asked.rule.subject]
    if share is None or not others:
        return None
    return lines_apart(others[0].laid, zone.laid, share)


def mirrored(zone: Surveyed, asked: Asked) -> float | None:
    """The most a piece differs from the reflection of its partner."""
    found = mirror_between(asked.claims, zone.laid.zone.name, asked.rule.subject)
    return None if found is None else float(reflection(asked.layout, *found).off.max())
