"""The cuts beside a held feature, side by side as the plan shows them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from shapely.geometry import Polygon

from models.floor.layout import Piece, ZoneLayout
from models.floor.zone import NEAR_SQUARE_TAN
from models.job.data import Feature, Job, Point, Product, Ring
from solver.sheets.chalk import toward
from solver.sheets.drawing.cuts import TOLERANCE
from solver.sheets.words import span

Edge = tuple[Point, Point]
Way = tuple[int, int]
"""A way in the frame: along the rows or across them, to lower or higher values."""

WAYS: tuple[Way, ...] = ((-1, 0), (1, 0), (0, -1), (0, 1))
"""The four sides of a feature in the frame: both along the rows, then both across."""


SHORTEST = 1600
"""Ticks (5 mm) of a feature's outline along which a zone lies beside it."""

FACES_TOO = math.cos(math.radians(67.5))
"""An edge turned further than this from a side does not face it; one at 45 degrees faces two."""


@dataclass(frozen=True, slots=True)
class SideCut:
    """One piece beside a feature: its size there without joint, between two frame points.

    A piece cut there at a slant has the largest circle in it as its size, and both points
    at the middle of its cut.
    """

    piece: str
    size: int
    near: Point
    far: Point
    slanted: bool = False


@dataclass(frozen=True, slots=True)
class SideCuts:
    """The cut pieces on one side of a feature; lengths in ticks.

    ``way`` is the side in the frame, ``side`` where it is on the printed plan; ``inside``
    tells cuts of a zone that fills the feature from those beside it.
    """

    way: Way
    side: str
    cuts: tuple[SideCut, ...]
    inside: bool = False

    @property
    def least(self) -> int | None:
        """The smallest of the cuts, None when no piece is cut there."""
        return min((cut.size for cut in self.cuts), default=None)

    @property
    def most(self) -> int | None:
        """The largest of the cuts, None when no piece is cut there."""
        return max((cut.size for cut in self.cuts), default=None)

    @property
    def where(self) -> str:
        """Whether the cuts lie outside the feature or inside it."""
        return "inside" if self.inside else "outside"

    def words(self, job: Job) -> str:
        """The cuts as one length or a range."""
        if self.least is None or self.most is None:
            return "whole units"
        slanted = "slanted, " if any(cut.slanted for cut in self.cuts) else ""
        return slanted + span(job, self.least, self.most)


ZonesBeside = tuple[tuple[ZoneLayout, tuple[SideCuts, ...]], ...]
"""The zones that lie along a feature, each with its cuts there."""


def zones_beside(job: Job, zones: Iterable[ZoneLayout], feature: Feature) -> ZonesBeside:
    """Every zone that lies along a feature, outside it or inside, with its cuts there."""
    found = ((zone, cuts_beside(job, zone, feature)) for zone in zones)
    return tuple((zone, sides) for zone, sides in found if sides)


def sides_together(beside: ZonesBeside) -> tuple[SideCuts, ...]:
    """The cuts of all zones, outside then inside, those on one side of the plan together."""
    found: dict[tuple[bool, str], SideCuts] = {}
    for _, sides in beside:
        for side in sides:
            key = (side.inside, side.side)
            cuts = (*found[key].cuts, *side.cuts) if key in found else side.cuts
            found[key] = replace(side, cuts=cuts)
    return tuple(found[key] for key in sorted(found, key=lambda key: key[0]))


def cuts_beside(job: Job, zone: ZoneLayout, feature: Feature) -> tuple[SideCuts, ...]:
    """The cuts on the four sides of a feature, from its outermost edge to each far side.

    Of a zone that fills the feature they are those inside it. There are none for a zone that
    does not lie along the feature.
    """
    outline = zone.frame.ring_to_frame(feature.outline)
    reach = TOLERANCE + max(laying.trim for laying in job.zones)
    shape = Polygon(outline)
    own = Polygon(zone.outer, zone.holes)
    if own.boundary.intersection(shape.boundary.buffer(reach)).length < SHORTEST + 4 * reach:
        return ()
    inside = shape.contains(own.representative_point())
    beside = Beside(outline, job.product_of(zone.laying), reach, inside)
    edges = [
        (piece, edge)
        for piece in zone.pieces
        if piece.touches
        for edge in _edges_on(piece, outline, reach)
    ]
    return tuple(
        SideCuts(way, toward(zone.frame, *way), beside.cuts(edges, way), inside) for way in WAYS
    )


