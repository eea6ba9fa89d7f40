"""One row of the offset program: its offset, and the pieces and unit places that follow."""

from __future__ import annotations

from dataclasses import dataclass

from ortools.sat.python import cp_model

from models.program.spans import Choice, allowed, cut_ends, start_piece, unit_places
from models.program.traced import Breaks, Follows, Traced, breaks_at


@dataclass(frozen=True, slots=True)
class Row:
    """The variables of span ``index``: offset in steps, start and end piece, unit places.

    The pieces are what they take of a unit, in ticks, as ``spans.cut_ends`` has them.
    """

    index: int
    offset: cp_model.IntVar
    first: cp_model.IntVar
    last: cp_model.IntVar
    places: cp_model.IntVar


def row(traced: Traced, index: int, choice: Choice, breaks: Breaks = None) -> Row:
    """End pieces: only offsets at which no end piece is under its need; pieces follow."""
    span, pitch, step = choice.spans[index], choice.pitch, choice.step
    good = frozenset(p // step for p in allowed(span, pitch, step))
    kept = cp_model.Domain.from_values(sorted(good))
    # The domain stays whole: a variable with an empty one makes a model invalid, not infeasible.
    offset = traced.between(0, (pitch - 1) // step, lambda p: p[index] // step)
    unless = breaks_at(traced, breaks, lambda p: p[index] // step not in good)
    traced.model.add_linear_expression_in_domain(offset, kept).only_enforce_if(*unless)
    low, high = -span.start % pitch, span.end % pitch
    first = _wrapped(traced, step * offset + low, pitch, lambda p: p[index] + low)
    last = _wrapped(traced, high - step * offset, pitch, lambda p: high - p[index])
    most = span.length // pitch + 2
    places = traced.between(1, most, lambda p: unit_places(span, p[index], pitch))
    traced.model.add(places * pitch == span.length + 2 * pitch - first - last)
    if span.length < pitch:
        first, last = _one_piece(traced, index, choice, first, last)
    return Row(index, offset, first, last, places)


def _wrapped(
    traced: Traced, distance: cp_model.LinearExpr, pitch: int, follows: Follows
) -> cp_model.IntVar:
    """A variable in [1, pitch] equal to a distance of at most two, modulo the pitch."""
    value = traced.between(1, pitch, lambda p: (follows(p) - 1) % pitch + 1)
    wraps = traced.between(-2, 2, lambda p: (follows(p) - 1) // pitch)
    traced.model.add(value == distance - pitch * wraps)
    return value


def _one_piece(
    traced: Traced, index: int, choice: Choice, first: cp_model.IntVar, last: cp_model.IntVar
) -> tuple[cp_model.IntVar, cp_model.IntVar]:
    """A span under a unit long: without a joint inside it is all start piece."""
    span, pitch, model = choice.spans[index], choice.pitch, traced.model
    joint = traced.literal(lambda p: start_piece(span, p[index], pitch) < span.length)
    start = traced.between(1, pitch, lambda p: cut_ends(span, p[index], pitch)[0])
    end = traced.between(1, pitch, lambda p: cut_ends(span, p[index], pitch)[1])
    for rule in (first < span.length, start == first, end == last):
        model.add(rule).only_enforce_if(joint)
    for rule in (first >= span.length, start == span.length, end == pitch):
        model.add(rule).only_enforce_if(~joint)
    return start, end
