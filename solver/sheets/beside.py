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
class SideCuts:
    """The cut pieces on one side of a feature, joints not counted; lengths in ticks.

    ``way`` is the side in the frame, ``side`` where it is on the printed plan. ``least`` and
    ``most`` are None when no piece is cut there.
    """

    way: tuple[int, int]
    side: str
    pieces: tuple[str, ...]
    least: int | None
    most: int | None

    def words(self, job: Job) -> str:
        """The cuts as one length or a range."""
        if self.least is None or self.most is None:
            return "whole units"
        return span(job, self.least, self.most)


def cuts_beside(job: Job, zone: ZoneLayout, feature: Feature) -> tuple[SideCuts, ...]:
    """The cuts on the four sides of a feature, from its outline to each piece's far side."""
    outline = zone.frame.ring_to_frame(feature.outline)
    product = next(each for each in job.products if each.name == zone.product)
    touching = [piece for piece in zone.pieces if feature.name in piece.touches]
    found: dict[tuple[int, int], list[tuple[str, int]]] = {way: [] for way in WAYS}
    for piece in touching:
        for way, size in _cut_sides(piece, outline):
            if size < product.pitch[0 if way[0] else 1] - TOLERANCE:
                found[way].append((piece.id, size - product.joint))
    return tuple(_side(zone, way, found[way]) for way in WAYS)


def _side(zone: ZoneLayout, way: tuple[int, int], found: list[tuple[str, int]]) -> SideCuts:
    sizes = [size for _, size in found]
    names = tuple(dict.fromkeys(name for name, _ in found))
    return SideCuts(
        way, toward(zone, *way), names, min(sizes, default=None), max(sizes, default=None)
    )


def _cut_sides(piece: Piece, outline: Ring) -> Iterator[tuple[tuple[int, int], int]]:
    """Each edge of a piece that lies on an outline: the way it faces, and the size there.

    The size runs from the edge's narrow end square to the rows' lines to the piece's far
    side.
    """
    us, vs = [u for u, _ in piece.outline], [v for _, v in piece.outline]
    for ring in (piece.outline, *(hole[::-1] for hole in piece.holes)):
        for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
            if not _on(outline, start, end):
                continue
            du, dv = end[0] - start[0], end[1] - start[1]
            if abs(dv) >= abs(du):
                to_low = min(start[0], end[0]) - min(us)
                to_high = max(us) - max(start[0], end[0])
                yield ((-1, 0), to_low) if dv > 0 else ((1, 0), to_high)
            else:
                to_low = min(start[1], end[1]) - min(vs)
                to_high = max(vs) - max(start[1], end[1])
                yield ((0, 1), to_high) if du > 0 else ((0, -1), to_low)


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
