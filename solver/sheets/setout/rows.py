"""Rows on paper: their offsets, the order they are laid in, and the widths of edge rows."""

from __future__ import annotations

from dataclasses import dataclass
from string import ascii_lowercase

from models.floor.layout import RowPlan, ZoneLayout
from models.floor.tape import sides_of
from models.job.data import Job, Product
from solver.sheets.words import length, span

_NEAR_SQUARE = 0.268
"""Tangent of 15 degrees: a wall flatter than this to the rows leaves rips."""


@dataclass(frozen=True, slots=True)
class Offset:
    """One line of the table of row offsets: which row and run, and the offset in words."""

    name: str
    words: str


def offset_lines(job: Job, zone: ZoneLayout) -> tuple[Offset, ...]:
    """The row offsets in order; one line when every row has the same."""
    every = {offset for plan in zone.rows for _, offset in plan.runs}
    if len(every) == 1:
        return (Offset("every row", length(job, every.pop())),)
    return tuple(line for plan in zone.rows for line in _row_lines(job, plan))


def _row_lines(job: Job, plan: RowPlan) -> list[Offset]:
    offsets = [offset for _, offset in plan.runs]
    if len(set(offsets)) == 1:
        return [Offset(str(plan.row), length(job, offsets[0]))]
    return [
        Offset(f"{plan.row}{run_letter(i)}", length(job, offset))
        for i, offset in enumerate(offsets)
    ]


def run_letter(place: int) -> str:
    """The letter of a run in its row: a, b, ..., z, aa, ab and so on."""
    more, last = divmod(place, 26)
    return (run_letter(more - 1) if more else "") + ascii_lowercase[last]


@dataclass(frozen=True, slots=True)
class EdgeRow:
    """The row or rows along one wall, and how wide their rips are, joint not counted."""

    wall: str
    rows: tuple[int, ...]
    least: int
    most: int

    def words(self, job: Job) -> str:
        """The rows and their width in words."""
        first, last = self.rows[0], self.rows[-1]
        which = f"row {first}" if first == last else f"rows {first} to {last}"
        return f"{which} at {self.wall} {span(job, self.least, self.most)}"


def edge_rows(job: Job, zone: ZoneLayout) -> tuple[EdgeRow, ...]:
    """Every wall that the rows run along, lowest row first, with the widths left there."""
    product = job.product_of(zone.laying)
    found = []
    for name in _sides_along(job, zone):
        pieces = [p for p in zone.pieces if name in p.touches and p.size_across is not None]
        widths = [_net(p.size_across or 0, product) for p in pieces]
        rows = tuple(sorted({p.row for p in pieces}))
        if rows:
            found.append(EdgeRow(name, rows, min(widths), max(widths)))
    return tuple(sorted(found, key=lambda edge: (edge.rows, edge.wall)))


def _sides_along(job: Job, zone: ZoneLayout) -> list[str]:
    """Names of the walls and zones that the rows run along."""
    things = {column.name for column in job.columns}
    things |= {feature.name for feature in job.features}
    sides = [(s.start, s.end, s.name) for s in sides_of(job, zone.frame) if s.wall]
    sides += [side for side in zone.sides if side[2] not in things]
    along = [name for (u, v), (a, b), name in sides if abs(b - v) <= abs(a - u) * _NEAR_SQUARE]
    return list(dict.fromkeys(along))


def row_width(job: Job, zone: ZoneLayout, row: int) -> str:
    """How wide a row is, joint not counted: one width, or the range of a tapered row."""
    product = job.product_of(zone.laying)
    whole = product.pitch[1]
    widths = [
        _net(whole if piece.size_across is None else piece.size_across, product)
        for piece in zone.pieces
        if piece.row == row
    ]
    return span(job, min(widths), max(widths))


def _net(size: int, product: Product) -> int:
    """A width without its joint; of a sliver within the joint nothing is left."""
    return max(0, size - product.joint)
