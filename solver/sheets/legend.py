"""The legend: samples of the tones, marks and lines in use, and the scale bar."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from models.job.data import Job, Sight
from models.lengths import TICKS_PER_FOOT, TICKS_PER_MM, System, show
from solver.sheets import ink
from solver.sheets.cuts import CutKind
from solver.sheets.ink import Stroke
from solver.sheets.page import Page
from solver.sheets.plan import WALL_STROKES, draw_warning
from solver.sheets.view import View

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
        box = [(x, y - 2), (x + SAMPLE, y - 2), (x + SAMPLE, y + 8), (x, y + 8)]
        tone = ink.TONES[kind]
        page.fill([box], tone.fill, tone.hatch, ink.HATCH_INK)
        page.lines([[*box, box[0]]], ink.JOINT)
        x = page.write(x + SAMPLE + 4, y, kind.value, SIZE).right + 12
    if marked:
        draw_warning(page, np.array([x + 6]), np.array([y + 2.8]))
        x = page.write(x + 15, y, WARNING_WORDS, SIZE).right + 12
    return x


def line_legend(page: Page, x: float, y: float, job: Job, extra: Iterable[Stroke] = ()) -> float:
    """Samples of the lines in use in one line from x; returns where it ends."""
    sights = {wall.sight for wall in job.walls}
    strokes = [ink.START, ink.CROSS, *([ink.AXIS] if job.axes else []), *extra]
    strokes += [WALL_STROKES[sight] for sight in Sight if sight in sights]
    for stroke in strokes:
        page.lines([((x, y + 2.5), (x + SAMPLE + 6, y + 2.5))], stroke)
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
