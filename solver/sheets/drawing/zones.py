"""Zones on a plan: their heavy outlines, their numbers and names, and direction marks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

import shapely
from shapely.geometry import Polygon

from models.floor.layout import Layout, ZoneLayout
from models.job.data import BondKind, Job, Marks
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box, Segment, box_round
from solver.sheets.drawing.labels import Label, around, place
from solver.sheets.drawing.page import Page, label_box
from solver.sheets.drawing.plan import Plan
from solver.sheets.drawing.view import Place

MARK = 13.0
"""The width of a direction mark on paper, in points."""

_GRID = 9

CLEAR = 5.0
"""How far a zone's name keeps from row numbers and the like, where there is room, in points."""


def shows_zones(layout: Layout) -> bool:
    """Whether there are several zones to be told apart."""
    return len(layout.zones) > 1


def numbered(zones: Sequence[ZoneLayout]) -> str:
    """The zones with their numbers, in words."""
    return "; ".join(f"{i} {zone.zone}" for i, zone in enumerate(zones, 1))


def outline_zones(plan: Plan, zones: Sequence[ZoneLayout]) -> None:
    """Draw the lines where zones meet, heavy and double."""
    names = {zone.zone for zone in zones}
    sides = [
        (plan.view.frame_point(zone.frame, start), plan.view.frame_point(zone.frame, end))
        for zone in zones
        for start, end, name in zone.sides
        if name in names
    ]
    plan.page.lines(sides, ink.ZONE)
    plan.page.lines(sides, ink.ZONE_CORE)
    plan.page.keep_off.extend(sides)


def on_page(plan: Plan, zone: ZoneLayout) -> Polygon:
    """A zone's outline on the page, in points."""
    outer, *holes = plan.view.frame_rings(zone.frame, [zone.outer, *zone.holes])
    return Polygon(outer, holes)


def name_zones(plan: Plan, zones: Sequence[ZoneLayout], size: float) -> None:
    """Letter every zone with its number and its name, or its number alone where that fits."""
    for i, zone in enumerate(zones, 1):
        shape = on_page(plan, zone)
        for text in (f"{i} {zone.zone}", str(i)):
            if _letter_inside(plan, shape, text, size):
                break
        else:
            box = Box(*shape.bounds)
            at = shape.representative_point()
            label = Label(str(i), size, ((at.x, at.y),) * 2, bold=True, backed=True, leader_from=4)
            place(plan.page, label, list(around(box, label)), plan.bounds)


def _letter_inside(plan: Plan, shape: Polygon, text: str, size: float) -> bool:
    """Write a text inside a shape, on cleared paper; whether there was a place."""
    for clear, strict in ((CLEAR, True), (0, True), (0, False)):
        for upright in (False, True):
            wide = label_box((0, 0), text, size, upright, bold=True)
            for middle in places_inside(shape, wide.width, wide.height):
                box = label_box(middle, text, size, upright, bold=True)
                if box.within(plan.bounds) and plan.page.is_free(box.grown(clear), strict):
                    plan.page.write_at(middle, text, size, upright, bold=True, backed=True)
                    return True
    return False


def places_inside(shape: Polygon, width: float, height: float) -> Iterator[Place]:
    """Middles of boxes of a size that lie inside a shape, those near its middle first."""
    left, bottom, right, top = shape.bounds
    if width > right - left or height > top - bottom:
        return
    middle = shape.representative_point()
    spare = (right - left - width, top - bottom - height)
    parts = [i / (_GRID - 1) for i in range(_GRID)]
    found = [(middle.x, middle.y)]
    found += [
        (left + width / 2 + spare[0] * a, bottom + height / 2 + spare[1] * b)
        for a in parts
        for b in parts
    ]
    centre = ((left + right) / 2, (bottom + top) / 2)
    found.sort(key=lambda at: (round(math.dist(at, centre), 3), at))
    shapely.prepare(shape)
    for at in found:
        if shape.contains(shapely.box(*box_round(at, width, height))):
            yield at


def marks_of(job: Job, zone: ZoneLayout) -> tuple[Place, ...]:
    """The ways the marks on the backs of a zone's units point, in its frame; none when free."""
    laying = zone.laying
    turned = laying.marks is Marks.QUARTER_TURNED
    if not turned and not job.product_of(laying).directional:
        return ()
    if turned or laying.bond.kind is BondKind.HERRINGBONE:
        return ((1, 0), (0, 1))
    return ((1, 0),)


def mark_directions(plan: Plan, zones: Iterable[ZoneLayout], several: bool) -> None:
    """Draw in each zone which way the marks of its units point, where there is room.

    A floor that is not of ``several`` zones is marked only where units lie both ways.
    """
    for zone in zones:
        ways = marks_of(plan.job, zone)
        if len(ways) < (1 if several else 2):
            continue
        shape = on_page(plan, zone)
        for size in (MARK, MARK * 0.7):
            box = next(
                (
                    found
                    for at in places_inside(shape, size, size)
                    if plan.page.is_free(found := box_round(at, size, size))
                ),
                None,
            )
            if box:
                draw_arrows(plan.page, box, [_on_paper(zone, way) for way in ways])
                break


def _on_paper(zone: ZoneLayout, way: Place) -> Place:
    """A way in a zone's frame as it runs on the page."""
    dx, dy = (part / math.hypot(*zone.frame.direction) for part in zone.frame.direction)
    return way[0] * dx - way[1] * dy, way[0] * dy + way[1] * dx


def draw_arrows(page: Page, box: Box, ways: Sequence[Place]) -> None:
    """Arrows the given ways on the page, in a white disc that fills a box."""
    reach = box.width / 2
    x, y = box.middle
    turns = [i * math.pi / 12 for i in range(24)]
    disc = [(x + reach * math.cos(turn), y + reach * math.sin(turn)) for turn in turns]
    page.fill([disc], ink.WHITE, zorder=4.3, name="direction mark")
    page.lines([[*disc, disc[0]]], ink.MARK_RING)
    for way in ways:
        page.lines(_arrow((x, y), way, reach * 0.78, both=len(ways) == 1), ink.MARK)
    page.written.append(box)


def _arrow(middle: Place, way: Place, reach: float, both: bool) -> list[Segment]:
    """An arrow through a middle, or from it when not ``both`` ways."""
    x, y = middle
    tail = (x - way[0] * reach, y - way[1] * reach) if both else middle
    tip = (x + way[0] * reach, y + way[1] * reach)
    barbs = []
    for turn in (2.6, -2.6):
        c, s = math.cos(turn), math.sin(turn)
        barb = (way[0] * c - way[1] * s, way[0] * s + way[1] * c)
        barbs.append((tip, (tip[0] + barb[0] * reach * 0.55, tip[1] + barb[1] * reach * 0.55)))
    return [(tail, tip), *barbs]
