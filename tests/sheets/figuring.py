"""Verdicts, needs and figures of hand-made layouts."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely.geometry import Polygon

from models.floor.layout import Figures, Need, Verdict, ZoneLayout
from models.job.data import BondKind, Job, Kind, Product, Sight


def area_mm2(zone: ZoneLayout) -> float:
    return float(Polygon(zone.outer, zone.holes).area) / 320**2


def need_of(job: Job, product: Product, zones: Sequence[ZoneLayout], gap: int) -> Need:
    pieces = [piece for zone in zones for piece in zone.pieces]
    lengths = {piece.unit: piece.unit_length for piece in pieces}
    units = len(lengths)
    area = sum(area_mm2(zone) for zone in zones)
    spare = job.spare_units + math.ceil(job.spare_percent * units / 100)
    broken = math.ceil(job.breakage_percent * units / 100)
    cartons = -(-(units + spare + broken) // product.per_carton)
    length, width = product.pitch
    counts = [(each, list(lengths.values()).count(each)) for each, _ in product.mix]
    for (_, held), (_, count) in zip(product.mix, counts, strict=False):
        cartons = max(cartons, -(-count // held))
    bought = units * length
    if counts:
        bought = sum((each + product.joint) * count for each, count in counts)
    return Need(
        product=product.name, units=units, units_at_least=units - gap, laid_area_mm2=area,
        waste_percent=(bought * width / 320**2 - area) / area * 100,
        spare_units=spare, breakage_units=broken, cartons=cartons, cartons_at_least=cartons,
        cost=None if product.price is None else product.price * cartons, lengths=tuple(counts),
    )  # fmt: skip


def figures_of(
    job: Job, zones: tuple[ZoneLayout, ...], verdicts: tuple[Verdict, ...], gap: int = 0
) -> Figures:
    needs = tuple(
        need_of(job, product, laid, gap)
        for product in job.products
        if (laid := [zone for zone in zones if zone.product == product.name])
    )
    cuts = [(zone, piece) for zone in zones for piece in zone.pieces if piece.cut]
    sized = [(zone, piece) for zone, piece in cuts if piece.size]
    where, least = min(sized, key=lambda pair: pair[1].size or 0)
    broken = [v.kind for v in verdicts if not v.kept]
    area = sum(need.laid_area_mm2 for need in needs)
    costs = [need.cost for need in needs if need.cost is not None]
    return Figures(
        units=sum(need.units for need in needs),
        units_at_least=sum(need.units_at_least for need in needs),
        cartons=sum(need.cartons for need in needs),
        spare_units=sum(need.spare_units for need in needs),
        laid_area_mm2=area,
        waste_percent=sum(n.waste_percent * n.laid_area_mm2 for n in needs) / area,
        smallest_cut=least.size,
        smallest_where=f"row {least.row} at {least.touches[0]}"
        + (f", {where.zone}" if len(zones) > 1 else ""),
        cuts=len(cuts),
        balance=max(
            (one for zone in zones if (one := balance_of(job, zone)) is not None), default=None
        ),
        broken_must=broken.count(Kind.MUST),
        broken_prefer=broken.count(Kind.PREFER),
        needs=needs,
        cost=sum(costs, start=costs[0] * 0) if costs else None,
    )


def balance_of(job: Job, zone: ZoneLayout) -> int | None:
    """Between the least rips of both edge rows; in a straight bond also both end cuts."""
    if not zone.rows:
        return None
    length, width = job.product_of(zone.laying).pitch
    low, high = (
        min((p.size_across or width) for p in zone.pieces if p.row == row.row)
        for row in (zone.rows[0], zone.rows[-1])
    )
    found = [abs(low - high)]
    if zone.laying.bond.kind is BondKind.STRAIGHT:
        longest = max(zone.rows, key=lambda row: row.runs[0][0][1] - row.runs[0][0][0])
        ends = [p for p in zone.pieces if p.row == longest.row]
        found.append(abs((ends[0].size_along or length) - (ends[-1].size_along or length)))
    return max(found)


def verdicts_of(job: Job, zone: ZoneLayout) -> tuple[Verdict, ...]:
    """The two rules the hand-made layouts are judged by."""
    rules, found = zone.laying.rules, []
    hidden = {wall.name for wall in job.walls if wall.sight is Sight.HIDDEN}
    if rules.smallest_cut:
        worst = min((p.size for p in zone.pieces if p.size is not None), default=None)
        asked = rules.smallest_cut
        found.append(verdict(zone, "smallest_cut", asked.kind, asked.limit, worst))
    if rules.half_unit_edges:
        half = job.product_of(zone.laying).pitch[1] // 2
        seen = [p.size_across for p in zone.pieces if not set(p.touches) <= hidden]
        least = min((size for size in seen if size is not None), default=None)
        found.append(verdict(zone, "half_unit_edges", rules.half_unit_edges.kind, half, least))
    return tuple(found)


def verdict(zone: ZoneLayout, key: str, kind: Kind, limit: int, worst: int | None) -> Verdict:
    kept = worst is None or worst >= limit
    because = "" if kept else "the compass is held"
    return Verdict(key, kind, limit, worst, kept, "row 3 at hall wall", because, zone=zone.zone)
