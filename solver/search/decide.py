"""Decide what a job leaves open: the plan to search, and what bounds every plan it admits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.job.carve.plan import plan_of

from models.job.carve.area import Plan
from models.job.data import Job
from solver.search.bounds import together
from solver.search.finish import Bounds
from solver.search.found import Say, Stop
from solver.search.zones import Bundle


@dataclass(frozen=True, slots=True)
class Decided:
    """The plan chosen, and what to tell about the choice."""

    plan: Plan
    notes: tuple[str, ...] = ()
    complete: bool = True

    def bounds(self, bundles: Sequence[Bundle]) -> Bounds:
        """The least units of each zone by itself and of each product over all its zones."""
        found = {
            number: bound
            for bundle in bundles
            for number, bound in zip(bundle.areas, bundle.bounds, strict=True)
        }
        zones = [found[number] for number in range(len(self.plan.areas))]
        products = {}
        for product in {area.laying.product for area in self.plan.areas}:
            mine = [
                zone
                for zone, area in zip(zones, self.plan.areas, strict=True)
                if area.laying.product == product
            ]
            # A zone with those that mirror it is bounded as one, and so is a zone by itself.
            products[product] = max(together([z.cover for z in mine]), *(z.copied for z in mine))
        return Bounds(tuple(zone.alone for zone in zones), products)


def decide(job: Job, say: Say, halt: Stop) -> Decided:
    """The plan to search in full."""
    return Decided(plan_of(job))
