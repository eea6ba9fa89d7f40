"""The constraint program for row offsets: one function per rule, nothing solved here.

Every run has one offset, in tape steps. From it follow its first piece, its last piece and
the unit places it takes; an end piece and a start piece may share a unit when they and one
kerf fit. A rule that may break gets one *break* literal a place, which the objective counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ortools.sat.python import cp_model

from models.program.spans import Choice, Meet, Span, allowed, end_piece, start_piece

STAIR_SAME = 4064
"""Ticks (12.7 mm) within which two shifts look the same to the eye; common practice, no source."""

BREAK_COST = 1000
"""Units one broken place weighs: no saving of units is worth a broken rule."""


@dataclass(frozen=True, slots=True)
class Row:
    """The variables of one span: offset in steps, first and last piece and places in ticks."""

    offset: cp_model.IntVar
    first: cp_model.IntVar
    last: cp_model.IntVar
    places: cp_model.IntVar


@dataclass(frozen=True, slots=True)
class Program:
    """A built model: its rows, its share literals, its break literals."""

    model: cp_model.CpModel
    rows: tuple[Row, ...]
    shares: dict[tuple[int, int], cp_model.IntVar]
    breaks: tuple[cp_model.IntVar, ...]


def build(choice: Choice, may_break: bool = False) -> Program:
    """The whole program: least units over all offsets that keep the rules.

    With ``may_break`` every joint rule may break at a place, at ``BREAK_COST`` each, and a
    span whose end needs cannot be met takes any offset.
    """
    model = cp_model.CpModel()
    rows = tuple(row(model, span, choice, may_break) for span in choice.spans)
    breaks: list[cp_model.IntVar] = []
    for meets, least in ((choice.meets, choice.apart), (choice.second, choice.second_apart)):
        for meet in meets:
            broken = model.new_bool_var("") if may_break else None
            joints_apart(model, rows, meet, choice, least, broken)
            breaks += [broken] if broken is not None else []
    if choice.stair is not None:
        no_stair(model, rows, choice, choice.stair)
    shares = share_units(model, rows, choice)
    units = sum(r.places for r in rows) - sum(shares.values())
    model.minimize(units + BREAK_COST * sum(breaks))
    return Program(model, rows, shares, tuple(breaks))


def row(model: cp_model.CpModel, span: Span, choice: Choice, may_break: bool = False) -> Row:
    """End pieces: only offsets at which no end piece is under its need; pieces follow."""
    pitch, step = choice.pitch, choice.step
    offsets = allowed(span, pitch, step)
    if not offsets and may_break:
        offsets = list(range(0, pitch, step))
    offset = model.new_int_var_from_domain(
        cp_model.Domain.from_values([p // step for p in offsets]), ""
    )
    first = _wrapped(model, offset, step, -span.start, pitch)
    last = _wrapped(model, offset, -step, span.end, pitch)
    places = model.new_int_var(1, span.length // pitch + 2, "")
    model.add(places * pitch == span.length + 2 * pitch - first - last)
    return Row(offset, first, last, places)


def _wrapped(
    model: cp_model.CpModel, offset: cp_model.IntVar, factor: int, shift: int, pitch: int
) -> cp_model.IntVar:
    """A variable in [1, pitch] equal to factor * offset + shift, modulo the pitch."""
    value = model.new_int_var(1, pitch, "")
    wraps = model.new_int_var(-2, 2, "")
    model.add(value == factor * offset + shift % pitch + pitch * wraps)
    return value


def joints_apart(
    model: cp_model.CpModel,
    rows: Sequence[Row],
    meet: Meet,
    choice: Choice,
    least: int,
    broken: cp_model.IntVar | None = None,
) -> None:
    """End joints of two rows stay ``least`` apart wherever both exist in the shared length."""
    if least <= 0:
        return
    one, two = rows[meet.one], rows[meet.two]
    pitch, step = choice.pitch, choice.step
    shared = min(meet.one_range[1], meet.two_range[1]) - max(meet.one_range[0], meet.two_range[0])
    unless = [broken.negated()] if broken is not None else []
    if shared >= pitch:
        away = _away(least, pitch)
        model.add_linear_expression_in_domain(
            step * (one.offset - two.offset), away
        ).only_enforce_if(*unless)
        return
    for (at_one, here_one), (at_two, here_two) in (
        (a, b)
        for a in _joints(model, one, meet.one_range, choice)
        for b in _joints(model, two, meet.two_range, choice)
    ):
        far = cp_model.Domain.from_intervals([[-(10**12), -least], [least, 10**12]])
        difference = step * (one.offset - two.offset) + (at_one - at_two) * pitch
        model.add_linear_expression_in_domain(difference, far).only_enforce_if(
            here_one, here_two, *unless
        )


def _joints(
    model: cp_model.CpModel, one: Row, where: tuple[int, int], choice: Choice
) -> list[tuple[int, cp_model.IntVar]]:
    """The joints a row may have in a short range: which repeat, and a literal true when there."""
    pitch, step = choice.pitch, choice.step
    found = []
    for repeat in range((where[0] - pitch) // pitch, where[1] // pitch + 1):
        low, high = where[0] - repeat * pitch, where[1] - repeat * pitch
        if high < 0 or low >= pitch:
            continue
        here = model.new_bool_var("")
        out = cp_model.Domain.from_intervals([[-pitch, low - 1], [high + 1, 2 * pitch]])
        model.add_linear_expression_in_domain(step * one.offset, out).only_enforce_if(
            here.negated()
        )
        found.append((repeat, here))
    return found


def _away(least: int, pitch: int) -> cp_model.Domain:
    """Differences of two offsets at least ``least`` apart round the unit."""
    return (
        cp_model.Domain.from_intervals([[least - pitch, -least], [least, pitch - least]])
        if 2 * least <= pitch
        else (cp_model.Domain.from_values([]))
    )


def no_stair(model: cp_model.CpModel, rows: Sequence[Row], choice: Choice, most: int) -> None:
    """No more than ``most`` equal shifts one after another, along each row's longest run."""
    longest: dict[int, int] = {}
    for index, span in enumerate(choice.spans):
        if span.row not in longest or span.length > choice.spans[longest[span.row]].length:
            longest[span.row] = index
    order = [rows[longest[number]] for number in sorted(longest)]
    shifts = [_shift(model, low, high, choice) for low, high in pairwise(order)]
    same = [_looks_same(model, a, b, choice.pitch) for a, b in pairwise(shifts)]
    # A streak of n equal shifts is n - 1 equalities.
    for start in range(len(same) - most + 1):
        model.add_bool_or([s.negated() for s in same[start : start + most]])


