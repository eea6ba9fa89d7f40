"""The stock flow: the least units any row offsets could need, as a small linear program.

Put a product's stock on a line of remaining lengths. A whole unit enters at the full
length; cutting an end piece from it leaves the rest, less a kerf, on the line; a start
piece takes a rest at least as long as itself; every step moved down in between is waste.
Neighbours are left out, so the optimum is a true lower bound on the units of every choice
of offsets. (Arc-flow form of cutting stock, Valerio de Carvalho 1999, from memory; here
the pieces themselves are decided by the offsets.)
"""

from __future__ import annotations

import heapq
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from models.program.spans import Choice, Span, allowed, end_piece, start_piece

Term = tuple[int, float]
"""A variable's number and its coefficient."""


@dataclass(slots=True)
class LinearProgram:
    """Minimise ``costs`` . x with x >= 0 and, for each row, low <= terms . x <= high.

    Plain lists, because a program of some thousand rows is built for every start line.
    """

    costs: list[float] = field(default_factory=list)
    rows: list[list[Term]] = field(default_factory=list)
    lows: list[float] = field(default_factory=list)
    highs: list[float] = field(default_factory=list)

    def variable(self, cost: float = 0.0) -> int:
        """Add a variable; its number."""
        self.costs.append(cost)
        return len(self.costs) - 1

    def constrain(self, terms: Iterable[Term], low: float, high: float) -> None:
        """Add a row."""
        self.rows.append(list(terms))
        self.lows.append(low)
        self.highs.append(high)


@dataclass(slots=True)
class _Line:
    """The stock line under construction: what is put on it and taken off at each length."""

    program: LinearProgram = field(default_factory=LinearProgram)
    moves: defaultdict[int, list[Term]] = field(default_factory=lambda: defaultdict(list))


def stock_flow(choice: Choice, spans: Sequence[Span], directional: bool = True) -> LinearProgram:
    """The linear program whose minimum, rounded up, no layout of the spans can go below.

    ``spans`` must be such that no two of their pieces can lie side by side across a unit.
    Positions are exact (the offsets' own); the whole-number condition is relaxed. With
    ``directional`` False a unit may be turned, so any piece may take any rest.
    """
    line = _Line()
    kinds = Counter((s.length, s.start % choice.pitch, s.need_start, s.need_end) for s in spans)
    short: dict[int, list[int]] = {}
    for (length, start, need_start, need_end), count in kinds.items():
        span = Span(0, start, start + length, need_start, need_end, 0)
        amounts = [
            _lay(line, choice, span, offset, directional)
            for offset in allowed(span, choice.pitch, choice.step)
            if start_piece(span, offset, choice.pitch) < length
        ]
        if length <= choice.pitch:
            amounts.append(line.program.variable())
            short.setdefault(length, []).append(amounts[-1])
        if amounts:
            line.program.constrain(((a, 1.0) for a in amounts), count, count)
    line.moves[choice.pitch].append((line.program.variable(1.0), 1.0))
    _short_pieces(line, choice, short)
    _carry(line)
    return line.program


def _lay(line: _Line, choice: Choice, span: Span, offset: int, directional: bool) -> int:
    """How many runs of one kind are laid at one offset, with their pieces on the line."""
    pitch, program = choice.pitch, line.program
    first, last = start_piece(span, offset, pitch), end_piece(span, offset, pitch)
    whole = (span.length - first % pitch - last % pitch) // pitch
    amount = program.variable(whole + (directional and last < pitch))
    for piece, ends in ((last, True), (first, False)):
        if piece == pitch:
            continue
        if not directional:
            # Cut from a fresh unit, which leaves a rest, or taken from one.
            fresh = program.variable(1.0)
            program.constrain([(fresh, 1.0), (amount, -1.0)], -float("inf"), 0.0)
            line.moves[pitch - piece - choice.kerf].append((fresh, 1.0))
            line.moves[piece] += [(amount, -1.0), (fresh, 1.0)]
        elif ends:
            line.moves[pitch - piece - choice.kerf].append((amount, 1.0))
        else:
            line.moves[piece].append((amount, -1.0))
    return amount


def _short_pieces(line: _Line, choice: Choice, short: dict[int, list[int]]) -> None:
    """Runs laid as one piece cut at both ends: they take any rest and leave what remains."""
    if not short:
        return
    taken: dict[int, list[int]] = {length: [] for length in short}
    heap = [-length for length in line.moves]
    heapq.heapify(heap)
    seen: set[int] = set()
    while heap:
        rest = -heapq.heappop(heap)
        if rest in seen or rest < min(short):
            continue
        seen.add(rest)
        for length, amounts in taken.items():
            if length <= rest:
                amounts.append(line.program.variable())
                line.moves[rest].append((amounts[-1], -1.0))
                line.moves[rest - length - choice.kerf].append((amounts[-1], 1.0))
                heapq.heappush(heap, length + choice.kerf - rest)
    for length, wanted in short.items():
        terms = [(a, 1.0) for a in taken[length]] + [(w, -1.0) for w in wanted]
        line.program.constrain(terms, 0.0, 0.0)


def _carry(line: _Line) -> None:
    """Down the line: what passes each length is what came from above, less what was taken."""
    above: list[Term] = []
    for length in sorted(line.moves, reverse=True):
        passes = line.program.variable()
        line.program.constrain([*above, *line.moves[length], (passes, -1.0)], 0.0, float("inf"))
        above = [(passes, 1.0)]
