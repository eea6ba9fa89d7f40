"""How far a zone's lines are from an axis they are to be centred on."""

from __future__ import annotations

import math

import numpy as np

from models.job.data import BondKind, CentreOn
from solver.audit.document.claims import AxisClaim, Claims, Floats, RuleClaim
from solver.audit.measured.laid import Laid, into_frame
from solver.audit.measured.lattice import Lattice
from solver.audit.tolerances import NOISE, PARALLEL, SIZE


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
    ends = into_frame(laid.claim)(_two_points(axis))
    joint, unit = _in_rows(laid, ends) if laid.lattice is None else on_lattice(laid.lattice, ends)
    by_name = {
        CentreOn.EITHER.value: [min(there) for there in [_known(joint, unit)] if there],
        CentreOn.JOINT.value: _known(joint),
        CentreOn.UNIT.value: _known(unit),
    }
    return [value for each in by_name.values() for value in each] if on is None else by_name[on]


def _known(*values: float | None) -> list[float]:
    return [value for value in values if value is not None]


def _two_points(axis: AxisClaim) -> Floats:
    """Two points of an axis, 1 mm apart."""
    point = np.array(axis.point)
    return np.stack([point, point + np.array(axis.direction) / np.hypot(*axis.direction)])


def _in_rows(laid: Laid, ends: Floats) -> tuple[float | None, float | None]:
    """Distances from an axis to the nearest parallel line and to the nearest unit centre."""
    (u, v), (far_u, far_v) = ends.tolist()
    length, width = laid.pitch
    if abs(far_v - v) <= PARALLEL:
        return _both(v - laid.row_zero, width)
    straight = laid.zone.bond is BondKind.STRAIGHT
    if straight and abs(far_u - u) <= PARALLEL and len(laid.joints.at):
        return _both(u - float(laid.joints.at[0]), length)
    return None, None


def on_lattice(lattice: Lattice, ends: Floats) -> tuple[float | None, float | None]:
    """The same in a herringbone.

    Along the points the line is midway between the tips of one zigzag, which lie on either
    side of it. Square to that only units have a middle. Along units both are one unit width
    apart where a unit is a whole number of widths long.
    """
    (u, v), (far_u, far_v) = (lattice.plain(ends, np.zeros_like(ends)) - lattice.base).tolist()
    du, dv = far_u - u, far_v - v
    length, width = lattice.length, lattice.width
    root = math.sqrt(2)
    if abs(du - dv) <= root * PARALLEL:
        joint, unit = _both(u - v + lattice.module / 2, length)
        return joint / root, unit / root
    if abs(du + dv) <= root * PARALLEL:
        return None, _apart(u + v - (length + width) / 2, width) / root
    if abs(_apart(length, width)) <= NOISE:
        for value, off in ((v, dv), (u, du)):
            if abs(off) <= PARALLEL:
                return _both(value, width)
    return None, None


def _both(value: float, pitch: float) -> tuple[float, float]:
    """Distances to the nearest multiple of a pitch, and to the nearest middle between two."""
    line = _apart(value, pitch)
    return line, pitch / 2 - line


def _apart(value: float, pitch: float) -> float:
    """Distance to the nearest multiple of a pitch."""
    return abs((value + pitch / 2) % pitch - pitch / 2)
