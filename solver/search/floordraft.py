"""A whole floor's draft: every zone's candidate, packed together from one stock a product."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.job.carve.area import Plan
from models.job.data import Product
from solver.search.draft import Draft
from solver.stock.pack import pack
from solver.stock.parts import Part, Stock, stock_of

Place = tuple[int, int]
"""A piece: the number of its zone's draft, and its own number there."""


@dataclass(frozen=True, slots=True)
class FloorDraft:
    """Drafts of all zones, in the order of the plan's areas, and the units they are cut from.

    ``units`` lists the pieces of each unit, in the order their first piece is laid.
    """

    plan: Plan
    zones: tuple[Draft, ...]
    units: tuple[tuple[Place, ...], ...]

    def units_of(self, product: str) -> int:
        """How many units of a product are bought, spares left out."""
        return sum(self.zones[unit[0][0]].product.name == product for unit in self.units)


def pack_floor(plan: Plan, drafts: Sequence[Draft]) -> FloorDraft:
    """Pack the pieces of all zones, each product's from one stock."""
    units: list[tuple[Place, ...]] = []
    for product in plan.job.products:
        mine = [i for i, one in enumerate(drafts) if one.product == product]
        if mine:
            units += _packed(product, [(i, drafts[i]) for i in mine])
    units.sort()
    zones = tuple(replace(one, bins=_bins(units, i)) for i, one in enumerate(drafts))
    return FloorDraft(plan, zones, tuple(units))


def pooled(drafts: Sequence[tuple[int, Draft]]) -> tuple[list[Part], list[Place]]:
    """The parts of several zones, and the piece each is for."""
    parts, places = [], []
    for number, one in drafts:
        parts += [replace(part, zone=number) for part in one.parts]
        places += [(number, part.cut) for part in one.parts]
    return parts, places


def _packed(product: Product, drafts: Sequence[tuple[int, Draft]]) -> list[tuple[Place, ...]]:
    parts, places = pooled(drafts)
    stock = floor_stock(product, [one for _, one in drafts])
    return [tuple(sorted(places[i] for i in members)) for members in pack(parts, stock)]


def floor_stock(product: Product, drafts: Sequence[Draft]) -> Stock:
    """One stock for the zones of a product, with the strictest rule on carrying offcuts."""
    limits = [one.zone.laying.rules.reuse_within for one in drafts]
    return stock_of(product, min((x.limit for x in limits if x is not None), default=None))


def _bins(units: Sequence[tuple[Place, ...]], zone: int) -> tuple[tuple[int, ...], ...]:
    mine = (tuple(piece for z, piece in unit if z == zone) for unit in units)
    return tuple(pieces for pieces in mine if pieces)
