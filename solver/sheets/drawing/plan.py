"""The plan of a room: pieces, walls, columns, doors, axes, features and chalk lines."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import shapely
from matplotlib.collections import PolyCollection
from shapely.geometry import LineString, Polygon

from models.floor.layout import Piece, ZoneLayout
from models.job.data import Axis, Door, Fill, Job, Ring, Sight
from solver.sheets.chalk import Chalk
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box, Segment
from solver.sheets.drawing.cuts import CutKind, kind_of
from solver.sheets.drawing.ink import Tone
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.view import Place, View, bounds

SMALLEST_HATCHED, SMALLEST_OUTLINED = 2.6, 0.9
"""Rows thinner than this on paper, in points, get no hatch and no outline."""

WALL_STROKES = {
    Sight.PLAIN: ink.WALL,
    Sight.PROMINENT: ink.PROMINENT,
    Sight.HIDDEN: ink.HIDDEN,
}


@dataclass(frozen=True, slots=True)
class Plan:
    """A room on a page: where it is drawn, and the box its labels may not leave."""

    page: Page
    view: View
    job: Job
    bounds: Box

    @property
    def room_box(self) -> Box:
        """The room's extent on the page."""
        return self.box_of(self.job.room)

    def box_of(self, ring: Ring) -> Box:
        """The extent on the page of a ring of job points."""
        box = bounds(ring)
        return Box(*self.view.at((box.left, box.bottom)), *self.view.at((box.right, box.top)))


def draw_pieces(plan: Plan, zone: ZoneLayout, tones: Mapping[CutKind, Tone]) -> None:
    """Draw a zone's pieces: one filled shape for each kind, all outlines in one collection."""
    row = _row_height(plan, zone)
    outlines = plan.view.frame_rings(zone.frame, [piece.outline for piece in zone.pieces])
    for kind in CutKind:
        rings = [o for o, p in zip(outlines, zone.pieces, strict=True) if kind_of(p) is kind]
        holes = [hole for p in zone.pieces if kind_of(p) is kind for hole in p.holes]
        rings += [hole[::-1] for hole in plan.view.frame_rings(zone.frame, holes)]
        tone = _tone(plan.job, zone, kind, tones)
        hatch = tone.hatch if row >= SMALLEST_HATCHED else ""
        plan.page.fill(rings, tone.fill, hatch, ink.HATCH_INK, name=kind.value)
    if row >= SMALLEST_OUTLINED:
        plan.page.add(
            PolyCollection(
                outlines,
                facecolors="none",
                edgecolors=ink.JOINT.ink,
                linewidths=min(ink.JOINT.width, row * 0.06),
                zorder=ink.JOINT.layer,
                label=ink.JOINT.name,
            )
        )


def _tone(job: Job, zone: ZoneLayout, kind: CutKind, tones: Mapping[CutKind, Tone]) -> Tone:
    """A kind's tone; where cuts are judged whole units have that of their product."""
    if kind is not CutKind.WHOLE or tones is not ink.TONES:
        return tones[kind]
    place = job.products.index(job.product_of(zone.laying))
    return ink.PRODUCT_TONES[place % len(ink.PRODUCT_TONES)]


def _row_height(plan: Plan, zone: ZoneLayout) -> float:
    """The height of one row on paper, in points."""
    product = plan.job.product_of(zone.laying)
    return product.pitch[1] * plan.view.scale


def draw_marks(plan: Plan, zone: ZoneLayout, pieces: tuple[Piece, ...]) -> None:
    """Put the warning mark on slivers and on pieces that break a `must` rule."""
    rings = plan.view.frame_rings(zone.frame, [piece.outline for piece in pieces])
    if rings:
        middles = np.array([(ring.min(axis=0) + ring.max(axis=0)) / 2 for ring in rings])
        draw_warning(plan.page, middles[:, 0], middles[:, 1])


def draw_warning(page: Page, xs: np.ndarray, ys: np.ndarray) -> None:
    """The warning mark: a cross in a white disc."""
    page.axes.scatter(
        xs, ys, s=34, marker="o", facecolors=ink.WHITE, edgecolors=ink.BLACK, linewidths=0.9,
        zorder=4.5, label="sliver",
    )  # fmt: skip
    page.axes.scatter(xs, ys, s=13, marker="x", c=ink.BLACK, linewidths=1.3, zorder=4.6)


