"""A border's strips: what lies within its width of each wall or side it runs along."""

from __future__ import annotations

import math
from collections.abc import Container, Sequence
from dataclasses import dataclass

from shapely import Polygon, make_valid

from models.job.carve.area import CarveError
from models.job.carve.curves import PARALLEL, Curve, Meeting, curve, meeting, rounded, set_off
from models.job.checks import TOUCH
from models.job.data import Point, Ring
from models.job.rings import twice_area

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
class _Course:
    """A leg with its own curve, and the one that bounds its strip off it (its own without)."""

    leg: Leg
    own: Curve
    off: Curve


@dataclass(frozen=True, slots=True)
class _End:
    """One end of a strip: its corners along the leg, those off it, and what joins the two.

    ``cap`` goes counter-clockwise round the strip.
    """

    outer: tuple[Mark, ...]
    inner: tuple[Mark, ...]
    cap: tuple[Point, ...] = ()


def strips(
    legs: Sequence[Leg], width: int, mitred: bool, zone: str
) -> tuple[tuple[str, Ring], ...]:
    """The strips along a closed walk, each with the name of the area it belongs to.

    ``legs`` go once round with the border on the left; where none runs a leg has no area.
    Corners are mitred, from the leg's corner straight to where the strips' inner curves
    meet, or butted: the longer leg runs through, the earlier of equals. A leg too short to
    be butted is mitred too. Raises CarveError when a strip turns over.
    """
    courses = [_course(leg, width, zone) for leg in legs]
    mitres = {i for i in range(len(legs)) if mitred or _one_strip(legs[i - 1], legs[i])}
    ends = _ends(courses, mitres, zone)
    while over := [i for i, leg in enumerate(legs) if leg.area and _turned_over(*ends[i])]:
        short = {j % len(legs) for i in over for j in (i, i + 1)} - mitres
        if not short:
            raise _too_wide(zone, legs[over[0]].area)
        mitres |= short
        ends = _ends(courses, mitres, zone)
    order = sorted(range(len(legs)), key=lambda i: legs[i].number)
    rings = [(legs[i].area, _ring(courses[i], *ends[i])) for i in order if legs[i].area]
    for area, ring in rings:
        if _crosses_itself(ring):
            raise _too_wide(zone, area)
    return tuple((area, ring) for area, ring in rings if twice_area(ring) > 0)


def _too_wide(zone: str, area: str) -> CarveError:
    return CarveError(
        zone,
        f"is too wide for a side as short as that of '{area}', where it overlaps itself",
        "make the border narrower, or leave that side out",
    )


def _course(leg: Leg, width: int, zone: str) -> _Course:
    own = curve(leg.corners)
    off = set_off(leg.corners, width) if leg.area else own
    if off is None:
        raise _too_wide(zone, leg.area)
    return _Course(leg, own, off)


def _ends(courses: Sequence[_Course], mitres: Container[int], zone: str) -> list[tuple[_End, _End]]:
    """How the strip of each leg starts and ends; corner i is where leg i starts."""
    corners = []
    for i, after in enumerate(courses):
        before = courses[i - 1]
        ends = _corner(before, after, i in mitres)
        if ends is None:
            raise _too_wide(zone, before.leg.area or after.leg.area)
        corners.append(ends)
    return [
        (here[1], there[0]) for here, there in zip(corners, corners[1:] + corners[:1], strict=True)
    ]


def _one_strip(one: Leg, two: Leg) -> bool:
    return bool(one.area) and one.area == two.area


def _corner(before: _Course, after: _Course, mitred: bool) -> tuple[_End, _End] | None:
    """How the strip before a corner ends there, and how the one after it starts.

    None when their curves do not meet.
    """
    cross, flat = _turn(before, after)
    if not (before.leg.area and after.leg.area):
        return _alone(before, after, convex=cross > 0 and not flat)
    inner = meeting(before.off, after.off) if abs(cross) > PARALLEL else _foot(before)
    if inner is None:
        return None
    one = _End(_outer_end(before), ((inner.one, rounded(inner.spot)),))
    two = _End(_outer_start(after), ((inner.two, rounded(inner.spot)),))
    if mitred or flat:
        return one, two
    return _butted(before, after, (one, two), convex=cross > 0)


def _turn(before: _Course, after: _Course) -> tuple[float, bool]:
    """The sine of the angle a walk turns by at a corner, left above 0, and whether it is flat."""
    (ax, ay), (bx, by) = _way(before.own, -2), _way(after.own, 0)
    return ax * by - ay * bx, ax * bx + ay * by > FLAT


