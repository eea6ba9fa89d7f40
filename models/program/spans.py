"""The choice of row offsets as plain data: what each run allows, and who meets whom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from models.floor.runs import Run

Range = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Span:
    """One run along the row: its stops, needs at both ends, and row; ticks.

    ``width`` is how much of the unit's width it takes; ``side`` tells where in the unit a
    rip sits: -1 at the low side, 1 at the high side, 0 over the whole width.
    """

    row: int
    start: int
    end: int
    need_start: int
    need_end: int
    width: int
    side: int = 0

    @property
    def length(self) -> int:
        """From stop to stop."""
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class Meet:
    """Two spans that share a length: where joints of each count (closed ranges, ticks)."""

    one: int
    two: int
    one_range: Range
    two_range: Range


@dataclass(frozen=True, slots=True)
class Choice:
    """The whole choice of offsets for one start line.

    ``pitch`` is the unit length with joint; an offset is a whole number of ``step`` ticks
    in [0, pitch). ``meets`` are of neighbouring rows, ``second`` of rows two apart,
    ``apart`` and ``second_apart`` their least distances (0: no rule). ``stair`` is the most
    equal shifts in succession (None: no rule). ``within`` as in the rule ``reuse_within``.
    ``second_must`` and ``stair_must`` tell that those two may not give way to fewer units.
    Every row is laid ``copies`` times: in the zone itself and in each one that mirrors it.
    """

    pitch: int
    step: int
    kerf: int
    spans: tuple[Span, ...]
    meets: tuple[Meet, ...] = ()
    second: tuple[Meet, ...] = ()
    apart: int = 0
    second_apart: int = 0
    stair: int | None = None
    within: int | None = None
    second_must: bool = False
    stair_must: bool = False
    copies: int = 1


def start_piece(span: Span, offset: int, pitch: int) -> int:
    """Length of the span's first piece if it ran on: in (0, pitch], pitch when whole."""
    return (offset - span.start - 1) % pitch + 1


def end_piece(span: Span, offset: int, pitch: int) -> int:
    """Length of the span's last piece if it ran on: in (0, pitch], pitch when whole."""
    return (span.end - offset - 1) % pitch + 1


def cut_ends(span: Span, offset: int, pitch: int) -> tuple[int, int]:
    """What the start piece and the end piece take of a unit's length; pitch when whole.

    A span without a joint inside is one piece: it counts as a start piece.
    """
    first, last = start_piece(span, offset, pitch), end_piece(span, offset, pitch)
    return (span.length, pitch) if first >= span.length else (first, last)


def unit_places(span: Span, offset: int, pitch: int) -> int:
    """How many places for units the span has, cut ones at its ends included."""
    first, last = start_piece(span, offset, pitch), end_piece(span, offset, pitch)
    return (span.length + 2 * pitch - first - last) // pitch


def allowed(span: Span, pitch: int, step: int) -> list[int]:
    """The offsets at which neither end piece is under its need; may be empty.

    A span no longer than a unit may also have no joint at all.
    """
    return [p for p in range(0, pitch, step) if shortfall(span, p, pitch) == 0]


def shortfall(span: Span, offset: int, pitch: int) -> int:
    """By how much the worse end piece is under its need; 0 when both are long enough."""
    first, last = start_piece(span, offset, pitch), end_piece(span, offset, pitch)
    if first >= span.length:  # no joint inside: one piece from stop to stop
        return 0
    worst = 0
    if first < pitch:
        worst = span.need_start - first
    if last < pitch:
        worst = max(worst, span.need_end - last)
    return max(worst, 0)


def longest_spans(spans: Sequence[Span]) -> list[int]:
    """Each row's longest span (the first of equals), lowest row first."""
    longest: dict[int, int] = {}
    for index, span in enumerate(spans):
        if span.row not in longest or span.length > spans[longest[span.row]].length:
            longest[span.row] = index
    return [longest[row] for row in sorted(longest)]


def gap(meet: Meet, one: int, two: int, pitch: int) -> int | None:
    """The least distance between two spans' joints inside the length they share.

    None when either has no joint there.
    """
    low, high = meet.one_range
    x = low + (one - low) % pitch
    low2, high2 = meet.two_range
    y = low2 + (two - low2) % pitch
    if x > high or y > high2:
        return None
    # Joints repeat every pitch: step the lower one up while that brings it nearer.
    best = abs(x - y)
    while x < y and x + pitch <= high:
        x += pitch
        best = min(best, abs(x - y))
    while y < x and y + pitch <= high2:
        y += pitch
        best = min(best, abs(x - y))
    return best


def meets_of(runs: Sequence[Run]) -> tuple[tuple[Meet, ...], tuple[Meet, ...]]:
    """Who meets whom in the next row, and in the row after next."""
    rows: dict[int, list[int]] = {}
    for index, run in enumerate(runs):
        rows.setdefault(run.row, []).append(index)
    near: list[Meet] = []
    second: list[Meet] = []
    for row, mine in rows.items():
        for one, two in product(mine, rows.get(row + 1, ())):
            line = runs[two].low
            for a in _on_line(runs[one], line):
                near += [
                    m
                    for b in _on_line(runs[two], line)
                    if (m := _meet(runs, one, two, max(a[0], b[0]), min(a[1], b[1])))
                ]
        for one, mid, two in product(mine, rows.get(row + 1, ()), rows.get(row + 2, ())):
            three = (runs[one], runs[mid], runs[two])
            meet = _meet(runs, one, two, max(r.start for r in three), min(r.end for r in three))
            second += [meet] if meet else []
    return tuple(near), tuple(second)


def _meet(runs: Sequence[Run], one: int, two: int, low: int, high: int) -> Meet | None:
    """The meeting of two runs over [low, high]; a run's own stops are no joints."""
    ranges = [(max(low, runs[i].start + 1), min(high, runs[i].end - 1)) for i in (one, two)]
    if any(a > b for a, b in ranges):
        return None
    return Meet(one, two, ranges[0], ranges[1])


def _on_line(run: Run, line: int) -> list[Range]:
    """Where a run's outline lies on a row line."""
    if run.outline is None:
        return [(run.start, run.end)] if line in (run.bottom, run.top) else []
    ring = run.outline
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return sorted((min(a[0], b[0]), max(a[0], b[0])) for a, b in pairs if a[1] == b[1] == line)
