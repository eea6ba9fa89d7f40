"""Reading a drawn page back: its texts with their true boxes, its lines and its fills."""

from __future__ import annotations

from itertools import combinations

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path as Outline
from numpy.typing import NDArray

from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.column import Column
from solver.sheets.drawing.lettering import ASCENT, DESCENT, width
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.saving import house_settings


def texts(page: Page) -> list[str]:
    columns = [text for column in columns_of(page) for text in column.texts]
    return [text.get_text() for text in page.axes.texts] + columns


def columns_of(page: Page) -> list[Column]:
    return [artist for artist in page.axes.get_children() if isinstance(artist, Column)]


def text_boxes(page: Page) -> list[tuple[str, Box]]:
    """Every text with the box the renderer gives it, in points."""
    page.figure.set_dpi(144)
    renderer = RendererAgg(page.box.width * 2, page.box.height * 2, 144)  # type: ignore[no-untyped-call]
    found: list[tuple[str, Box]] = []
    with house_settings():
        for artist in page.axes.texts:
            box = artist.get_window_extent(renderer)
            left, bottom, right, top = (float(value) / 2 for value in box.extents)
            found.append((artist.get_text(), Box(left, bottom, right, top)))
    for column in columns_of(page):
        for (x, y), text in zip(column.places, column.texts, strict=True):
            wide = width(text, column.size, column.bold)
            left = x - wide if column.right else x
            low, high = y - DESCENT * column.size, y + ASCENT * column.size
            found.append((text, Box(left, low, left + wide, high)))
    return found


def overlaps(page: Page) -> list[tuple[str, str]]:
    """Pairs of texts that get in each other's way by more than a fifth of a point."""
    boxes = [(text, box.grown(-0.1)) for text, box in text_boxes(page)]
    return [(a[0], b[0]) for a, b in combinations(boxes, 2) if a[1].overlaps(b[1])]


def off_page(page: Page) -> list[str]:
    """Texts that leave the printable part of the page."""
    inner = page.box.grown(-18)
    return [text for text, box in text_boxes(page) if not box.within(inner)]


def lines(page: Page, name: str) -> list[NDArray[np.float64]]:
    """Every line drawn with one stroke."""
    return [
        np.asarray(segment)
        for artist in page.axes.collections
        if isinstance(artist, LineCollection) and artist.get_label() == name
        for segment in artist.get_segments()
    ]


def fills(page: Page, name: str) -> list[PathPatch]:
    return [
        patch
        for patch in page.axes.patches
        if isinstance(patch, PathPatch) and patch.get_label() == name
    ]


def rings_in(patch: PathPatch) -> int:
    """How many closed rings a fill is made of."""
    codes = patch.get_path().codes
    assert codes is not None
    return int(np.count_nonzero(np.equal(codes, Outline.CLOSEPOLY)))


def marks(page: Page, name: str = "sliver") -> int:
    """How many warning marks there are."""
    return sum(
        len(np.asarray(artist.get_offsets()))
        for artist in page.axes.collections
        if artist.get_label() == name
    )
