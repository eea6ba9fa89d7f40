"""What each piece asks of stock: its box, and where in its unit that has to sit.

The rules are those of ``solver.stock``: a side that is a joint is a factory edge, so it
lies on that side of the unit; between two cut sides a piece may lie anywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum

from models.floor.pieces import Cut, pieces_of
from models.floor.runs import Run
from models.job.data import Marks, Product


@dataclass(frozen=True, slots=True)
class Stock:
    """What pieces are packed into: unit size with joint, kerf and turning; ticks.

    ``within`` is how many rows an offcut is carried at most, and then never to another
    zone (None: no limit). ``scrap`` is the least an offcut must measure to be used again.
    ``shop_cuts`` allows cut edges at joints, so that a cut piece may sit anywhere.
    """

    length: int
    width: int
    kerf: int
    directional: bool
    within: int | None = None
    scrap: int = 0
    shop_cuts: bool = False

    @property
    def square(self) -> bool:
        """True when a unit may also be turned a quarter."""
        return not self.directional and self.length == self.width


def stock_of(product: Product, within: int | None = None) -> Stock:
    """The stock a product makes; ``within`` as in the rule ``reuse_within``."""
    return Stock(
        *product.pitch,
        product.kerf,
        product.directional,
        within,
        product.scrap,
        product.shop_cuts,
    )


class Sits(Enum):
    """Where a part must sit in its unit, in one direction."""

    FULL = "full"
    LOW = "low"
    HIGH = "high"
    FREE = "free"

    @property
    def flipped(self) -> Sits:
        """The same once the unit is turned half a turn."""
        return {Sits.LOW: Sits.HIGH, Sits.HIGH: Sits.LOW}.get(self, self)


@dataclass(frozen=True, slots=True)
class Part:
    """What one piece asks of stock: its number, row, and where in its unit it must sit.

    ``length`` and ``width`` are of the box round it, along and across its unit, ticks.
    ``lean`` is how much further the cut end reaches at the high side than at the low side
    (0 when square; None when the end is not one straight cut), so that two parallel slanted
    ends can nest. Pieces are laid in the order of ``zone``, ``row`` and ``cut``; parts
    that tie in the order they are listed.
    """

    cut: int
    row: int
    along: Sits
    length: int
    across: Sits
    width: int
    lean: int | None = 0
    zone: int = 0

    @property
    def whole(self) -> bool:
        """True when it takes a whole unit by itself."""
        return self.along is Sits.FULL and self.across is Sits.FULL


NO_PIECE = -1
"""The piece number of a part that only counts."""


Beyond = tuple[bool, bool, bool, bool]
"""Whether floor lies beyond a piece's left, right, low and high side, in the zone's frame."""


def parts_of(
    cuts: Sequence[Cut], runs: Sequence[Run], marks: Marks = Marks.ONE_WAY, zone: int = 0
) -> list[Part]:
    """The parts pieces ask for, in the pieces' order."""
    extent = _rows_extent(runs)
    return [
        part_of(
            number,
            cut,
            _beyond(cut, runs[cut.run], extent),
            turned=cut.quarter or quarter_turned(marks, cut.row, cut.order),
            zone=zone,
        )
        for number, cut in enumerate(cuts)
    ]


def part_of(number: int, cut: Cut, beyond: Beyond, turned: bool = False, zone: int = 0) -> Part:
    """The part one piece asks for; ``turned`` when its unit lies turned a quarter.

    A unit turned counter-clockwise has its length across the rows: the part is given in
    the unit's own frame.
    """
    cell, (left, low, right, high) = cut.cell, cut.box
    along = _sits(left == cell[0], right == cell[2], beyond[0], beyond[1])
    across = _sits(low == cell[1], high == cell[3], beyond[2], beyond[3])
    lean: int | None = 0
    if cut.outline is not None:
        lean = _lean(cut, along) if across is Sits.FULL and not turned else None
    part = Part(number, cut.row, along, right - left, across, high - low, lean, zone)
    return turned_back(part) if turned else part


def quarter_turned(marks: Marks, row: int, order: int) -> bool:
    """Whether a unit lies turned a quarter: every second one, as on a chessboard."""
    return marks is Marks.QUARTER_TURNED and (row + order) % 2 == 1


def turned_back(part: Part) -> Part:
    """A part turned a quarter clockwise: up becomes along, along becomes down."""
    lean = 0 if part.lean == 0 else None
    return replace(
        part,
        along=part.across,
        length=part.width,
        across=part.along.flipped,
        width=part.length,
        lean=lean,
    )


def mirrored_parts(parts: Sequence[Part]) -> list[Part]:
    """The parts of a zone that mirrors this one: arrows kept, what was low across is high."""
    return [
        replace(
            part,
            across=part.across.flipped,
            lean=None if part.lean is None else -part.lean,
        )
        for part in parts
    ]


def end_parts(
    runs: Sequence[Run],
    offsets: Sequence[int],
    pitch: tuple[int, int],
    marks: Marks = Marks.ONE_WAY,
) -> tuple[int, list[Part]]:
    """The same without piece numbers, fast: whole units counted, only cut ones listed.

    Runs over their row's whole width are reckoned from their ends, the others cut to pieces.
    """
    whole = 0
    parts: list[tuple[int, Part]] = []
    odd = []
    for index, (run, offset) in enumerate(zip(runs, offsets, strict=True)):
        if run.outline is not None or run.top - run.bottom < pitch[1]:
            odd.append(index)
            continue
        inside, ends = _ends(run, offset, pitch, marks)
        whole += inside
        parts += [(index, part) for part in ends]
    cuts = pieces_of([runs[i] for i in odd], [offsets[i] for i in odd], pitch, measured=False)
    cuts = [replace(cut, run=odd[cut.run]) for cut in cuts]
    for cut, part in zip(cuts, parts_of(cuts, runs, marks), strict=True):
        if part.whole:
            whole += 1
        else:
            parts.append((cut.run, replace(part, cut=NO_PIECE)))
    return whole, [part for _, part in sorted(parts, key=lambda item: item[0])]


def _ends(run: Run, offset: int, pitch: tuple[int, int], marks: Marks) -> tuple[int, list[Part]]:
    """Whole units of a run over its row's whole width, and its cut ends."""
    first = (run.start - offset) % pitch[0]
    last = (offset - run.end) % pitch[0]
    places = (run.length + first + last) // pitch[0]
    if places == 1 and (first or last):  # one piece from stop to stop
        ends = [(1, Sits.FREE, run.length)]
    else:
        ends = [(1, Sits.HIGH, pitch[0] - first)] if first else []
        ends += [(places, Sits.LOW, pitch[0] - last)] if last else []
    found = []
    for order, sits, length in ends:
        part = Part(NO_PIECE, run.row, sits, length, Sits.FULL, pitch[1])
        found.append(turned_back(part) if quarter_turned(marks, run.row, order) else part)
    return places - len(ends), found


def _beyond(cut: Cut, run: Run, extent: dict[int, list[tuple[int, int]]]) -> Beyond:
    """Beyond a stop of the run there is a wall; beyond a row line perhaps another row."""
    left, _, right, _ = cut.box
    below, above = (
        any(a < right and b > left for a, b in extent.get(run.row + step, ())) for step in (-1, 1)
    )
    return cut.cell[0] > run.start, cut.cell[2] < run.end, below, above


def _rows_extent(runs: Sequence[Run]) -> dict[int, list[tuple[int, int]]]:
    found: dict[int, list[tuple[int, int]]] = {}
    for run in runs:
        found.setdefault(run.row, []).append((run.start, run.end))
    return found


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
