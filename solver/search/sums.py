"""The least units of a whole plan: of each zone by itself, of each product over its zones."""

from __future__ import annotations

from collections.abc import Sequence

from models.job.carve.area import Plan
from solver.search.bounds import together
from solver.search.finish import Bounds
from solver.search.zones import Bundle


def bounds_of(plan: Plan, bundles: Sequence[Bundle]) -> Bounds:
    """What bounds every layout of one plan."""
    found = {
        number: bound
        for bundle in bundles
        for number, bound in zip(bundle.areas, bundle.bounds, strict=True)
    }
    zones = [found[number] for number in range(len(plan.areas))]
    products = {}
    for product in sorted({area.laying.product for area in plan.areas}):
        mine = [
            zone
            for zone, area in zip(zones, plan.areas, strict=True)
            if area.laying.product == product
        ]
        # A zone with those that mirror it is bounded as one, and so is a zone by itself.
        products[product] = max(together([z.cover for z in mine]), *(z.copied for z in mine))
    return Bounds(tuple(zone.alone for zone in zones), products)
