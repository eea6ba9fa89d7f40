"""Pack parts by trying places: each part into the unit it fills best, largest first.

Slower than pairing, but it sees both directions at once: several small pieces, corners and
turned pieces in one unit.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from solver.stock.cutting import NEVER, late, turns
from solver.stock.parts import Part, Sits, Stock


@dataclass(frozen=True, slots=True)
class Box:
    """A part's place in a unit: its low and high corner, ticks; ``place`` in the laying order.

    ``late`` as in ``cutting.Block``.
    """

    low: tuple[int, int]
    high: tuple[int, int]
    place: int = 0
    late: tuple[int, int] = (NEVER, NEVER)


@dataclass(slots=True)
class _Unit:
    """A unit being filled: boxes taken, their parts and rows, the area left.

    ``refused`` are parts that found no place: they never will.
    """

    left: int
    boxes: list[Box] = field(default_factory=list)
    members: list[int] = field(default_factory=list)
    rows: list[int] = field(default_factory=list)
    refused: set[Part] = field(default_factory=set)


def placed(parts: Sequence[Part], stock: Stock) -> list[list[int]]:
    """Units as lists of part numbers, by best fit of the largest part first.

    Parts as in ``cutting.Cutter``.
    """
    units: list[_Unit] = []
    for index in sorted(range(len(parts)), key=lambda i: (-parts[i].length * parts[i].width, i)):
        part = parts[index]
        area = part.length * part.width
        for unit in sorted(units, key=lambda u: u.left):
            if unit.left < area or part in unit.refused or not _near(unit, part, stock):
                continue
            box = _fit(unit, part, stock)
            if box is not None:
                break
            unit.refused.add(part)
        else:
            unit = _Unit(stock.length * stock.width)
            units.append(unit)
            box = next(_boxes(unit, part, stock))
        unit.boxes.append(box)
        unit.members.append(index)
        unit.rows.append(part.row)
        unit.left -= area
    return [unit.members for unit in units]


def _near(unit: _Unit, part: Part, stock: Stock) -> bool:
    return stock.within is None or all(abs(part.row - row) <= stock.within for row in unit.rows)


def _fit(unit: _Unit, part: Part, stock: Stock) -> Box | None:
    """A place for the part beside what the unit already holds, a kerf apart; None if none."""
    for box in _boxes(unit, part, stock):
        clear = all(_apart(box, other, stock.kerf) for other in unit.boxes)
        if clear and guillotine([*unit.boxes, box], stock.kerf):
            return box
    return None


def _apart(one: Box, two: Box, kerf: int) -> bool:
    return any(
        a.high[axis] + kerf <= b.low[axis] for a, b in ((one, two), (two, one)) for axis in (0, 1)
    )


def _boxes(unit: _Unit, part: Part, stock: Stock) -> Iterator[Box]:
    """Every place worth trying for a part, turned as its product allows."""
    for along, length, across, width in turns(part, stock):
        behind = late(part.cut, (length, width), stock)
        taken = [[(box.low[axis], box.high[axis]) for box in unit.boxes] for axis in (0, 1)]
        for left in _starts(along, length, stock.length, taken[0], stock.kerf):
            for low in _starts(across, width, stock.width, taken[1], stock.kerf):
                yield Box((left, low), (left + length, low + width), part.cut, behind)


def _starts(
    sits: Sits, size: int, whole: int, taken: list[tuple[int, int]], kerf: int
) -> list[int]:
    if sits is Sits.LOW or sits is Sits.FULL:
        return [0]
    if sits is Sits.HIGH:
        return [whole - size]
    beside = {0, whole - size}
    beside |= {high + kerf for _, high in taken} | {low - kerf - size for low, _ in taken}
    return sorted(start for start in beside if 0 <= start <= whole - size)


def guillotine(boxes: Sequence[Box], kerf: int) -> bool:
    """True when straight cuts through the whole remaining part set every box free.

    Each cut must leave enough of the unit to what is laid later.
    """
    if len(boxes) < 2:
        return True
    for axis in (0, 1):
        for line in sorted({box.high[axis] for box in boxes}):
            before = [box for box in boxes if box.high[axis] <= line]
            after = [box for box in boxes if box.low[axis] >= line + kerf]
            if after and len(before) + len(after) == len(boxes) and _in_order(before, after, axis):
                return guillotine(before, kerf) and guillotine(after, kerf)
    return False


def _in_order(one: Sequence[Box], two: Sequence[Box], axis: int) -> bool:
    return all(
        min(box.late[axis] for box in here) > max(box.place for box in there)
        for here, there in ((one, two), (two, one))
    )
