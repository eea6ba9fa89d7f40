"""Alternatives weighed, on standard output: a table, the best, and what cannot be laid."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from models.job.data import Kind
from solver.cli.results import PAGE
from solver.sheets.order.page import WASTE
from solver.sheets.words import broken_rule
from solver.weigh.columns import (
    KEPT,
    NO_BREAK,
    about,
    columns_of,
    in_a_row,
    merits_of,
    verdict_lines,
)
from solver.weigh.outcome import Weighed, Weighing

NARROWEST = 14
MARK = f"{NO_BREAK}*"


def weigh_text(weighing: Weighing) -> str:
    """The whole result as text, at most ``PAGE`` columns wide (longer words excepted)."""
    lines = [weighing.job.name, *_wrapped("", about(weighing)), ""]
    lines += _table(weighing)
    lines += ["", f"* the lowest {KEPT}"] if weighing.least_waste else []
    lines += ["", *(line for each in verdict_lines(weighing) for line in _wrapped("", each))]
    lines += _broken(weighing)
    refused = [each for each in weighing.outcomes if each.alternative.reason]
    if refused:
        lines += ["", "Cannot be laid"]
    for each in refused:
        lines += _wrapped("- ", f"{each.name}: {each.alternative.reason}")
    if weighing.missing:
        lines += ["", *_wrapped("Incomplete: ", _missing(weighing))]
    return "\n".join([*lines, "", *_wrapped("", WASTE)]) + "\n"


def _missing(weighing: Weighing) -> str:
    return f"it was stopped before these were solved: {in_a_row(weighing.missing)}."


def _table(weighing: Weighing) -> Iterator[str]:
    """A line for each alternative solved: its name wrapped in what room the figures leave."""
    columns = columns_of(weighing)
    rows = [[column.head for column in columns]]
    rows += [_cells(weighing, name, weighed) for name, weighed in weighing.solved]
    names = ["Alternative", *(name for name, _ in weighing.solved)]
    widths = [max(_widest(row[i]) for row in rows) for i in range(len(columns))]
    room = max(NARROWEST, PAGE - sum(widths) - len(widths))
    for name, row in zip(names, rows, strict=True):
        yield from _lines([name, *row], [room, *widths])


def _cells(weighing: Weighing, name: str, weighed: Weighed) -> list[str]:
    """The figures of one alternative, the lowest waste and cost marked."""
    best = merits_of(weighing, name)
    return [
        column.words(weighing.job, weighed) + (MARK if column.head in best else "")
        for column in columns_of(weighing)
    ]


def _widest(text: str) -> int:
    """The width of the longest part of a cell that is never broken."""
    return max(map(len, text.split(" ")))


def _lines(cells: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    """One row of the table, each cell wrapped in its width."""
    wrapped = [textwrap.wrap(cell, width) for cell, width in zip(cells, widths, strict=True)]
    for i in range(max(map(len, wrapped))):
        parts = (
            (cell[i] if i < len(cell) else "").ljust(width)
            for cell, width in zip(wrapped, widths, strict=True)
        )
        yield " ".join(parts).rstrip().replace(NO_BREAK, " ")


def _broken(weighing: Weighing) -> Iterator[str]:
    """Every must rule that is broken, by which alternative, where and why."""
    if weighing.must_broken:
        yield ""
        yield "Must rules not kept"
    for name, weighed in weighing.solved:
        for verdict in weighed.broken:
            if verdict.kind is Kind.MUST:
                yield from _wrapped("- ", f"{name}: {broken_rule(weighing.job, verdict)}")


def _wrapped(head: str, text: str) -> list[str]:
    """Wrapped lines, the later ones indented under a head."""
    return textwrap.wrap(
        text, PAGE, initial_indent=head, subsequent_indent="  " if head else "",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
