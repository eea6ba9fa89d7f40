"""The order and the figures: cartons, waste and laid area, worked out again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from solver.audit.document.claims import LayoutClaim, OrderClaim
from solver.audit.findings import Finding, mm
from solver.audit.measured.laid import Laid
from solver.audit.measured.rules import Surveyed, balance
from solver.audit.tolerances import PERCENT, SIZE

MM2_IN_M2 = 1e6
AREA = 1e-4
"""Claimed areas may differ this much from the measured ones, in m2."""


def order_lines(layout: LayoutClaim, zones: Sequence[Laid]) -> Iterator[Finding]:
    """One line for each product laid, its cartons, area and waste right."""
    named = [line.product for line in layout.order]
    laid_products = {laid.product.name for laid in zones}
    for name in sorted(laid_products - set(named)):
        yield Finding(layout.rank, "order", f"product {name}", "not ordered", "laid")
    for name in sorted(set(named)):
        if named.count(name) > 1 or name not in laid_products:
            found = f"{named.count(name)} lines, laid in no zone" if (
                name not in laid_products) else f"{named.count(name)} lines"  # fmt: skip
            yield Finding(layout.rank, "order", f"product {name}", "one line", found)
    for line in layout.order:
        here = [laid for laid in zones if laid.product.name == line.product]
        if here:
            yield from _line(layout.rank, line, here)


def _line(rank: int, line: OrderClaim, zones: Sequence[Laid]) -> Iterator[Finding]:
    product = zones[0].product
    where = f"product {product.name}"
    area = sum(float(laid.areas.sum()) for laid in zones)
    unit = product.pitch[0] * product.pitch[1]
    cartons = -(-(line.units + line.spare_units) // product.per_carton)
    if line.spare_units < 0:
        claimed = f"{line.spare_units} spare units"
        yield Finding(rank, "order", where, claimed, "fewer than none")
    if line.cartons != cartons:
        claimed = f"{line.cartons} cartons"
        found = (
            f"{cartons} for {line.units} units and {line.spare_units} spare, "
            f"{product.per_carton} a carton"
        )
        yield Finding(rank, "order", where, claimed, found)
    if abs(line.laid_area_m2 - area / MM2_IN_M2) > AREA:
        claimed, found = f"{line.laid_area_m2:.4f} m2 laid", f"{area / MM2_IN_M2:.4f} m2"
        yield Finding(rank, "order", where, claimed, found)
    waste = (line.units * unit - area) / area * 100
    if abs(line.waste_percent - waste) > PERCENT:
        claimed, found = f"{line.waste_percent:.3f} % waste", f"{waste:.3f} %"
        yield Finding(rank, "order", where, claimed, found)
    if waste < -PERCENT:
        claimed, found = f"{line.units} units", f"{area / unit:.2f} units of floor laid"
        yield Finding(rank, "order", where, claimed, found)


def figures(layout: LayoutClaim, zones: Sequence[Surveyed]) -> Iterator[Finding]:
    """The figures of a layout follow from its pieces, its order and its rules."""
    said, rank = layout.figures, layout.rank
    broken = [rule for rule in layout.rules if not rule.kept]
    musts = sum(rule.must for rule in broken)
    counts = (
        ("cartons", said.cartons, sum(line.cartons for line in layout.order)),
        ("spare units", said.spare_units, sum(line.spare_units for line in layout.order)),
        ("cut pieces", said.cuts, int(layout.pieces.cut.sum())),
        ("broken must rules", said.broken_must, musts),
        ("broken preferences", said.broken_prefer, len(broken) - musts),
    )
    for name, claimed, found in counts:
        if claimed != found:
            yield Finding(rank, "figures", name, str(claimed), str(found))
    smallest = _least(np.concatenate([zone.cuts.size for zone in zones]))
    balances = [value for zone in zones if (value := balance(zone)) is not None]
    for name, length, own in (
        ("smallest cut", said.smallest_cut, smallest),
        ("balance", said.balance, max(balances, default=None)),
    ):
        if not _same(length, own):
            yield Finding(rank, "figures", name, mm(length), mm(own))
    area = sum(float(zone.laid.areas.sum()) for zone in zones)
    bought = sum(line.units * _unit_area(zones, line.product) for line in layout.order)
    waste = (bought - area) / area * 100
    if abs(said.waste_percent - waste) > PERCENT:
        claimed_waste = f"{said.waste_percent:.3f} %"
        yield Finding(rank, "figures", "waste", claimed_waste, f"{waste:.3f} %")


def _unit_area(zones: Sequence[Surveyed], product: str) -> float:
    """Area of one unit of a product, joint included; nothing when it is not laid."""
    for zone in zones:
        if zone.laid.product.name == product:
            return zone.laid.pitch[0] * zone.laid.pitch[1]
    return 0.0


def _least(sizes: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float | None:
    there = sizes[~np.isnan(sizes)]
    return float(there.min()) if len(there) else None


def _same(one: float | None, two: float | None) -> bool:
    """Whether two lengths agree, both being there or neither."""
    if one is None or two is None:
        return one is two
    return abs(one - two) <= SIZE
