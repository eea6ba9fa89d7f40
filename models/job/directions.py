"""The directions a zone's rows may run in."""

from __future__ import annotations

import math
from collections.abc import Mapping

from models.job.angles import between, is_parallel, rightward, vector
from models.job.data import Axis, Bond, BondKind, Direction, Point
from models.job.item import Item
from models.job.measures import read_degrees
from models.job.names import look_up
from models.job.room import Room, straight_wall

Found = tuple[tuple[Direction, ...], tuple[str, ...]]
"""Directions, and notes on what was assumed or left out."""


def read_directions(zone: Item, room: Room, axes: Mapping[str, Axis]) -> Found:
    """The directions a zone gives, each once; none when it gives none."""
    kept: list[Direction] = []
    notes = []
    for direction in (_direction(item, room, axes) for item in zone.list_of("directions")):
        same = next((k for k in kept if is_parallel(k.vector, direction.vector)), None)
        if same is None:
            kept.append(direction)
        else:
            notes.append(f"direction '{direction.label}' left out: it is that of '{same.label}'")
    return tuple(kept), tuple(notes)


def usual_direction(room: Room, bond: Bond) -> Found:
    """The field's direction when none is given: along the longest straight wall."""
    rows = "the herringbone lies" if bond.kind is BondKind.HERRINGBONE else "rows run"
    straight = [side for side in room.sides if not side.arc]
    if not straight:
        note = f"{rows} along the x axis: no direction was given, and every wall is an arc"
        return (Direction("at 0 degrees", (1, 0)),), (note,)
    side = max(straight, key=lambda side: math.dist(side.start, side.end))
    direction = Direction(f"along {side.name}", rightward(between(side.start, side.end)))
    return (direction,), (f"{rows} along '{side.name}', the longest wall: no direction was given",)


def line_of(item: Item, room: Room, axes: Mapping[str, Axis]) -> tuple[Point, Point]:
    """A point and the direction of the straight wall or axis a text names.

    A wall runs with the floor on its left, whichever way round the room was given.
    """
    if item.text in axes:
        return axes[item.text].point, axes[item.text].direction
    look_up(item, {**room.by_name, **axes}, "wall or axis")
    side = straight_wall(
        item, room, "nothing runs straight along it", "name a straight wall, or an axis"
    )
    start, end = (side.start, side.end) if room.counter_clockwise else (side.end, side.start)
    return start, between(start, end)


def label_of(item: Item) -> str:
    """A direction in the words it is given in."""
    along = item.find("along")
    return f"at {item.group['angle'].text} degrees" if along is None else f"along {along.text}"


def _direction(item: Item, room: Room, axes: Mapping[str, Axis]) -> Direction:
    """One direction, along a wall or an axis, or at an angle."""
    along = item.find("along")
    if along is not None:
        _, line = line_of(along, room, axes)
        return Direction(label_of(item), rightward(line))
    return Direction(label_of(item), vector(read_degrees(item.group["angle"])))
