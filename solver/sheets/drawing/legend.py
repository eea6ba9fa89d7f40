"""The legend: samples of the tones, marks and lines in use, and the scale bar."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from models.job.data import Job, Product, Sight
from models.lengths import TICKS_PER_FOOT, TICKS_PER_MM, System, show
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.cuts import CutKind
from solver.sheets.drawing.ink import Stroke, Tone
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.plan import WALL_STROKES, draw_warning
from solver.sheets.drawing.view import View
from solver.sheets.drawing.zones import draw_arrows

SIZE = 7
SAMPLE = 22
WARNING_WORDS = "sliver, or cut that breaks a must"

_BAR_LENGTHS = {
    System.IMPERIAL: [n * TICKS_PER_FOOT for n in (1, 2, 3, 4, 5, 10, 15, 20, 30, 50, 100)],
    System.METRIC: [
        n * TICKS_PER_MM for n in (100, 200, 500, 1000, 2000, 3000, 5000, 10000, 20000, 50000)
    ],
}


def piece_legend(page: Page, x: float, y: float, kinds: Iterable[CutKind], marked: bool) -> float:
    """Samples of the kinds of pieces in one line from x; returns where it ends."""
    for kind in kinds:
        x = _sample(page, x, y, ink.TONES[kind], kind.value)
    if marked:
        draw_warning(page, np.array([x + 6]), np.array([y + 2.8]))
        x = page.write(x + 15, y, WARNING_WORDS, SIZE).right + 12
    return x


def _sample(page: Page, x: float, y: float, tone: Tone, name: str) -> float:
    """A sample of a tone with its name; returns where the next may start."""
    box = [(x, y - 2), (x + SAMPLE, y - 2), (x + SAMPLE, y + 8), (x, y + 8)]
    page.fill([box], tone.fill, tone.hatch, ink.HATCH_INK)
    page.lines([[*box, box[0]]], ink.JOINT)
    return page.write(x + SAMPLE + 4, y, name, SIZE).right + 12


def product_legend(page: Page, x: float, y: float, products: Sequence[Product], job: Job) -> float:
    """Samples of whole units of each product in one line from x; returns where it ends."""
    for product in products:
        tone = ink.PRODUCT_TONES[job.products.index(product) % len(ink.PRODUCT_TONES)]
        x = _sample(page, x, y, tone, f"whole {product.name}")
    return x


def mark_legend(page: Page, x: float, y: float, marked: bool, turned: bool) -> float:
    """A sample of the direction mark in one line from x; returns where it ends."""
    if marked:
        draw_arrows(page, Box(x, y - 3, x + 12, y + 9), [(1.0, 0.0)])
        x = page.write(x + 16, y, "way the marks on the backs point", SIZE).right + 12
    if turned:
        draw_arrows(page, Box(x, y - 3, x + 12, y + 9), [(1.0, 0.0), (0.0, 1.0)])
        x = page.write(x + 16, y, "marks of neighbours a quarter turn apart", SIZE).right + 12
    return x


def line_legend(page: Page, x: float, y: float, job: Job, extra: Iterable[Stroke] = ()) -> float:
    """Samples of the lines in use in one line from x; returns where it ends."""
    sights = {wall.sight for wall in job.walls}
    strokes = [ink.START, ink.CROSS, *([ink.AXIS] if job.axes else []), *extra]
    strokes += [WALL_STROKES[sight] for sight in Sight if sight in sights]
    for stroke in strokes:
        sample = [((x, y + 2.5), (x + SAMPLE + 6, y + 2.5))]
        page.lines(sample, stroke)
        if stroke is ink.ZONE:
            page.lines(sample, ink.ZONE_CORE)
        x = page.write(x + SAMPLE + 10, y, stroke.name, SIZE).right + 12
    return x


def scale_bar(page: Page, right: float, y: float, job: Job, view: View, reach: float) -> None:
    """A bar of a round length, and the scale when printed full size, ending at ``right``."""
    lengths = _BAR_LENGTHS[job.system]
    ticks = max((n for n in lengths if n * view.scale <= reach), default=lengths[0])
    long = ticks * view.scale
    words = f"{show(ticks, job.system)}   scale {view.words} printed full size"
    box = page.write(right, y, words, SIZE, "right")
    left = box.left - 6 - long
    ends = [((x, y - 0.5), (x, y + 5.5)) for x in (left, left + long / 2, left + long)]
    page.lines([((left, y + 2.5), (left + long, y + 2.5)), *ends], ink.EDGE)
