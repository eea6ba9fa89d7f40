"""The look: line widths and patterns, tones and hatches.

Everything that must be told apart differs in width, pattern, hatch or lightness, so it
still does in black and white and for colour-blind readers.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.sheets.drawing.cuts import CutKind

BLACK, WHITE = "#000000", "#ffffff"
GREY, SOFT = "#555555", "#9a9a9a"
CHALK = "#0b3f78"

Pattern = str | tuple[float, tuple[float, ...]]
"""A matplotlib line style."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """How one sort of line is drawn; ``layer`` is its place from bottom to top."""

    name: str
    width: float
    pattern: Pattern = "solid"
    ink: str = BLACK
    layer: float = 3


@dataclass(frozen=True, slots=True)
class Tone:
    """How one sort of piece is filled."""

    fill: str
    hatch: str


TONES = {
    CutKind.WHOLE: Tone("#ffffff", ""),
    CutKind.RIP: Tone("#dce9f5", "////"),
    CutKind.CROSS: Tone("#f7e3bd", "\\\\\\\\"),
    CutKind.CORNER: Tone("#c9b79c", "xxxx"),
    CutKind.SLANT: Tone("#b8d4c8", "...."),
    CutKind.NOTCH: Tone("#d5cbe3", "||||"),
}
"""For judging cuts."""

QUIET_TONES = {
    kind: Tone("#ffffff" if kind is CutKind.WHOLE else "#e7e7e7", "") for kind in CutKind
}
"""For reading dimensions: cut pieces are only a little darker."""

PRODUCT_TONES = (
    Tone("#ffffff", ""),
    Tone("#e6e6e6", ".."),
    Tone("#cdcdcd", ""),
    Tone("#f4f4f4", "o"),
)
"""For whole units of the first product, the second and so on; then they start again.

No lines along the axes: they would pass for joints."""

HATCH_INK = "#4d4d4d"

SCRAP = Tone("#f0f0f0", "////")
"""For what is left of a unit and not used."""

JOINT = Stroke("piece edge", 0.35, ink="#6f6f6f", layer=2)
WALL = Stroke("wall", 1.7, layer=3.4)
PROMINENT = Stroke("prominent wall", 3.0, layer=3.4)
HIDDEN = Stroke("hidden wall", 1.0, (0, (5, 1.6)), layer=3.4)
GAP = Stroke("door opening", 4.2, ink=WHITE, layer=3.5)
DOOR = Stroke("door", 0.7, layer=3.6)
EDGE = Stroke("outline", 1.2, layer=3.2)
ZONE = Stroke("zone edge", 2.4, layer=3.25)
ZONE_CORE = Stroke("zone edge core", 0.9, ink=WHITE, layer=3.26)
AXIS = Stroke("axis", 0.8, (0, (11, 2.2, 1.4, 2.2)), layer=3.7)
CASING = Stroke("casing", 4.0, ink=WHITE, layer=3.8)
START = Stroke("start line", 2.4, ink=CHALK, layer=3.9)
CROSS = Stroke("cross line", 1.5, (0, (5, 2)), CHALK, layer=3.9)
DIMENSION = Stroke("dimension", 0.5, layer=4)
EXTENSION = Stroke("extension line", 0.35, ink=GREY, layer=3.3)
CHECK = Stroke("3-4-5 check", 0.8, (0, (1.2, 1.6)), layer=4)
POINT = Stroke("mark", 1.0, layer=4.2)
MARK_RING = Stroke("direction mark ring", 0.5, layer=4.35)
MARK = Stroke("direction mark", 1.0, layer=4.4)
LEADER = Stroke("leader", 0.4, ink=GREY, layer=4)
RULE = Stroke("table rule", 0.4, ink=SOFT, layer=3)
HEAVY_RULE = Stroke("heavy rule", 1.0, layer=3)
SAW = Stroke("saw cut", 1.0, (0, (4, 1.6)), layer=3.3)
FRAME = Stroke("panel frame", 0.5, ink=SOFT, layer=3)
