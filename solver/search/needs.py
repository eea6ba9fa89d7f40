"""What a floor needs of each product: units, breakage, spares, cartons, cost."""

from __future__ import annotations

import math
from collections.abc import Mapping

from models.floor.layout import Need
from models.job.data import Job, Product
from models.lengths import TICKS_PER_MM
from solver.search.floordraft import FloorDraft


def needs_of(floor: FloorDraft, at_least: Mapping[str, int]) -> tuple[Need, ...]:
    """One need for each product laid, in the job's order."""
    laid = {draft.product.name for draft in floor.zones}
    return tuple(
        _need(floor, product, at_least[product.name])
        for product in floor.plan.job.products
        if product.name in laid
    )


def _need(floor: FloorDraft, product: Product, at_least: int) -> Need:
    job, units = floor.plan.job, floor.units_of(product.name)
    area = sum(d.zone.polygon.area for d in floor.zones if d.product == product) / TICKS_PER_MM**2
    unit = product.pitch[0] * product.pitch[1] / TICKS_PER_MM**2
    cartons = cartons_for(job, product, units)
    return Need(
        product=product.name,
        units=units,
        units_at_least=at_least,
        laid_area_mm2=area,
        waste_percent=(units * unit - area) / area * 100,
        spare_units=_spare(job, units),
        breakage_units=_breakage(job, units),
        cartons=cartons,
        cartons_at_least=cartons_for(job, product, at_least),
        cost=None if product.price is None else product.price * cartons,
    )


def cartons_for(job: Job, product: Product, units: int) -> int:
    """Cartons that hold the units with breakage and spares, spare cartons on top."""
    wanted = units + _spare(job, units) + _breakage(job, units)
    cartons = -(-wanted // product.per_carton)
    per = job.spare_carton_per
    return cartons + (-(-cartons // per) if per else 0)


def _spare(job: Job, units: int) -> int:
    return math.ceil(units * job.spare_percent / 100) + job.spare_units


def _breakage(job: Job, units: int) -> int:
    return math.ceil(units * job.breakage_percent / 100)
