"""The floor each zone asks for by its own shape, and what stands in the room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely import Polygon

from models.job.angles import between, rightward
from models.job.carve.area import CarveError
from models.job.carve.ends import Leg
from models.job.carve.mesh import is_slip, rings_of
from models.job.carve.snap import drawn_to
from models.job.carve.strips import strips
from models.job.carve.whole_walls import put_onto_arcs, whole_walls
from models.job.data import (
    Band,
    Border,
    Direction,
    Feature,
    Fill,
    Job,
    Laying,
    Mirror,
    Outline,
    Rest,
    Ring,
)
from models.job.rings import edges

MOST_SIDES = 8
"""A border round a feature of more sides than this is one ring-shaped area."""


@dataclass(frozen=True, slots=True)
class Site:
    """The room and what stands in it, corners that touch put onto each other."""

    room: Ring
    columns: tuple[Ring, ...]
    features: tuple[Ring, ...]

    @property
    def rings(self) -> tuple[Ring, ...]:
        """All its outlines."""
        return (self.room, *self.columns, *self.features)


@dataclass(frozen=True, slots=True)
class Patch:
    """A shape that belongs to the zone of number ``zone`` in the job; ``name`` is its area's.

    Patches of one name make one area. ``mirrors`` names the area it is the reflection of.
    """

    zone: int
    name: str
    laying: Laying
    shape: Polygon
    mirrors: str = ""


def site_of(job: Job) -> Site:
    """The room of a job and what stands in it."""
    columns = drawn_to([column.outline for column in job.columns], [job.room])
    features = drawn_to([item.outline for item in job.features], [job.room, *columns])
    return Site(job.room, columns, features)


def patches_of(job: Job, site: Site) -> tuple[Patch, ...]:
    """The shapes of all zones that have one of their own, in the job's order.

    Zones that mirror others and those that take what is left have none. Raises CarveError
    for a zone whose shape cannot be formed.
    """
    found: list[Patch] = []
    known = list(site.rings)
    for number, zone in enumerate(job.zones):
        wanted = list(_shapes(job, zone))
        rings = drawn_to([ring for _, _, ring in wanted], known)
        known += rings
        for (name, laying, _), ring in zip(wanted, rings, strict=True):
            if len(ring) > 2:
                found.append(Patch(number, name, laying, Polygon(ring)))
    return tuple(found)


def _shapes(job: Job, zone: Laying) -> Iterator[tuple[str, Laying, Ring]]:
    """The name, laying and outline of each shape of a zone."""
    shape = zone.shape
    match shape:
        case Outline():
            yield zone.name, zone, put_onto_arcs(shape.ring, job)
        case Fill():
            yield zone.name, zone, _feature(job, zone, shape.feature).outline
        case Band():
            yield from ((zone.name, zone, ring) for ring in _band(job.room, shape, zone.name))
        case Border() if shape.feature:
            feature = _feature(job, zone, shape.feature)
            yield from _bordered(zone, _round(zone, feature), shape)
        case Border():
            yield from _bordered(zone, _along(zone, job), shape)
        case Mirror() | Rest():
            return


def _feature(job: Job, zone: Laying, name: str) -> Feature:
    for feature in job.features:
        if feature.name == name:
            return feature
    known = ", ".join(f"'{feature.name}'" for feature in job.features) or "none"
    raise CarveError(
        zone.name, f"is held to feature '{name}', which is not there", f"name one there is: {known}"
    )


def _along(zone: Laying, job: Job) -> list[Leg]:
    """The walk along the walls, with a border along those the zone names; an arc is one leg."""
    assert isinstance(zone.shape, Border)
    chosen = set(zone.shape.walls)
    return [
        Leg(wall.number, wall.corners, f"{zone.name}, {wall.name}" if wall.name in chosen else "")
        for wall in whole_walls(job)
    ]


def _round(zone: Laying, feature: Feature) -> list[Leg]:
    """The walk round a feature with the floor on its left, its sides last to first.

    Round a feature of many sides it is walked in two halves of one strip.
    """
    corners = feature.outline
    count = len(corners)
    if feature.round_diameter is None and count <= MOST_SIDES:
        sides = enumerate(edges(corners), 1)
        legs = [Leg(i, (end, start), f"{zone.name}, side {i}") for i, (start, end) in sides]
        return legs[::-1]
    half = count // 2
    back = (*corners[::-1], corners[-1])
    return [Leg(2, back[: half + 1], zone.name), Leg(1, back[half:], zone.name)]


def _bordered(
    zone: Laying, legs: Sequence[Leg], border: Border
) -> Iterator[tuple[str, Laying, Ring]]:
    """A border's strips, each laid along its own side unless the border has directions."""
    layings = {leg.area: _laid_along(zone, leg) for leg in legs}
    for area, ring in strips(legs, border.width.low, border.mitred, zone.name):
        yield area, layings[area], ring


def _laid_along(zone: Laying, leg: Leg) -> Laying:
    """A border's laying along one of its strips; a closed ring has no one side to follow."""
    if zone.directions or leg.area in ("", zone.name):
        return zone
    label = f"along {leg.area.removeprefix(zone.name + ', ')}"
    vector = between(leg.corners[0], leg.corners[-1])
    return replace(zone, directions=(Direction(label, rightward(vector)),))


def _band(room: Ring, band: Band, zone: str) -> list[Ring]:
    """The parts of the room between a band's two lines, as outlines on whole ticks."""
    (x, y), (dx, dy) = band.point, band.direction
    length = math.hypot(dx, dy)
    ux, uy = dx / length, dy / length
    reach = [(px - x) * ux + (py - y) * uy for px, py in room]
    ends = (min(reach) - 1000, max(reach) + 1000)

    def at(along: float, left: float) -> tuple[float, float]:
        return x + along * ux - left * uy, y + along * uy + left * ux

    low, high = ends
    whole = Polygon(
        [at(low, band.near), at(high, band.near), at(high, band.far), at(low, band.far)]
    )
    parts = shapely.get_parts(shapely.set_precision(Polygon(room).intersection(whole), 1)).tolist()
    rings = [next(rings_of(p)) for p in parts if isinstance(p, Polygon) and not is_slip(p)]
    if not rings:
        raise CarveError(
            zone, "lies outside the room", "check the line it is measured from and its distance"
        )
    return rings
