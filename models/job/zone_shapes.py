"""The shapes a zone can have, each as its own key gives it."""

from __future__ import annotations

from models.job.data import Band, Border, Fill, Outline, Product, Rest, Shape
from models.job.directions import line_of
from models.job.extents import read_width
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.premises import Premises
from models.job.shapes import outline


def read_shape(
    zone: Item, premises: Premises, product: Product, measures: Measures
) -> tuple[Shape, tuple[str, ...]]:
    """A zone's shape, mirrors aside, and notes on what was assumed."""
    keys = zone.group
    if "corners" in keys:
        return Outline(outline(keys["corners"], measures)), ()
    if "border" in keys:
        return _border(keys["border"], premises, product, measures)
    if "band" in keys:
        return _band(keys["band"], premises, measures), ()
    if "fill" in keys:
        return Fill(look_up(keys["fill"], premises.features, "feature").name), ()
    return Rest(measures.point(keys["part_at"])), ()


def _border(
    item: Item, premises: Premises, product: Product, measures: Measures
) -> tuple[Border, tuple[str, ...]]:
    """A border along walls or round a feature; corners are butted when nothing is said."""
    keys = item.group
    width = read_width(keys["width"], product, measures)
    mitred = "corners" in keys and keys["corners"].text == "mitred"
    notes = () if "corners" in keys else ("corners are butted, the longer side running through",)
    if "round" in keys:
        feature = look_up(keys["round"], premises.features, "feature")
        cornered = feature.round_diameter is None
        return Border(width, feature=feature.name, mitred=mitred), notes if cornered else ()
    walls = _walls(item, premises)
    return Border(width, walls, mitred=mitred), notes if len(walls) > 1 else ()


def _walls(item: Item, premises: Premises) -> tuple[str, ...]:
    """The names of the walls a border runs along, in the order of the room's walls."""
    names = dict.fromkeys(wall.name for wall in premises.room.walls)
    along = item.find("along")
    if along is None or isinstance(along.value, str):
        return tuple(names)
    asked = {look_up(entry, premises.room.by_name, "wall").name for entry in along.entries}
    return tuple(name for name in names if name in asked)


def _band(item: Item, premises: Premises, measures: Measures) -> Band:
    """A band along a wall or an axis."""
    keys = item.group
    along = keys["along"]
    point, direction = line_of(along, premises.room, premises.axes)
    width = measures.size(keys["width"])
    near = 0
    if along.text in premises.axes:
        near = measures.length(keys["from"]) if "from" in keys else -(width // 2)
    elif "from" in keys:
        near = measures.gap(keys["from"])
    return Band(point, direction, near, near + width)
