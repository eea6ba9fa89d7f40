"""The chart beside the table: what is bought, set against the floor, and what it costs."""

from __future__ import annotations

from dataclasses import dataclass

from models.job.data import Job
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.ink import Stroke, Tone
from solver.sheets.drawing.lettering import ASCENT, width
from solver.sheets.drawing.page import Page
from solver.sheets.words import area, money
from solver.weigh.outcome import Weighed, Weighing

TYPE = 7.5
AIR = 4.0
THICKEST = 13.0
EDGE = Stroke("bar edge", 0.6, layer=3)
FLOOR = Stroke("floor area", 1.0, (0, (4, 2)), layer=3.5)

FLOOR_TONE = ("floor", Tone("#ffffff", ""))
WASTE_TONE = ("waste", Tone("#8f8f8f", ""))
LEFT_TONE = ("left in the cartons", Tone("#e9e9e9", "...."))
COST_TONE = ("cost", Tone("#cfcfcf", "////"))


@dataclass(frozen=True, slots=True)
class Scale:
    """Points for a square millimetre bought and for one unit of money; the same on every page."""

    left: float
    right: float
    of_area: float
    of_cost: float


def scale_of(weighing: Weighing, place: Box) -> Scale:
    """The largest bar as long as the place allows beside its label."""
    found = [weighed for _, weighed in weighing.solved]
    labels = [width(_bought(weighing.job, each), TYPE) for each in found]
    labels += [width(_cost(weighing.job, each), TYPE) for each in found]
    room = place.width - max(labels) - 2 * AIR
    dearest = max(float(each.figures.cost or 0) for each in found)
    return Scale(
        place.left,
        place.right,
        room / max(each.bought_mm2 for each in found),
        room / dearest if dearest else 0,
    )


def draw_bars(page: Page, job: Job, scale: Scale, band: Box, weighed: Weighed) -> None:
    """The bars of one alternative in its band of the page, each with what it comes to."""
    costs = bool(weighed.figures.cost)
    thick = min(THICKEST, (band.height - 3 * AIR) / (2 if costs else 1))
    base = band.middle[1] + (AIR / 2 if costs else -thick / 2)
    laid = weighed.figures.laid_area_mm2
    steps = (
        (laid, FLOOR_TONE),
        (weighed.used_mm2, WASTE_TONE),
        (max(weighed.bought_mm2, weighed.used_mm2), LEFT_TONE),
    )
    start = 0.0
    for end, tone in steps:
        _bar(page, scale, (start, end * scale.of_area), (base, base + thick), tone)
        start = end * scale.of_area
    _label(page, scale.left + start, base + thick / 2, _bought(job, weighed))
    floor = scale.left + laid * scale.of_area
    page.lines([((floor, base - 3), (floor, base + thick + 4))], FLOOR)
    if costs:
        low = band.middle[1] - AIR / 2 - thick
        end = float(weighed.figures.cost or 0) * scale.of_cost
        _bar(page, scale, (0, end), (low, low + thick), COST_TONE)
        _label(page, scale.left + end, low + thick / 2, _cost(job, weighed))


def draw_legend(page: Page, left: float, y: float, weighing: Weighing) -> None:
    """What the tones and the line of the bars mean, in one line."""
    tones = [FLOOR_TONE, WASTE_TONE, LEFT_TONE, *([COST_TONE] if weighing.priced else [])]
    for words, tone in tones:
        swatch = Box(left, y - 2, left + 20, y + 7)
        _fill(page, swatch, (f"key of {words}", tone))
        left = page.write(swatch.right + 5, y, words, 8).right + 16
    page.lines([((left, y + 2.5), (left + 20, y + 2.5))], FLOOR)
    page.write(left + 25, y, _floor_words(weighing), 8)


def _floor_words(weighing: Weighing) -> str:
    """The floor's area; it is not the same for all where trim or open lengths differ."""
    found = [weighed.figures.laid_area_mm2 for _, weighed in weighing.solved]
    low, high = (area(weighing.job.system, each) for each in (min(found), max(found)))
    return f"the floor's area, {low}" if low == high else f"the floor's area, {low} to {high}"


def _bar(
    page: Page,
    scale: Scale,
    ends: tuple[float, float],
    sides: tuple[float, float],
    tone: tuple[str, Tone],
) -> None:
    """One part of a bar, from start to end in points from the left."""
    if ends[1] > ends[0]:
        _fill(page, Box(scale.left + ends[0], sides[0], scale.left + ends[1], sides[1]), tone)


def _fill(page: Page, box: Box, tone: tuple[str, Tone]) -> None:
    """A box in one tone, with its outline."""
    name, look = tone
    ring = [
        (box.left, box.bottom), (box.right, box.bottom),
        (box.right, box.top), (box.left, box.top),
    ]  # fmt: skip
    page.fill([ring], look.fill, look.hatch, ink.HATCH_INK, name=name)
    page.lines([[*ring, ring[0]]], EDGE)


def _label(page: Page, end: float, middle: float, words: str) -> None:
    """What a bar comes to, just past its end."""
    page.write(end + AIR, middle - ASCENT * TYPE / 2 + 0.3, words, TYPE)


def _bought(job: Job, weighed: Weighed) -> str:
    return area(job.system, weighed.bought_mm2)


def _cost(job: Job, weighed: Weighed) -> str:
    cost = weighed.figures.cost
    return "" if cost is None else money(job, cost)
