"""The sizes of every cut piece, in the order they are laid."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout, Piece, ZoneLayout
from models.job.data import Job
from solver.sheets.drawing.cuts import TOLERANCE, CutKind, kind_of


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut piece: its sizes joint excluded, shortest and longest side, in ticks.

    They are taken along its unit and across it, however it lies. ``neck`` is the narrowest
    part beside a notch, None without one.
    """

    zone: str
    row: int
    piece: str
    kind: CutKind
    along: tuple[int, int]
    across: tuple[int, int]
    neck: int | None
    touches: tuple[str, ...]


def cut_lines(job: Job, layout: Layout) -> tuple[CutLine, ...]:
    """Every cut piece of a layout in laying order, zone by zone."""
    return tuple(line for zone in layout.zones for line in _zone_lines(job, zone))


def _zone_lines(job: Job, zone: ZoneLayout) -> list[CutLine]:
    joint = job.product_of(zone.laying).joint
    place = {row: i for i, row in enumerate(zone.laying_order)}
    pieces = sorted(zone.pieces, key=lambda piece: place[piece.row])
    return [_line(zone, piece, joint) for piece in pieces if piece.cut]


def _extents(piece: Piece) -> tuple[int, int]:
    """How far a piece reaches along its unit and across it."""
    us, vs = zip(*piece.outline, strict=True)
    spans = (max(us) - min(us), max(vs) - min(vs))
    return spans[::-1] if piece.quarter else spans


def _sides(size: int | None, extent: int, joint: int) -> tuple[int, int]:
    """Shortest and longest side one way, the joint taken off; a point has none."""
    least = extent if size is None or extent - size < TOLERANCE else size
    return max(least - joint, 0), max(extent - joint, 0)


def _line(zone: ZoneLayout, piece: Piece, joint: int) -> CutLine:
    along, across = _extents(piece)
    return CutLine(
        zone.zone,
        piece.row,
        piece.id,
        kind_of(piece),
        _sides(piece.size_along, along, joint),
        _sides(piece.size_across, across, joint),
        piece.neck,
        piece.touches,
    )
