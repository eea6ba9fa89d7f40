"""Which sides of a laid piece are joints, from the pieces' outlines alone."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely import STRtree
from shapely.affinity import translate

from models.floor.layout import Piece, ZoneLayout
from models.job.data import Product
from models.lengths import TICKS_PER_MM as MM

NUDGE = 0.2
"""Millimetres a piece is pushed to see what it meets; a joint is longer than ten of them."""
HAIR = 0.03

Flags = tuple[bool, bool, bool, bool]
"""Tail end, right edge, head end, left edge: of the unit that lies flat, left, low, right, high."""


class Neighbours:
    """The pieces of a zone, to find which meet."""

    def __init__(self, zone: ZoneLayout) -> None:
        self.pieces = zone.pieces
        self.shapes = [shape_of(piece) for piece in zone.pieces]
        self.tree = STRtree(self.shapes)

    def joints(self, piece: Piece, product: Product) -> Flags:
        """The sides of a piece's unit at which it meets another piece of the zone."""
        own = self.shapes[self.pieces.index(piece)]
        length = (piece.unit_length or product.length) + product.joint
        size = (length / MM, product.pitch[1] / MM)
        if piece.quarter:
            size = size[::-1]
        low = (piece.corner[0] / MM, piece.corner[1] / MM)
        cell = (*low, low[0] + size[0], low[1] + size[1])
        left, bottom, right, top = (
            abs(own.bounds[side] - cell[side]) < HAIR and self._meets(own, side)
            for side in range(4)
        )
        if piece.quarter:  # its arrow points up, so its right edge is on the right
            return bottom, right, top, left
        return left, bottom, right, top

    def _meets(self, own: shapely.Polygon, side: int) -> bool:
        dx, dy = ((-1, 0), (0, -1), (1, 0), (0, 1))[side]
        strip = translate(own, dx * NUDGE, dy * NUDGE).difference(own)
        near = [self.shapes[i] for i in self.tree.query(strip)]
        others = [shape for shape in near if shape is not own]
        met = sum(strip.intersection(shape).area for shape in others)
        return bool(met > 10 * NUDGE * NUDGE)


def shape_of(piece: Piece) -> shapely.Polygon:
    holes = [[(u / MM, v / MM) for u, v in hole] for hole in piece.holes]
    return shapely.Polygon([(u / MM, v / MM) for u, v in piece.outline], holes)


def at_factory_edges(
    shape: shapely.Polygon, unit: tuple[float, float], joints: Flags, product: Product
) -> bool:
    """Whether every joint of a piece cut as ``shape`` is a factory edge of its unit."""
    own = (0.0, 0.0, *unit)
    factory = [abs(a - b) < HAIR for a, b in zip(shape.bounds, own, strict=True)]
    turns: Sequence[int] = (0,)
    if not product.directional:
        turns = (0, 1, 2, 3) if product.length == product.width else (0, 2)
    return any(
        all(at or not joint for at, joint in zip(_turned(factory, turn), joints, strict=True))
        for turn in turns
    )


def _turned(flags: list[bool], quarters: int) -> list[bool]:
    """The sides of a unit turned so many quarters."""
    return flags[quarters:] + flags[:quarters]
