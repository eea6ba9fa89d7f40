"""Lines held on an axis: exactly two cases, a line on it or a unit centred on it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from models.floor.zone import Zone
from models.job.data import Axis, Centred, CentreOn, Job, Point


def axis_in_frame(zone: Zone, axis: Axis) -> tuple[Point, Point]:
    """A point of the axis, and another one far along it, in the zone's frame (ticks)."""
    far = (axis.point[0] + axis.direction[0], axis.point[1] + axis.direction[1])
    return zone.frame.to_frame(axis.point), zone.frame.to_frame(far)


def runs_along(zone: Zone, axis: Axis) -> bool | None:
    """True when the axis runs along the rows, False when square to them, None if oblique."""
    (ax, ay), (dx, dy) = axis.direction, zone.frame.direction
    du, dv = abs(ax * dx + ay * dy), abs(ay * dx - ax * dy)
    # Directions are whole vectors, so that square ones may be off by a hair.
    if dv * 10_000 <= du:
        return True
    return False if du * 10_000 <= dv else None


def held_lines(
    zone: Zone, job: Job, rules: Sequence[Centred], pitch: int, along: bool
) -> list[Fraction] | None:
    """The row lines (``along``) or joint lines the given rules admit; None when free.

    Several axes hold together: only lines all of them admit are kept; an empty list means
    that they contradict each other.
    """
    held: list[Fraction] | None = None
    axes = {axis.name: axis for axis in job.axes}
    for rule in rules:
        axis = axes[rule.axis]
        if runs_along(zone, axis) is not along:
            continue
        at = _place(zone, axis, along)
        lines = [
            line
            for line, on in (
                (Fraction(at), CentreOn.JOINT),
                (at + Fraction(pitch, 2), CentreOn.UNIT),
            )
            if rule.on in (on, CentreOn.EITHER)
        ]
        held = (
            lines if held is None else [x for x in held if any((x - y) % pitch == 0 for y in lines)]
        )
    return held


def off_axis(zone: Zone, axis: Axis, on: CentreOn, line: int, pitch: int, along: bool) -> int:
    """Distance from an axis to the nearest line, or unit centre, of lines through ``line``."""
    at = _place(zone, axis, along)
    shifts = {CentreOn.JOINT: (0,), CentreOn.UNIT: (1,), CentreOn.EITHER: (0, 1)}[on]
    gaps = [(2 * (at - line) + pitch * shift) % (2 * pitch) for shift in shifts]
    return min(min(gap, 2 * pitch - gap) for gap in gaps) // 2


def _place(zone: Zone, axis: Axis, along: bool) -> int:
    """The v of an axis along the rows, the u of one square to them, in ticks."""
    return axis_in_frame(zone, axis)[0][1 if along else 0]
