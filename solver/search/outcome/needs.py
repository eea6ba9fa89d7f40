"""What a floor needs of each product: units, breakage, spares, cartons, cost."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping

from models.floor.layout import Need
from models.job.data import Job, Product
from models.lengths import TICKS_PER_MM
from solver.search.floordraft import FloorDraft
from solver.stock.mix import carton_length, cartons_at_least, mix_of
from solver.stock.mix import cartons_for as mix_cartons


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
    lengths = _lengths(floor, product)
    bought = sum(length * count for length, count in lengths)
    bought_mm2 = bought * product.pitch[1] / TICKS_PER_MM**2
    cartons = cartons_for(job, product, units, tuple(count for _, count in lengths))
    return Need(
        product=product.name,
        units=units,
        units_at_least=at_least,
        laid_area_mm2=area,
        waste_percent=(bought_mm2 - area) / area * 100,
        spare_units=_spare(job, units),
        breakage_units=_breakage(job, units),
        cartons=cartons,
        cartons_at_least=cartons_for(job, product, at_least, _fewest(product, area)),
        cost=None if product.price is None else product.price * cartons,
        lengths=tuple((length - product.joint, n) for length, n in lengths) if product.mix else (),
    )


def _lengths(floor: FloorDraft, product: Product) -> list[tuple[int, int]]:
    """Each length of a product, with joint, and how many units of it the floor takes."""
    counts = Counter(
        length
        for unit, length in zip(floor.units, floor.lengths, strict=True)
        if floor.zones[unit[0][0]].product == product
    )
    return [(length, counts[length]) for length, _ in mix_of(product)]


def _fewest(product: Product, area_mm2: float) -> tuple[int, ...]:
    """The counts of each length in the fewest cartons whose area is enough."""
    mix = mix_of(product)
    cartons = cartons_at_least(area_mm2 * TICKS_PER_MM**2 / product.pitch[1], mix)
    return tuple(cartons * held for _, held in mix)


def bought_mm2(job: Job, need: Need) -> float:
    """The area of the units a need buys; of whole cartons where they hold several lengths."""
    product = next(p for p in job.products if p.name == need.product)
    if product.mix:
        area = carton_length(mix_of(product)) * product.pitch[1] / TICKS_PER_MM**2
        return need.cartons * area
    return need.laid_area_mm2 * (1 + need.waste_percent / 100)


def cartons_for(job: Job, product: Product, units: int, counts: tuple[int, ...] = ()) -> int:
    """Cartons that hold the units with breakage and spares, spare cartons on top.

    ``counts`` are the units of each length where a carton holds several: as many cartons
    as the length needs that runs out first.
    """
    wanted = units + _spare(job, units) + _breakage(job, units)
    cartons = -(-wanted // product.per_carton)
    if product.mix:
        cartons = max(cartons, mix_cartons(counts, mix_of(product)))
    per = job.spare_carton_per
    return cartons + (-(-cartons // per) if per else 0)


def _spare(job: Job, units: int) -> int:
    return math.ceil(units * job.spare_percent / 100) + job.spare_units


def _breakage(job: Job, units: int) -> int:
    return math.ceil(units * job.breakage_percent / 100)
