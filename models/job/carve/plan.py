"""From a job to the floor each zone gets, once the lengths it leaves open are chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from models.job.carve.area import Area, CarveError, Plan
from models.job.carve.divide import divide
from models.job.carve.floor import REST, Floor, Part, connected, joined, parts_of
from models.job.carve.mesh import is_slip, rings_of
from models.job.carve.patches import patches_of, site_of
from models.job.carve.reflect import check_mirrored, mirrors_of, reflected
from models.job.carve.settle import settled
from models.job.carve.sides import Labels, labels_of, sides_of, standing
from models.job.carve.trim import trimmed
from models.job.carve.words import near, place_in
from models.job.data import Fill, Job
from models.job.rings import corners_of, from_first

NOTHING_CHOSEN: Mapping[str, int] = MappingProxyType({})


def plan_of(job: Job, values: Mapping[str, int] = NOTHING_CHOSEN) -> Plan:
    """The job with its open lengths decided, and the area of every zone, the field last.

    ``values`` holds border widths by zone and places of sliding features by feature, in
    ticks; what it does not name takes its low end. Areas share whole-tick corners. Raises
    CarveError for a zone that cannot be carved, ValueError for a value out of its range.
    """
    fixed, chosen = settled(job, values)
    site = site_of(fixed)
    order = mirrors_of(fixed)
    patches = patches_of(fixed, site)
    floor = divide(fixed, site, patches)
    for number in order:
        patches += reflected(fixed, site, floor, number)
        floor = divide(fixed, site, patches)
    _check_none_left(fixed, floor)
    floor = trimmed(fixed, site, floor)
    check_mirrored(fixed, floor)
    return Plan(fixed, chosen, _areas(fixed, floor))


def _areas(job: Job, floor: Floor) -> tuple[Area, ...]:
    """The areas of a divided floor, in the order of the job's zones."""
    parts = sorted(parts_of(floor), key=lambda part: floor.lots[part.lot].zone)
    _check_all_laid(job, floor, parts)
    labels = labels_of(job, floor, parts)
    return tuple(_area(job, floor, part, labels) for part in parts)


def _area(job: Job, floor: Floor, part: Part, labels: Labels) -> Area:
    lot = floor.lots[part.lot]
    laying = (
        lot.laying
        if lot.laying.directions
        else replace(lot.laying, directions=job.field.directions)
    )
    first = {corner: i for i, corner in enumerate(job.room)}
    rings = [from_first(ring, first) for ring in rings_of(part.shape)]
    sides = tuple(side for ring in rings for side in sides_of(ring, part, labels))
    outer, *holes = map(corners_of, rings)
    stands = {item.name for item in standing(job)}
    stands |= {
        other.name for other in labels.parts if isinstance(floor.lots[other.lot].laying.shape, Fill)
    }
    around = frozenset(side.name for side in sides) & stands
    return Area(part.name, laying, outer, tuple(holes), sides, around, lot.mirrors)


def _check_none_left(job: Job, floor: Floor) -> None:
    """Refuse floor that neither the field nor any other zone takes."""
    spare = [face for face, owner in enumerate(floor.owners) if owner == REST]
    places = [
        near(place_in(joined(floor.mesh, group)), job.system, "")
        for group in connected(floor.mesh, spare)
        if not is_slip(joined(floor.mesh, group))
    ]
    if places:
        others = "another" if len(places) == 1 else "others"
        raise CarveError(
            job.field.name,
            f"takes one part of the floor and leaves {others}, at {' and '.join(places)}",
            "give each part left a zone of its own, with 'part_at' or 'mirror'",
        )


def _check_all_laid(job: Job, floor: Floor, parts: list[Part]) -> None:
    """Refuse a zone without floor, and a field in several parts."""
    laid = [floor.lots[part.lot].zone for part in parts]
    for number, zone in enumerate(job.zones):
        if number not in laid:
            raise CarveError(
                zone.name, "has no floor left", "make the other zones smaller, or leave it out"
            )
    fields = [part for part, n in zip(parts, laid, strict=True) if n == len(job.zones) - 1]
    if len(fields) > 1:
        places = [near(place_in(part.shape), job.system, "") for part in fields]
        raise CarveError(
            job.field.name,
            f"would be in {len(places)} parts, at {' and '.join(places)}",
            "give all but one of them a zone of its own, with 'part_at' or 'mirror'",
        )
