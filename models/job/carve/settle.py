"""A job with the lengths it left open decided: border widths fixed, sliding features placed."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from models.job.carve.area import Chosen
from models.job.data import Border, Extent, Feature, Job, Laying


def settled(job: Job, values: Mapping[str, int]) -> tuple[Job, tuple[Chosen, ...]]:
    """The job at the values given, and what was chosen: widths first, then features.

    ``values`` holds border widths by zone and places of sliding features by feature, in
    ticks; what is not in it takes its low end. Raises ValueError for a value out of range.
    """
    zones = tuple(_fixed(zone, values) for zone in job.zones)
    features = tuple(_placed(feature, job, values) for feature in job.features)
    open_lengths = [
        (zone.name, zone.shape.width) for zone in job.zones if isinstance(zone.shape, Border)
    ]
    open_lengths += [(item.name, item.slide) for item in job.features if item.slide]
    chosen = tuple(
        Chosen(name, extent.low, extent.high, _value(name, extent, values))
        for name, extent in open_lengths
        if extent.free
    )
    return replace(job, zones=zones, features=features), chosen


def _value(name: str, extent: Extent, values: Mapping[str, int]) -> int:
    value = values.get(name, extent.low)
    if not extent.low <= value <= extent.high:
        raise ValueError(f"{name}: {value} is not in {extent.low} to {extent.high}")
    return value


def _fixed(zone: Laying, values: Mapping[str, int]) -> Laying:
    """A zone with its border's width fixed."""
    if not isinstance(zone.shape, Border):
        return zone
    value = _value(zone.name, zone.shape.width, values)
    width = replace(zone.shape.width, low=value, high=value)
    return replace(zone, shape=replace(zone.shape, width=width))


def _placed(feature: Feature, job: Job, values: Mapping[str, int]) -> Feature:
    """A feature that slides, moved by whole ticks so that its centre lies at its value."""
    if feature.slide is None:
        return feature
    value = _value(feature.name, feature.slide, values)
    axis = next(axis for axis in job.axes if axis.name == feature.axis)
    (x, y), (dx, dy) = axis.point, axis.direction
    length = math.hypot(dx, dy)
    centre = x + round(value * dx / length), y + round(value * dy / length)
    moved = centre[0] - feature.centre[0], centre[1] - feature.centre[1]
    return replace(
        feature,
        centre=centre,
        outline=tuple((px + moved[0], py + moved[1]) for px, py in feature.outline),
        slide=replace(feature.slide, low=value, high=value),
    )
