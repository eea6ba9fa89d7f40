"""Columns, doors and axes: what stands in the room besides its walls."""

from __future__ import annotations

import math
from collections.abc import Mapping

from models.job.angles import along, between, turned_left
from models.job.data import Axis, Column, Door, Point
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.room import Room, Side, straight_wall
from models.job.shapes import circle, outline, rectangle


def read_column(item: Item, measures: Measures) -> Column:
    """A column by corners, by its lower left corner and size, or round."""
    keys = item.group
    name = keys["name"].text
    if "corners" in keys:
        return Column(name, outline(keys["corners"], measures))
    if "diameter" in keys:
        centre = measures.point(keys["centre"])
        return Column(name, circle(centre, (1, 0), measures.size(keys["diameter"])))
    x, y = measures.point(keys["corner"])
    width, height = measures.sides(keys["size"])
    return Column(name, rectangle((x, y), (1, 0), (0, width), (0, height)))


def read_door(item: Item, room: Room, measures: Measures) -> Door:
    """A door opening, which must fit on its wall."""
    keys = item.group
    side = straight_wall(
        keys["wall"], room, "a door needs a straight one", "put it in a straight wall"
    )
    near = measures.gap(keys["from_start"])
    far = near + measures.size(keys["width"])
    length = math.dist(side.start, side.end)
    if far > length + 1:
        raise item.error(
            f"ends {measures.show(far)} along wall '{side.name}', which is "
            f"{measures.show(round(length))} long",
            "check 'from_start' and 'width'",
        )
    direction = between(side.start, side.end)
    jambs = along(side.start, direction, near), along(side.start, direction, far)
    return Door(keys["name"].text, side.name, jambs)


def read_axis(item: Item, room: Room, doors: Mapping[str, Door], measures: Measures) -> Axis:
    """An axis through two points, square to a wall, or midway between two jambs."""
    keys = item.group
    name = keys["name"].text
    if "square_to" in keys:
        side = straight_wall(
            keys["square_to"],
            room,
            "square to it is another way at every point",
            "give the axis 'through' two points",
        )
        return Axis(name, _foot(keys, side, measures), _into(room, side))
    if "through" in keys:
        first, second = _two_points(keys["through"], measures)
        return Axis(name, first, between(first, second))
    jambs = keys["between"]
    if isinstance(jambs.value, str):
        door = look_up(jambs, doors, "door")
        return Axis(name, _middle(*door.jambs), _into(room, room.by_name[door.wall]))
    first, second = _two_points(jambs, measures)
    return Axis(name, _middle(first, second), turned_left(between(first, second)))


def _foot(keys: Mapping[str, Item], side: Side, measures: Measures) -> Point:
    """The point an axis square to a wall goes through."""
    if "through" in keys:
        through = keys["through"]
        if not _is_point(through):
            raise through.error("is two points", "write one point [x, y] beside 'square_to'")
        return measures.point(through)
    distance = measures.length(keys["at"])
    length = math.dist(side.start, side.end)
    if not 0 <= distance <= length + 1:
        raise keys["at"].error(
            f"is not on wall '{side.name}', which is {measures.show(round(length))} long",
            "write a distance from the wall's start",
        )
    return along(side.start, between(side.start, side.end), distance)


def _into(room: Room, side: Side) -> Point:
    """The direction square to a wall, into the room."""
    left = turned_left(between(side.start, side.end))
    return left if room.counter_clockwise else (-left[0], -left[1])


def _two_points(item: Item, measures: Measures) -> tuple[Point, Point]:
    """Two different points."""
    if _is_point(item):
        raise item.error("is one point", "write two points [[x, y], [x, y]]")
    first, second = measures.points(item)
    if first == second:
        raise item.error("the two points are the same", "write two different points")
    return first, second


def _is_point(item: Item) -> bool:
    """Whether a list of two is a point [x, y] rather than two points."""
    return all(isinstance(entry.value, str) for entry in item.entries)


def _middle(first: Point, second: Point) -> Point:
    """The point midway, to the nearest tick."""
    return (first[0] + second[0]) // 2, (first[1] + second[1]) // 2
