"""The floor shared out among the zones once, so that no zone proves impossible later."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from shapely import Polygon

from models.job.carve.area import Area, CarveError, Plan
from models.job.carve.plan import plan_of
from models.job.data import Border, Extent, Job
from models.job.errors import JobError
from models.job.item import Item
from models.job.measures import Measures

MOST_UNITS = 200_000


def check_carving(job: Job, root: Item, measures: Measures) -> None:
    """Refuse zones that cannot be carved, or take absurdly many units, as a JobError.

    Every length left open is tried at its low and at its high end.
    """
    for values in _ends(job):
        try:
            plan = plan_of(job, values)
        except CarveError as error:
            raise _refusal(error, values, root, measures) from error
        _check_links(plan, root)
        _check_amount(plan, root)


def _ends(job: Job) -> Iterator[Mapping[str, int]]:
    """Every open length at its low end, each alone at its high end, and all there."""
    high = {name: extent.high for name, extent in _open(job)}
    yield {}
    for name, value in high.items():
        yield {name: value}
    if len(high) > 1:
        yield high


def _open(job: Job) -> Iterator[tuple[str, Extent]]:
    """Border widths and places of features left to choose, by name."""
    for zone in job.zones:
        if isinstance(zone.shape, Border) and zone.shape.width.free:
            yield zone.name, zone.shape.width
    for feature in job.features:
        if feature.slide is not None and feature.slide.free:
            yield feature.name, feature.slide


def _refusal(
    error: CarveError, values: Mapping[str, int], root: Item, measures: Measures
) -> JobError:
    """A zone that cannot be carved, at its entry in the file."""
    at = " and ".join(f"'{name}' at {measures.show(value)}" for name, value in values.items())
    when = f" (with {at})" if at else ""
    return _entry(error.zone, root).error(f"{error.problem}{when}", error.remedy)


def _entry(name: str, root: Item) -> Item:
    """The entry of a zone; the field's for what is no zone of the list."""
    items = {item.group["name"].text: item for item in root.list_of("zones")}
    return items.get(name, root.group["field"])


def _check_links(plan: Plan, root: Item) -> None:
    """Refuse to link a zone that has no single area to carry lines into."""
    areas = {area.name for area in plan.areas}
    for link, item in zip(plan.job.links, root.list_of("links"), strict=True):
        for zone in (link.first, link.second):
            if zone not in areas:
                raise item.error(
                    f"zone '{zone}' lies in several parts, and lines are carried into one only",
                    "give each part a zone of its own, and link those",
                )


def _check_amount(plan: Plan, root: Item) -> None:
    """Refuse a floor of absurdly many units: a slip in a unit of measure."""
    for product in plan.job.products:
        length, width = product.pitch
        areas = [area for area in plan.areas if area.laying.product == product.name]
        units = sum(map(_floor, areas)) / (length * width)
        if units > MOST_UNITS:
            raise root.group["room"].error(
                f"takes about {units:.0f} units of '{product.name}', over {MOST_UNITS}",
                "check the units of measure of the room and the product",
            )


def _floor(area: Area) -> float:
    """The size of an area in square ticks."""
    return float(Polygon(area.outer, area.holes).area)
