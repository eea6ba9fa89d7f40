"""Where the corner of a herringbone may go: the few places worth weighing.

A corner is given by its places along two *normals*: those of the axes that hold it, or else
those most walls are square to. Along each, what matters is where the pattern's own lines
(sides of units, tips and lines of points) fall on a wall, and midway between such places.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

import numpy as np

from models.floor.herringbone import Corner, module, same_corner
from models.floor.herringbone_centring import Hold, held_corners
from models.floor.zone import NEAR_SQUARE_TAN, Edge, Zone
from models.job.data import Job, Kind, Point

PAIRS: tuple[tuple[Point, Point], ...] = (((1, 0), (0, 1)), ((1, 1), (-1, 1)))
"""Square to each other: along the units, along and across the line of points."""

WALLS = 6
"""Walls square to one normal whose places are tried, longest first."""


def corners(job: Job, zone: Zone, most: int) -> tuple[list[Corner], bool]:
    """At most ``most`` corners that differ, and whether they are all the axes admit.

    Axes that must be centred on hold every one of them, preferred axes up to half. Of
    the others most are those walls suggest, a quarter at least is spread evenly.
    """
    must, wish = _held(job, zone, must_only=True), _held(job, zone, must_only=False)
    found: dict[Corner, None] = {}
    every = False
    for held, share in ((wish, most // 2 if len(wish) > len(must) else 0), (must, most)):
        mine = _admitted(_met(job, zone, held), must)
        left = share - len(found)
        if len(held) < 2:
            spread = max(left // 4, left - len(mine))
            even = _admitted(_met(job, zone, held, spread), must) if spread > 0 else []
            found |= dict.fromkeys(_thinned(even, spread))
        found |= dict.fromkeys(_thinned(mine, share - len(found)))
        every = len(held) > 1 and len(mine) <= share
    return list(found), every


def _admitted(found: list[Corner], must: Sequence[Hold]) -> list[Corner]:
    """Those all axes admit; all, where axes in three directions have no corner in common."""
    return [corner for corner in found if all(hold.off(corner) <= 1 for hold in must)] or found


def _met(job: Job, zone: Zone, held: Sequence[Hold], even: int = 0) -> list[Corner]:
    """Where places along both normals meet: about ``even`` of them evenly spread, if any."""
    pitch, double = job.product_of(zone.laying).pitch, zone.laying.bond.double
    normals = _normals(zone, held)
    (a, b), (c, d) = normals
    gap = 0
    if even:
        # Twice a module's area is that of a period; along the normals it may look larger.
        length, width = module(pitch, double)
        gap = max(round(math.sqrt(abs(a * d - b * c) * 2 * length * width / even)), 1)
    ways = [_places(job, zone, held, normal, gap) for normal in normals]
    return _meetings(normals, ways, pitch, double)


def ways_to_move(job: Job, zone: Zone) -> tuple[Point, ...]:
    """The directions a corner may be moved in and still lie on every axis it must."""
    must = _held(job, zone, must_only=True)
    if len(must) > 1:
        return ()
    ways = _normals(zone, must)
    if must:
        ways = tuple(way for way in ways if way != must[0].normal)
    return tuple((sign * u, sign * v) for u, v in ways for sign in (1, -1))


def _held(job: Job, zone: Zone, must_only: bool) -> list[Hold]:
    """What axes ask, without those that contradict each other."""
    rules = [r for r in zone.laying.rules.centred if r.kind is Kind.MUST or not must_only]
    pitch, double = job.product_of(zone.laying).pitch, zone.laying.bond.double
    return [hold for hold in held_corners(zone, job, rules, pitch, double) if hold.at]


def _normals(zone: Zone, held: Sequence[Hold]) -> tuple[Point, ...]:
    """Two normals to place a corner by: of the axes, then of the walls."""
    if len(held) > 1:
        return held[0].normal, held[1].normal
    if held:
        return next(pair for pair in PAIRS if held[0].normal in pair)
    return max(
        PAIRS, key=lambda pair: sum(e.length for n in pair for e in zone.edges if _square(e, n))
    )


def _square(edge: Edge, normal: Point) -> bool:
    """True for an edge within 15 degrees of square to a normal."""
    du, dv = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
    return abs(du * normal[0] + dv * normal[1]) <= NEAR_SQUARE_TAN * abs(
        dv * normal[0] - du * normal[1]
    )


Ways = tuple[int, list[Fraction]]
"""Places along a normal, in ticks times its length, and the spacing they repeat at."""


def _places(job: Job, zone: Zone, held: Sequence[Hold], normal: Point, gap: int) -> Ways:
    """The places along a normal that axes ask for; without any, those walls suggest.

    With a ``gap`` (ticks times the normal's length) places so far apart instead of these.
    """
    for hold in held:
        if hold.normal == normal:
            return hold.spacing, list(hold.at)
    pitch, double = job.product_of(zone.laying).pitch, zone.laying.bond.double
    length, width = module(pitch, double)
    spacing = length if normal == (-1, 1) else width
    # On the tape: a place is measured from where the frame starts, square to the normal's lines.
    step = job.tape_step * math.hypot(*normal)
    if gap:
        count = max(round(spacing / gap), 1)
        even = [round(round(spacing * i / count / step) * step) for i in range(count)]
        return spacing, sorted({Fraction(place % spacing) for place in even})
    walls = sorted((e for e in zone.edges if _square(e, normal)), key=lambda e: -e.length)
    ends = [p for e in walls[:WALLS] for p in (e.start, e.end)]
    lines = _lines(normal, pitch, double)
    on = sorted(
        {(normal[0] * u + normal[1] * v - line) % spacing for u, v in ends for line in lines}
    ) or [Fraction(0)]
    between = [(a + b) / 2 for a, b in pairwise((*on, on[0] + spacing))]
    taped = {Fraction(round(round(place / step) * step)) % spacing for place in between}
    return spacing, sorted({*on, *taped})


def _lines(normal: Point, pitch: tuple[int, int], double: bool) -> list[Fraction]:
    """How far along a normal from the corner the pattern's own lines lie."""
    length, width = module(pitch, double)
    sides = [Fraction(0), Fraction(pitch[1])]
    if normal == (-1, 1):
        return [Fraction(0), Fraction(width), Fraction(width, 2), Fraction(width + length, 2)]
    if normal == (1, 1):
        return [*sides, *(side + length for side in sides), Fraction(length + pitch[1], 2)]
    return [side + turn * length for side in sides for turn in (-1, 0, 1)]


def _meetings(
    normals: tuple[Point, ...], ways: Sequence[Ways], pitch: tuple[int, int], double: bool
) -> list[Corner]:
    """The corners at one of the places along either normal, over one period of the pattern."""
    length, width = module(pitch, double)
    (a, b), (c, d) = normals
    # One flat module and one upright one are a period; this box holds both.
    box = np.array([(u, v) for u in (0, length + width) for v in (width - length, width)])
    runs = []
    for normal, (spacing, places) in zip(normals, ways, strict=True):
        reach = box @ np.array(normal)
        repeats = np.arange(reach.min() // spacing - 1, reach.max() // spacing + 1) * spacing
        runs.append(np.add.outer(np.array([float(place) for place in places]), repeats).ravel())
    one, two = (side.ravel() for side in np.meshgrid(*runs))
    us, vs = (
        np.rint((one * d - two * b) / (a * d - b * c)),
        np.rint((a * two - c * one) / (a * d - b * c)),
    )
    found = {same_corner((int(u), int(v)), pitch, double) for u, v in zip(us, vs, strict=True)}
    return sorted(found)


def _thinned(found: Sequence[Corner], most: int) -> list[Corner]:
    """At most so many, evenly out of all."""
    if len(found) <= most:
        return list(found)
    return [found[i * len(found) // most] for i in range(max(most, 0))]
