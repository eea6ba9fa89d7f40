"""A herringbone held on an axis: its line of points on it, or the middle of its units.

Along the line of points *joint* is that line, midway between the outermost tips of one
zigzag, and *unit* the middle between two such lines. An axis square to it passes only
through the middles of units. An axis along the units themselves meets lines of joints,
or of units' middles, only where a unit is a whole number of widths long; no other axis
means the same in every column, so nothing is centred on it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from models.floor.centring import axis_in_frame
from models.floor.herringbone import Corner, module
from models.floor.zone import Zone
from models.job.data import Axis, Centred, CentreOn, Job, Point

PARALLEL = 10_000
"""Directions are whole vectors, so that parallel ones may be off by one part in so many."""


@dataclass(frozen=True, slots=True)
class Hold:
    """What an axis asks of the corner (u0, v0): ``normal`` . corner is one of ``at``.

    It may be off by any whole number of ``spacing`` (ticks). No ``at`` at all means that
    several axes contradict each other.
    """

    normal: Point
    spacing: int
    at: tuple[Fraction, ...]

    def off(self, corner: Corner) -> Fraction:
        """The least difference from what is asked, in ticks along ``normal``."""
        here = self.normal[0] * corner[0] + self.normal[1] * corner[1]
        gaps = [(place - here) % self.spacing for place in self.at]
        return min(min(gap, self.spacing - gap) for gap in gaps)


def hold_of(
    zone: Zone, axis: Axis, on: CentreOn, pitch: tuple[int, int], double: bool
) -> Hold | None:
    """What one axis asks; None when nothing can be centred on it."""
    length, width = module(pitch, double)
    whole = pitch[0] % pitch[1] == 0
    # Beside each normal: the spacing of the places, and the normal's value less the corner's
    # for a joint and for a unit on the axis.
    cases: dict[Point, tuple[int, Fraction | None, Fraction | None]] = {
        (-1, 1): (length, Fraction(width, 2), Fraction(width + length, 2)),
        (1, 1): (pitch[1], None, Fraction(pitch[0] + pitch[1], 2)),
        (0, 1): (pitch[1], Fraction(0), Fraction(pitch[1], 2)),
        (1, 0): (pitch[1], Fraction(0), Fraction(pitch[1], 2)),
    }
    normal = next((n for n in cases if _parallel(zone, axis, n)), None)
    if normal is None or (0 in normal and not whole):
        return None
    spacing, joint, unit = cases[normal]
    point = axis_in_frame(zone, axis)[0]
    place = normal[0] * point[0] + normal[1] * point[1]
    shifts = {
        CentreOn.JOINT: (joint,),
        CentreOn.UNIT: (unit,),
        CentreOn.EITHER: (joint, unit),
    }[on]
    at = tuple(place - shift for shift in shifts if shift is not None)
    return Hold(normal, spacing, at) if at else None


def _parallel(zone: Zone, axis: Axis, normal: Point) -> bool:
    """True when the axis is square to a vector of the frame."""
    (ax, ay), (dx, dy) = axis.direction, zone.frame.direction
    du, dv = ax * dx + ay * dy, ay * dx - ax * dy
    across, along = abs(du * normal[0] + dv * normal[1]), abs(dv * normal[0] - du * normal[1])
    return across * PARALLEL <= along


def held_corners(
    zone: Zone, job: Job, rules: Sequence[Centred], pitch: tuple[int, int], double: bool
) -> tuple[Hold, ...]:
    """What the given rules ask of the corner together, one entry a direction of axes."""
    axes = {axis.name: axis for axis in job.axes}
    held: dict[Point, Hold] = {}
    for rule in rules:
        hold = hold_of(zone, axes[rule.axis], rule.on, pitch, double)
        if hold is None:
            continue
        before = held.get(hold.normal)
        if before is not None:
            both = [x for x in before.at if any((x - y) % hold.spacing == 0 for y in hold.at)]
            hold = replace(hold, at=tuple(both))
        held[hold.normal] = hold
    return tuple(held.values())


def herringbone_off_axis(
    zone: Zone, axis: Axis, on: CentreOn, corner: Corner, pitch: tuple[int, int], double: bool
) -> int | None:
    """Distance in ticks from an axis to the nearest line of points, or of units' middles.

    None when nothing of a herringbone can be centred on the axis.
    """
    hold = hold_of(zone, axis, on, pitch, double)
    return None if hold is None else round(hold.off(corner) / math.hypot(*hold.normal))
