"""The floor divided between the zones, face by face."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from typing import NamedTuple

import shapely
from shapely import Polygon
from shapely.geometry.polygon import orient

from models.job.carve.mesh import Mesh, is_slip
from models.job.data import Laying


class Kind(Enum):
    """What a face may belong to."""

    OUTSIDE = "outside the room"
    COLUMN = "column"
    FEATURE = "feature"
    LOT = "lot"
    TRIM = "trim"
    REST = "what is left"


class Owner(NamedTuple):
    """What a face belongs to: a kind, and which of that kind.

    The number counts the job's columns and features, the floor's lots, and for trim the
    job's zones.
    """

    kind: Kind
    number: int = 0


OUTSIDE = Owner(Kind.OUTSIDE)
REST = Owner(Kind.REST)


@dataclass(frozen=True, slots=True)
class Lot:
    """What will be an area: its name, its laying, and its zone's number in the job."""

    zone: int
    name: str
    laying: Laying
    mirrors: str = ""


@dataclass(frozen=True, slots=True)
class Floor:
    """Every face between all outlines and its owner; lots are those owners refer to.

    ``cut_from`` tells, for each face of trim, which lot it was taken from.
    """

    mesh: Mesh
    owners: tuple[Owner, ...]
    lots: tuple[Lot, ...]
    cut_from: Mapping[int, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Part:
    """A connected part of a lot: its own name, its faces and its shape in ticks."""

    lot: int
    name: str
    faces: tuple[int, ...]
    shape: Polygon


def parts_of(floor: Floor) -> tuple[Part, ...]:
    """The parts of every lot, in the order of the lots, slips left out.

    The parts of a lot that falls apart are numbered from the lowest, then leftmost.
    """
    found: list[Part] = []
    faces: dict[int, list[int]] = {}
    for face, owner in enumerate(floor.owners):
        if owner.kind is Kind.LOT:
            faces.setdefault(owner.number, []).append(face)
    for number, lot in enumerate(floor.lots):
        groups = connected(floor.mesh, faces.get(number, ()))
        shapes = [(group, joined(floor.mesh, group)) for group in groups]
        wide = [(group, shape) for group, shape in shapes if not is_slip(shape)]
        wide.sort(key=lambda pair: (pair[1].bounds[1], pair[1].bounds[0], pair[0]))
        for i, (group, shape) in enumerate(wide, 1):
            name = lot.name if len(wide) == 1 else f"{lot.name}, part {i}"
            found.append(Part(number, name, group, shape))
    return tuple(found)


def connected(mesh: Mesh, faces: Iterable[int]) -> list[tuple[int, ...]]:
    """Faces in groups that hang together side to side, in order of their first face."""
    loose = sorted(faces, reverse=True)
    unseen = set(loose)
    groups = []
    while loose:
        first = loose.pop()
        if first not in unseen:
            continue
        unseen.discard(first)
        group = [first]
        for face in group:
            for _, other in mesh.beside(face):
                if other is not None and other in unseen:
                    unseen.discard(other)
                    group.append(other)
        groups.append(tuple(group))
    return groups


def joined(mesh: Mesh, faces: Sequence[int]) -> Polygon:
    """Faces that hang together as one shape, every corner kept."""
    if len(faces) == 1:
        return mesh.faces[faces[0]]
    shape = shapely.coverage_union_all([mesh.faces[face] for face in faces])
    whole = max(shapely.get_parts(shape).tolist(), key=lambda part: part.area)
    return orient(whole)


def slips_given_away(mesh: Mesh, owners: Sequence[Owner]) -> tuple[Owner, ...]:
    """Owners after every face that is a slip of rounding went to its widest neighbour."""
    given = list(owners)
    slips = [
        face
        for face, shape in enumerate(mesh.faces)
        if owners[face].kind in (Kind.LOT, Kind.REST, Kind.TRIM) and is_slip(shape)
    ]
    waiting = set(slips)
    for face in sorted(slips, key=lambda face: (-mesh.faces[face].area, face)):
        shares: dict[Owner, float] = {}
        for (start, end), other in mesh.beside(face):
            if other in waiting:
                continue
            owner = OUTSIDE if other is None else given[other]
            size = abs(end[0] - start[0]) + abs(end[1] - start[1])
            shares[owner] = shares.get(owner, 0.0) + size * (owner.kind is not Kind.OUTSIDE)
        if shares:
            given[face] = max(shares, key=lambda owner: shares[owner])
        waiting.discard(face)
    return tuple(given)
