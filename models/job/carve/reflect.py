"""Zones that are the reflection of another about an axis."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely
from shapely import Geometry, Polygon

from models.job.angles import mirrored_point, mirrored_vector
from models.job.carve.area import CarveError
from models.job.carve.floor import Floor, Part, parts_of
from models.job.carve.mesh import is_slip, rings_of
from models.job.carve.patches import Patch, Site
from models.job.carve.snap import drawn_to
from models.job.carve.words import near, place_in, thickness
from models.job.data import Axis, Border, Direction, Job, Laying, Mirror, Rest, Ring
from models.lengths import show


def mirrors_of(job: Job) -> tuple[int, ...]:
    """The numbers of the zones that mirror others, each after the one it mirrors.

    Raises CarveError for one that mirrors what cannot be mirrored.
    """
    names = {zone.name: i for i, zone in enumerate(job.zones)}
    waiting = [i for i, zone in enumerate(job.zones) if isinstance(zone.shape, Mirror)]
    order: list[int] = []
    while waiting:
        ready = [i for i in waiting if _source(job, job.zones[i], names) not in waiting]
        if not ready:
            raise CarveError(
                job.zones[waiting[0]].name,
                "mirrors a zone that mirrors it in turn",
                "give one of them a shape of its own",
            )
        order += ready
        waiting = [i for i in waiting if i not in ready]
    return tuple(order)


def _source(job: Job, zone: Laying, names: Mapping[str, int]) -> int:
    """The number of the zone that a zone mirrors."""
    assert isinstance(zone.shape, Mirror)
    number = names.get(zone.shape.zone)
    if number is None:
        raise CarveError(
            zone.name,
            f"mirrors zone '{zone.shape.zone}', which is not there",
            "name a zone there is",
        )
    if isinstance(job.zones[number].shape, Border):
        raise CarveError(
            zone.name,
            f"mirrors '{zone.shape.zone}', which is a border",
            "mirror a zone of one piece, or give this one a border of its own",
        )
    if job.zones[number].shape == Rest():
        raise CarveError(
            zone.name,
            f"mirrors '{zone.shape.zone}', the field, which takes whatever the others leave",
            "add 'part_at' to the field, with a point in the part it takes",
        )
    return number


def reflected(job: Job, site: Site, floor: Floor, number: int) -> tuple[Patch, ...]:
    """The patches of a zone that mirrors one already on the floor.

    Raises CarveError when they do not lie in what the other zones leave.
    """
    zone = job.zones[number]
    assert isinstance(zone.shape, Mirror)
    axis = _axis(job, zone.shape)
    parts = parts_of(floor)
    source = [p for p in parts if job.zones[floor.lots[p.lot].zone].name == zone.shape.zone]
    known = [*site.rings, *(ring for part in parts for ring in rings_of(part.shape))]
    found = []
    for part in source:
        rings = drawn_to([_reflected_ring(r, axis) for r in rings_of(part.shape)], known)
        shape = Polygon(rings[0], [ring for ring in rings[1:] if len(ring) > 2])
        _check(job, floor, parts, zone, shape)
        name = zone.name + part.name.removeprefix(zone.shape.zone)
        laying = _laying(zone, floor.lots[part.lot].laying.directions or job.field.directions, axis)
        found.append(Patch(number, name, laying, shape, part.name))
    return tuple(found)


def check_mirrored(job: Job, floor: Floor) -> None:
    """Refuse a mirror that is no longer the reflection of its zone: trim took from one alone."""
    if not floor.cut_from:
        return
    shapes = [
        shapely.union_all([p.shape for p in parts_of(floor) if floor.lots[p.lot].zone == number])
        for number in range(len(job.zones))
    ]
    names = {zone.name: i for i, zone in enumerate(job.zones)}
    for zone, shape in zip(job.zones, shapes, strict=True):
        if not isinstance(zone.shape, Mirror):
            continue
        axis = _axis(job, zone.shape)
        turned = shapely.union_all(
            [
                Polygon(*_split([_reflected_ring(r, axis) for r in rings_of(part)]))
                for part in shapely.get_parts(shapes[names[zone.shape.zone]]).tolist()
            ]
        )
        if _wide(shape.symmetric_difference(turned)):
            raise CarveError(
                zone.name,
                f"is not the mirror image of zone '{zone.shape.zone}' once trim is taken off",
                "give both sides of the axis the same trim, or neither",
            )


def _axis(job: Job, mirror: Mirror) -> Axis:
    return next(axis for axis in job.axes if axis.name == mirror.axis)


def _split(rings: Sequence[Ring]) -> tuple[Ring, Sequence[Ring]]:
    return rings[0], rings[1:]


def _wide(shape: Geometry) -> list[Polygon]:
    """The parts of a shape that are more than rounding."""
    parts = [part for part in shapely.get_parts(shape).tolist() if isinstance(part, Polygon)]
    return [part for part in parts if not is_slip(part)]


def _laying(zone: Laying, source: Sequence[Direction], axis: Axis) -> Laying:
    """A mirror's laying; without directions of its own it has those of its source reflected."""
    if zone.directions:
        return zone
    return replace(
        zone,
        directions=tuple(
            Direction(f"{way.label}, mirrored", mirrored_vector(way.vector, axis.direction))
            for way in source
        ),
    )


def _reflected_ring(ring: Ring, axis: Axis) -> Ring:
    return tuple(mirrored_point(point, axis) for point in reversed(ring))


def _check(job: Job, floor: Floor, parts: Sequence[Part], zone: Laying, shape: Polygon) -> None:
    """Refuse a reflection that does not lie in what is left."""
    outside = shape.difference(Polygon(job.room))
    taken = [("column", item.name, Polygon(item.outline)) for item in job.columns]
    taken += [("feature", item.name, Polygon(item.outline)) for item in job.features]
    taken += [
        ("zone", part.name, part.shape)
        for part in parts
        # A field that takes all that is left gives way.
        if floor.lots[part.lot].laying.shape != Rest()
    ]
    faults = [("reaches outside the room", outside)]
    faults += [(f"overlaps {what} '{name}'", shape.intersection(s)) for what, name, s in taken]
    for words, over in faults:
        wide = _wide(over)
        if wide:
            worst = max(wide, key=lambda part: part.area)
            size = show(thickness(worst), job.system)
            raise CarveError(
                zone.name,
                f"cannot mirror its zone: the reflection {words} by {size} "
                f"{near(place_in(worst), job.system)}",
                "check the axis, or give this zone a shape of its own",
            )
