"""Dividing the floor: who gets each face, and which zones ask for what they cannot have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import Point as Spot
from shapely import Polygon

from models.job.carve.area import CarveError
from models.job.carve.floor import (
    OUTSIDE,
    REST,
    Floor,
    Kind,
    Lot,
    Owner,
    connected,
    joined,
    slips_given_away,
)
from models.job.carve.mesh import Mesh, is_slip, mesh_of, rings_of
from models.job.carve.patches import Patch, Site
from models.job.carve.words import near, place_in
from models.job.data import Band, Border, Fill, Job, Laying, Rest


def divide(job: Job, site: Site, patches: Sequence[Patch]) -> Floor:
    """The floor with each patch given to its lot, and what is left to the zones that take it.

    The last lot is the field's; it may be in several parts, or have no face at all. Raises
    CarveError for patches that reach outside the room or overlap, and for zones that are
    to take a part of what is left that is not there.
    """
    mesh = mesh_of([*site.rings, *(ring for patch in patches for ring in rings_of(patch.shape))])
    lots: dict[tuple[int, str], Lot] = {}
    for patch in patches:
        lots.setdefault(_key(patch), Lot(patch.zone, patch.name, patch.laying, patch.mirrors))
    claims = _Claims(job, site, mesh, tuple(patches), tuple(lots))
    owners = slips_given_away(mesh, claims.owners())
    return _rest_taken(job, Floor(mesh, owners, tuple(lots.values())))


@dataclass(frozen=True, slots=True)
class _Claims:
    """What is needed to say whose a face is."""

    job: Job
    site: Site
    mesh: Mesh
    patches: tuple[Patch, ...]
    lots: tuple[tuple[int, str], ...]

    def owners(self) -> list[Owner]:
        """The owner of every face."""
        columns, features = self.site.columns, self.site.features
        shapes = [Polygon(self.site.room), *map(Polygon, (*columns, *features))]
        inside = self.mesh.inside([*shapes, *(patch.shape for patch in self.patches)])
        ends = 1 + len(columns), 1 + len(columns) + len(features)
        found = []
        for face, within in enumerate(inside):
            found.append(
                self._owner(
                    face,
                    bool(within) and within[0] == 0,
                    [i - 1 for i in within if 0 < i < ends[0]],
                    [i - ends[0] for i in within if ends[0] <= i < ends[1]],
                    [self.patches[i - ends[1]] for i in within if i >= ends[1]],
                )
            )
        return found

    def _owner(
        self, face: int, in_room: bool, columns: list[int], features: list[int], asked: list[Patch]
    ) -> Owner:
        """The owner of a face: what stands there first, then the patch that asks for it.

        A band takes what other shapes leave of it.
        """
        if features and (columns or not in_room or len(features) > 1):
            self._check_feature(face, features, columns)
        if columns:
            return Owner(Kind.COLUMN, columns[0])
        if features:
            name = self.job.features[features[0]].name
            asked = [patch for patch in asked if _fills(patch.laying, name)]
        if not in_room:
            for patch in asked:
                self._check_inside(face, patch)
            return OUTSIDE
        asked = [patch for patch in asked if not _is_band(patch)] or asked
        if len(asked) > 1:
            self._check_apart(face, asked[0], asked[1])
        if asked:
            return Owner(Kind.LOT, self.lots.index(_key(asked[0])))
        return Owner(Kind.FEATURE, features[0]) if features else REST

    def _check_feature(self, face: int, features: list[int], columns: list[int]) -> None:
        """Refuse a feature that slides where it cannot be."""
        if is_slip(self.mesh.faces[face]):
            return
        feature = self.job.features[features[0]]
        over = "reaches outside the room"
        if len(features) > 1:
            over = f"lies over feature '{self.job.features[features[1]].name}'"
        elif columns:
            over = f"lies over column '{self.job.columns[columns[0]].name}'"
        raise CarveError(
            self.job.field.name,
            f"cannot go round feature '{feature.name}', which {over}",
            "let it slide less far along its axis",
        )

    def _check_inside(self, face: int, patch: Patch) -> None:
        shape = self.mesh.faces[face]
        if is_slip(shape):
            return
        spot = near(place_in(shape), self.job.system)
        if isinstance(patch.laying.shape, Border):
            raise CarveError(
                patch.laying.name,
                f"is wider than the room: '{patch.name}' reaches outside it {spot}",
                "make the border narrower, or leave that side out",
            )
        raise CarveError(
            patch.laying.name,
            f"reaches outside the room {spot}",
            "check its place, its size and their units",
        )

    def _check_apart(self, face: int, one: Patch, other: Patch) -> None:
        shape = self.mesh.faces[face]
        if one.name == other.name and not isinstance(one.laying.shape, Border):
            return
        if is_slip(shape):
            return
        spot = near(place_in(shape), self.job.system)
        if one.zone == other.zone:
            where = f"'{one.name}' lies over '{other.name}'" if one.name != other.name else "it"
            raise CarveError(
                one.laying.name,
                f"overlaps itself: {where} {spot}",
                "make the border narrower, or leave a side out",
            )
        raise CarveError(
            other.laying.name,
            f"overlaps zone '{one.laying.name}' {spot}",
            "move one of them, or make it smaller",
        )


def _key(patch: Patch) -> tuple[int, str]:
    return patch.zone, patch.name


def _is_band(patch: Patch) -> bool:
    return isinstance(patch.laying.shape, Band)


def _fills(laying: Laying, feature: str) -> bool:
    return isinstance(laying.shape, Fill) and laying.shape.feature == feature


def _rest_taken(job: Job, floor: Floor) -> Floor:
    """The floor with the parts of what is left given to the zones that ask for them."""
    faces = [face for face, owner in enumerate(floor.owners) if owner == REST]
    groups = connected(floor.mesh, faces)
    lots, owners = list(floor.lots), list(floor.owners)
    taken: dict[int, str] = {}
    for number, zone in enumerate(job.zones):
        if not isinstance(zone.shape, Rest) or zone.shape.at is None:
            continue
        part = _part_at(job, zone, floor.mesh, groups)
        if part in taken:
            raise CarveError(
                zone.name,
                f"takes the same part of the floor as zone '{taken[part]}'",
                "write 'part_at' with a point in a part of its own, or leave one zone out",
            )
        taken[part] = zone.name
        for face in groups[part]:
            owners[face] = Owner(Kind.LOT, len(lots))
        lots.append(Lot(number, zone.name, zone))
    if job.field.shape != Rest():
        return Floor(floor.mesh, tuple(owners), tuple(lots))
    owners = [Owner(Kind.LOT, len(lots)) if owner == REST else owner for owner in owners]
    lots.append(Lot(len(job.zones) - 1, job.field.name, job.field))
    return Floor(floor.mesh, tuple(owners), tuple(lots))


def _part_at(job: Job, zone: Laying, mesh: Mesh, groups: Sequence[tuple[int, ...]]) -> int:
    """Which part of what is left holds a zone's point."""
    assert isinstance(zone.shape, Rest)
    assert zone.shape.at is not None
    spot = Spot(zone.shape.at)
    for number, group in enumerate(groups):
        if any(mesh.faces[face].intersects(spot) for face in group):
            return number
    places = [near(place_in(joined(mesh, group)), job.system, "") for group in groups]
    raise CarveError(
        zone.name,
        f"is to take the part of the floor at {near(zone.shape.at, job.system, '')}, where no "
        "floor is left by the other zones",
        f"write 'part_at' with a point in what is left, such as {' or '.join(places)}"
        if places
        else "make the other zones smaller",
    )
