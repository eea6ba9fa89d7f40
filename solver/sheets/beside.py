"""The cuts beside a held feature, side by side as the plan shows them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from models.floor.layout import Piece, ZoneLayout
from models.job.data import Feature, Job, Point, Ring
from solver.sheets.chalk import toward
from solver.sheets.cuts import TOLERANCE
from solver.sheets.words import span

WAYS = ((-1, 0), (1, 0), (0, -1), (0, 1))
"""The four sides of a feature in the frame: both along the rows, then both across."""


@dataclass(frozen=True, slots=True)
class SideCut:
    """One piece beside a feature: its size there without joint, between two frame points."""

    piece: str
    size: int
    near: Point
    far: Point


@dataclass(frozen=True, slots=True)
class SideCuts:
    """The cut pieces on one side of a feature; lengths in ticks.

    ``way`` is the side in the frame, ``side`` where it is on the printed plan.
    """

    way: tuple[int, int]
    side: str
    cuts: tuple[SideCut, ...]

    @property
    def least(self) -> int | None:
        """The smallest of the cuts, None when no piece is cut there."""
        return min((cut.size for cut in self.cuts), default=None)

    @property
    def most(self) -> int | None:
        """The largest of the cuts, None when no piece is cut there."""
        return max((cut.size for cut in self.cuts), default=None)

    def words(self, job: Job) -> str:
        """The cuts as one length or a range."""
        if self.least is None or self.most is None:
            return "whole units"
        return span(job, self.least, self.most)


def cuts_beside(job: Job, zone: ZoneLayout, feature: Feature) -> tuple[SideCuts, ...]:
    """The cuts on the four sides of a feature, from its outline to each piece's far side."""
    outline = zone.frame.ring_to_frame(feature.outline)
    product = next(each for each in job.products if each.name == zone.product)
    found: dict[tuple[int, int], dict[str, SideCut]] = {way: {} for way in WAYS}
    for piece in zone.pieces:
        if feature.name not in piece.touches:
            continue
        for way, near, far in _cut_sides(piece, outline):
            size = abs(near[0] - far[0]) + abs(near[1] - far[1])
            if size < product.pitch[0 if way[0] else 1] - TOLERANCE:
                cut = SideCut(piece.id, size - product.joint, near, far)
                known = found[way].setdefault(piece.id, cut)
                if cut.size < known.size:
                    found[way][piece.id] = cut
    return tuple(SideCuts(way, toward(zone, *way), tuple(found[way].values())) for way in WAYS)


def _cut_sides(piece: Piece, outline: Ring) -> Iterator[tuple[tuple[int, int], Point, Point]]:
    """Each edge of a piece on an outline: the way it faces, and a line square across the piece.

    The line runs from the edge's narrow end, at the middle of the edge, to the piece's far
    side.
    """
    us, vs = [u for u, _ in piece.outline], [v for _, v in piece.outline]
    for ring in (piece.outline, *(hole[::-1] for hole in piece.holes)):
        for (u0, v0), (u1, v1) in zip(ring, ring[1:] + ring[:1], strict=True):
            if not _on(outline, (u0, v0), (u1, v1)):
                continue
            u, v = (u0 + u1) // 2, (v0 + v1) // 2
            if abs(v1 - v0) >= abs(u1 - u0):
                rises = v1 > v0
                near, far = (min(u0, u1), min(us)) if rises else (max(u0, u1), max(us))
                yield (-1 if rises else 1, 0), (near, v), (far, v)
            else:
                rises = u1 > u0
                near, far = (max(v0, v1), max(vs)) if rises else (min(v0, v1), min(vs))
                yield (0, 1 if rises else -1), (u, near), (u, far)


def _on(outline: Ring, start: Point, end: Point) -> bool:
    """Whether an edge lies on one side of an outline."""
    return any(
        _near(low, high, start) and _near(low, high, end)
        for low, high in zip(outline, outline[1:] + outline[:1], strict=True)
    )


def _near(low: Point, high: Point, point: Point) -> bool:
    """Whether a point lies on a side, within the rounding of crossings to ticks."""
    du, dv = high[0] - low[0], high[1] - low[1]
    size = math.hypot(du, dv)
    u, v = point[0] - low[0], point[1] - low[1]
    along = (u * du + v * dv) / size
    return abs(du * v - dv * u) / size < TOLERANCE and -TOLERANCE < along < size + TOLERANCE
