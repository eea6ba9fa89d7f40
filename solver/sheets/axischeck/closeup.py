"""A close-up of a held feature: its axis, the pieces round it and the cuts beside it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from models.floor.layout import ZoneLayout
from models.job.data import Feature
from models.lengths import show
from solver.sheets.axischeck.beside import SideCut, ZonesBeside
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box, Segment
from solver.sheets.drawing.labels import Label, beside, place
from solver.sheets.drawing.page import label_box
from solver.sheets.drawing.plan import Plan, draw_pieces, draw_room
from solver.sheets.drawing.view import Place
from solver.sheets.drawing.zones import outline_zones

SIZE = 6.8


def draw_close_up(
    plan: Plan, zones: Sequence[ZoneLayout], feature: Feature, cuts: ZonesBeside
) -> None:
    """Draw what lies in the plan's bounds, with a dimension across every cut at the feature."""
    page, window = plan.page, plan.bounds
    with page.clipped(window):
        for zone in zones:
            draw_pieces(plan, _near_pieces(plan, zone), ink.TONES)
        draw_room(plan)
        outline_zones(plan, zones)
        box = plan.box_of(feature.outline)
        page.keep_off += _sides(box)
        middle = plan.view.at(feature.centre)
        page.lines(_cross(middle, 4), ink.POINT)
    page.lines(_sides(window), ink.FRAME)
    words = (feature.name, f"on {feature.axis}")
    for i, text in enumerate(words):
        label = Label(text, SIZE, (middle, middle), bold=i == 0, backed=True, leader_from=99)
        line = ((box.left, middle[1]), (box.right, middle[1]))
        spots = beside(line, label, (3, -3, 10, -10, 18, -18), (0.5, 0.25, 0.75))
        place(page, label, list(spots), window)
    for zone, sides in cuts:
        for side in sides:
            for cut in side.cuts:
                _dimension(plan, zone, cut)


def _near_pieces(plan: Plan, zone: ZoneLayout) -> ZoneLayout:
    """The zone with only the pieces that reach into the plan's bounds."""
    rings = plan.view.frame_rings(zone.frame, [piece.outline for piece in zone.pieces])
    boxes = [Box(*ring.min(axis=0), *ring.max(axis=0)) for ring in rings]
    kept = tuple(
        piece for piece, box in zip(zone.pieces, boxes, strict=True) if box.overlaps(plan.bounds)
    )
    return replace(zone, pieces=kept)


def _dimension(plan: Plan, zone: ZoneLayout, cut: SideCut) -> None:
    """A dimension across one cut, cut off at the edge of the close-up, with its size."""
    near, far = (
        plan.view.frame_point(zone.frame, cut.near),
        plan.view.frame_point(zone.frame, cut.far),
    )
    line = (near, _kept_inside(near, far, plan.bounds.grown(-3)))
    with plan.page.clipped(plan.bounds):
        plan.page.lines([line], ink.DIMENSION)
        plan.page.lines(_cross(near, 2) + _cross(far, 2), ink.DIMENSION)
    label = Label(show(cut.size, plan.job.system), SIZE, line, backed=True)
    middle = ((line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2)
    level = [(middle, False)]
    along = [(middle, True)] if abs(line[1][1] - line[0][1]) > math.dist(*line) * 0.98 else []
    long = math.dist(*line) > label_box(middle, label.text, SIZE, upright=True).height + 6
    spots = along + level if long else level
    spots += beside(line, label, (1.5, -1.5, 6, -6), (0.5, 0.25, 0.75))
    place(plan.page, label, spots, plan.bounds)


def _kept_inside(near: Place, far: Place, box: Box) -> Place:
    """The far end, or where the line leaves a box that the near end is in."""
    part = 1.0
    for a, b, least, most in (
        (near[0], far[0], box.left, box.right),
        (near[1], far[1], box.bottom, box.top),
    ):
        if b < least < a or a < least < b:
            part = min(part, (least - a) / (b - a))
        if b > most > a or a > most > b:
            part = min(part, (most - a) / (b - a))
    return near[0] + part * (far[0] - near[0]), near[1] + part * (far[1] - near[1])


def _cross(middle: Place, reach: float) -> list[Segment]:
    x, y = middle
    return [((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach))]


def _sides(box: Box) -> list[Segment]:
    """The four sides of a box."""
    corners = [
        (box.left, box.bottom),
        (box.right, box.bottom),
        (box.right, box.top),
        (box.left, box.top),
    ]
    return list(zip(corners, corners[1:] + corners[:1], strict=True))
