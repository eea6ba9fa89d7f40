"""The sizes of every cut piece, in the order they are laid, and what is left of its unit."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout, Piece, ZoneLayout
from models.job.data import Job
from solver.sheets.cuts import TOLERANCE, CutKind, kind_of


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut piece: its sizes joint excluded, shortest and longest side, in ticks.

    They are taken along its unit and across it, however it lies; ``unit_length`` is set
    where units have several lengths. ``neck`` is the narrowest part beside a notch, None
    without one.
    ``offcut_of`` is the piece cut before it from the same unit, None from a fresh unit.
    """

    zone: str
    row: int
    piece: str
    kind: CutKind
    along: tuple[int, int]
    across: tuple[int, int]
    neck: int | None
    unit: str
    offcut_of: str | None
    touches: tuple[str, ...]
    unit_length: int = 0


def cut_lines(job: Job, layout: Layout) -> tuple[CutLine, ...]:
    """Every cut piece of a layout in laying order, zone by zone."""
    cut_before: dict[str, str] = {}
    return tuple(line for zone in layout.zones for line in _zone_lines(job, zone, cut_before))


def _zone_lines(job: Job, zone: ZoneLayout, cut_before: dict[str, str]) -> list[CutLine]:
    """One zone's cut pieces; ``cut_before`` is kept up with the last piece of every unit."""
    joint = job.product_of(zone.laying).joint
    place = {row: i for i, row in enumerate(zone.laying_order)}
    lines = []
    for piece in sorted(zone.pieces, key=lambda piece: place[piece.row]):
        before = cut_before.get(piece.unit)
        cut_before[piece.unit] = piece.id
        if piece.cut:
            lines.append(_line(zone, piece, joint, before))
    return lines


def _extents(piece: Piece) -> tuple[int, int]:
    """How far a piece reaches along its unit and across it."""
    us, vs = zip(*piece.outline, strict=True)
    spans = (max(us) - min(us), max(vs) - min(vs))
    return spans[::-1] if piece.quarter else spans


def _sides(size: int | None, extent: int, joint: int) -> tuple[int, int]:
    """Shortest and longest side one way, the joint taken off; a point has none."""
    least = extent if size is None or extent - size < TOLERANCE else size
    return max(least - joint, 0), max(extent - joint, 0)


def _line(zone: ZoneLayout, piece: Piece, joint: int, before: str | None) -> CutLine:
    along, across = _extents(piece)
    return CutLine(
        zone.zone,
        piece.row,
        piece.id,
        kind_of(piece),
        _sides(piece.size_along, along, joint),
        _sides(piece.size_across, across, joint),
        piece.neck,
        piece.unit,
        before,
        piece.touches,
        piece.unit_length,
    )
