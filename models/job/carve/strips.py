"""A border's strips: what lies within its width of each side it runs along."""

from __future__ import annotations

import math
from collections.abc import Container, Sequence
from dataclasses import dataclass

from models.job.carve.area import CarveError
from models.job.checks import TOUCH
from models.job.data import Point, Ring
from models.job.rings import twice_area

FLAT = math.cos(math.radians(30))
"""Corners that turn by less than 30 degrees cannot be butted: they are mitred."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One side of a closed walk with the border on its left; ``area`` names its strip.

    Neighbouring legs of one area make one strip. ``area`` is empty where no border runs.
    ``number`` tells which of two equal sides is the earlier.
    """

    number: int
    start: Point
    end: Point
    area: str

    @property
    def length(self) -> float:
        """Length in ticks."""
        return math.dist(self.start, self.end)

    @property
    def along(self) -> tuple[float, float]:
        """The unit vector from start to end."""
        return (
            (self.end[0] - self.start[0]) / self.length,
            (self.end[1] - self.start[1]) / self.length,
        )


@dataclass(frozen=True, slots=True)
class _End:
    """One end of a strip: its points on the side walked, and those off it.

    Both lists run counter-clockwise round the strip.
    """

    outer: tuple[Point, ...]
    inner: tuple[Point, ...]


def strips(
    legs: Sequence[Leg], width: int, mitred: bool, zone: str
) -> tuple[tuple[str, Ring], ...]:
    """The strips along a closed walk, each with the name of the area it belongs to.

    ``legs`` go once round with the border on the left; where none runs a leg has no area.
    Corners are mitred, or butted: the longer side runs through, the earlier of equals. A
    side too short to be butted is mitred too. Raises CarveError when the strip of a side
    turns over.
    """
    mitres = {i for i in range(len(legs)) if mitred or _one_strip(legs[i - 1], legs[i])}
    ends = _ends(legs, width, mitres)
    while over := [i for i, leg in enumerate(legs) if leg.area and _turned_over(leg, *ends[i])]:
        short = {j % len(legs) for i in over for j in (i, i + 1)} - mitres
        if not short:
            name = legs[over[0]].area
            raise CarveError(
                zone,
                f"is too wide for a side as short as that of '{name}', where it overlaps itself",
                "make the border narrower, or leave that side out",
            )
        mitres |= short
        ends = _ends(legs, width, mitres)
    order = sorted(range(len(legs)), key=lambda i: legs[i].number)
    rings = ((legs[i].area, _ring(*ends[i])) for i in order if legs[i].area)
    return tuple((area, ring) for area, ring in rings if twice_area(ring) > 0)


def _ends(legs: Sequence[Leg], width: int, mitres: Container[int]) -> list[tuple[_End, _End]]:
    """How the strip of each leg starts and ends; corner i is where leg i starts."""
    corners = [_corner(legs[i - 1], legs[i], width, i in mitres) for i in range(len(legs))]
    return [
        (here[1], there[0]) for here, there in zip(corners, corners[1:] + corners[:1], strict=True)
    ]


def _one_strip(one: Leg, two: Leg) -> bool:
    return bool(one.area) and one.area == two.area


def _corner(before: Leg, after: Leg, width: int, mitred: bool) -> tuple[_End, _End]:
    """How the strip before a corner ends there, and how the one after it starts."""
    (ax, ay), (bx, by) = before.along, after.along
    corner = after.start

    def at(x: float, y: float) -> Point:
        return corner[0] + round(x * width), corner[1] + round(y * width)

    cross, cosine = ax * by - ay * bx, ax * bx + ay * by
    flat = cosine > FLAT
    if not (before.area and after.area):
        convex = cross > 0 and not flat
        ends = (
            (at(bx / cross, by / cross), at(-ax / cross, -ay / cross))
            if convex
            else (at(-ay, ax), at(-by, bx))
        )
        return _End((corner,), ends[:1]), _End((corner,), ends[1:])
    inner = at(-(ay + by) / (1 + cosine), (ax + bx) / (1 + cosine))
    if mitred or flat:
        return _End((corner,), (inner,)), _End((corner,), (inner,))
    # Where the line off one side meets the other side's own line.
    on_after, on_before = at(bx / cross, by / cross), at(-ax / cross, -ay / cross)
    if _through(before, after):
        if cross > 0:
            return _End((corner,), (on_after, inner)), _End((on_after,), (inner,))
        return _End((corner, on_before), (inner,)), _End((corner,), (on_before,))
    if cross > 0:
        return _End((on_before,), (inner,)), _End((corner,), (inner, on_before))
    return _End((corner,), (on_after,)), _End((on_after, corner), (inner,))


def _through(before: Leg, after: Leg) -> bool:
    """Whether the leg before a butted corner runs through: the longer, or the lower number."""
    longer = before.length - after.length
    return longer > TOUCH or (abs(longer) <= TOUCH and before.number < after.number)


def _turned_over(leg: Leg, start: _End, end: _End) -> bool:
    """Whether the strip of a leg would end before it starts, by more than rounding."""
    ax, ay = leg.along

    def reach(point: Point) -> float:
        return (point[0] - leg.start[0]) * ax + (point[1] - leg.start[1]) * ay

    outer = reach(start.outer[-1]) - reach(end.outer[0])
    inner = max(map(reach, start.inner)) - min(map(reach, end.inner))
    return max(outer, inner) > TOUCH


def _ring(start: _End, end: _End) -> Ring:
    """A strip's corners, none twice running."""
    points = start.outer + end.outer + end.inner + start.inner
    return tuple(point for i, point in enumerate(points) if point != points[i - 1])
