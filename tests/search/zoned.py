"""Small floors of several zones, in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from models.job.carve.area import Plan
from models.job.carve.plan import plan_of
from models.job.data import (
    Axis,
    Bond,
    Border,
    Direction,
    Extent,
    Feature,
    Job,
    Laying,
    Link,
    Mirror,
    Outline,
    Product,
    Rules,
    Shape,
)
from models.lengths import TICKS_PER_MM as MM
from solver.search.zones import Bundle, Watch, search_zones
from tests.search.floors import ALONG_X, PLANK, STAGGERED, Corners, job_of, ring

QUIET = Watch(lambda _: None, lambda: False)


def zoned(
    corners: Corners,
    zones: Sequence[Laying],
    product: Product = PLANK,
    bond: Bond = STAGGERED,
    rules: Rules | None = None,
    axes: Sequence[Axis] = (),
    links: Sequence[Link] = (),
    features: Sequence[Feature] = (),
    products: Sequence[Product] = (),
) -> Job:
    """A room with zones of their own before its field, whose name is floor."""
    job = job_of(corners, product, bond, rules, axes=axes)
    return replace(
        job,
        zones=(*zones, job.field),
        links=tuple(links),
        features=tuple(features),
        products=(*job.products, *products),
    )


def part(
    name: str,
    shape: Shape | Corners,
    product: Product = PLANK,
    bond: Bond = STAGGERED,
    rules: Rules | None = None,
    directions: tuple[Direction, ...] = (ALONG_X,),
) -> Laying:
    """A zone of a given shape, or of given corners."""
    form = Outline(ring(shape)) if isinstance(shape, Sequence) else shape
    return Laying(name, product.name, bond, directions, rules or Rules(), form)


def image(name: str, of: Laying, axis: str) -> Laying:
    """The reflection of another zone, which takes all but the shape from it."""
    return replace(of, name=name, shape=Mirror(of.name, axis))


def border(
    low: int,
    high: int,
    step: int = 0,
    product: Product = PLANK,
    walls: Sequence[int] = (1, 2, 3, 4),
) -> Laying:
    """A border along walls whose width is left open."""
    extent = Extent(low * MM, high * MM, step * MM)
    form = Border(extent, tuple(f"wall {number}" for number in walls))
    return replace(part("border", form, product), directions=())


def fixed(job: Job, values: dict[str, int]) -> Job:
    """The job with the lengths it leaves open given: nothing of it is to be chosen."""
    return plan_of(job, values).job


def bundles_of(job: Job) -> tuple[Plan, tuple[Bundle, ...]]:
    """The plan of a job whose lengths are given, and what the search finds for its zones."""
    plan = plan_of(job)
    return plan, search_zones(plan, QUIET)
