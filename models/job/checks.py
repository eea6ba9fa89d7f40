"""What stands in the room must fit in it, apart from each other.

Shapely works in ticks here: whole numbers, so touching is exact along square walls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from models.job.data import Point, Ring
from models.job.item import Item
from models.job.rings import edges
from models.lengths import TICKS_PER_MM

TOUCH = TICKS_PER_MM / 50
"""0.02 mm in ticks: shapes nearer than this touch, thinner slips are rounding."""

MOST_CORNERS = 2000


@dataclass(frozen=True, slots=True)
class Placed:
    """Something standing in the room: the words for it, its outline and its entry.

    ``slid_by`` is how far it may be moved: all the way there must be clear.
    """

    words: str
    outline: Ring
    item: Item
    slid_by: Point = (0, 0)

    @property
    def shape(self) -> BaseGeometry:
        """Its outline, or all the floor its outline passes over."""
        shape = Polygon(self.outline)
        if self.slid_by == (0, 0):
            return shape
        moved = [_moved(side, self.slid_by) for side in edges(self.outline)]
        passed = [
            Polygon((a, b, d, c)).buffer(0)
            for (a, b), (c, d) in zip(edges(self.outline), moved, strict=True)
        ]
        return unary_union([shape, *passed])


def check_plan(
    room: Ring,
    room_item: Item,
    columns: Sequence[Placed],
    features: Sequence[Placed],
    *,
    whole: bool = True,
) -> None:
    """Refuse columns and features that do not fit, overlap or split the floor.

    Without ``whole`` they may split it: zones take the parts. Raises JobError about the
    first that does not fit, columns first.
    """
    inside = Polygon(room)
    for column in columns:
        _check_width(column, inside)
    placed = (*columns, *features)
    total = len(room) + sum(len(thing.outline) for thing in placed)
    if total > MOST_CORNERS:
        raise room_item.error(
            f"the plan has {total} corners, over {MOST_CORNERS}", "leave out what no cut follows"
        )
    for i, thing in enumerate(placed):
        _check_inside(thing, inside)
        for other in placed[:i]:
            _check_apart(thing, other)
    if whole:
        _check_one_floor(inside, placed)


def _moved(side: tuple[Point, Point], by: Point) -> tuple[Point, Point]:
    """A side moved."""
    (ax, ay), (bx, by_) = side
    return (ax + by[0], ay + by[1]), (bx + by[0], by_ + by[1])


def _check_width(column: Placed, room: Polygon) -> None:
    """Refuse a column wider than the room, with a clearer word than 'outside'."""
    left, low, right, high = room.bounds
    x0, y0, x1, y1 = Polygon(column.outline).bounds
    if x1 - x0 > right - left + TOUCH or y1 - y0 > high - low + TOUCH:
        raise column.item.error("is wider than the room", "check its size and units")


def _check_inside(thing: Placed, room: Polygon) -> None:
    """Refuse a shape that reaches outside the room."""
    shape = thing.shape
    if room.buffer(TOUCH, join_style="mitre").covers(shape):
        return
    where = "reaches outside" if _solid(room.intersection(shape)) else "is outside"
    raise thing.item.error(f"{where} the room", "check its place, its size and their units")


def _check_apart(thing: Placed, other: Placed) -> None:
    """Refuse two shapes on one spot; touching is fine."""
    if _solid(thing.shape.intersection(other.shape)):
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
                f"splits the floor into {len(parts)} parts",
                "write a job for each part, or give a part a zone of its own",
            )
        floor = parts[0]


def _solid(shape: object) -> bool:
    """Whether a shape is more than a touch or a slip of rounding."""
    buffer = getattr(shape, "buffer")  # noqa: B009 - every shapely geometry has it
    return not buffer(-TOUCH / 2).is_empty
