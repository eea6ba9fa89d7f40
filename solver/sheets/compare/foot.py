"""The foot of the comparison: the legend, the scale bar, what was chosen, and the notes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.floor.layout import Solution
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.cuts import CutKind, kind_of, marked
from solver.sheets.drawing.legend import (
    line_legend,
    mark_legend,
    piece_legend,
    product_legend,
    scale_bar,
)
from solver.sheets.drawing.lettering import wrap
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.view import View
from solver.sheets.drawing.zones import marks_of, numbered, shows_zones
from solver.sheets.words import capital, chosen_words

SIZE, LEAD, ROW = 7.0, 9.0, 14.0
SCALE_ROOM = 290.0
"""What the scale bar and its words take at most, in points."""

_LEAST, _MOST = 2, 5
"""How many lines of notes there is always room for, and at most."""


@dataclass(frozen=True, slots=True)
class Foot:
    """What stands below the layouts on a page: legends in rows, then words."""

    page: Page
    solution: Solution
    inner: Box

    @property
    def _several(self) -> bool:
        return shows_zones(self.solution.layouts[0])

    @property
    def height(self) -> float:
        """The height it takes, in points, with a line to spare where there are zones."""
        lines = len(self._lines(())) + self._several
        rows = 3 if self._several else 2
        return 8 + rows * ROW + min(max(lines, _LEAST), _MOST) * LEAD

    def draw(self, view: View, more: Sequence[str]) -> None:
        """Draw it, with ``more`` notes on what the plans leave out."""
        page, inner, job = self.page, self.inner, self.solution.job
        y = inner.bottom + self.height - 4
        page.lines([((inner.left, y), (inner.right, y))], ink.HEAVY_RULE)
        zones = [(layout, zone) for layout in self.solution.layouts for zone in layout.zones]
        used = {kind_of(piece) for _, zone in zones for piece in zone.pieces}
        warned = any(marked(job, layout, zone) for layout, zone in zones)
        products = [each for each in job.products if any(z.product == each.name for _, z in zones)]
        several = len(products) > 1
        kinds = [k for k in CutKind if k in used and not (several and k is CutKind.WHOLE)]
        y -= 13
        end = piece_legend(page, inner.left, y, kinds, warned)
        # Beside the pieces if these leave room for it, else beside the shorter row of lines.
        beside = y if end < inner.right - SCALE_ROOM else y - ROW
        scale_bar(page, inner.right, beside, job, view, 90)
        y -= ROW
        line_legend(page, inner.left, y, job, [ink.ZONE] if self._several else [])
        if self._several:
            y -= ROW
            x = product_legend(page, inner.left, y, products, job) if several else inner.left
            ways = {len(marks_of(job, zone)) for _, zone in zones}
            mark_legend(page, x, y, 1 in ways, 2 in ways)
        for i, line in enumerate(self._lines(more)[:_MOST]):
            page.write(inner.left, y - 12 - LEAD * i, line, SIZE, ink=ink.GREY)

    def _lines(self, more: Sequence[str]) -> list[str]:
        """The words, one kind after another."""
        found: list[str] = []
        if self.solution.chosen:
            words = f"Chosen: {chosen_words(self.solution)}."
            found += wrap(words, self.inner.width, SIZE)
        if self._several:
            words = f"Zones: {numbered(self.solution.layouts[0].zones)}."
            found += wrap(words, self.inner.width, SIZE)
        return found + wrap(" ".join(self._notes(more)), self.inner.width, SIZE)

    def _notes(self, more: Sequence[str]) -> list[str]:
        solution = self.solution
        stopped = "The search was stopped early: the best it had is shown."
        notes = [] if solution.complete else [stopped]
        notes += [f"{capital(note).rstrip('.')}." for note in solution.notes]
        if len(solution.layouts) > 1:
            notes.append("Bold figures are the best of those shown.")
        return [*notes, *more]
