"""A column of short texts drawn at one go: a long table costs a third of single labels."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.artist import Artist
from matplotlib.backend_bases import RendererBase

from solver.sheets.drawing import lettering


class Column(Artist):
    """Texts at places on the page, all in one type; right-hand ends at x when ``right``."""

    def __init__(
        self,
        places: Sequence[tuple[float, float]],
        texts: Sequence[str],
        size: float,
        bold: bool,
        right: bool,
        ink: str,
    ) -> None:
        """Hold the texts; nothing is drawn yet."""
        super().__init__()
        self.places, self.texts = tuple(places), tuple(texts)
        self.size, self.bold, self.right, self.ink = size, bold, right, ink
        self.set_zorder(6)

    def draw(self, renderer: RendererBase) -> None:
        """Draw every text with its line of writing at its place."""
        if self.axes is None or not self.texts:
            return
        pen = renderer.new_gc()
        pen.set_foreground(self.ink)
        font = lettering.font(self.size, self.bold)
        wide = [lettering.width(text, self.size, self.bold) for text in self.texts]
        starts = [
            (x - own if self.right else x, y) for (x, y), own in zip(self.places, wide, strict=True)
        ]
        height = renderer.get_canvas_width_height()[1]
        for (x, y), text in zip(self.axes.transData.transform(starts), self.texts, strict=True):
            down = height - y if renderer.flipy() else y
            renderer.draw_text(pen, x, down, text, font, 0)
        pen.restore()