@dataclass(frozen=True, slots=True)
class Beside:
    """A feature's outline in the frame of a zone that lies beside it, or inside it.

    ``reach`` is how far off the outline, in ticks, a piece may end and still lie at it.
    """

    outline: Ring
    product: Product
    reach: int
    inside: bool

    def cuts(self, edges: list[tuple[Piece, Edge]], way: Way) -> tuple[SideCut, ...]:
        """The cuts one way: square ones at the feature's outermost edge, else slanted ones."""
        axis = 0 if way[0] else 1
        extreme = max(way[axis] * point[axis] for point in self.outline)
        sign = -1 if self.inside else 1
        square: dict[str, SideCut] = {}
        slanted: dict[str, SideCut] = {}
        for piece, edge in edges:
            if sign * _facing(edge, way) < FACES_TOO:
                continue
            outermost = max(way[axis] * point[axis] for point in edge)
            if _is_square(edge, axis) and outermost > extreme - self.reach:
                cut = self._square(piece, edge, way)
                if cut.size < self._whole(piece, axis) - TOLERANCE:
                    square[piece.id] = cut
            elif piece.size_slant is not None:
                size, middle = max(0, piece.size_slant - self.product.joint), _middle(edge)
                slanted[piece.id] = SideCut(piece.id, size, middle, middle, slanted=True)
        return tuple((square or slanted).values())

    def _whole(self, piece: Piece, axis: int) -> int:
        """How long a piece's whole unit is along an axis of the frame, joint not counted."""
        long = piece.unit_length or self.product.length
        return self.product.width if axis != piece.quarter else long

    def _square(self, piece: Piece, edge: Edge, way: Way) -> SideCut:
        """The cut from an edge's outermost end square to the piece's far side."""
        axis = 0 if way[0] else 1
        off = -way[axis] if self.inside else way[axis]
        outer = off * max(off * point[axis] for point in edge)
        far = off * max(off * point[axis] for point in piece.outline)
        middle = _middle(edge)[1 - axis]
        near, end = (
            ((outer, middle), (far, middle)) if axis == 0 else ((middle, outer), (middle, far))
        )
        return SideCut(piece.id, max(0, abs(far - outer) - self.product.joint), near, end)


def _edges_on(piece: Piece, outline: Ring, reach: int) -> Iterator[Edge]:
    """The edges of a piece that lie on an outline, material on their left."""
    for ring in (piece.outline, *(hole[::-1] for hole in piece.holes)):
        for edge in zip(ring, ring[1:] + ring[:1], strict=True):
            if _on(outline, *edge, reach):
                yield edge


def _facing(edge: Edge, way: Way) -> float:
    """How much the way from the feature across an edge to the piece is a given way: -1 to 1."""
    du, dv = edge[1][0] - edge[0][0], edge[1][1] - edge[0][1]
    return (du * way[1] - dv * way[0]) / math.hypot(du, dv)


def _is_square(edge: Edge, axis: int) -> bool:
    """Within 15 degrees of square to an axis."""
    along, across = (abs(edge[1][i] - edge[0][i]) for i in (axis, 1 - axis))
    return along <= across * NEAR_SQUARE_TAN


def _middle(edge: Edge) -> Point:
    (u0, v0), (u1, v1) = edge
    return (u0 + u1) // 2, (v0 + v1) // 2


def _on(outline: Ring, start: Point, end: Point, reach: int) -> bool:
    """Whether an edge lies on one side of an outline."""
    return any(
        _near(low, high, start, reach) and _near(low, high, end, reach)
        for low, high in zip(outline, outline[1:] + outline[:1], strict=True)
    )


def _near(low: Point, high: Point, point: Point, reach: int) -> bool:
    """Whether a point lies within ``reach`` ticks of a side."""
    du, dv = high[0] - low[0], high[1] - low[1]
    size = math.hypot(du, dv)
    u, v = point[0] - low[0], point[1] - low[1]
    along = (u * du + v * dv) / size
    return abs(du * v - dv * u) / size < reach and -reach < along < size + reach