def draw_room(plan: Plan) -> None:
    """Draw walls, doors, columns, features and axes, without their names."""
    page, view, job = plan.page, plan.view, plan.job
    filled = {zone.shape.feature for zone in job.zones if isinstance(zone.shape, Fill)}
    for wall in job.walls:
        segment = (view.at(wall.start), view.at(wall.end))
        page.lines([segment], WALL_STROKES[wall.sight])
        page.keep_off.append(segment)
    for column in job.columns:
        ring = view.ring(column.outline)
        page.fill([ring], ink.SOFT, zorder=3.1, name="column")
        _outline(page, ring)
        if len(ring) == 4:
            page.lines([(ring[0], ring[2]), (ring[1], ring[3])], ink.DOOR)
    for feature in job.features:
        ring = view.ring(feature.outline)
        if feature.name not in filled:
            page.fill([ring], ink.WHITE, zorder=3.1, name="feature")
        _outline(page, ring)
    for door in job.doors:
        _draw_door(plan, door)
    for axis in job.axes:
        segment = axis_segment(plan, axis)
        page.lines([segment], ink.AXIS)
        page.keep_off.append(segment)


def _outline(page: Page, ring: list[Place]) -> None:
    sides = list(zip(ring, ring[1:] + ring[:1], strict=True))
    page.lines([[*ring, ring[0]]], ink.EDGE)
    if len(ring) <= 12:
        page.keep_off.extend(sides)


def _draw_door(plan: Plan, door: Door) -> None:
    """An opening in the wall, with a tick at each jamb."""
    (ax, ay), (bx, by) = opening = plan.view.at(door.jambs[0]), plan.view.at(door.jambs[1])
    size = math.dist(*opening) or 1
    nx, ny = (by - ay) / size * 2.6, (ax - bx) / size * 2.6
    plan.page.lines([opening], ink.GAP)
    ticks = [((x - nx, y - ny), (x + nx, y + ny)) for x, y in opening]
    plan.page.lines([opening, *ticks], ink.DOOR)


def axis_segment(plan: Plan, axis: Axis) -> Segment:
    """An axis across the room and a little beyond it on both sides."""
    x, y = plan.view.at(axis.point)
    dx, dy = axis.direction
    size = math.hypot(dx, dy)
    step_x, step_y = dx / size, dy / size
    box = plan.room_box.grown(9)
    ends = [
        sorted(((least - at) / step, (most - at) / step))
        for at, step, least, most in (
            (x, step_x, box.left, box.right),
            (y, step_y, box.bottom, box.top),
        )
        if abs(step) > 1e-9
    ]
    low, high = max(end[0] for end in ends), min(end[1] for end in ends)
    return (x + low * step_x, y + low * step_y), (x + high * step_x, y + high * step_y)


def draw_chalk(
    plan: Plan, lines: Chalk, inside: Polygon | None = None
) -> tuple[list[Segment], list[Segment]]:
    """Draw the start line and the cross line; return their stretches on the page.

    Only what lies ``inside`` a shape on the page is drawn, when one is given.
    """
    view = plan.view
    start, cross = (
        [
            (
                view.frame_point(lines.frame, part.start.point),
                view.frame_point(lines.frame, part.end.point),
            )
            for part in line
        ]
        for line in (lines.start, lines.cross)
    )
    if inside is not None:
        start, cross = _within(start, inside), _within(cross, inside)
    plan.page.lines(start + cross, ink.CASING)
    plan.page.lines(cross, ink.CROSS)
    plan.page.lines(start, ink.START)
    plan.page.keep_off.extend(start + cross)
    return start, cross


def _within(segments: list[Segment], shape: Polygon) -> list[Segment]:
    """What of some segments lies inside a shape."""
    found = []
    for segment in segments:
        for part in shapely.get_parts(LineString(segment).intersection(shape)):
            if isinstance(part, LineString) and part.length > 1:
                (x, y), *_, (a, b) = part.coords
                found.append(((x, y), (a, b)))
    return found
