"""A draft: one zone's candidate, its start line and offsets cut into pieces."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.cells import RunCells, pieces_in_cells
from models.floor.herringbone import herringbone_cuts
from models.floor.pieces import Cut, edges_by_row, pieces_of, touches
from models.floor.runs import Run, rows_count
from models.floor.zone import Edge, Zone
from models.job.data import BondKind, Job, Laying, Product
from solver.search.found import Found
from solver.stock.herringbone import herringbone_parts
from solver.stock.parts import Part, Stock, parts_of, stock_of

Bins = tuple[tuple[int, ...], ...]
"""For each unit with a piece of the zone, the numbers of those pieces."""


@dataclass(frozen=True, slots=True)
class Draft:
    """The pieces of one zone's candidate; all in ticks in the zone's frame.

    ``offsets`` has one u of an end joint for each run, ``cells`` the places of its units
    where these have several lengths. ``parts`` has what each piece asks of stock, and
    ``touching`` the zone's edges its cut sides lie on. ``bins`` is empty until the floor is
    packed, and so is ``lengths``: the length with joint of each piece's unit, where there
    are several.
    """

    job: Job
    zone: Zone
    product: Product
    start_line: int
    runs: tuple[Run, ...]
    offsets: tuple[int, ...]
    cells: tuple[RunCells, ...]
    cuts: tuple[Cut, ...]
    parts: tuple[Part, ...]
    touching: tuple[tuple[Edge, ...], ...]
    bins: Bins = ()
    lengths: tuple[int, ...] = ()

    @property
    def units(self) -> int:
        """How many units some piece of the zone is cut from."""
        return len(self.bins)


def draft(job: Job, found: Found) -> Draft:
    """Cut what a search found into pieces."""
    zone, product = found.zone, job.product_of(found.zone.laying)
    cuts, parts = _pieces(found, product)
    return Draft(
        job,
        zone,
        product,
        found.start_line,
        found.runs,
        found.offsets,
        found.cells,
        tuple(cuts),
        tuple(parts),
        _touching(zone, cuts, found.start_line, product),
    )


def _pieces(found: Found, product: Product) -> tuple[list[Cut], list[Part]]:
    """The pieces of a candidate in its bond, and what they ask of stock."""
    zone, runs, pitch = found.zone, found.runs, product.pitch
    bond = zone.laying.bond
    if bond.kind is BondKind.HERRINGBONE:
        corner = found.offsets[0], found.start_line
        cuts = herringbone_cuts(zone, corner, pitch, bond.double)
        return cuts, herringbone_parts(zone, cuts)
    if product.mix:
        cuts = pieces_in_cells(runs, found.cells, pitch[1])
    else:
        cuts = pieces_of(runs, found.offsets, pitch)
    return cuts, parts_of(cuts, runs, zone.laying.marks)


def _touching(
    zone: Zone, cuts: list[Cut], start_line: int, product: Product
) -> tuple[tuple[Edge, ...], ...]:
    """For each piece, the zone's edges its cut sides lie on."""
    if zone.laying.bond.kind is BondKind.HERRINGBONE:
        return tuple(touches(cut, list(zone.edges)) for cut in cuts)
    pitch = product.pitch[1]
    first, count = rows_count(zone, pitch, start_line)
    edges = edges_by_row(zone, first, pitch, count)
    return tuple(touches(cut, edges[cut.row - 1]) for cut in cuts)


def zone_stock(job: Job, laying: Laying) -> Stock:
    """The stock a zone is cut from, with its rule on how far offcuts are carried."""
    reuse = laying.rules.reuse_within
    return stock_of(job.product_of(laying), reuse.limit if reuse else None)
