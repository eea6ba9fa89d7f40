"""What each laid piece asks of its unit, read from its outline: size, factory edges, cut end.

Everything is in the unit's own frame and real: the joint is taken off, a unit that lies a
quarter turn to the rows is turned back. The rules are those of ``solver.stock``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from models.floor.layout import Piece, ZoneLayout
from models.job.data import Product, Ring
from solver.stock.parts import Sits

SAME = 6
"""Sizes this close, in ticks (under 0.02 mm), are the same: nothing can be cut off."""
HAIR = 2
"""Ticks by which rounding may move a corner off the line it lies on."""

Walls = Mapping[tuple[int, int], Sequence[tuple[int, int]]]
"""For an axis and a coordinate on it, the stretches of the zone's outline on that line."""

Cell = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Taper:
    """One straight cut from side to side that is not square.

    It is measured along ``axis`` from the piece's straight side, ``at`` the low and the
    high end of the other axis; it is the piece's high side when ``high``, else its low one.
    """

    axis: int
    high: bool
    at: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Want:
    """What one piece asks of its unit: real size along and across, and where it has to sit.

    ``taper`` is its one slanted cut; ``shaped`` tells that it is cut to shape from the
    rectangle round it. All in ticks in the unit's own frame.
    """

    size: tuple[int, int]
    sits: tuple[Sits, Sits]
    taper: Taper | None = None
    shaped: bool = False

    @property
    def gone(self) -> bool:
        """True when the joint takes all of it: there is nothing to cut, and nothing to lay."""
        return min(self.size) <= SAME

    @property
    def half_turned(self) -> Want:
        """The same once its unit is turned half a turn."""
        taper = self.taper
        if taper:
            taper = replace(taper, high=not taper.high, at=taper.at[::-1])
        return replace(self, sits=(self.sits[0].flipped, self.sits[1].flipped), taper=taper)

    @property
    def quarter_turned(self) -> Want:
        """The same once its unit is turned a quarter counter-clockwise."""
        taper = self.taper
        if taper:
            taper = (
                Taper(1, taper.high, taper.at[::-1])
                if taper.axis == 0
                else Taper(0, not taper.high, taper.at)
            )
        sits = (self.sits[1].flipped, self.sits[0])
        return replace(self, size=self.size[::-1], sits=sits, taper=taper)


def turns_of(want: Want, product: Product) -> tuple[Want, ...]:
    """How a piece may lie in its unit, each way once."""
    if product.directional:
        return (want,)
    ways = [want, want.half_turned]
    if product.length == product.width:
        ways += [way.quarter_turned for way in ways]
    return tuple(dict.fromkeys(ways))


def unit_size(piece: Piece, product: Product) -> tuple[int, int]:
    """Length and width of the unit a piece is cut from, as it leaves the carton."""
    return piece.unit_length or product.length, product.width


def zone_walls(zone: ZoneLayout) -> Walls:
    """The square sides of a zone's outline; a piece's side on one of them is no joint."""
    found: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
    for ring in (zone.outer, *zone.holes):
        for start, end in pairwise((*ring, ring[0])):
            for axis in (0, 1):
                if abs(start[axis] - end[axis]) <= HAIR:
                    low, high = sorted((start[1 - axis], end[1 - axis]))
                    for place in {start[axis], end[axis]}:
                        found[axis, place].append((low, high))
    return found