def _way(own: Curve, first: int) -> tuple[float, float]:
    """The unit vector along a side of a curve."""
    (x0, y0), (x1, y1) = own.corners[first], own.corners[first + 1]
    length = math.dist((x0, y0), (x1, y1))
    return (x1 - x0) / length, (y1 - y0) / length


def _foot(before: _Course) -> Meeting:
    """Where two courses that run straight on into each other have their inner corner."""
    return Meeting(before.off.corners[-1], before.off.length, 0.0)


def _outer_end(course: _Course) -> tuple[Mark, ...]:
    return ((course.own.length, course.leg.corners[-1]),)


def _outer_start(course: _Course) -> tuple[Mark, ...]:
    return ((0.0, course.leg.corners[0]),)


def _alone(before: _Course, after: _Course, *, convex: bool) -> tuple[_End, _End] | None:
    """The ends at a corner with a border on one side at the most.

    A strip ends on the other leg's own curve, or square where that one turns away.
    """
    one = _End(_outer_end(before), ((before.off.length, rounded(before.off.corners[-1])),))
    two = _End(_outer_start(after), ((0.0, rounded(after.off.corners[0])),))
    if not convex or before.leg.area == after.leg.area:
        return one, two
    met = meeting(before.off, after.off)
    if met is None:
        return None
    at = rounded(met.spot)
    if before.leg.area:
        return _End(one.outer, ((met.one, at),), after.own.between(0.0, met.two)), two
    return one, _End(two.outer, ((met.two, at),), before.own.between(met.one, before.own.length))


def _butted(
    before: _Course, after: _Course, mitred: tuple[_End, _End], *, convex: bool
) -> tuple[_End, _End] | None:
    """The ends at a butted corner, from those it would have if it were mitred."""
    one, two = mitred
    through = _through(before, after)
    # The edge between the strips goes on the inner curve of the leg running through as far as
    # the other leg, or, where the floor turns round a corner, on its own as far as the other's.
    pair = (before.off, after.own) if through == convex else (before.own, after.off)
    met = meeting(*pair)
    if met is None:
        return None
    here, there = (met.one, rounded(met.spot)), (met.two, rounded(met.spot))
    if through and convex:
        cap = after.own.between(0.0, met.two)
        return _End(one.outer, (here, *one.inner), cap), _End((there,), two.inner)
    if through:
        cap = after.off.between(two.inner[0][0], met.two)[::-1]
        return _End((*one.outer, here), one.inner, cap), _End(two.outer, (there,))
    if convex:
        cap = before.own.between(met.one, before.own.length)
        return _End((here,), one.inner), _End(two.outer, (*two.inner, there), cap)
    cap = before.off.between(met.one, one.inner[0][0])[::-1]
    return _End(one.outer, (here,)), _End((there, *two.outer), two.inner, cap)


def _through(before: _Course, after: _Course) -> bool:
    """Whether the leg before a butted corner runs through: the longer, or the lower number."""
    longer = before.own.length - after.own.length
    earlier = before.leg.number < after.leg.number
    return longer > TOUCH or (abs(longer) <= TOUCH and earlier)


def _turned_over(start: _End, end: _End) -> bool:
    """Whether a strip would end before it starts, by more than rounding."""
    outer = max(start.outer)[0] - min(end.outer)[0]
    inner = max(start.inner)[0] - min(end.inner)[0]
    return max(outer, inner) > TOUCH


def _ring(course: _Course, start: _End, end: _End) -> Ring:
    """A strip's corners, none twice running."""
    there = _run(course.own, start.outer, end.outer)
    back = _run(course.off, start.inner, end.inner)[::-1]
    points = [*there, *end.cap, *back, *start.cap]
    return tuple(point for i, point in enumerate(points) if point != points[i - 1])


def _run(whole: Curve, start: tuple[Mark, ...], end: tuple[Mark, ...]) -> list[Point]:
    """The corners of a curve from the marks at its start to those at its end."""
    between = whole.between(max(start)[0] + TOUCH, min(end)[0] - TOUCH)
    ends = [[point for _, point in sorted(marks)] for marks in (start, end)]
    return [*ends[0], *between, *ends[1]]


def _crosses_itself(ring: Ring) -> bool:
    """Whether a strip's outline crosses itself by more than rounding."""
    if len(ring) < 3:
        return False
    shape = Polygon(ring)
    if shape.is_valid:
        return False
    return bool(abs(make_valid(shape).area - twice_area(ring) / 2) > TOUCH * shape.length)
