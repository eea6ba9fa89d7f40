"""The cut list: every cut in the order it is made, as CSV and as pages for the crew."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence

from models.floor.layout import Layout
from models.job.data import Job
from models.lengths import TICKS_PER_MM
from solver.sheets.cutlist.batch import batch_pages
from solver.sheets.cutlist.diagrams import diagram_pages
from solver.sheets.cutlist.sizes import CutLine, cut_lines
from solver.sheets.cutlist.steps import step_pages
from solver.sheets.cutlist.words import measure_words, part_size, piece_names, side_words
from solver.sheets.drawing.page import Page
from solver.sheets.words import length, span
from solver.stock.cutplan.steps import Laid, Step, cut_plan

__all__ = ["COLUMNS", "cut_lines", "cut_list_csv", "cut_list_pages"]

COLUMNS = (
    "number", "zone", "row", "piece", "product", "units opened", "unit length mm",
    "unit", "made in", "cut",
    "measure", "from", "in hand", "frees piece", "along unit", "across unit", "neck", "at",
    "other part", "other part size", "other part for",
    "measure right or tail mm", "measure left or head mm",
    "along least mm", "along most mm", "across least mm", "across most mm",
    "other part along mm", "other part across mm",
)  # fmt: skip


def cut_list_csv(job: Job, layout: Layout) -> str:
    """The cut list as CSV: a line for every cut, and one for the whole units of each row.

    Sizes are in the job's units and again in millimetres, exactly. See ``docs/cut-list.md``.
    """
    plan = cut_plan(job, layout)
    sizes = {line.piece: line for line in cut_lines(job, layout)}
    steps: dict[str, list[Step]] = {}
    for step in plan.steps:
        steps.setdefault(step.piece, []).append(step)
    lines: list[dict[str, object]] = []
    for row in plan.rows:
        lines += _whole_lines([each for each in row if not each.piece.cut])
        for each in row:
            lines += [_line(job, step, sizes) for step in steps.get(each.piece.id, ())]
    return csv_text([COLUMNS, *([line.get(name, "") for name in COLUMNS] for line in lines)])


def _whole_lines(whole: Sequence[Laid]) -> Iterator[dict[str, object]]:
    """The whole units of a row; a line for each length where units have several."""
    for long in sorted({each.piece.unit_length for each in whole}, reverse=True):
        mine = [each for each in whole if each.piece.unit_length == long]
        yield {
            "zone": mine[0].zone,
            "row": mine[0].piece.row,
            "piece": piece_names(each.piece for each in mine),
            "product": mine[0].product,
            "units opened": len(mine),
            "unit length mm": _mm(long) if long else "",
            "cut": "whole units",
        }


def _line(job: Job, step: Step, sizes: dict[str, CutLine]) -> dict[str, object]:
    """One cut; the piece's own sizes stand on the line that sets it free."""
    line: dict[str, object] = {
        "number": step.number,
        "zone": step.zone,
        "row": step.row,
        "piece": step.piece,
        "product": step.product,
        "units opened": int(step.fresh),
        "unit length mm": _mm(step.unit_length) if step.unit_length else "",
        "unit": step.unit,
        "made in": step.source,
        "cut": step.kind.value,
        "measure": measure_words(job, step.trim),
        "from": side_words(step),
        "in hand": ("measured part" if step.measured else "rest") if step.trim else "",
        "frees piece": "yes" if step.frees else "",
    }
    if step.trim:
        ends = ("measure right or tail mm", "measure left or head mm")
        line |= {name: _mm(at) for name, at in zip(ends, step.trim.at, strict=True)}
    if step.frees:
        line |= _size_cells(job, sizes[step.piece])
    if part := step.other:
        line |= {
            "other part": part.name or "scrap",
            "other part for": " ".join(part.later),
        }
        if part.name or not any(part.more):
            line |= {
                "other part size": part_size(job, part),
                "other part along mm": _mm(part.size[0]),
                "other part across mm": _mm(part.size[1]),
            }
    return line


def _size_cells(job: Job, line: CutLine) -> dict[str, object]:
    return {
        "along unit": span(job, *line.along),
        "across unit": span(job, *line.across),
        "neck": length(job, line.neck, ""),
        "at": "; ".join(line.touches),
        "along least mm": _mm(line.along[0]),
        "along most mm": _mm(line.along[1]),
        "across least mm": _mm(line.across[0]),
        "across most mm": _mm(line.across[1]),
    }


def _mm(ticks: int) -> str:
    """Millimetres without loss: a tick is 3.125 micrometres."""
    return f"{ticks / TICKS_PER_MM:.6f}".rstrip("0").rstrip(".")


def cut_list_pages(job: Job, layout: Layout) -> list[Page]:
    """The printable cut list: every cut, those to make ahead, and how units are cut up."""
    plan = cut_plan(job, layout)
    return [
        *step_pages(job, layout, plan),
        *batch_pages(job, layout, plan),
        *diagram_pages(job, layout, plan),
    ]


def csv_text(lines: Iterable[Iterable[object]]) -> str:
    """Lines of values as CSV text."""
    store = io.StringIO()
    csv.writer(store, lineterminator="\n").writerows(lines)
    return store.getvalue()
