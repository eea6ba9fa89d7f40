"""Pieces as parts of one unit: which ends they are held to, and how they may be turned."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import affinity

from solver.audit.document.claims import Bools
from solver.audit.measured.laid import Laid
from solver.audit.tolerances import TOUCH

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Part:
    """A piece to be found a place in a unit.

    ``shape`` lies with its lower left corner at the origin. ``held`` says for its low and
    high end along u, then along v, whether that end is a factory edge.
    """

    shape: shapely.Polygon
    held: tuple[bool, bool, bool, bool]

    @property
    def size(self) -> tuple[float, float]:
        """Its extent along and across."""
        box = self.shape.bounds
        return box[2] - box[0], box[3] - box[1]

    def turned(self) -> Part:
        """The part a quarter turn on, counter-clockwise."""
        low_u, high_u, low_v, high_v = self.held
        shape = affinity.rotate(self.shape, 90, origin=(0, 0))
        return Part(_to_origin(shape), (high_v, low_v, low_u, high_u))

    def fixed(self, axis: int, pitch: float) -> tuple[float, ...] | None:
        """Where a factory edge holds it along one axis; None when it is free there."""
        size = self.size[axis]
        low, high = self.held[2 * axis : 2 * axis + 2]
        if abs(size - pitch) <= TOUCH or low:
            return (0.0,)
        return (pitch - size,) if high else None


def turns(part: Part, directional: bool, square: bool) -> Iterator[Part]:
    """The ways a part may lie in its unit: as laid, and turned where the product allows."""
    yield part
    if directional:
        return
    for quarters in (1, 2, 3):
        part = part.turned()
        if square or quarters == 2:
            yield part


@dataclass(frozen=True, slots=True)
class HeldEnds:
    """For every piece of a zone, whether each end meets another piece (low, high u; v)."""

    low_u: Bools
    high_u: Bools
    low_v: Bools
    high_v: Bools

    def of(self, place: int) -> tuple[bool, bool, bool, bool]:
        """The four ends of one piece."""
        ends = (self.low_u, self.high_u, self.low_v, self.high_v)
        low_u, high_u, low_v, high_v = (bool(end[place]) for end in ends)
        return low_u, high_u, low_v, high_v


def held_ends(laid: Laid) -> HeldEnds:
    """The ends of pieces that are joints inside the floor and so factory edges.

    A product cut in the shop may have cut edges at joints: none of its pieces is held.
    """
    flags = [np.zeros(len(laid.rows), dtype=np.bool_) for _ in range(4)]
    ends = (laid.joints.after, laid.joints.before, laid.seams.after, laid.seams.before)
    for flag, pieces in zip(flags, ends, strict=True):
        flag[pieces] = not laid.product.shop_cuts
    return HeldEnds(*flags)


def part_of(laid: Laid, ends: HeldEnds, place: int) -> Part:
    """One piece as a part, turned the way its unit came out of the carton."""
    part = Part(_to_origin(laid.shapes[place]), ends.of(place))
    if not laid.pieces.quarter[place]:
        return part
    # A unit laid a quarter turn counter-clockwise is turned back clockwise.
    return part.turned().turned().turned()


def _to_origin(shape: shapely.Polygon) -> shapely.Polygon:
    left, low, _, _ = shape.bounds
    return affinity.translate(shape, -left, -low)
