"""Held features: a shape whose centre belongs on an axis."""

from __future__ import annotations

from collections.abc import Mapping

from models.job.angles import along, off_line
from models.job.data import Axis, Feature, Point, Ring
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.shapes import centred_rectangle, circle, circle_sides, outline
from models.lengths import TICKS_PER_MM

_OFF = TICKS_PER_MM // 50
"""0.02 mm: a centre nearer its axis than this is on it."""


def read_feature(item: Item, axes: Mapping[str, Axis], measures: Measures) -> Feature:
    """A feature placed on its axis, or where its centre was measured to be."""
    keys = item.group
    axis = look_up(keys["axis"], axes, "axis")
    centre = _centre(keys, axis, measures)
    tolerance = measures.gap_in(item, "tolerance", measures.pick("1/16 in", "1 mm"))
    diameter = measures.size(keys["diameter"]) if "diameter" in keys else None
    ring = _outline(keys, axis, centre, diameter, measures)
    return Feature(keys["name"].text, axis.name, centre, ring, tolerance, diameter)


def feature_notes(
    feature: Feature, axes: Mapping[str, Axis], measures: Measures
) -> tuple[str, ...]:
    """What the user should know about a feature: off its axis, or a circle made of sides."""
    axis = axes[feature.axis]
    notes = []
    off = off_line(feature.centre, axis.point, axis.direction)
    if off > _OFF:
        verdict = "within" if off <= feature.tolerance else "more than"
        notes.append(
            f"feature '{feature.name}' is {measures.show(round(off))} off axis '{axis.name}', "
            f"{verdict} its tolerance of {measures.show(feature.tolerance)}"
        )
    if feature.round_diameter is not None:
        sides = circle_sides(feature.round_diameter)
        notes.append(
            f"feature '{feature.name}' is worked as {sides} equal sides within 0.5 mm of the circle"
        )
    return tuple(notes)


def _centre(keys: Mapping[str, Item], axis: Axis, measures: Measures) -> Point:
    """The centre, on the axis or as measured."""
    if "centre" in keys:
        return measures.point(keys["centre"])
    return along(axis.point, axis.direction, measures.length(keys["along"]))


def _outline(
    keys: Mapping[str, Item], axis: Axis, centre: Point, diameter: int | None, measures: Measures
) -> Ring:
    """The outline in the job's axes; its sides follow the axis."""
    if diameter is not None:
        return circle(centre, axis.direction, diameter)
    if "rectangle" in keys:
        size = measures.sides(keys["rectangle"])
        return centred_rectangle(centre, axis.direction, size)
    corners = outline(keys["corners"], measures)
    return tuple(along(centre, axis.direction, ahead, left) for ahead, left in corners)
