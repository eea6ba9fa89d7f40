"""Trim: the strips left free round a zone, taken from its neighbours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon

from models.job.carve.floor import (
    OUTSIDE,
    Floor,
    Kind,
    Owner,
    Part,
    parts_of,
    slips_given_away,
)
from models.job.carve.mesh import mesh_of, rings_of
from models.job.carve.patches import Site
from models.job.carve.snap import drawn_to
from models.job.data import Job, Ring


@dataclass(frozen=True, slots=True)
class _Strip:
    """What lies within a zone's trim of it, the zone itself included."""

    zone: int
    rings: tuple[Ring, ...]
    shape: Polygon


def trimmed(job: Job, site: Site, floor: Floor) -> Floor:
    """The floor with the strips of trim taken from what lies round the zones that have it."""
    if not any(zone.trim for zone in job.zones):
        return floor
    parts = parts_of(floor)
    known = [*site.rings, *(ring for part in parts for ring in rings_of(part.shape))]
    strips = [
        strip
        for number, zone in enumerate(job.zones)
        if zone.trim
        for strip in _strips(number, zone.trim, floor, parts, known)
    ]
    mesh = mesh_of([*known, *(ring for strip in strips for ring in strip.rings)])
    shapes = [Polygon(ring) for ring in (*site.columns, *site.features)]
    shapes += [part.shape for part in parts]
    shapes += [strip.shape for strip in strips]
    standing, laid = len(site.columns) + len(site.features), len(shapes) - len(strips)
    owners: list[Owner] = []
    cut_from: dict[int, int] = {}
    for face, within in enumerate(mesh.inside(shapes)):
        lot = next((parts[i - standing].lot for i in within if standing <= i < laid), None)
        if lot is None:
            owners.append(_standing(site, within))
            continue
        zone = floor.lots[lot].zone
        near = (strips[i - laid].zone for i in within if i >= laid)
        cutting = [other for other in near if other != zone and keeps_shape(job, other, zone)]
        if cutting:
            cut_from[face] = lot
            first = min(cutting, key=lambda other: (-job.zones[other].trim, other))
            owners.append(Owner(Kind.TRIM, first))
        else:
            owners.append(Owner(Kind.LOT, lot))
    return Floor(mesh, slips_given_away(mesh, owners), floor.lots, cut_from)


def keeps_shape(job: Job, one: int, other: int) -> bool:
    """Whether the strip between two zones is the first one's, and taken from the second.

    It is that of the wider trim, or of the zone named first.
    """
    trims = job.zones[one].trim, job.zones[other].trim
    return trims[0] > trims[1] or (trims[0] == trims[1] > 0 and one < other)


def _standing(site: Site, within: Sequence[int]) -> Owner:
    """The owner of a face that no zone has."""
    columns, features = len(site.columns), len(site.features)
    for number in within:
        if number < columns:
            return Owner(Kind.COLUMN, number)
        if number < columns + features:
            return Owner(Kind.FEATURE, number - columns)
    return OUTSIDE


def _strips(
    zone: int, trim: int, floor: Floor, parts: Sequence[Part], known: Sequence[Ring]
) -> list[_Strip]:
    """What lies within its trim of each part of a zone."""
    whole = shapely.union_all([part.shape for part in parts if floor.lots[part.lot].zone == zone])
    found = []
    for shape in shapely.get_parts(whole.buffer(trim, join_style="mitre")).tolist():
        rings = drawn_to(list(rings_of(shape)), known)
        rings = tuple(ring for ring in rings if len(ring) > 2)
        found.append(_Strip(zone, rings, Polygon(rings[0], rings[1:])))
    return found
