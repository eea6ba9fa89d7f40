"""The axis check: every held feature, how far it is off its axis, and the cuts beside it."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout, Solution
from models.job.data import Feature, Job
from models.lengths import to_mm
from solver.sheets.axischeck.beside import SideCuts, ZonesBeside, sides_together, zones_beside
from solver.sheets.axischeck.closeup import draw_close_up
from solver.sheets.compare.figures import off_axis
from solver.sheets.cutlist.pages import csv_text
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.cuts import CutKind, kind_of
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.legend import piece_legend, product_legend, scale_bar
from solver.sheets.drawing.lettering import shorten, width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.plan import Plan
from solver.sheets.drawing.view import View, bounds, fitted
from solver.sheets.words import capital, length, rule_name

GAP, SIZE, LEAD = 16.0, 7.8, 11.0
ABOUT = (
    "Each held feature against its axis, and the cuts beside it: from its outline to each "
    "piece's far side, a slanted cut as the largest circle in its piece; joints not counted."
)


@dataclass(frozen=True, slots=True)
class AxisLine:
    """One feature in one layout; lengths in ticks, sides as the plan shows them."""

    rank: int
    feature: Feature
    off: int
    sides: tuple[SideCuts, ...]

    @property
    def on_axis(self) -> bool:
        """Whether the feature is within its tolerance of the axis."""
        return self.off <= self.feature.tolerance


def axis_lines(solution: Solution) -> tuple[AxisLine, ...]:
    """Every held feature in every layout."""
    job = solution.job
    return tuple(
        AxisLine(
            layout.rank,
            feature,
            off_axis(job, feature),
            sides_together(zones_beside(job, layout.zones, feature)),
        )
        for feature in job.features
        for layout in solution.layouts
    )


def axis_csv(solution: Solution) -> str:
    """The axis check as CSV, one line for each side of each feature in each layout."""
    job = solution.job
    head = [
        "feature", "axis", "off axis", "tolerance", "verdict", "layout", "side",
        "where", "least cut", "largest cut", "pieces", "least mm", "largest mm",
    ]  # fmt: skip
    lines = [
        [
            line.feature.name, line.feature.axis, length(job, line.off),
            length(job, line.feature.tolerance), verdict(line.off, line.feature), line.rank,
            side.side, side.where, length(job, side.least, "whole units"),
            length(job, side.most, "whole units"), "; ".join(cut.piece for cut in side.cuts),
            _millimetres(side.least), _millimetres(side.most),
        ]
        for line in axis_lines(solution)
        for side in line.sides
    ]  # fmt: skip
    return csv_text([head, *lines])


def _millimetres(ticks: int | None) -> str:
    return "" if ticks is None else f"{to_mm(ticks):.4f}"


def verdict(off: int, feature: Feature) -> str:
    """The designer's verdict in one word or two."""
    return "on axis" if off <= feature.tolerance else "off axis"


def axis_pages(solution: Solution) -> list[Page]:
    """One page for each held feature: a close-up in every layout, and the cuts in words."""
    return [_feature_page(solution, feature) for feature in solution.job.features]


def _feature_page(solution: Solution, feature: Feature) -> Page:
    job = solution.job
    page = Page(job.system, landscape=True)
    body = write_head(page, job.name, "Axis check", ABOUT)
    off = off_axis(job, feature)
    title = f"{capital(feature.name)}: {verdict(off, feature)}"
    page.write(body.left, body.top - 12, shorten(title, body.width, 13, True), 13, bold=True)
    words = f"{length(job, off)} off {feature.axis}, tolerance {length(job, feature.tolerance)}"
    page.write(body.left, body.top - 25, shorten(words, body.width, 9), 9)
    count = len(solution.layouts)
    wide = (body.width - (count - 1) * GAP) / count
    lefts = [body.left + i * (wide + GAP) for i in range(count)]
    cards = [Box(left, body.bottom + 34, left + wide, body.top - 34) for left in lefts]
    titles = [
        wrap(f"Layout {each.rank}: {'; '.join(each.best_at)}", wide, 9, True)[:2]
        for each in solution.layouts
    ]
    drop = max(map(len, titles)) * 11 + 4
    for layout, card, lines in zip(solution.layouts, cards, titles, strict=True):
        for i, line in enumerate(lines):
            page.write(card.left, card.top - 9 - 11 * i, line, 9, bold=True)
        view = _card(page, job, layout, feature, card, drop)
    _footing(page, job, solution, view, body)
    return page


def _footing(page: Page, job: Job, solution: Solution, view: View, body: Box) -> None:
    """The legend and the scale bar."""
    y = body.bottom + 26
    page.lines([((body.left, y), (body.right, y))], ink.HEAVY_RULE)
    zones = [zone for layout in solution.layouts for zone in layout.zones]
    used = {kind_of(piece) for zone in zones for piece in zone.pieces}
    products = [each for each in job.products if any(z.product == each.name for z in zones)]
    if len(products) > 1:
        used -= {CutKind.WHOLE}
        product_legend(page, body.left, y - 25, products, job)
    x = piece_legend(page, body.left, y - 12, [k for k in CutKind if k in used], marked=False)
    page.lines([((x, y - 9.5), (x + 28, y - 9.5))], ink.AXIS)
    page.write(x + 32, y - 12, ink.AXIS.name, 7)
    scale_bar(page, body.right, y - 25, job, view, 70)


def _card(page: Page, job: Job, layout: Layout, feature: Feature, card: Box, drop: float) -> View:
    """One layout's close-up with the cuts beside the feature, and its figures below."""
    beside = zones_beside(job, layout.zones, feature)
    rows = [(_side_words(side), side.words(job)) for side in sides_together(beside)]
    rows += _centring(job, layout, feature)
    bottom = card.bottom + len(rows) * LEAD + 4
    for i, (name, value) in enumerate(rows):
        _figure(page, card, bottom - 8 - i * LEAD, name, value)
    room = Box(card.left, bottom + 6, card.right, card.top - drop)
    view = fitted(_window(job, beside, feature), room, job.system)
    draw_close_up(Plan(page, view, job, room), layout.zones, feature, beside)
    return view


def _figure(page: Page, card: Box, y: float, name: str, value: str) -> None:
    """One figure under a close-up; a long name pushes its value to the right."""
    value = shorten(value, card.width * 0.48, SIZE)
    most = max(card.width * 0.5, card.width - width(value, SIZE) - 6)
    name = shorten(name, most, SIZE)
    page.write(card.left, y, name, SIZE, ink=ink.GREY)
    at = max(card.width * 0.52, width(name, SIZE) + 6)
    page.write(card.left + at, y, value, SIZE)


def _side_words(side: SideCuts) -> str:
    """Which cuts a line of figures is about."""
    if side.inside:
        return f"Cuts inside, {side.side} side"
    return f"Cuts on its {side.side} side"


def _centring(job: Job, layout: Layout, feature: Feature) -> list[tuple[str, str]]:
    """How the field itself lies on the feature's axis, when the job asks for it."""
    return [
        (
            f"{capital(found.zone)} {rule_name(found)}",
            f"{'kept' if found.kept else 'off'}, {length(job, found.worst, 'no line near')}",
        )
        for found in layout.verdicts
        if found.key == "centred" and found.subject == feature.axis
    ]


def _window(job: Job, beside: ZonesBeside, feature: Feature) -> Box:
    """The part of the room to show: the feature, and about a unit round it."""
    pitches = [job.product_of(zone.laying).pitch for zone, _ in beside]
    reach = max((max(wide * 2.2, long * 0.6) for long, wide in pitches), default=0)
    return bounds(feature.outline).grown(reach)
