"""Measured type: how wide a text is on paper, where to break it, how to shorten it."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import matplotlib
from matplotlib.font_manager import FontProperties
from matplotlib.ft2font import FT2Font

ASCENT, DESCENT = 0.79, 0.25
"""Height above and depth below the line of writing, as parts of the type size."""


@lru_cache(maxsize=4)
def _file(bold: bool) -> Path:
    """The font shipped with the plotting library, so that paper looks the same anywhere."""
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    return Path(matplotlib.get_data_path()) / "fonts" / "ttf" / name


@lru_cache(maxsize=64)
def font(size: float, bold: bool) -> FontProperties:
    """The house font at a size in points."""
    return FontProperties(fname=_file(bold), size=size)


@lru_cache(maxsize=4)
def _face(bold: bool) -> FT2Font:
    face = FT2Font(_file(bold))
    face.set_size(1000, 72)
    return face


@lru_cache(maxsize=4096)
def _advance(char: str, bold: bool) -> float:
    """Width of one character as a part of the type size."""
    return _face(bold).load_char(ord(char)).linearHoriAdvance / 65536 / 1000


def width(text: str, size: float, bold: bool = False) -> float:
    """Width of a single line of text in points."""
    return sum(_advance(char, bold) for char in text) * size


def shorten(text: str, room: float, size: float, bold: bool = False) -> str:
    """The text, or as much of it as fits in so many points, ending in three dots."""
    if width(text, size, bold) <= room:
        return text
    while text and width(text + "…", size, bold) > room:
        text = text[:-1].rstrip()
    return text + "…"


def wrap(text: str, room: float, size: float, bold: bool = False) -> list[str]:
    """The text broken at spaces into lines no wider than so many points."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and width(longer, size, bold) > room:
            lines.append(line)
            longer = word
        line = shorten(longer, room, size, bold)
    return [*lines, line] if line else lines
