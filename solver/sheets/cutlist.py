"""The cut list: every cut piece in the order it is laid, and the unit it comes from."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass

from models.floor.layout import Layout, Piece, ZoneLayout
from models.job.data import Job
from models.lengths import to_mm
from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.cuts import TOLERANCE, CutKind, kind_of
from solver.sheets.heads import write_head
from solver.sheets.lettering import shorten, width
from solver.sheets.page import Page
from solver.sheets.rows import laying_order
from solver.sheets.words import counted, length, listed, span

SIZE, LEAD, GAP = 7.2, 9.6, 16.0


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut piece: its sizes joint excluded, shortest and longest side, in ticks.

    They are taken along its unit and across it, however it lies; ``unit_length`` is set
    where units have several lengths. ``neck`` is the narrowest part beside a notch, None
    without one.
    ``offcut_of`` is the piece cut before it from the same unit, None from a fresh unit.
    """

    zone: str
    row: int
    piece: str
    kind: CutKind
    along: tuple[int, int]
    across: tuple[int, int]
    neck: int | None
    unit: str
    offcut_of: str | None
    touches: tuple[str, ...]
    unit_length: int = 0

    def source(self, job: Job) -> str:
        """Where the piece comes from, in words."""
        if self.offcut_of:
            return f"offcut of {self.offcut_of}"
        return f"fresh {length(job, self.unit_length)} unit" if self.unit_length else "fresh unit"


def cut_lines(job: Job, layout: Layout) -> tuple[CutLine, ...]:
    """Every cut piece of a layout in laying order, zone by zone."""
    cut_before: dict[str, str] = {}
    return tuple(line for zone in layout.zones for line in _zone_lines(job, zone, cut_before))


def _zone_lines(job: Job, zone: ZoneLayout, cut_before: dict[str, str]) -> list[CutLine]:
    """One zone's cut pieces; ``cut_before`` is kept up with the last piece of every unit."""
    joint = job.product_of(zone.laying).joint
    place = {row: i for i, row in enumerate(laying_order(zone))}
    lines = []
    for piece in sorted(zone.pieces, key=lambda piece: place[piece.row]):
        before = cut_before.get(piece.unit)
        cut_before[piece.unit] = piece.id
        if piece.cut:
            lines.append(_line(zone, piece, joint, before))
    return lines


def _extents(piece: Piece) -> tuple[int, int]:
    """How far a piece reaches along its unit and across it."""
    us, vs = zip(*piece.outline, strict=True)
    spans = (max(us) - min(us), max(vs) - min(vs))
    return spans[::-1] if piece.quarter else spans


def _sides(size: int | None, extent: int, joint: int) -> tuple[int, int]:
    """Shortest and longest side one way, the joint taken off."""
    least = extent if size is None or extent - size < TOLERANCE else size
    return least - joint, extent - joint


def _line(zone: ZoneLayout, piece: Piece, joint: int, before: str | None) -> CutLine:
    along, across = _extents(piece)
    return CutLine(
        zone.zone,
        piece.row,
        piece.id,
        kind_of(piece),
        _sides(piece.size_along, along, joint),
        _sides(piece.size_across, across, joint),
        piece.neck,
        piece.unit,
        before,
        piece.touches,
        piece.unit_length,
    )


def cut_list_csv(job: Job, layout: Layout) -> str:
    """The cut list as CSV: sizes in the job's units and again in millimetres."""
    head = [
        "zone", "row", "piece", "cut", "along unit", "across unit", "neck", "unit", "from", "at",
        "along least mm", "along most mm", "across least mm", "across most mm",
    ]  # fmt: skip
    lines = [
        [
            line.zone, line.row, line.piece, line.kind.value,
            span(job, *line.along), span(job, *line.across),
            length(job, line.neck, ""), line.unit, line.source(job), "; ".join(line.touches),
            *(f"{to_mm(ticks):.4f}" for ticks in (*line.along, *line.across)),
        ]
        for line in cut_lines(job, layout)
    ]  # fmt: skip
    return csv_text([head, *lines])


def csv_text(lines: Iterable[Iterable[object]]) -> str:
    """Lines of values as CSV text."""
    store = io.StringIO()
    csv.writer(store, lineterminator="\n").writerows(lines)
    return store.getvalue()


