"""Placing labels: several spots are tried, the first that is free is taken."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box, Segment
from solver.sheets.drawing.page import Page, label_box

Spot = tuple[tuple[float, float], bool]
"""The middle of a label on the page, and whether it reads upwards."""

SMALLEST_TYPE = 4.8


@dataclass(frozen=True, slots=True)
class Label:
    """A text, its type size, and the line or point it belongs to.

    A leader joins the two when they are more than ``leader_from`` points apart.
    """

    text: str
    size: float
    of: Segment
    bold: bool = False
    backed: bool = False
    leader_from: float = 11


def place(page: Page, label: Label, spots: Sequence[Spot], bounds: Box) -> Box | None:
    """Write a label at the first free spot inside the bounds; None when there is none.

    Spots off all lines come first, also in smaller type; then spots over lines.
    """
    smaller = max(SMALLEST_TYPE, label.size * 0.82)
    for strict, size in product((True, False), (label.size, smaller)):
        for middle, upright in spots:
            box = label_box(middle, label.text, size, upright, label.bold)
            if box.within(bounds) and page.is_free(box, strict):
                _leader(page, label, box)
                backed = label.backed or not strict
                return page.write_at(middle, label.text, size, upright, label.bold, backed)
    return None


def _leader(page: Page, label: Label, box: Box) -> None:
    """Join a label to its thing when the label stands off from it."""
    target = nearest(label.of, box.middle)
    x, y = target
    edge = (min(max(x, box.left), box.right), min(max(y, box.bottom), box.top))
    if math.dist(edge, target) > label.leader_from:
        page.lines([(edge, target)], ink.LEADER)


def nearest(line: Segment, point: tuple[float, float]) -> tuple[float, float]:
    """The point of a segment nearest to another point."""
    (x0, y0), (x1, y1) = line
    square = (x1 - x0) ** 2 + (y1 - y0) ** 2
    part = ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / square if square else 0
    part = min(max(part, 0), 1)
    return x0 + part * (x1 - x0), y0 + part * (y1 - y0)


def beside(
    line: Segment, label: Label, gaps: Iterable[float], parts: Iterable[float]
) -> Iterator[Spot]:
    """Spots beside a line on its right-hand side (left for a negative gap).

    ``gaps`` are distances from the line to the label's edge, ``parts`` places along it.
    Labels lie along upright and level lines, and level beside slanted ones.
    """
    (x0, y0), (x1, y1) = line
    size = math.dist(*line) or 1
    nx, ny = (y1 - y0) / size, (x0 - x1) / size
    uprights = (True, False) if abs(nx) > 0.98 else (False,)
    places = list(parts)
    for gap in gaps:
        for upright in uprights:
            box = label_box((0, 0), label.text, label.size, upright, label.bold)
            reach = (abs(nx) * box.width + abs(ny) * box.height) / 2
            off = math.copysign(abs(gap) + reach, gap)
            for part in places:
                x, y = x0 + part * (x1 - x0), y0 + part * (y1 - y0)
                yield (x + off * nx, y + off * ny), upright


def around(thing: Box, label: Label, gaps: Iterable[float] = (2, 8, 16, 26)) -> Iterator[Spot]:
    """Spots inside a box if the label fits, then about it, near ones first."""
    own = label_box((0, 0), label.text, label.size, False, label.bold)
    if own.width < thing.width - 2 and own.height < thing.height - 2:
        yield thing.middle, False
    x, y = thing.middle
    for gap in gaps:
        dx = (thing.width + own.width) / 2 + gap
        dy = (thing.height + own.height) / 2 + gap
        for a, b in ((0, 1), (0, -1), (1, 0), (-1, 0), (1, 1), (-1, 1), (1, -1), (-1, -1)):
            yield (x + a * dx, y + b * dy), False
