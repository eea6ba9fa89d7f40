"""The order: units, breakage, spares, cartons, cost, waste and laid area, worked out again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.audit.document.claims import LayoutClaim, OrderClaim, ProductClaim
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid
from solver.audit.measured.stock import Lengths, bought_area, units_by_length
from solver.audit.tolerances import NOISE, PERCENT

CHECK = "order"
MM2_IN_M2 = 1e6
AREA = 1e-4
"""Claimed areas may differ this much from the measured ones, in m2."""

MONEY = 0.005
"""Claimed costs may differ this much, in the job's currency."""


def order_lines(layout: LayoutClaim, zones: Sequence[Laid]) -> Iterator[Finding]:
    """One line for each product laid, its cartons, cost, area and waste right."""
    named = [line.product for line in layout.order]
    laid_products = {laid.product.name for laid in zones}
    for name in sorted(laid_products - set(named)):
        yield Finding(layout.rank, CHECK, f"product {name}", "not ordered", "laid")
    for name in sorted(set(named)):
        if named.count(name) > 1 or name not in laid_products:
            found = f"{named.count(name)} lines, laid in no zone" if (
                name not in laid_products) else f"{named.count(name)} lines"  # fmt: skip
            yield Finding(layout.rank, CHECK, f"product {name}", "one line", found)
    for line in layout.order:
        here = [laid for laid in zones if laid.product.name == line.product]
        if here:
            lengths = units_by_length(here)
            yield from _cartons(layout.rank, line, here[0].product, lengths)
            yield from _cost(layout.rank, line, here[0].product)
            yield from _lengths(layout.rank, line, here[0].product, lengths)
            yield from _areas(layout.rank, line, here, lengths)


def least_cartons(line: OrderClaim, product: ProductClaim, units: int, lengths: Lengths) -> int:
    """Cartons that hold so many units with breakage and spares, and enough of each length."""
    wanted = units + line.breakage_units + line.spare_units
    cartons = -(-wanted // product.per_carton)
    for length, per_carton in product.lengths:
        laid = sum(count for one, count in lengths.items() if abs(one - length) <= NOISE)
        cartons = max(cartons, -(-laid // per_carton))
    return cartons


def _cartons(
    rank: int, line: OrderClaim, product: ProductClaim, lengths: Lengths
) -> Iterator[Finding]:
    """Enough cartons, and where nothing else is bought no more than enough."""
    where, claimed = f"product {product.name}", f"{line.cartons} cartons"
    for what, units in (("spare", line.spare_units), ("breakage", line.breakage_units)):
        if units < 0:
            yield Finding(rank, CHECK, where, f"{units} {what} units", "fewer than none")
    cartons = least_cartons(line, product, line.units, lengths)
    if line.spare_cartons is not None and line.spare_cartons < 0:
        yield Finding(rank, CHECK, where, f"{line.spare_cartons} spare cartons", "fewer than none")
    if line.cartons - cartons not in _spare_cartons(line, cartons):
        breakage = f", {line.breakage_units} for breakage" if line.breakage_units else ""
        found = (
            f"{cartons} for {line.units} units and {line.spare_units} spare{breakage}, "
            f"{product.per_carton} a carton"
            f"{f' and {line.spare_cartons} on top' if line.spare_cartons else ''}"
        )
        yield Finding(rank, CHECK, where, claimed, found)
    if line.cartons_at_least is not None and not 1 <= line.cartons_at_least <= line.cartons:
        claimed = f"{claimed}, at least {line.cartons_at_least} needed"
        yield Finding(rank, CHECK, where, claimed, "a least number that cannot be")


def _spare_cartons(line: OrderClaim, cartons: int) -> frozenset[int]:
    """How many spare cartons there may be on top of those that are needed."""
    if line.spare_cartons is not None:
        return frozenset({line.spare_cartons})
    if line.cartons_at_least is None:
        return frozenset({0})
    # A document that tells least cartons may have one spare for every so many or fraction.
    return frozenset({0} | {-(-cartons // per) for per in range(1, cartons + 1)})


def _cost(rank: int, line: OrderClaim, product: ProductClaim) -> Iterator[Finding]:
    """The price of a carton for each."""
    cost = None if product.price is None else line.cartons * product.price
    if not same_money(line.cost, cost):
        where = f"product {product.name}"
        yield Finding(rank, CHECK, where, f"cost {money(line.cost)}", money(cost))


def same_money(one: float | None, two: float | None) -> bool:
    """Whether two costs agree, both being there or neither."""
    if one is None or two is None:
        return one is two
    return abs(one - two) <= MONEY


def money(value: float | None) -> str:
    """A cost as text."""
    return "none" if value is None else f"{value:.2f}"


def _lengths(
    rank: int, line: OrderClaim, product: ProductClaim, lengths: Lengths
) -> Iterator[Finding]:
    """Of each length as many units as are cut up, and together all of them."""
    where = f"product {product.name}"
    listed = dict(line.lengths)
    if not product.lengths:
        if listed:
            found = "units of one length"
            yield Finding(rank, CHECK, where, f"{len(listed)} lengths", found)
        return
    for length, _ in product.lengths:
        said = sum(count for one, count in listed.items() if abs(one - length) <= NOISE)
        laid = sum(count for one, count in lengths.items() if abs(one - length) <= NOISE)
        if said != laid:
            claimed = f"{said} units of {length:.3f} mm"
            yield Finding(rank, CHECK, where, claimed, f"{laid} units of it")
    total = sum(listed.values())
    if total != line.units:
        claimed = f"{total} units in all lengths"
        yield Finding(rank, CHECK, where, claimed, f"{line.units} units in the order")


def _areas(
    rank: int, line: OrderClaim, zones: Sequence[Laid], lengths: Lengths
) -> Iterator[Finding]:
    product = zones[0].product
    where = f"product {product.name}"
    area = sum(float(laid.areas.sum()) for laid in zones)
    bought = bought_area(product, line.units, lengths)
    if abs(line.laid_area_m2 - area / MM2_IN_M2) > AREA:
        claimed, found = f"{line.laid_area_m2:.4f} m2 laid", f"{area / MM2_IN_M2:.4f} m2"
        yield Finding(rank, CHECK, where, claimed, found)
    waste = (bought - area) / area * 100
    if abs(line.waste_percent - waste) > PERCENT:
        claimed, found = f"{line.waste_percent:.3f} % waste", f"{waste:.3f} %"
        yield Finding(rank, CHECK, where, claimed, found)
    if waste < -PERCENT:
        unit = product.pitch[0] * product.pitch[1]
        claimed, found = f"{line.units} units", f"{area / unit:.2f} units of floor laid"
        yield Finding(rank, CHECK, where, claimed, found)
