"""One printed page: everything is drawn in points from its lower left corner."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

import numpy as np
from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch
from matplotlib.path import Path as Outline
from numpy.typing import NDArray

from models.lengths import System
from solver.sheets.drawing import lettering
from solver.sheets.drawing.boxes import Box, Segment, box_round
from solver.sheets.drawing.column import Column
from solver.sheets.drawing.ink import BLACK, WHITE, Stroke

Line = Sequence[tuple[float, float]] | NDArray[np.float64]
"""Points on the page, one after another."""

SIZES = {System.IMPERIAL: (612.0, 792.0), System.METRIC: (595.0, 842.0)}
"""Portrait Letter and A4, in points."""


class Page:
    """A page under way: the figure, and the boxes and lines that labels must keep off."""

    def __init__(self, system: System, landscape: bool) -> None:
        """An empty page of the paper the system's countries print on."""
        width, height = sorted(SIZES[system], reverse=landscape)
        self.box = Box(0, 0, width, height)
        self.figure = Figure(figsize=(width / 72, height / 72), facecolor=WHITE)
        FigureCanvasAgg(self.figure)
        self.axes = self.figure.add_axes((0, 0, 1, 1))
        self.axes.set(xlim=(0, width), ylim=(0, height))
        self.axes.set_axis_off()
        self.written: list[Box] = []
        self.keep_off: list[Segment] = []
        self._clip: Box | None = None

    @contextmanager
    def clipped(self, box: Box) -> Iterator[None]:
        """Draw nothing but labels outside a box for a while."""
        self._clip = box
        try:
            yield
        finally:
            self._clip = None

    def add(self, artist: Artist) -> None:
        """Put an artist on the page, inside the box that clips if there is one."""
        self.axes.add_artist(artist)
        if self._clip:
            artist.set_clip_path(_compound([_corners(self._clip)]), self.axes.transData)

    def write(
        self,
        x: float,
        y: float,
        text: str,
        size: float = 8,
        side: str = "left",
        bold: bool = False,
        ink: str = BLACK,
    ) -> Box:
        """Write one line of text with its line of writing at y; return the box it fills."""
        wide = lettering.width(text, size, bold)
        left = x - wide * {"left": 0, "center": 0.5, "right": 1}[side]
        self._letter(x, y, text, size, side, bold, ink, 0)
        box = Box(left, y - lettering.DESCENT * size, left + wide, y + lettering.ASCENT * size)
        self.written.append(box)
        return box

    def write_column(
        self,
        places: Sequence[tuple[float, float]],
        texts: Sequence[str],
        size: float,
        side: str = "left",
        bold: bool = False,
        ink: str = BLACK,
    ) -> None:
        """Write many short texts of one type, each with its line of writing at its place.

        They are not noted as written: nothing may be placed by search on such a page.
        """
        self.axes.add_artist(Column(places, texts, size, bold, side == "right", ink))

    def write_at(
        self,
        middle: tuple[float, float],
        text: str,
        size: float,
        upright: bool = False,
        bold: bool = False,
        backed: bool = False,
        ink: str = BLACK,
    ) -> Box:
        """Write one line centred on a point, reading upwards if ``upright``.

        ``backed`` clears the paper under the text first.
        """
        box = label_box(middle, text, size, upright, bold)
        if backed:
            self.fill([_corners(box)], WHITE, zorder=5)
        drop = (lettering.ASCENT - lettering.DESCENT) / 2 * size
        x, y = (middle[0] + drop, middle[1]) if upright else (middle[0], middle[1] - drop)
        self._letter(x, y, text, size, "center", bold, ink, 90 if upright else 0)
        self.written.append(box)
        return box

    def _letter(
        self, x: float, y: float, text: str, size: float, side: str, bold: bool, ink: str, turn: int
    ) -> None:
        self.axes.text(
            x,
            y,
            text,
            fontproperties=lettering.font(size, bold),
            color=ink,
            ha=side,
            va="baseline",
            rotation=turn,
            rotation_mode="anchor",
            parse_math=False,
            zorder=6,
        )

    def lines(self, segments: Iterable[Line], stroke: Stroke) -> None:
        """Draw open lines, each through its points, as one collection."""
        found = [np.asarray(segment) for segment in segments]
        if found:
            self.add(
                LineCollection(
                    found,
                    colors=[stroke.ink],
                    linewidths=[stroke.width],
                    linestyles=[stroke.pattern],
                    capstyle="butt",
                    zorder=stroke.layer,
                    label=stroke.name,
                )
            )

    def fill(
        self,
        rings: Sequence[Line],
        tone: str,
        hatch: str = "",
        hatch_ink: str = BLACK,
        zorder: float = 1,
        name: str = "",
    ) -> None:
        """Fill rings as one shape (counter-clockwise ones filled, clockwise ones holes)."""
        if not rings:
            return
        patch = PathPatch(
            _compound(rings),
            facecolor=tone,
            edgecolor=hatch_ink,
            linewidth=0,
            hatch=hatch or None,
            zorder=zorder,
            label=name,
        )
        self.add(patch)

    def is_free(self, box: Box, strict: bool = True) -> bool:
        """Whether a label may go there: on the page, off all text, and off lines if strict."""
        if not box.within(self.box.grown(-12)) or any(box.overlaps(text) for text in self.written):
            return False
        return not (strict and any(box.meets(line) for line in self.keep_off))


def label_box(
    middle: tuple[float, float], text: str, size: float, upright: bool, bold: bool = False
) -> Box:
    """The box a centred label fills, with a little air."""
    wide = lettering.width(text, size, bold) + 2
    tall = (lettering.ASCENT + lettering.DESCENT) * size
    return box_round(middle, tall, wide) if upright else box_round(middle, wide, tall)


def _corners(box: Box) -> list[tuple[float, float]]:
    """The corners of a box, counter-clockwise."""
    return [
        (box.left, box.bottom),
        (box.right, box.bottom),
        (box.right, box.top),
        (box.left, box.top),
    ]


def _compound(rings: Sequence[Line]) -> Outline:
    """One path of many closed rings."""
    closed = [np.vstack([ring, ring[:1]]) for ring in rings]
    codes = np.full(sum(map(len, closed)), Outline.LINETO, dtype=np.uint8)
    ends = np.cumsum([len(ring) for ring in closed])
    codes[ends - 1] = Outline.CLOSEPOLY
    codes[[0, *ends[:-1]]] = Outline.MOVETO
    return Outline(np.vstack(closed), codes)
