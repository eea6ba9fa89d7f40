"""The least units of a whole plan: of each zone by itself, of each product over its zones."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import prod

from models.job.carve.area import Plan
from models.program.spans import Choice
from solver.search.bounds import flow_bound, quick_bound, together
from solver.search.draft import zone_stock
from solver.search.outcome.finish import Bounds
from solver.search.pool import merge
from solver.search.zones import Bundle, ZoneBound
from solver.stock.parts import Stock

MOST_SETS = 2000
MOST_FLOWS = 24


def bounds_of(plan: Plan, bundles: Sequence[Bundle]) -> Bounds:
    """What bounds every layout of one plan."""
    found = {
        number: bound
        for bundle in bundles
        for number, bound in zip(bundle.areas, bundle.bounds, strict=True)
    }
    zones = [found[number] for number in range(len(plan.areas))]
    names = sorted({area.laying.product for area in plan.areas})
    products = {name: _of_product(plan, name, zones) for name in names}
    return Bounds(tuple(zone.alone for zone in zones), products)


def _of_product(plan: Plan, name: str, zones: Sequence[ZoneBound]) -> int:
    """The least units of one product, over all its zones."""
    mine = [n for n, area in enumerate(plan.areas) if area.laying.product == name]
    # A zone with those that mirror it is bounded as one, and so is a zone by itself.
    least = max(together([zones[n].cover for n in mine]), *(zones[n].copied for n in mine))
    own = [n for n in mine if not plan.areas[n].mirrors]
    if len(own) == 1 or not all(zones[n].choices for n in own):
        return least
    stock = zone_stock(plan.job, plan.areas[own[0]].laying)
    return max(least, _flowing([zones[n].choices for n in own], stock))


def _flowing(choices: Sequence[Sequence[Choice]], stock: Stock) -> int:
    """The least of the stock flow's bounds over every set of choices, one a zone."""
    if prod(len(each) for each in choices) > MOST_SETS:
        return 0
    sets = [merge(chosen) for chosen in product(*choices)]
    quick = sorted(((quick_bound(one, stock), n) for n, one in enumerate(sets)))
    bounds: list[int] = []
    for at_least, number in quick:
        if bounds and at_least >= min(bounds):
            break
        # Past so many flows the quick bounds of the rest are all that is said of them.
        flow = flow_bound(sets[number], stock) if len(bounds) < MOST_FLOWS else at_least
        bounds.append(max(at_least, flow))
    return min(bounds)
