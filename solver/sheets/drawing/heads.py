"""What every page has at its head."""

from __future__ import annotations

from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.lettering import shorten, width, wrap
from solver.sheets.drawing.page import Page

MARGIN = 26.0
_TYPE, _LEAD = 8, 10
_NAME_SIZES = (14, 12, 10.5, 9)


def write_head(page: Page, name: str, title: str, about: str) -> Box:
    """Write the job's name, the page's title and a line or two about it; return what is left."""
    inner = page.box.grown(-MARGIN)
    mark = page.write(inner.right, inner.top - 12, title, 13, "right", bold=True, ink=ink.CHALK)
    room = mark.left - inner.left - 12
    size = next((each for each in _NAME_SIZES if width(name, each, True) <= room), _NAME_SIZES[-1])
    page.write(inner.left, inner.top - 12, shorten(name, room, size, True), size, bold=True)
    y = inner.top - 25
    for line in _lines(about, inner.width):
        page.write(inner.left, y, line, _TYPE, ink=ink.GREY)
        y -= _LEAD
    page.lines([((inner.left, y + 4), (inner.right, y + 4))], ink.HEAVY_RULE)
    return Box(inner.left, inner.bottom, inner.right, y)


def head_height(page: Page, about: str) -> float:
    """How much of a page's height the head with these words takes, margin not counted."""
    return 25 + _LEAD * len(_lines(about, page.box.grown(-MARGIN).width))


def _lines(about: str, room: float) -> list[str]:
    """At most two lines, the second shortened."""
    lines = wrap(about, room, _TYPE)
    return lines[:1] + ([shorten(" ".join(lines[1:]), room, _TYPE)] if lines[1:] else [])
