"""The zones of a job in words: where each is, what is laid in it and how."""

from __future__ import annotations

from collections.abc import Iterator

from models.job.data import (
    Band,
    BondKind,
    Border,
    Extent,
    Fill,
    Job,
    Laying,
    Link,
    Marks,
    Mirror,
    Outline,
    Rest,
    Shape,
)
from models.lengths import System, show
from solver.sheets.words import bond_words, listed


def zone_lines(job: Job) -> list[str]:
    """Each zone in a few lines, the field last."""
    return [line for laying in job.zones for line in _zone(laying, job)]


def link_line(link: Link) -> str:
    """Two linked zones and what they share."""
    return f"{link.second} goes on from {link.first}, sharing {link.share.value}"


def extent_words(extent: Extent, system: System) -> str:
    """A length given, or the range it is chosen from."""
    low, high = show(extent.low, system), show(extent.high, system)
    return f"{low} to {high} (to be chosen)" if extent.free else low


def _zone(laying: Laying, job: Job) -> Iterator[str]:
    """What is laid and where; rows; marks and trim if any."""
    yield f"{laying.name}: {laying.product} in {bond_words(laying.bond)}"
    where = _where(laying.shape, job.system)
    if where:
        yield f"  {where}"
    ways = " or ".join(direction.label for direction in laying.directions)
    rows = "laid" if laying.bond.kind is BondKind.HERRINGBONE else "rows"
    yield f"  {rows} {ways or 'along each of its sides'}"
    if laying.marks is Marks.QUARTER_TURNED:
        yield "  every second unit turned a quarter"
    if laying.trim:
        yield f"  {show(laying.trim, job.system)} of trim round it"


def _where(shape: Shape, system: System) -> str:
    """Where a zone is; nothing to say of a field."""
    match shape:
        case Outline():
            return f"an area of {len(shape.ring)} corners"
        case Border():
            corners = ", mitred corners" if shape.mitred else ""
            along = f"round {shape.feature}" if shape.feature else f"along {listed(shape.walls)}"
            return f"border {along}, {extent_words(shape.width, system)} wide{corners}"
        case Band():
            return f"band {show(shape.far - shape.near, system)} wide across the floor"
        case Fill():
            return f"fills {shape.feature}"
        case Mirror():
            return f"the reflection of {shape.zone} about {shape.axis}"
        case Rest() if shape.at is not None:
            x, y = (show(part, system) for part in shape.at)
            return f"the part of what is left that holds ({x}, {y})"
        case Rest():
            return ""
