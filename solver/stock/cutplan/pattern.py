"""How a unit is cut up: where in it its pieces lie, and the lines of its cuts in their order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from models.job.data import Point, Ring
from solver.stock.cutplan.trims import Leaf, Region, Split, Tree, Trim, members_of

Line = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A unit cut up, in its own frame: the ring of each piece, and each cut from end to end.

    Pieces are in laying order. One that is cut to shape has the ring of the rectangle round it.
    """

    rings: tuple[Ring, ...]
    cuts: tuple[Line, ...]


def pattern_of(tree: Tree) -> Pattern:
    """Where the pieces of a tree of cuts lie, and the cuts in the order they are made."""
    parts: list[tuple[Tree, Point]] = [(tree, (0, 0))]
    rings: list[Ring] = []
    cuts: list[Line] = []
    for member in members_of(tree):
        part = next(part for part in parts if member in members_of(part[0]))
        parts.remove(part)
        hand, origin = part
        while isinstance(hand, Split):
            cuts.append(_line(hand.region, hand.trim, origin))
            halves = [(hand.low, origin), (hand.high, _high_origin(hand, origin))]
            if member not in members_of(hand.low):
                halves.reverse()
            (hand, origin), kept = halves
            parts.append(kept)
        ring, lines = _leaf(hand, origin)
        rings.append(ring)
        cuts += lines
    return Pattern(tuple(rings), tuple(cuts))


def _high_origin(split: Split, origin: Point) -> Point:
    """The low corner of the high half, which lies at the high end of what is parted."""
    axis = split.trim.axis
    return _moved(origin, axis, split.region.size[axis] - split.high.region.size[axis])


def _moved(point: Point, axis: int, by: int) -> Point:
    return (point[0] + by, point[1]) if axis == 0 else (point[0], point[1] + by)


def _line(region: Region, trim: Trim, origin: Point) -> Line:
    """A cut from the low to the high end of the other axis."""
    axis, size = trim.axis, region.size
    ends = [at if trim.low else size[axis] - at for at in trim.at]
    start = _moved(origin, axis, ends[0])
    return start, _moved(_moved(origin, axis, ends[1]), 1 - axis, size[1 - axis])


def _leaf(leaf: Leaf, origin: Point) -> tuple[Ring, list[Line]]:
    """One piece's ring, and the cuts made on its part."""
    size, lines = list(leaf.region.size), []
    for trim in leaf.trims:
        lines.append(_line(Region((size[0], size[1]), leaf.region.sides), trim, origin))
        if not trim.low:
            origin = _moved(origin, trim.axis, size[trim.axis] - max(trim.at))
        size[trim.axis] = max(trim.at)
    return tuple(_corners(leaf, origin)), lines


def _corners(leaf: Leaf, origin: Point) -> Iterator[Point]:
    """The piece's corners, counter-clockwise from its low left one."""
    long, wide = leaf.want.size
    corners = [(0, 0), (long, 0), (long, wide), (0, wide)]
    if taper := leaf.want.taper:
        slanted = {(0, True): (1, 2), (0, False): (0, 3), (1, True): (3, 2), (1, False): (0, 1)}
        for corner, at in zip(slanted[taper.axis, taper.high], taper.at, strict=True):
            place = at if taper.high else leaf.want.size[taper.axis] - at
            u, v = corners[corner]
            corners[corner] = (place, v) if taper.axis == 0 else (u, place)
    return ((origin[0] + u, origin[1] + v) for u, v in corners)
