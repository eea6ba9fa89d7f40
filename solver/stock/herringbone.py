"""What the pieces of a herringbone ask of stock: flat and upright units alike.

Every piece is seen in its own unit's frame: that of an upright unit is the zone's turned a
quarter counter-clockwise, so that its arrow points up and its left side lies below it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from models.floor.pieces import Cut
from models.floor.sizes import Cell
from models.floor.zone import Zone
from models.job.data import Ring
from solver.stock.parts import Beyond, Part, Sits, part_of

Stretches = dict[tuple[int, int], list[tuple[int, int]]]
"""For an axis and a coordinate on it, the stretches of the zone's outline on that line."""

HAIR = 2
"""Ticks by which rounding to ticks may change how far a slanted cut leans."""


def herringbone_parts(zone: Zone, cuts: Sequence[Cut], zone_number: int = 0) -> list[Part]:
    """The parts of a zone's pieces, in their order; boxes along and across their own units."""
    walls = _walls(zone)
    return [_part(number, cut, walls, zone_number) for number, cut in enumerate(cuts)]


def _part(number: int, cut: Cut, walls: Stretches, zone: int) -> Part:
    length, width = _unit(cut)
    if cut.whole:
        return Part(number, cut.row, Sits.FULL, length, Sits.FULL, width, zone=zone)
    beyond = _beyond(cut, walls)
    if cut.quarter:
        cut, beyond = _own_frame(cut), (beyond[2], beyond[3], beyond[1], beyond[0])
    part = part_of(number, cut, beyond, zone=zone)
    # Cuts at one wall lean alike, whatever the rounding of their ends.
    diagonal = next((s * width for s in (-1, 1) if abs((part.lean or 0) - s * width) <= HAIR), None)
    return part if diagonal is None else replace(part, lean=diagonal)


def _unit(cut: Cut) -> tuple[int, int]:
    left, low, right, high = cut.cell
    return (high - low, right - left) if cut.quarter else (right - left, high - low)


def _own_frame(cut: Cut) -> Cut:
    """An upright unit's piece turned a quarter clockwise about the origin, to lie flat."""
    return replace(
        cut,
        cell=_turned(cut.cell),
        box=_turned(cut.box),
        outline=None if cut.outline is None else _turned_ring(cut.outline),
        holes=tuple(_turned_ring(hole) for hole in cut.holes),
        quarter=False,
    )


def _turned(box: Cell) -> Cell:
    left, low, right, high = box
    return low, -right, high, -left


def _turned_ring(ring: Ring) -> Ring:
    return tuple((v, -u) for u, v in ring)


def _walls(zone: Zone) -> Stretches:
    found: Stretches = defaultdict(list)
    for ring in (zone.outer, *zone.holes):
        for start, end in pairwise((*ring, ring[0])):
            for axis in (0, 1):
                if start[axis] == end[axis]:
                    low, high = sorted((start[1 - axis], end[1 - axis]))
                    found[axis, start[axis]].append((low, high))
    return found


def _beyond(cut: Cut, walls: Stretches) -> Beyond:
    """Whether floor lies beyond each side of the cell a piece reaches: left, right, low, high."""
    left, low, right, high = (_joint(cut, at % 2, cut.cell[at], walls) for at in range(4))
    return left, right, low, high


def _joint(cut: Cut, axis: int, place: int, walls: Stretches) -> bool:
    """True when some of a piece's outline on one side of its cell is not the zone's outline."""
    for ring in (cut.ring, *cut.holes):
        for a, b in pairwise((*ring, ring[0])):
            if a[axis] == b[axis] == place:
                low, high = sorted((a[1 - axis], b[1 - axis]))
                along = walls.get((axis, place), ())
                if sum(max(min(high, y) - max(low, x), 0) for x, y in along) < high - low:
                    return True
    return False
