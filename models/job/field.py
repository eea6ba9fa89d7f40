"""The field: product, bond and the directions its rows may run in."""

from __future__ import annotations

import math
from collections.abc import Mapping

from models.job.angles import between, is_parallel, rightward, vector
from models.job.data import Axis, Bond, BondKind, Direction, Point, Product
from models.job.item import Item
from models.job.measures import read_degrees, read_fraction
from models.job.names import look_up
from models.job.room import Room


def read_product_of(field: Item, products: Mapping[str, Product]) -> Product:
    """The product the field is laid in; the only one when none is named."""
    item = field.find("product")
    if item is not None:
        return look_up(item, products, "product")
    if len(products) > 1:
        raise field.error("does not say which product is laid", f"add 'product: {min(products)}'")
    return next(iter(products.values()))


def read_bond(item: Item) -> Bond:
    """Staggered, straight, or stepped by a fraction of the unit."""
    if isinstance(item.value, str):
        return Bond(BondKind(item.text))
    stepped = item.group["stepped"]
    step = read_fraction(stepped)
    if not 0 < step < 1:
        raise stepped.error(
            f"{step} is not between 0 and 1", "write a fraction such as 1/3, or 'bond: straight'"
        )
    return Bond(BondKind.STEPPED, step)


def read_directions(
    field: Item, room: Room, axes: Mapping[str, Axis]
) -> tuple[tuple[Direction, ...], tuple[str, ...]]:
    """The directions rows may run in, each once, and notes on what was assumed or left out."""
    items = field.list_of("directions")
    if not items:
        return _longest_wall(room)
    lines = {name: between(side.start, side.end) for name, side in room.by_name.items()}
    lines |= {name: axis.direction for name, axis in axes.items()}
    kept: list[Direction] = []
    notes = []
    for direction in (_direction(item, lines) for item in items):
        same = next((k for k in kept if is_parallel(k.vector, direction.vector)), None)
        if same is None:
            kept.append(direction)
        else:
            notes.append(f"direction '{direction.label}' left out: it is that of '{same.label}'")
    return tuple(kept), tuple(notes)


def _direction(item: Item, lines: Mapping[str, Point]) -> Direction:
    """One direction, along a wall or an axis, or at an angle."""
    along = item.find("along")
    if along is not None:
        line = look_up(along, lines, "wall or axis")
        return Direction(f"along {along.text}", rightward(line))
    angle = item.group["angle"]
    return Direction(f"at {angle.text} degrees", vector(read_degrees(angle)))


def _longest_wall(room: Room) -> tuple[tuple[Direction, ...], tuple[str, ...]]:
    """The default direction: along the longest wall, the first of equals."""
    side = max(room.sides, key=lambda side: math.dist(side.start, side.end))
    direction = Direction(f"along {side.name}", rightward(between(side.start, side.end)))
    note = f"rows run along '{side.name}', the longest wall: no direction was given"
    return (direction,), (note,)
