"""What must come from one unit, and where in the unit each piece has to sit.

Joints inside the floor are factory edge to factory edge. A piece whose right side is a
joint must therefore sit at the right end of its unit, one whose left side is a joint at
the left end; a piece cut on both sides may sit anywhere. The same holds across the unit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from models.floor.pieces import Cut, pieces_of
from models.floor.runs import Run
from models.job.data import Product


@dataclass(frozen=True, slots=True)
class Stock:
    """What pieces are packed into: unit size with joint, kerf, turning and row window."""

    length: int
    width: int
    kerf: int
    directional: bool
    within: int | None = None

    @property
    def square(self) -> bool:
        """True when a unit may also be turned a quarter."""
        return not self.directional and self.length == self.width


def stock_of(product: Product, within: int | None = None) -> Stock:
    """The stock a product makes; ``within`` as in the rule ``reuse_within``."""
    return Stock(*product.pitch, product.kerf, product.directional, within)


class Sits(Enum):
    """Where a part must sit in its unit, in one direction."""

    FULL = "full"
    LOW = "low"
    HIGH = "high"
    FREE = "free"


@dataclass(frozen=True, slots=True)
class Part:
    """What one piece asks of stock: its number, row, and where in its unit it must sit.

    ``length`` and ``width`` are of the box round it, ticks. ``lean`` is how much further
    the cut end reaches at the high side than at the low side (0 when square; None when
    the end is not one straight cut), so that two parallel slanted ends can nest.
    """

    cut: int
    row: int
    along: Sits
    length: int
    across: Sits
    width: int
    lean: int | None = 0

    @property
    def whole(self) -> bool:
        """True when it takes a whole unit by itself."""
        return self.along is Sits.FULL and self.across is Sits.FULL


NO_PIECE = -1
"""The piece number of a part that only counts."""


def parts_of(cuts: Sequence[Cut], runs: Sequence[Run]) -> list[Part]:
    """The parts pieces ask for, in the pieces' order."""
    extent = _rows_extent(runs)
    return [_part(number, cut, runs[cut.run], extent) for number, cut in enumerate(cuts)]


def end_parts(
    runs: Sequence[Run], offsets: Sequence[int], pitch: tuple[int, int]
) -> tuple[int, list[Part]]:
    """The same without piece numbers, fast: whole units counted, only cut ones listed.

    Runs over their row's whole width are reckoned from their ends, the others cut to pieces.
    """
    whole = 0
    parts: list[Part] = []
    odd = []
    for index, (run, offset) in enumerate(zip(runs, offsets, strict=True)):
        if run.outline is not None or run.top - run.bottom < pitch[1]:
            odd.append(index)
            continue
        first = (run.start - offset) % pitch[0]
        last = (offset - run.end) % pitch[0]
        places = (run.length + first + last) // pitch[0]
        if places == 1 and (first or last):  # one piece from stop to stop
            parts.append(Part(NO_PIECE, run.row, Sits.FREE, run.length, Sits.FULL, pitch[1]))
            continue
        whole += places - (first > 0) - (last > 0)
        if first:
            parts.append(Part(NO_PIECE, run.row, Sits.HIGH, pitch[0] - first, Sits.FULL, pitch[1]))
        if last:
            parts.append(Part(NO_PIECE, run.row, Sits.LOW, pitch[0] - last, Sits.FULL, pitch[1]))
    cuts = pieces_of([runs[i] for i in odd], [offsets[i] for i in odd], pitch, measured=False)
    found = parts_of([replace(cut, run=odd[cut.run]) for cut in cuts], runs)
    parts += [replace(part, cut=NO_PIECE) for part in found if not part.whole]
    return whole + sum(part.whole for part in found), parts


def _beside(
    extent: dict[int, list[tuple[int, int]]], row: int, left: int, right: int
) -> tuple[bool, bool]:
    """Whether floor of the row below, and of the row above, lies beside a stretch of a row."""
    below, above = (
        any(a < right and b > left for a, b in extent.get(row + step, ())) for step in (-1, 1)
    )
    return below, above


def _rows_extent(runs: Sequence[Run]) -> dict[int, list[tuple[int, int]]]:
    found: dict[int, list[tuple[int, int]]] = {}
    for run in runs:
        found.setdefault(run.row, []).append((run.start, run.end))
    return found


def _part(number: int, cut: Cut, run: Run, extent: dict[int, list[tuple[int, int]]]) -> Part:
    cell, (left, low, right, high) = cut.cell, cut.box
    below, above = _beside(extent, run.row, left, right)
    along = _sits(left == cell[0], right == cell[2], cell[0] > run.start, cell[2] < run.end)
    across = _sits(low == cell[1], high == cell[3], below, above)
    lean: int | None = 0
    if cut.outline is not None:
        lean = _lean(cut, along) if across is Sits.FULL else None
    return Part(number, run.row, along, right - left, across, high - low, lean)


def _sits(at_low: bool, at_high: bool, joint_low: bool, joint_high: bool) -> Sits:
    if at_low and at_high:
        return Sits.FULL
    if at_low and joint_low:
        return Sits.LOW
    if at_high and joint_high:
        return Sits.HIGH
    return Sits.FREE


def _lean(cut: Cut, along: Sits) -> int | None:
    """The lean of the one straight cut end of an anchored piece; None if it is not one."""
    if along not in (Sits.LOW, Sits.HIGH) or cut.holes:
        return None
    joint = cut.cell[0] if along is Sits.LOW else cut.cell[2]
    far = [p for p in cut.ring if p[0] != joint]
    if len(far) != 2 or {p[1] for p in far} != {cut.cell[1], cut.cell[3]}:
        return None
    (low, high) = sorted(far, key=lambda p: p[1])
    return high[0] - low[0]
