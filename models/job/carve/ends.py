"""How the strips of a border end at a corner: mitred, butted, or against a leg without one."""

from __future__ import annotations

import math
from dataclasses import dataclass

from models.job.carve.curves import PARALLEL, Curve, Meeting, meeting, rounded
from models.job.checks import TOUCH
from models.job.data import Point

FLAT = math.cos(math.radians(30))
"""Corners that turn by less than 30 degrees cannot be butted: they are mitred."""

Mark = tuple[float, Point]
"""How far along a curve a strip's corner lies, and the corner."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One wall or side of a closed walk, with the border on its left.

    ``corners`` go from its start to its end; an arc has many. ``area`` names its strip, and
    is empty where no border runs. ``number`` tells which of two equally long is the earlier.
    """

    number: int
    corners: tuple[Point, ...]
    area: str


@dataclass(frozen=True, slots=True)
class Course:
    """A leg with its own curve, and the one that bounds its strip off it (its own without)."""

    leg: Leg
    own: Curve
    off: Curve


@dataclass(frozen=True, slots=True)
class End:
    """One end of a strip: its corners along the leg, those off it, and what joins the two.

    ``cap`` goes counter-clockwise round the strip.
    """

    outer: tuple[Mark, ...]
    inner: tuple[Mark, ...]
    cap: tuple[Point, ...] = ()


def ends_at(before: Course, after: Course, mitred: bool) -> tuple[End, End] | None:
    """How the strip before a corner ends there, and how the one after it starts.

    None when their curves do not meet.
    """
    cross, flat = _turn(before, after)
    if not (before.leg.area and after.leg.area):
        return _alone(before, after, convex=cross > 0 and not flat)
    inner = meeting(before.off, after.off) if abs(cross) > PARALLEL else _foot(before)
    if inner is None:
        return None
    one = End(_outer_end(before), ((inner.one, rounded(inner.spot)),))
    two = End(_outer_start(after), ((inner.two, rounded(inner.spot)),))
    if mitred or flat:
        return one, two
    return _butted(before, after, (one, two), convex=cross > 0)


def _turn(before: Course, after: Course) -> tuple[float, bool]:
    """The sine of the angle a walk turns by at a corner, left above 0, and whether it is flat."""
    (ax, ay), (bx, by) = _way(before.own, -2), _way(after.own, 0)
    return ax * by - ay * bx, ax * bx + ay * by > FLAT


def _way(own: Curve, first: int) -> tuple[float, float]:
    """The unit vector along a side of a curve."""
    (x0, y0), (x1, y1) = own.corners[first], own.corners[first + 1]
    length = math.dist((x0, y0), (x1, y1))
    return (x1 - x0) / length, (y1 - y0) / length


def _foot(before: Course) -> Meeting:
    """Where two courses that run straight on into each other have their inner corner."""
    return Meeting(before.off.corners[-1], before.off.length, 0.0)


def _outer_end(course: Course) -> tuple[Mark, ...]:
    return ((course.own.length, course.leg.corners[-1]),)


def _outer_start(course: Course) -> tuple[Mark, ...]:
    return ((0.0, course.leg.corners[0]),)


def _alone(before: Course, after: Course, *, convex: bool) -> tuple[End, End] | None:
    """The ends at a corner with a border on one side at the most.

    A strip ends on the other leg's own curve, or square where that one turns away.
    """
    one = End(_outer_end(before), ((before.off.length, rounded(before.off.corners[-1])),))
    two = End(_outer_start(after), ((0.0, rounded(after.off.corners[0])),))
    if not convex or before.leg.area == after.leg.area:
        return one, two
    met = meeting(before.off, after.off)
    if met is None:
        return None
    at = rounded(met.spot)
    if before.leg.area:
        return End(one.outer, ((met.one, at),), after.own.between(0.0, met.two)), two
    return one, End(two.outer, ((met.two, at),), before.own.between(met.one, before.own.length))


def _butted(
    before: Course, after: Course, mitred: tuple[End, End], *, convex: bool
) -> tuple[End, End]:
    """The ends at a butted corner, from those it would have if it were mitred.

    It is mitred after all where an arc bends away from the edge the two strips would share.
    """
    one, two = mitred
    through = _through(before, after)
    # The edge between the strips goes on the inner curve of the leg running through as far as
    # the other leg, or, where the floor turns round a corner, on its own as far as the other's.
    on_after = through == convex
    met = meeting(before.off, after.own) if on_after else meeting(before.own, after.off)
    if met is None:
        return mitred
    within = met.two if on_after else before.own.length - met.one
    if (within > 0) != convex:
        return mitred
    here, there = (met.one, rounded(met.spot)), (met.two, rounded(met.spot))
    if through and convex:
        cap = after.own.between(0.0, met.two)
        return End(one.outer, (here, *one.inner), cap), End((there,), two.inner)
    if through:
        cap = after.off.between(two.inner[0][0], met.two)[::-1]
        return End((*one.outer, here), one.inner, cap), End(two.outer, (there,))
    if convex:
        cap = before.own.between(met.one, before.own.length)
        return End((here,), one.inner), End(two.outer, (*two.inner, there), cap)
    cap = before.off.between(met.one, one.inner[0][0])[::-1]
    return End(one.outer, (here,)), End((there, *two.outer), two.inner, cap)


def _through(before: Course, after: Course) -> bool:
    """Whether the leg before a butted corner runs through: the longer, or the lower number."""
    longer = before.own.length - after.own.length
    earlier = before.leg.number < after.leg.number
    return longer > TOUCH or (abs(longer) <= TOUCH and earlier)
