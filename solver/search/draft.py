"""A draft: one start line and set of offsets, cut into pieces and packed into units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from models.floor.pieces import Cut, edges_by_row, pieces_of, touches
from models.floor.runs import Run, rows_count
from models.floor.zone import Edge, Zone
from models.job.data import Job, Product
from solver.stock.pack import pack
from solver.stock.parts import Part, Stock, parts_of, stock_of


@dataclass(frozen=True)
class Draft:
    """Pieces and units of one candidate layout; all in ticks in the zone's frame.

    ``offsets`` has one u of an end joint for each run. ``bins`` lists, for each unit, the
    pieces cut from it.
    """

    job: Job
    zone: Zone
    product: Product
    start_line: int
    runs: tuple[Run, ...]
    offsets: tuple[int, ...]
    cuts: tuple[Cut, ...]
    bins: tuple[tuple[int, ...], ...]

    @property
    def units(self) -> int:
        """How many units are bought, spares left out."""
        return len(self.bins)

    @cached_property
    def touching(self) -> tuple[tuple[Edge, ...], ...]:
        """For each piece, the zone's edges its cut sides lie on."""
        pitch = self.product.pitch[1]
        first, count = rows_count(self.zone, pitch, self.start_line)
        edges = edges_by_row(self.zone, first, pitch, count)
        return tuple(touches(cut, edges[cut.row - 1]) for cut in self.cuts)


def draft(
    job: Job, zone: Zone, start_line: int, runs: tuple[Run, ...], offsets: tuple[int, ...]
) -> Draft:
    """Cut the runs into pieces and pack these into units."""
    product = job.product_of(job.field)
    cuts = pieces_of(runs, offsets, product.pitch)
    stock = field_stock(job)
    parts = parts_of(cuts, runs)
    bins = _in_order(parts, pack(parts, stock))
    return Draft(job, zone, product, start_line, runs, offsets, tuple(cuts), bins)


def field_stock(job: Job) -> Stock:
    """The stock the field is cut from, with its rule on how far offcuts are carried."""
    reuse = job.field.rules.reuse_within
    return stock_of(job.product_of(job.field), reuse.limit if reuse else None)


def _in_order(parts: list[Part], bins: list[list[int]]) -> tuple[tuple[int, ...], ...]:
    """Units as tuples of piece numbers, in the order their first piece is laid."""
    return tuple(sorted(tuple(sorted(parts[part].cut for part in members)) for members in bins))
