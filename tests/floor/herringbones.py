"""Herringbones laid by hand in rooms of the tests' own."""

from __future__ import annotations

from models.floor.frame import Frame
from models.floor.herringbone import Corner, herringbone_cuts
from models.floor.pieces import Cut
from models.floor.zone import Zone, in_frame, zone_of
from models.job.carve.area import Area, Side
from models.job.data import Bond, BondKind, Direction, Laying, Point, Ring, Rules

LENGTH, WIDTH = PITCH = (80_000, 20_000)
ODD = (75_300, 20_000)
"""A unit that is not a whole number of widths long."""


def zone_for(
    room: Ring, slant: int = 90, double: bool = False, vector: Point = (1, 0), *holes: Ring
) -> Zone:
    """A room laid in herringbone, framed at the room's own zero; holes counter-clockwise."""
    bond = Bond(BondKind.HERRINGBONE, slant=slant, double=double)
    laying = Laying("porch", "brick", bond, (Direction("along x", vector),), Rules())
    rings = (room, *(hole[::-1] for hole in holes))
    sides = [
        Side(start, end, f"side {i}.{j}")
        for i, ring in enumerate(rings)
        for j, (start, end) in enumerate(zip(ring, ring[1:] + ring[:1], strict=True))
    ]
    area = Area("porch", laying, room, rings[1:], tuple(sides), frozenset())
    dx, dy = vector
    along = (dx + dy, dy - dx) if slant == 45 else vector
    return in_frame(area, laying.directions[0], Frame((0, 0), along))


def lay(zone: Zone, corner: Corner, pitch: tuple[int, int] = PITCH) -> list[Cut]:
    return herringbone_cuts(zone, corner, pitch, zone.laying.bond.double)


def slanted_zone(room: Ring, double: bool) -> Zone:
    """The zone a job's herringbone gets whose points run along x."""
    bond = Bond(BondKind.HERRINGBONE, slant=45, double=double)
    laying = Laying("porch", "brick", bond, (Direction("along x", (1, 0)),), Rules())
    ends = zip(room, room[1:] + room[:1], strict=True)
    sides = tuple(Side(a, b, f"side {i}") for i, (a, b) in enumerate(ends))
    return zone_of(Area("porch", laying, room, (), sides, frozenset()), laying.directions[0])
