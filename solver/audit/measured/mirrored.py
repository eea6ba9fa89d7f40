"""How far a zone is from the reflection of another: piece by piece, in job axes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from solver.audit.document.claims import (
    AxisClaim,
    Claims,
    Floats,
    Ints,
    LayoutClaim,
    MirrorClaim,
    Shapes,
)


@dataclass(frozen=True, slots=True)
class Reflection:
    """A zone's pieces against the reflection of another's.

    ``places`` are the pieces of the zone in the layout, ``partner`` the piece of the other
    zone each is nearest to when reflected, and ``off`` how far their outlines differ, mm.
    ``alone`` are pieces of the other zone that are partner to none.
    """

    places: Ints
    partner: Ints
    off: Floats
    alone: Ints

    @property
    def one_to_one(self) -> bool:
        """Whether every piece has a partner of its own."""
        return not len(self.alone) and len(set(self.partner.tolist())) == len(self.partner)


def reflection(layout: LayoutClaim, zone: str, mirror: MirrorClaim) -> Reflection:
    """Match the pieces of a zone with those it is said to be the reflection of."""
    names = np.array(layout.pieces.zone, dtype=object)
    here, there = np.flatnonzero(names == zone), np.flatnonzero(names == mirror.zone)
    own, seen = layout.pieces.shapes[here], _reflected(layout.pieces.shapes[there], mirror.axis)
    near = shapely.STRtree(shapely.centroid(seen)).nearest(shapely.centroid(own))
    off = shapely.hausdorff_distance(own, seen[near])
    alone = np.setdiff1d(np.arange(len(there)), near)
    return Reflection(here, there[near], np.asarray(off, dtype=np.float64), there[alone])


def _reflected(shapes: Shapes, axis: AxisClaim) -> Shapes:
    """Shapes seen in a mirror along an axis."""
    along = np.array(axis.direction) / np.hypot(*axis.direction)
    through = np.array(axis.point)

    def over(points: Floats) -> Floats:
        away = points - through
        return np.asarray(through + 2 * np.outer(away @ along, along) - away)

    turned: Shapes = shapely.transform(shapes, over)
    return turned


def mirror_between(claims: Claims, one: str | None, two: str) -> tuple[str, MirrorClaim] | None:
    """The zone that is said to be the reflection of the other, and how; None if neither is."""
    for zone, other in ((one, two), (two, one)):
        mirror = claims.zones[zone].mirrors if zone in claims.zones else None
        if zone is not None and mirror is not None and mirror.zone == other:
            return zone, mirror
    return None


def is_turned_over(claims: Claims, zone: str) -> bool:
    """Whether a zone is the reflection of one laid as it is (not of a reflection again)."""
    over = False
    for _ in claims.zones:
        mirror = claims.zones[zone].mirrors
        if mirror is None:
            break
        over, zone = not over, mirror.zone
    return over
