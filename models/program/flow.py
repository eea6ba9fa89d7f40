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
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from ortools.math_opt.python import mathopt

from models.program.spans import Choice, Span, allowed, end_piece, start_piece


@dataclass(slots=True)
class _Line:
    """The stock line under construction: what is taken and put at each length."""

    model: mathopt.Model
    units: list[mathopt.LinearTypes] = field(default_factory=list)
    takes: dict[int, list[mathopt.LinearTypes]] = field(default_factory=dict)
    puts: dict[int, list[mathopt.LinearTypes]] = field(default_factory=dict)

    def take(self, length: int, amount: mathopt.LinearTypes) -> None:
        self.takes.setdefault(length, []).append(amount)

    def put(self, length: int, amount: mathopt.LinearTypes) -> None:
        self.puts.setdefault(length, []).append(amount)


def stock_flow(choice: Choice, spans: Sequence[Span], directional: bool = True) -> mathopt.Model:
    """The linear program whose minimum, rounded up, no layout of the spans can go below.

    ``spans`` must be such that no two of their pieces can lie side by side across a unit.
    Positions are exact (the offsets' own); the whole-number condition is relaxed. With
    ``directional`` False a unit may be turned, so any piece may take any rest.
    """
    line = _Line(mathopt.Model(name="stock flow"))
    kinds = Counter((s.length, s.start % choice.pitch, s.need_start, s.need_end) for s in spans)
    short: list[tuple[int, mathopt.Variable]] = []
    for (length, start, need_start, need_end), count in kinds.items():
        span = Span(0, start, start + length, need_start, need_end, 0)
        amounts = [_lay(line, choice, span, offset, directional)
                   for offset in allowed(span, choice.pitch, choice.step)
                   if start_piece(span, offset, choice.pitch) < length]
        if length <= choice.pitch:
            amounts.append(line.model.add_variable(lb=0.0))
            short.append((length, amounts[-1]))
        if amounts:
            line.model.add_linear_constraint(mathopt.fast_sum(amounts) == count)
    fresh = line.model.add_variable(lb=0.0)
    line.put(choice.pitch, fresh)
    _short_pieces(line, choice, short)
    _carry(line)
    line.model.minimize(mathopt.fast_sum(line.units) + fresh)
    return line.model


def _lay(line: _Line, choice: Choice, span: Span, offset: int, directional: bool) -> mathopt.Variable:
    """How many runs of one kind are laid at one offset, with their pieces on the line."""
    pitch = choice.pitch
    amount = line.model.add_variable(lb=0.0)
    first, last = start_piece(span, offset, pitch), end_piece(span, offset, pitch)
    line.units.append((span.length - first % pitch - last % pitch) // pitch * amount)
    for piece, ends in ((last, True), (first, False)):
        if piece == pitch:
            continue
        if directional and ends:
            line.units.append(amount)
            line.put(pitch - piece - choice.kerf, amount)
        elif directional:
            line.take(piece, amount)
        else:
            cut_fresh = line.model.add_variable(lb=0.0)
            line.model.add_linear_constraint(cut_fresh <= amount)
            line.units.append(cut_fresh)
            line.put(pitch - piece - choice.kerf, cut_fresh)
            line.take(piece, amount - cut_fresh)
    return amount


def _short_pieces(line: _Line, choice: Choice, short: list[tuple[int, mathopt.Variable]]) -> None:
    """Runs laid as one piece cut at both ends: they take any rest and leave what remains."""
    if not short:
        return
    least = min(length for length, _ in short)
    ends: dict[int, list[mathopt.LinearTypes]] = {length: [] for length, _ in short}
    heap = [-length for length in line.puts]
    heapq.heapify(heap)
    seen: set[int] = set()
    while heap:
        rest = -heapq.heappop(heap)
        if rest in seen or rest < least:
            continue
        seen.add(rest)
        for length in ends:
            if length <= rest:
                amount = line.model.add_variable(lb=0.0)
                ends[length].append(amount)
                line.take(rest, amount)
                line.put(rest - length - choice.kerf, amount)
                heapq.heappush(heap, length + choice.kerf - rest)
    for length, amounts in ends.items():
        wanted = mathopt.fast_sum([amount for size, amount in short if size == length])
        line.model.add_linear_constraint(mathopt.fast_sum(amounts) == wanted)


def _carry(line: _Line) -> None:
    """Down the line: what passes each length is what came from above, less what was taken."""
    carried: mathopt.LinearTypes = 0.0
    for length in sorted(line.takes.keys() | line.puts.keys(), reverse=True):
        rest = line.model.add_variable(lb=0.0)
        line.model.add_linear_constraint(
            rest <= carried + mathopt.fast_sum(line.puts.get(length, []))
            - mathopt.fast_sum(line.takes.get(length, [])))
        carried = rest
