"""A border's strips: what lies within its width of each wall or side it runs along."""

from __future__ import annotations

from collections.abc import Container, Sequence

from shapely import Polygon, make_valid

from models.job.carve.area import CarveError
from models.job.carve.curves import Curve, curve, set_off
from models.job.carve.ends import Course, End, Leg, Mark, ends_at
from models.job.checks import TOUCH
from models.job.data import Point, Ring
from models.job.rings import twice_area


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
            raise _too_sharp(zone, area) if mitred else _too_wide(zone, area)
    return tuple((area, ring) for area, ring in rings if twice_area(ring) > 0)


def _too_wide(zone: str, area: str) -> CarveError:
    return CarveError(
        zone,
        f"is too wide for a side as short as that of '{area}', where it overlaps itself",
        "make the border narrower, or leave that side out",
    )


def _too_sharp(zone: str, area: str) -> CarveError:
    return CarveError(
        zone,
        f"cannot be mitred at a corner as sharp as that of '{area}', where a straight mitre would "
        "cross the arc",
        "write 'corners: butted', make the border narrower, or leave that side out",
    )


def _course(leg: Leg, width: int, zone: str) -> Course:
    own = curve(leg.corners)
    off = set_off(leg.corners, width) if leg.area else own
    if off is None:
        raise _too_wide(zone, leg.area)
    return Course(leg, own, off)


def _ends(courses: Sequence[Course], mitres: Container[int], zone: str) -> list[tuple[End, End]]:
    """How the strip of each leg starts and ends; corner i is where leg i starts."""
    corners = []
    for i, after in enumerate(courses):
        before = courses[i - 1]
        ends = ends_at(before, after, i in mitres)
        if ends is None:
            raise _too_wide(zone, before.leg.area or after.leg.area)
        corners.append(ends)
    return [
        (here[1], there[0]) for here, there in zip(corners, corners[1:] + corners[:1], strict=True)
    ]


def _one_strip(one: Leg, two: Leg) -> bool:
    return bool(one.area) and one.area == two.area


def _turned_over(start: End, end: End) -> bool:
    """Whether a strip would end before it starts, by more than rounding."""
    outer = max(start.outer)[0] - min(end.outer)[0]
    inner = max(start.inner)[0] - min(end.inner)[0]
    return max(outer, inner) > TOUCH


def _ring(course: Course, start: End, end: End) -> Ring:
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
