"""What stands in the room must fit in it, apart from each other, and leave one floor.

Shapely works in ticks here: whole numbers, so touching is exact along square walls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import MultiPolygon, Polygon

from models.job.data import Product, Ring
from models.job.item import Item
from models.lengths import TICKS_PER_MM

TOUCH = TICKS_PER_MM / 50
"""0.02 mm in ticks: shapes nearer than this touch, thinner slips are rounding."""

MOST_CORNERS = 2000
MOST_UNITS = 200_000


@dataclass(frozen=True, slots=True)
class Placed:
    """Something standing in the room: the words for it, its outline and its entry."""

    words: str
    outline: Ring
    item: Item


def check_plan(
    room: Ring, room_item: Item, columns: Sequence[Placed], features: Sequence[Placed]
) -> None:
    """Refuse columns and features that do not fit, overlap or split the floor.

    Raises JobError about the first that does, columns first.
    """
    whole = Polygon(room)
    for column in columns:
        _check_width(column, whole)
    placed = (*columns, *features)
    total = len(room) + sum(len(thing.outline) for thing in placed)
    if total > MOST_CORNERS:
        raise room_item.error(
            f"the plan has {total} corners, over {MOST_CORNERS}", "leave out what no cut follows"
        )
    for i, thing in enumerate(placed):
        _check_inside(thing, whole)
        for other in placed[:i]:
            _check_apart(thing, other)
    _check_one_floor(whole, placed)


def check_amount(room: Ring, room_item: Item, product: Product) -> None:
    """Refuse a floor of absurdly many units: a slip in a unit of measure."""
    length, width = product.pitch
    units = Polygon(room).area / (length * width)
    if units > MOST_UNITS:
        raise room_item.error(
            f"takes about {units:.0f} units of '{product.name}', over {MOST_UNITS}",
            "check the units of measure of the room and the product",
        )


def _check_width(column: Placed, room: Polygon) -> None:
    """Refuse a column wider than the room, with a clearer word than 'outside'."""
    left, low, right, high = room.bounds
    x0, y0, x1, y1 = Polygon(column.outline).bounds
    if x1 - x0 > right - left + TOUCH or y1 - y0 > high - low + TOUCH:
        raise column.item.error("is wider than the room", "check its size and units")


def _check_inside(thing: Placed, room: Polygon) -> None:
    """Refuse a shape that reaches outside the room."""
    shape = Polygon(thing.outline)
    if room.buffer(TOUCH, join_style="mitre").covers(shape):
        return
    where = "reaches outside" if _solid(room.intersection(shape)) else "is outside"
    raise thing.item.error(f"{where} the room", "check its place, its size and their units")


def _check_apart(thing: Placed, other: Placed) -> None:
    """Refuse two shapes on one spot; touching is fine."""
    if _solid(Polygon(thing.outline).intersection(Polygon(other.outline))):
        raise thing.item.error(f"overlaps {other.words}", "move one of them, or make it smaller")


def _check_one_floor(room: Polygon, placed: Sequence[Placed]) -> None:
    """Refuse the shape that splits the floor in parts, or leaves none."""
    floor: Polygon | MultiPolygon = room
    for thing in placed:
        left = floor.difference(Polygon(thing.outline))
        parts = [part for part in getattr(left, "geoms", [left]) if _solid(part)]
        if not parts:
            raise thing.item.error("covers the whole floor", "check its size and units")
        if len(parts) > 1:
            raise thing.item.error(
                f"splits the floor into {len(parts)} parts", "write a job for each part"
            )
        floor = parts[0]


def _solid(shape: object) -> bool:
    """Whether a shape is more than a touch or a slip of rounding."""
    buffer = getattr(shape, "buffer")  # noqa: B009 - every shapely geometry has it
    return not buffer(-TOUCH / 2).is_empty
