"""Pack parts by trying places: each part into the unit it fills best, largest first.

Slower than pairing, but it sees both directions at once: several small pieces, corners and
turned pieces in one unit. ``pack`` takes whichever of the two needs fewer units.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from solver.stock.parts import Part, Sits, Stock

Box = tuple[int, int, int, int]
"""Left, low, right, high inside a unit, in ticks."""


@dataclass(slots=True)
class _Unit:
    """A unit being filled: boxes taken, their parts and rows, the area left."""

    left: int
    boxes: list[Box] = field(default_factory=list)
    members: list[int] = field(default_factory=list)
    rows: list[int] = field(default_factory=list)


def place(parts: Sequence[Part], stock: Stock) -> list[list[int]]:
    """Units as lists of part numbers, by best fit of the largest part first."""
    units: list[_Unit] = []
    for index in sorted(range(len(parts)), key=lambda i: (-parts[i].length * parts[i].width, i)):
        part = parts[index]
        area = part.length * part.width
        for unit in sorted(units, key=lambda u: u.left):
            if unit.left < area or not _near(unit, part, stock):
                continue
            box = _fit(unit, part, stock)
            if box is not None:
                break
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
    return (
        one[2] + kerf <= two[0]
        or two[2] + kerf <= one[0]
        or one[3] + kerf <= two[1]
        or two[3] + kerf <= one[1]
    )


def _boxes(unit: _Unit, part: Part, stock: Stock) -> Iterator[Box]:
    """Every place worth trying for a part, turned as its product allows."""
    for along, length, across, width in _turns(part, stock):
        for left in _starts(
            along, length, stock.length, [(b[0], b[2]) for b in unit.boxes], stock.kerf
        ):
            for low in _starts(
                across, width, stock.width, [(b[1], b[3]) for b in unit.boxes], stock.kerf
            ):
                yield left, low, left + length, low + width


FLIPPED = {Sits.LOW: Sits.HIGH, Sits.HIGH: Sits.LOW, Sits.FULL: Sits.FULL, Sits.FREE: Sits.FREE}


def _turns(part: Part, stock: Stock) -> Iterator[tuple[Sits, int, Sits, int]]:
    along, length, across, width = part.along, part.length, part.across, part.width
    yield along, length, across, width
    if stock.directional:
        return
    yield FLIPPED[along], length, FLIPPED[across], width
    if stock.square:
        yield FLIPPED[across], width, along, length
        yield across, width, FLIPPED[along], length


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
    """True when straight cuts through the whole remaining part set every box free."""
    if len(boxes) <= 3:
        return True  # three boxes apart from each other always can be
    for axis in (0, 1):
        for line in {box[axis + 2] for box in boxes}:
            before = [box for box in boxes if box[axis + 2] <= line]
            after = [box for box in boxes if box[axis] >= line + kerf]
            if after and len(before) + len(after) == len(boxes):
                return guillotine(before, kerf) and guillotine(after, kerf)
    return False
