"""A herringbone that is the reflection of another, piece for piece."""

from __future__ import annotations

from dataclasses import replace

from models.floor.frame import Frame
from models.floor.herringbone import mirrored_corner
from models.floor.zone import in_frame
from models.job.angles import mirrored_point, mirrored_vector
from models.job.carve.area import Area
from models.job.data import Axis, Direction, Ring
from solver.search.found import Found


def reflect_herringbone(found: Found, area: Area, axis: Axis, pitch: tuple[int, int]) -> Found:
    """What was found for one herringbone, seen in the mirror.

    Turned over, its points would run the other way from its units. So the two axes of the
    mirrored frame change places, flat units with upright ones: arrows then point as they
    do in the mirror, and every piece keeps its whole ticks.
    """
    zone = found.zone
    dx, dy = zone.frame.direction
    upright = mirrored_vector((-dy, dx), axis.direction)
    frame = Frame(mirrored_point(zone.frame.origin, axis), upright)
    label = f"{zone.direction.label}, mirrored"
    direction = Direction(label, mirrored_vector(zone.direction.vector, axis.direction))
    placed = in_frame(area, direction, frame)
    corner = found.offsets[0], found.start_line
    u0, v0 = mirrored_corner(corner, pitch, zone.laying.bond.double)
    # The shape is turned over exactly; only what its sides go to is taken from the area.
    outer, holes = _over(zone.outer), tuple(_over(hole) for hole in zone.holes)
    return replace(
        found, zone=replace(placed, outer=outer, holes=holes), start_line=v0, offsets=(u0,)
    )


def _over(ring: Ring) -> Ring:
    """A ring with u and v exchanged, running the way it ran."""
    return tuple((v, u) for u, v in reversed(ring))