def cut_list_pages(job: Job, layout: Layout) -> list[Page]:
    """The printable cut list; one page even when nothing is cut."""
    lines = cut_lines(job, layout)
    entries = _entries(job, lines)
    pages: list[Page] = []
    while entries or not pages:
        page = Page(job.system, landscape=False)
        body = _head(page, job, layout, lines, len(pages) + 1)
        held = 2 * _lines_in(body)
        _write_columns(page, body, entries[:held], more_zones=len(layout.zones) > 1)
        entries = entries[held:]
        pages.append(page)
    return pages


Entry = tuple[str, str, str, str]
"""Piece, its cut, its size and where it comes from; a row's heading has only the first."""


def _entries(job: Job, lines: tuple[CutLine, ...]) -> list[Entry]:
    """The printed lines, with a heading before each row."""
    found: list[Entry] = []
    row: tuple[str, int] | None = None
    for line in lines:
        if (line.zone, line.row) != row:
            row = (line.zone, line.row)
            found.append((f"Row {line.row}", "", "", line.zone))
        size = f"{span(job, *line.along)} × {span(job, *line.across)}"
        size += (
            f", neck {length(job, line.neck)}" if line.kind is CutKind.NOTCH and line.neck else ""
        )
        found.append((line.piece, line.kind.value, size, f"{line.unit}, {line.source(job)}"))
    return found


def _lines_in(body: Box) -> int:
    return int((body.height - 30) / LEAD)


def _head(page: Page, job: Job, layout: Layout, lines: tuple[CutLine, ...], number: int) -> Box:
    """Head of a page; returns the box for the columns."""
    fresh = sum(line.offcut_of is None for line in lines)
    about = (
        f"{counted(len(lines), 'piece')} to cut: {fresh} from fresh units, "
        f"{len(lines) - fresh} from offcuts. Rows in laying order. "
        f"Sizes along the unit × across it, without joint; {_kerf_words(job, layout)}."
    )
    more = f", page {number}" if number > 1 else ""
    return write_head(page, job.name, f"Cut list {layout.rank}{more}", about)


def _kerf_words(job: Job, layout: Layout) -> str:
    """The kerf of each product laid, or one for all."""
    laid = {zone.product for zone in layout.zones}
    kerfs = {each.name: length(job, each.kerf) for each in job.products if each.name in laid}
    if len(set(kerfs.values())) == 1:
        return f"kerf {next(iter(kerfs.values()))}"
    return "kerf " + listed(f"{kerf} for {name}" for name, kerf in kerfs.items())


def _write_columns(page: Page, body: Box, entries: list[Entry], more_zones: bool) -> None:
    """Write entries in two columns."""
    wide = (body.width - GAP) / 2
    lines = _lines_in(body)
    for column in range(2):
        left = body.left + column * (wide + GAP)
        held = entries[column * lines : (column + 1) * lines]
        if held:
            _write_entries(page, left, left + wide, body.top - 8, held, more_zones)


def _write_entries(
    page: Page, left: float, right: float, top: float, entries: list[Entry], more_zones: bool
) -> None:
    """Write one column of entries: headings of rows, and below them their pieces."""
    stops = (left + 8, left + 44, left + 112)
    for x, word in zip(stops, ("piece", "cut", "size"), strict=True):
        page.write(x, top, word, 6.4, ink=ink.GREY)
    page.write(right, top, "unit, from", 6.4, "right", ink=ink.GREY)
    ys = [top - 2 - (i + 1) * LEAD for i in range(len(entries))]
    lines = list(zip(ys, entries, strict=True))
    heads = [(y, f"{e[0]}, {e[3]}" if more_zones else e[0]) for y, e in lines if not e[1]]
    page.write_column([(left, y) for y, _ in heads], [text for _, text in heads], SIZE, bold=True)
    page.lines([((left, y + LEAD - 2.2), (right, y + LEAD - 2.2)) for y, _ in heads], ink.RULE)
    pieces = [(y, entry) for y, entry in lines if entry[1]]
    for i, room in enumerate((34, 66)):
        texts = [shorten(entry[i], room, SIZE) for _, entry in pieces]
        page.write_column([(stops[i], y) for y, _ in pieces], texts, SIZE)
    page.write_column([(stops[2], y) for y, _ in pieces], [e[2] for _, e in pieces], SIZE)
    rooms = [right - stops[2] - width(entry[2], SIZE) - 6 for _, entry in pieces]
    sources = [shorten(e[3], room, SIZE) for (_, e), room in zip(pieces, rooms, strict=True)]
    page.write_column([(right, y) for y, _ in pieces], sources, SIZE, "right")
