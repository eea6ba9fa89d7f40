"""What every page has at its head."""

from __future__ import annotations

from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.lettering import shorten
from solver.sheets.page import Page

MARGIN = 26.0
HEAD = 36.0
"""Height of the head, in points."""


def write_head(page: Page, name: str, title: str, about: str) -> Box:
    """Write the job's name, the page's title and a line about it; return what is left."""
    inner = page.box.grown(-MARGIN)
    mark = page.write(inner.right, inner.top - 12, title, 13, "right", bold=True, ink=ink.CHALK)
    room = mark.left - inner.left - 12
    page.write(inner.left, inner.top - 12, shorten(name, room, 14, True), 14, bold=True)
    page.write(inner.left, inner.top - 25, shorten(about, inner.width, 8), 8, ink=ink.GREY)
    page.lines([((inner.left, inner.top - 31), (inner.right, inner.top - 31))], ink.HEAVY_RULE)
    return Box(inner.left, inner.bottom, inner.right, inner.top - HEAD)
