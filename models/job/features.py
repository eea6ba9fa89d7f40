"""Features: shapes whose centre belongs on an axis, held there or free to slide along it."""

from __future__ import annotations

from collections.abc import Mapping

from models.job.angles import along, off_line
from models.job.data import Axis, Extent, Feature, Point, Ring
from models.job.extents import read_range
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.shapes import centred_rectangle, circle, circle_sides, outline
from models.lengths import TICKS_PER_MM

_OFF = TICKS_PER_MM // 50
"""0.02 mm: a centre nearer its axis than this is on it."""


def read_feature(item: Item, axes: Mapping[str, Axis], measures: Measures) -> Feature:
    """A feature placed on its axis, free to slide along it, or where it was measured to be."""
    keys = item.group
    axis = look_up(keys["axis"], axes, "axis")
    slide = _slide(keys, measures)
    centre = _centre(keys, axis, slide, measures)
    tolerance = measures.gap_in(item, "tolerance", measures.pick("1/16 in", "1 mm"))
    diameter = measures.size(keys["diameter"]) if "diameter" in keys else None
    ring = _outline(keys, axis, centre, diameter, measures)
    return Feature(keys["name"].text, axis.name, centre, ring, tolerance, diameter, slide)


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


def slid_by(feature: Feature, axis: Axis) -> Point:
    """How far a feature free to slide lies from its first place in its last, (0, 0) if held."""
    if feature.slide is None:
        return 0, 0
    x, y = along(axis.point, axis.direction, feature.slide.high)
    return x - feature.centre[0], y - feature.centre[1]


def _slide(keys: Mapping[str, Item], measures: Measures) -> Extent | None:
    """The range of a feature free to slide, None for one that is held."""
    item = keys.get("along")
    if item is None or isinstance(item.value, str):
        return None
    return Extent(*read_range(item, measures.length))


def _centre(
    keys: Mapping[str, Item], axis: Axis, slide: Extent | None, measures: Measures
) -> Point:
    """The centre, on the axis (at the low end if it slides) or as measured."""
    if "centre" in keys:
        return measures.point(keys["centre"])
    if slide is not None:
        return along(axis.point, axis.direction, slide.low)
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
