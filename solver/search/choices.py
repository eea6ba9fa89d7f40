"""The lengths a job leaves open, and the values of each that are worth trying.

A border's width or a feature's place moves some edges of the zones beside it and leaves
others where they are. What is worth trying is where the distance between two such edges
comes to whole units, so that an edge can lie on a row line or a joint at both.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from shapely.geometry import Polygon

from models.floor.zone import Zone, zone_of
from models.job.carve.area import Area, Plan
from models.job.carve.plan import plan_of
from models.job.data import Border, Extent, Job

MOST_VALUES = 16
EVEN_VALUES = 12
LARGE_UNITS = 300
"""On a floor of more units a third as many values are tried: each takes that much longer."""
"""Values spread evenly over a range, whatever fits."""


@dataclass(frozen=True, slots=True)
class Open:
    """A length a job leaves open: the name of its zone or feature, and its range."""

    name: str
    extent: Extent


def open_lengths(job: Job) -> tuple[Open, ...]:
    """Border widths and places of features to be chosen, in the job's order."""
    borders = [
        Open(zone.name, zone.shape.width)
        for zone in job.zones
        if isinstance(zone.shape, Border) and zone.shape.width.free
    ]
    slides = [Open(f.name, f.slide) for f in job.features if f.slide is not None and f.slide.free]
    return (*borders, *slides)


def values_of(job: Job, length: Open, others: Mapping[str, int]) -> tuple[int, ...]:
    """The values of one open length worth trying, the others being given; lowest first."""
    low, high, step = length.extent.low, length.extent.high, length.extent.step
    if step:
        return tuple(range(low, high + 1, step))
    lowest, highest = (plan_of(job, {**others, length.name: value}) for value in (low, high))
    there = {area.name: area for area in highest.areas}
    thin = 3 if units_by_area(lowest) > LARGE_UNITS else 1
    weight: dict[int, float] = {}
    for area in lowest.areas:
        # A strip that a column parts at one width only has no edges to set side by side.
        if area.name not in there:
            continue
        for value, gain in _fitting(job, area, there[area.name], low, high):
            weight[value] = weight.get(value, 0.0) + gain
    fitting = sorted(weight, key=lambda v: (-weight[v], v))[: MOST_VALUES // thin]
    tape = job.tape_step
    count = min((high - low) // tape, EVEN_VALUES // thin)
    even = {(low + (high - low) * i // count) // tape * tape for i in range(count)} if count else ()
    return tuple(sorted({low, high, *fitting, *(v for v in even if low <= v <= high)}))


def units_by_area(plan: Plan) -> float:
    """How many units the floor of a plan comes to, by area alone."""
    found = 0.0
    for area in plan.areas:
        length, width = plan.job.product_of(area.laying).pitch
        found += Polygon(area.outer, area.holes).area / (length * width)
    return found


def _fitting(job: Job, one: Area, two: Area, low: int, high: int) -> list[tuple[int, float]]:
    """Values at which two edges of an area lie whole units apart, and how much floor gains."""
    found: list[tuple[int, float]] = []
    pitch = job.product_of(one.laying).pitch
    for direction in one.laying.directions:
        zones = zone_of(one, direction), zone_of(two, direction)
        if len(zones[0].edges) != len(zones[1].edges):
            continue
        for axis in (0, 1):
            edges = _edges(zones, axis)
            for (a, b, size), (c, d, other) in combinations(edges, 2):
                found += [
                    (value, min(size, other))
                    for value in _whole(c - a, d - b, low, high, pitch[axis])
                ]
    return found


def _edges(zones: tuple[Zone, Zone], axis: int) -> list[tuple[int, int, float]]:
    """Where edges square to an axis lie at the low and at the high value, and their length."""
    return [
        (a.start[axis], b.start[axis], min(a.length, b.length))
        for a, b in zip(zones[0].edges, zones[1].edges, strict=True)
        if a.start[axis] == a.end[axis] and b.start[axis] == b.end[axis]
    ]


def _whole(at_low: int, at_high: int, low: int, high: int, pitch: int) -> list[int]:
    """Values between low and high at which a distance is a whole number of pitches."""
    if at_low == at_high:
        return []
    first, last = sorted((at_low, at_high))
    found = []
    for target in range(-(-first // pitch) * pitch, last + 1, pitch):
        share, rest = divmod((target - at_low) * (high - low), at_high - at_low)
        if not rest:
            found.append(low + share)
    return found
