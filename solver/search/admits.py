"""The least units over everything a job admits: every value of the lengths it leaves open.

Between two values of a border's width or a feature's place each zone keeps a core: floor
it has at every value in between. What bounds the core bounds the zone at all of them, so
the least over a row of such steps bounds the whole range.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, product

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from models.floor.runs import parts_of
from models.floor.zone import whole_ring, zone_of
from models.job.carve.area import Area, Plan, Side
from models.job.carve.plan import plan_of
from models.job.data import Border, Job
from solver.search.bounds import Cover, cover_of, together
from solver.search.choices import Open, open_lengths, values_of
from solver.search.draft import zone_stock

STEPS = 24
"""Steps a range is cut into when one length is open; with several, each is one step."""


def told_of_all(job: Job) -> tuple[str, ...]:
    """A note on what every choice of the open lengths would need, if there are any."""
    lengths = open_lengths(job)
    if not lengths:
        return ()
    least = bounds_over(job, lengths)
    counts = ", ".join(f"{least[name]} of {name}" for name in least)
    names = " and ".join(one.name for one in lengths)
    return (
        f"bounds on units are for {names} as chosen; over all that is admitted, at least {counts}",
    )


def bounds_over(job: Job, lengths: tuple[Open, ...]) -> dict[str, int]:
    """The least units of each product in any layout of any plan the job admits."""
    cells = [_bounds(job, lengths, ends) for ends in _cells(job, lengths)]
    return {name: min(cell[name] for cell in cells) for name in cells[0]}


def _cells(job: Job, lengths: tuple[Open, ...]) -> list[tuple[tuple[int, int], ...]]:
    """Parts of what may be chosen, each as the (low, high) of every length."""
    if len(lengths) > 1:
        return [tuple((one.extent.low, one.extent.high) for one in lengths)]
    extent = lengths[0].extent
    values = set(values_of(job, lengths[0], {}))
    if not extent.step:
        span = extent.high - extent.low
        values |= {extent.low + span * i // STEPS for i in range(STEPS + 1)}
        return [((low, high),) for low, high in pairwise(sorted(values))]
    return [((value, value),) for value in sorted(values)]


def _bounds(
    job: Job, lengths: tuple[Open, ...], ends: tuple[tuple[int, int], ...]
) -> dict[str, int]:
    """What bounds every plan between the ends."""
    names = [one.name for one in lengths]
    plans = [plan_of(job, dict(zip(names, corner, strict=True))) for corner in product(*ends)]
    moving = _moving(job, plans)
    covers = _covers(job, plans, moving)
    least = {}
    for name in sorted({area.laying.product for area in plans[0].areas}):
        mine = [cover for product_name, cover in covers if product_name == name]
        least[name] = max(together(mine), *(cover.units for cover in mine))
    return least


def _covers(
    job: Job, plans: Sequence[Plan], moving: Sequence[BaseGeometry]
) -> list[tuple[str, Cover]]:
    """What bounds each area at all the values, with its product.

    A column may part a strip at one width and not at another. Areas that are not there at
    every value have no lines to count on: only the floor their zone keeps is counted.
    """
    found = [{area.name: area for area in plan.areas} for plan in plans]
    common = [name for name in found[0] if all(name in each for each in found)]
    covers = [
        (found[0][name].laying.product, _cover(job, [each[name] for each in found], moving))
        for name in common
    ]
    for laying in job.zones:
        loose = [
            shapely.union_all(
                [
                    Polygon(area.outer, area.holes)
                    for name, area in each.items()
                    if area.laying.name == laying.name and name not in common
                ]
            )
            for each in found
        ]
        stock = zone_stock(job, laying)
        kept = shapely.intersection_all(loose).difference(shapely.union_all(list(moving)))
        covers.append((laying.product, Cover(kept.area / (stock.length * stock.width), 0.0, 0.0)))
    return covers


def _moving(job: Job, plans: Sequence[Plan]) -> list[BaseGeometry]:
    """All the floor that each sliding feature and its surround may come to lie on."""
    swept = []
    for number, feature in enumerate(job.features):
        if feature.slide is None or not feature.slide.free:
            continue
        shapes = [Polygon(plan.job.features[number].outline) for plan in plans]
        for plan in plans:
            for area in plan.areas:
                shape = area.laying.shape
                if isinstance(shape, Border) and shape.feature == feature.name:
                    shapes.append(Polygon(area.outer, area.holes))
        swept.append(shapely.union_all(shapes).convex_hull)
    return swept


def _cover(job: Job, areas: Sequence[Area], moving: Sequence[BaseGeometry]) -> Cover:
    """What bounds a zone at all the values it has these areas at, and between them."""
    first = areas[0]
    if all(_same_shape(first, area) for area in areas):
        kept = [first]
    else:
        core: BaseGeometry = shapely.intersection_all([Polygon(a.outer, a.holes) for a in areas])
        core = core.difference(shapely.union_all(list(moving)))
        kept = [_area(first, part) for part in parts_of(core)]
    covers = [[cover_of(job, zone_of(area, d)) for d in first.laying.directions] for area in kept]
    least = [
        Cover(each[0].area, min(c.most for c in each), min(c.least for c in each))
        for each in covers
    ]
    # The parts of one zone lie on the same lines, so that what they cover adds up at its worst.
    return Cover(
        sum(c.area for c in least),
        least[0].most if len(least) == 1 else sum(c.least for c in least),
        sum(c.least for c in least),
    )


def _same_shape(one: Area, two: Area) -> bool:
    """Whether two areas are one shape in two places."""
    if len(one.outer) != len(two.outer) or len(one.holes) != len(two.holes):
        return False
    dx, dy = two.outer[0][0] - one.outer[0][0], two.outer[0][1] - one.outer[0][1]
    rings = zip((one.outer, *one.holes), (two.outer, *two.holes), strict=True)
    return all(tuple((x + dx, y + dy) for x, y in a) == b for a, b in rings)


def _area(area: Area, part: Polygon) -> Area:
    """A part of an area, its sides going nowhere in particular."""
    shape = orient(part)
    rings = [whole_ring(ring.coords) for ring in (shape.exterior, *shape.interiors)]
    sides = [Side(a, b, "") for ring in rings for a, b in pairwise((*ring, ring[0]))]
    return replace(area, outer=rings[0], holes=tuple(rings[1:]), sides=tuple(sides))