def want_of(piece: Piece, product: Product, walls: Walls) -> Want:
    """What a piece asks of its unit; ``walls`` are its zone's."""
    unit = unit_size(piece, product)
    cell = _cell(piece, unit, product.joint)
    joints = [_joint(piece, at % 2, cell[at], walls) for at in range(4)]
    held = [False] * 4 if product.shop_cuts else joints
    ring = _corners(piece.outline)
    if piece.quarter:  # turned back a quarter clockwise: up becomes along, along becomes down
        ring, cell = tuple((v, -u) for u, v in ring), (cell[1], -cell[2], cell[3], -cell[0])
        held = [held[1], held[2], held[3], held[0]]
    us, vs = zip(*ring, strict=True)
    box = (min(us), min(vs), max(us), max(vs))
    sits = (_sits(box, cell, held, 0), _sits(box, cell, held, 1))
    along, across = (
        unit[axis] if sits[axis] is Sits.FULL else box[axis + 2] - box[axis] - product.joint
        for axis in (0, 1)
    )
    want = Want((along, across), sits)
    if _rectangle(ring, box) and not piece.holes:
        return want
    taper = None if piece.holes else _taper(ring, box, product.joint)
    return replace(want, taper=taper, shaped=taper is None)


def _corners(ring: Ring) -> Ring:
    """An outline without corners that rounding made of one."""
    kept = tuple(
        b for a, b in pairwise((ring[-1], *ring)) if max(abs(a[0] - b[0]), abs(a[1] - b[1])) > HAIR
    )
    return kept if len(kept) > 2 else ring


def _cell(piece: Piece, unit: tuple[int, int], joint: int) -> Cell:
    long, wide = unit[0] + joint, unit[1] + joint
    if piece.quarter:
        long, wide = wide, long
    (left, low) = piece.corner
    return left, low, left + long, low + wide


def _joint(piece: Piece, axis: int, place: int, walls: Walls) -> bool:
    """Whether some of a piece's outline on one side of its cell is not the zone's outline."""
    along = [
        stretch
        for near in range(place - HAIR, place + HAIR + 1)
        for stretch in walls.get((axis, near), ())
    ]
    for ring in (piece.outline, *piece.holes):
        for a, b in pairwise((*ring, ring[0])):
            if abs(a[axis] - place) <= HAIR and abs(b[axis] - place) <= HAIR:
                low, high = sorted((a[1 - axis], b[1 - axis]))
                covered = sum(max(min(high, y) - max(low, x), 0) for x, y in set(along))
                if covered < high - low - SAME:
                    return True
    return False


def _sits(box: Cell, cell: Cell, held: Sequence[bool], axis: int) -> Sits:
    at_low, at_high = (abs(box[i] - cell[i]) <= HAIR for i in (axis, axis + 2))
    if at_low and at_high:
        return Sits.FULL
    if at_low and held[axis]:
        return Sits.LOW
    if at_high and held[axis + 2]:
        return Sits.HIGH
    return Sits.FREE


def _rectangle(ring: Ring, box: Cell) -> bool:
    """Whether a piece fills the rectangle round it but for less than can be cut."""
    long, wide = box[2] - box[0], box[3] - box[1]
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*ring, ring[0])))
    return 2 * long * wide - abs(twice) <= 2 * SAME * (long + wide)


def _taper(ring: Ring, box: Cell, joint: int) -> Taper | None:
    """The slanted side of a piece whose other sides are square: a trapezium or a triangle."""
    if len(ring) not in (3, 4):
        return None
    for axis in (0, 1):
        other = 1 - axis
        ends = [_on(ring, other, place, axis) for place in (box[other], box[other + 2])]
        if len(ends[0]) + len(ends[1]) != len(ring):
            continue
        (low_a, high_a), (low_b, high_b) = ((min(end), max(end)) for end in ends)
        if max(low_a, low_b) - box[axis] <= HAIR:
            reach = (high_a - box[axis], high_b - box[axis])
        elif box[axis + 2] - min(high_a, high_b) <= HAIR:
            reach = (box[axis + 2] - low_a, box[axis + 2] - low_b)
        else:
            continue
        at = (max(reach[0] - joint, 0), max(reach[1] - joint, 0))
        return Taper(axis, max(low_a, low_b) - box[axis] <= HAIR, at)
    return None


def _on(ring: Ring, axis: int, place: int, told: int) -> list[int]:
    """Where along the axis ``told`` the corners at a place on the other one are."""
    return [point[told] for point in ring if abs(point[axis] - place) <= HAIR]
