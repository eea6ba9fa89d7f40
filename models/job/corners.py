"""A list of corners as the file gives it, some of its sides arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from models.job.arcs import arc_corners, through
from models.job.data import Point
from models.job.item import Item
from models.job.measures import Measures


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner, its entry, and the corners of the arc from it to the next (none if straight)."""

    point: Point
    item: Item
    arc: tuple[Point, ...] = ()


def read_corners(item: Item, measures: Measures) -> tuple[Corner, ...]:
    """The corners in the order written, each with what lies between it and the next.

    Raises JobError for an arc without a corner on both sides or that is none.
    """
    entries = item.entries
    corners = [i for i, entry in enumerate(entries) if not _is_arc(entry)]
    if len(corners) < _FEWEST:
        raise item.error("has fewer than two corners", "write the corners an arc runs between")
    return tuple(
        Corner(measures.point(entries[i]), entries[i], _arc(entries, i, measures)) for i in corners
    )


def all_points(corners: Sequence[Corner]) -> tuple[Point, ...]:
    """Every corner of the outline, those of its arcs among them."""
    return tuple(point for corner in corners for point in (corner.point, *corner.arc))


_FEWEST = 2


def _is_arc(entry: Item) -> bool:
    return not isinstance(entry.value, str | tuple)


def _arc(entries: Sequence[Item], index: int, measures: Measures) -> tuple[Point, ...]:
    """The corners of the arc after a corner, none for a straight side."""
    arc, after = (entries[(index + step) % len(entries)] for step in (1, 2))
    if not _is_arc(arc):
        return ()
    if _is_arc(after):
        raise after.error("is an arc after an arc", "write the corner where the two meet")
    start, end = measures.point(entries[index]), measures.point(after)
    middle = measures.point(arc.group["arc_through"])
    if start == end:
        raise arc.error("begins and ends at one corner", "write two arcs for a full circle")
    half_angle = through(start, middle, end)
    if half_angle == 0 or abs(half_angle) == math.pi:
        raise arc.error(
            "is in line with the corners beside it", "leave it out, or write a point off that line"
        )
    return arc_corners(start, end, half_angle)
