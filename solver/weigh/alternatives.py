"""The alternatives of a zone: each product, each direction or each pair, read as a job."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from models.job.data import Job, Laying, Mirror
from models.job.errors import JobError, suggestion
from models.job.override import Override
from models.job.reader import read_text


class By(Enum):
    """What differs from one alternative to the next."""

    PRODUCTS = "products"
    DIRECTIONS = "directions"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class Alternative:
    """One way to lay the zone; ``job`` is None when it cannot be, and ``reason`` says why.

    ``parts`` are what differs from the other alternatives: product, direction or both.
    """

    parts: tuple[str, ...]
    product: str
    directions: tuple[str, ...]
    job: Job | None
    reason: str = ""

    @property
    def name(self) -> str:
        """What tells the alternative from the others."""
        return ", ".join(self.parts)


@dataclass(frozen=True, slots=True)
class Contest:
    """A job as it is written, the zone that differs, and the alternatives in its order."""

    job: Job
    zone: str
    by: By
    alternatives: tuple[Alternative, ...]


class WeighError(ValueError):
    """There is nothing to weigh; the message says what would have to be there."""


def contest_of(text: str, file: str, zone: str | None = None, by: By | None = None) -> Contest:
    """The alternatives of a zone (the field when None) of a job file's text.

    Without ``by`` products are weighed if two or more of them can be laid in the zone, else
    directions. Raises JobError for a text that is no job, and WeighError when there is no such
    zone, it mirrors another, there are not two alternatives, or none of them can be laid.
    """
    job = read_text(text, file)
    laying = _laying(job, zone)
    way = by or _usual(text, file, job, laying)
    found = tuple(_read(text, file, laying, pair) for pair in _pairs(job, laying, way))
    if len(found) < 2:
        raise WeighError(_too_few(job, laying, way))
    if all(each.job is None for each in found):
        reasons = "; ".join(f"{each.name}: {each.reason}" for each in found)
        raise WeighError(
            f"none of the alternatives can be laid: {reasons}; ease those rules, or weigh others"
        )
    return Contest(job, laying.name, way, found)


def _laying(job: Job, name: str | None) -> Laying:
    """The zone to weigh, the field when none is named."""
    if name is None:
        return job.field
    zones = {laying.name: laying for laying in job.zones}
    if name not in zones:
        raise WeighError(f"no zone is called '{name}'; {suggestion(name, zones)}")
    shape = zones[name].shape
    if isinstance(shape, Mirror):
        raise WeighError(
            f"zone '{name}' is the mirror image of '{shape.zone}'; weigh that zone instead"
        )
    return zones[name]


def _usual(text: str, file: str, job: Job, laying: Laying) -> By:
    """Products when two or more can be laid; else directions; products when neither."""
    pairs = _pairs(job, laying, By.PRODUCTS)
    read = (_read(text, file, laying, pair) for pair in pairs)
    if sum(each.job is not None for each in read) > 1 or len(laying.directions) < 2:
        return By.PRODUCTS
    return By.DIRECTIONS


_Pair = tuple[str | None, str | None]
"""A product's name and a direction's label; None for what is left as it is."""


def _pairs(job: Job, laying: Laying, by: By) -> Iterator[_Pair]:
    """Every product, every direction or every pair, in the order of the job file."""
    labels = [direction.label for direction in laying.directions]
    differ = by is not By.PRODUCTS and len(labels) > 1
    for product in job.products if by is not By.DIRECTIONS else (None,):
        for direction in labels if differ else (None,):
            yield product.name if product else None, direction


def _read(text: str, file: str, laying: Laying, pair: _Pair) -> Alternative:
    """One alternative as a job, or the reason why it is none."""
    product, direction = pair
    directions = tuple(each.label for each in laying.directions)
    try:
        job, reason = read_text(text, file, Override(laying.name, product, direction)), ""
    except JobError as error:
        job, reason = None, f"{error.item}: {error.problem}" if error.item else error.problem
    return Alternative(
        parts=tuple(part for part in pair if part),
        product=product or laying.product,
        directions=directions if direction is None else (direction,),
        job=job,
        reason=reason,
    )


def _too_few(job: Job, laying: Laying, by: By) -> str:
    """What the job lacks to be weighed in such a way."""
    only_product = f"only one product is listed, '{job.products[0].name}'"
    ways = [direction.label for direction in laying.directions]
    only_way = (
        f"zone '{laying.name}' has only one direction, '{ways[0]}'"
        if ways
        else f"the strips of zone '{laying.name}' each lie along their own side"
    )
    add_way = f"list more under the 'directions' of zone '{laying.name}'"
    if by is By.DIRECTIONS:
        return f"{only_way}; {add_way}"
    if by is By.PRODUCTS and len(ways) > 1:
        return f"{only_product}; add another under 'products', or weigh by directions"
    return f"{only_product}, and {only_way}; add another under 'products', or {add_way}"
