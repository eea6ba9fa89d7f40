"""The figures shown beside a layout follow from its pieces, its order and its rules."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from solver.audit.checks.order import money, same_money
from solver.audit.document.claims import Claims, Floats, LayoutClaim
from solver.audit.findings import Finding, mm
from solver.audit.measured.rules import Surveyed, balance
from solver.audit.measured.stock import bought_area, units_by_length
from solver.audit.tolerances import PERCENT, SIZE

CHECK = "figures"


def figures(claims: Claims, layout: LayoutClaim, zones: Sequence[Surveyed]) -> Iterator[Finding]:
    """Every figure is the one that follows."""
    yield from _counts(layout)
    yield from _lengths(layout, zones)
    yield from _waste(layout, zones)
    yield from _cost(claims, layout)


def _counts(layout: LayoutClaim) -> Iterator[Finding]:
    said = layout.figures
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
            yield Finding(layout.rank, CHECK, name, str(claimed), str(found))


def _lengths(layout: LayoutClaim, zones: Sequence[Surveyed]) -> Iterator[Finding]:
    said = layout.figures
    smallest = _least(np.concatenate([zone.cuts.size for zone in zones]))
    balances = [value for zone in zones if (value := balance(zone)) is not None]
    for name, length, own in (
        ("smallest cut", said.smallest_cut, smallest),
        ("balance", said.balance, max(balances, default=None)),
    ):
        if not _same(length, own):
            yield Finding(layout.rank, CHECK, name, mm(length), mm(own))


def _waste(layout: LayoutClaim, zones: Sequence[Surveyed]) -> Iterator[Finding]:
    area = sum(float(zone.laid.areas.sum()) for zone in zones)
    bought = 0.0
    for line in layout.order:
        here = [zone.laid for zone in zones if zone.laid.product.name == line.product]
        if here:
            bought += bought_area(here[0].product, line.units, units_by_length(here))
    waste = (bought - area) / area * 100
    if abs(layout.figures.waste_percent - waste) > PERCENT:
        claimed = f"{layout.figures.waste_percent:.3f} %"
        yield Finding(layout.rank, CHECK, "waste", claimed, f"{waste:.3f} %")


def _cost(claims: Claims, layout: LayoutClaim) -> Iterator[Finding]:
    """The cost of all lines together, if every product has a price."""
    prices = [claims.products[line.product].price for line in layout.order]
    costs = [
        price * line.cartons
        for price, line in zip(prices, layout.order, strict=True)
        if price is not None
    ]
    cost = sum(costs) if len(costs) == len(prices) else None
    if not same_money(layout.figures.cost, cost):
        yield Finding(layout.rank, CHECK, "cost", money(layout.figures.cost), money(cost))


def _least(sizes: Floats) -> float | None:
    there = sizes[~np.isnan(sizes)]
    return float(there.min()) if len(there) else None


def _same(one: float | None, two: float | None) -> bool:
    """Whether two lengths agree, both being there or neither."""
    if one is None or two is None:
        return one is two
    return abs(one - two) <= SIZE
