"""A whole floor's draft: every zone's candidate, packed together from one stock a product."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.floor.cells import in_units
from models.job.carve.area import Plan
from models.job.data import Product
from solver.search.draft import Bins, Draft
from solver.stock.mix import cartons_for, mix_of, needs_by_length
from solver.stock.mixed import pack_mixed
from solver.stock.pack import pack
from solver.stock.parts import Part, Stock, stock_of

LOOKS = 10
"""How closely the units of what is laid are looked at for one less."""

Place = tuple[int, int]
"""A piece: the number of its zone's draft, and its own number there."""


@dataclass(frozen=True, slots=True)
class FloorDraft:
    """Drafts of all zones, in the order of the plan's areas, and the units they are cut from.

    ``units`` lists the pieces of each unit, in the order their first piece is laid, and
    ``lengths`` the length with joint of each unit.
    """

    plan: Plan
    zones: tuple[Draft, ...]
    units: tuple[tuple[Place, ...], ...]
    lengths: tuple[int, ...]

    def units_of(self, product: str) -> int:
        """How many units of a product are bought, spares left out."""
        return sum(self.zones[unit[0][0]].product.name == product for unit in self.units)


def pack_floor(plan: Plan, drafts: Sequence[Draft]) -> FloorDraft:
    """Pack the pieces of all zones, each product's from one stock."""
    packed: list[tuple[tuple[Place, ...], int]] = []
    for product in plan.job.products:
        mine = [i for i, one in enumerate(drafts) if one.product == product]
        if mine:
            packed += _packed(product, [(i, drafts[i]) for i in mine], LOOKS)
    packed.sort()
    units, lengths = [unit for unit, _ in packed], [length for _, length in packed]
    of_piece = {place: length for unit, length in packed for place in unit}
    zones = tuple(
        _with_units(one, _bins(units, i), [of_piece[i, k] for k in range(len(one.cuts))])
        for i, one in enumerate(drafts)
    )
    return FloorDraft(plan, zones, tuple(units), tuple(lengths))


def units_packed(drafts: Sequence[Draft]) -> int:
    """How many units some drafts of one product take together; none for no drafts.

    Where a carton holds several lengths: those in the cartons it takes.
    """
    if not drafts:
        return 0
    product = drafts[0].product
    packed = _packed(product, list(enumerate(drafts)))
    if not product.mix:
        return len(packed)
    mix = mix_of(product)
    return cartons_for(needs_by_length((n for _, n in packed), mix), mix) * product.per_carton


def _with_units(draft: Draft, bins: Bins, lengths: list[int]) -> Draft:
    """A draft that knows its units; where these have several lengths, so do its cells."""
    if not draft.product.mix:
        return replace(draft, bins=bins)
    cuts = tuple(in_units(draft.cuts, lengths))
    return replace(draft, bins=bins, cuts=cuts, lengths=tuple(lengths))


def pooled(drafts: Sequence[tuple[int, Draft]]) -> tuple[list[Part], list[Place]]:
    """The parts of several zones, and the piece each is for."""
    parts, places = [], []
    for number, one in drafts:
        parts += [replace(part, zone=number) for part in one.parts]
        places += [(number, part.cut) for part in one.parts]
    return parts, places


def _packed(
    product: Product, drafts: Sequence[tuple[int, Draft]], looks: int = 1
) -> list[tuple[tuple[Place, ...], int]]:
    """The pieces of each unit of a product, and the unit's length with joint.

    ``looks`` as in ``solver.stock.pack``.
    """
    parts, places = pooled(drafts)
    stock = floor_stock(product, [one for _, one in drafts])
    if product.mix:
        bins = pack_mixed(parts, stock, mix_of(product))
    else:
        bins = [(members, stock.length) for members in pack(parts, stock, looks)]
    return [(tuple(sorted(places[i] for i in members)), length) for members, length in bins]


def floor_stock(product: Product, drafts: Sequence[Draft]) -> Stock:
    """One stock for the zones of a product, with the strictest rule on carrying offcuts."""
    limits = [one.zone.laying.rules.reuse_within for one in drafts]
    return stock_of(product, min((x.limit for x in limits if x is not None), default=None))


def _bins(units: Sequence[tuple[Place, ...]], zone: int) -> Bins:
    mine = (tuple(piece for z, piece in unit if z == zone) for unit in units)
    return tuple(pieces for pieces in mine if pieces)