def _shift(model: cp_model.CpModel, low: Row, high: Row, choice: Choice) -> cp_model.IntVar:
    shift = model.new_int_var(0, choice.pitch - 1, "")
    wrap = model.new_bool_var("")
    model.add(shift == choice.step * (high.offset - low.offset) + choice.pitch * wrap)
    return shift


def _looks_same(
    model: cp_model.CpModel, one: cp_model.IntVar, two: cp_model.IntVar, pitch: int
) -> cp_model.IntVar:
    same = model.new_bool_var("")
    near = STAIR_SAME + 1
    differs = cp_model.Domain.from_intervals([[near - pitch, -near], [near, pitch - near]])
    model.add_linear_expression_in_domain(one - two, differs).only_enforce_if(same.negated())
    return same


def share_units(
    model: cp_model.CpModel, rows: Sequence[Row], choice: Choice
) -> dict[tuple[int, int], cp_model.IntVar]:
    """One end piece and one start piece share a unit when they and a kerf fit in it.

    Keys are (row of the end piece, row of the start piece). Offcuts stay within
    ``choice.within`` rows. Only spans of one width class share: rips have their own stock.
    """
    shares: dict[tuple[int, int], cp_model.IntVar] = {}
    for a, ending in enumerate(choice.spans):
        for b, starting in enumerate(choice.spans):
            far = choice.within is not None and abs(ending.row - starting.row) > choice.within
            if far:
                continue
            literal = model.new_bool_var("")
            model.add(rows[a].last + rows[b].first + choice.kerf <= choice.pitch).only_enforce_if(
                literal
            )
            shares[a, b] = literal
    count = range(len(choice.spans))
    for a in count:
        model.add_at_most_one(shares[a, b] for b in count if (a, b) in shares)
        model.add_at_most_one(shares[b, a] for b in count if (b, a) in shares)
    return shares


def hint(program: Program, choice: Choice, offsets: Sequence[int]) -> None:
    """Give the solver a whole first answer: one offset (ticks) for each span."""
    program.model.clear_hints()
    for span, row_, offset in zip(choice.spans, program.rows, offsets, strict=True):
        program.model.add_hint(row_.offset, offset // choice.step)
        program.model.add_hint(row_.first, start_piece(span, offset, choice.pitch))
        program.model.add_hint(row_.last, end_piece(span, offset, choice.pitch))
