"""How far a zone's lines are from an axis they are to be centred on."""

from __future__ import annotations

import numpy as np

from models.job.data import BondKind, CentreOn
from solver.audit.document.claims import AxisClaim, Claims, RuleClaim
from solver.audit.measured.laid import Laid, into_frame
from solver.audit.tolerances import PARALLEL, SIZE


def axes_for(claims: Claims, rule: RuleClaim) -> tuple[AxisClaim, ...]:
    """The axes a rule may be about: the named one, or all when the document names none."""
    known = (*(claims.axes or ()), *(feature.axis for feature in claims.features))
    return tuple(axis for axis in known if axis.name == rule.subject) or tuple(
        axis for axis in known if axis.name is None
    )


def off_centre(laid: Laid, claims: Claims, rule: RuleClaim) -> float | None:
    """Distance in mm from the axis to what is to lie on it; None when nothing can.

    Where the document leaves the axis or what is centred open, the reading nearest to its
    claim is taken, so that only a claim no reading bears out is found wrong.
    """
    readings = [
        distance for axis in axes_for(claims, rule) for distance in _readings(laid, axis, rule.on)
    ]
    if rule.worst is None or not readings:
        return min(readings, default=None)
    claimed = rule.worst
    near = [reading for reading in readings if abs(reading - claimed) <= SIZE]
    return near[0] if near else readings[0]


def _readings(laid: Laid, axis: AxisClaim, on: str | None) -> list[float]:
    """Distances for one axis: to the nearest line or unit centre, or to either."""
    nearest = _to_line(laid, axis)
    if nearest is None:
        return []
    distance, pitch = nearest
    joint, unit = distance, pitch / 2 - distance
    by_name = {
        CentreOn.EITHER.value: min(joint, unit),
        CentreOn.JOINT.value: joint,
        CentreOn.UNIT.value: unit,
    }
    return list(by_name.values()) if on is None else [by_name[on]]


def _to_line(laid: Laid, axis: AxisClaim) -> tuple[float, float] | None:
    """Distance to the nearest parallel line of the zone, and the pitch of those lines.

    In a herringbone they are the lines of its tips.
    """
    point = np.array(axis.point)
    far = point + np.array(axis.direction) / np.hypot(*axis.direction)
    ends = into_frame(laid.claim)(np.stack([point, far]))
    if laid.lattice is not None:
        here, there = laid.lattice.to_tips(ends).tolist()
        along = abs(there - here) <= PARALLEL
        return (_apart(here, laid.lattice.tips), laid.lattice.tips) if along else None
    (u, v), (far_u, far_v) = ends.tolist()
    length, width = laid.pitch
    if abs(far_v - v) <= PARALLEL:
        return _apart(v - laid.row_zero, width), width
    straight = laid.zone.bond is BondKind.STRAIGHT
    if straight and abs(far_u - u) <= PARALLEL and len(laid.joints.at):
        return _apart(u - float(laid.joints.at[0]), length), length
    return None


def _apart(value: float, pitch: float) -> float:
    """Distance to the nearest multiple of a pitch."""
    return abs((value + pitch / 2) % pitch - pitch / 2)
