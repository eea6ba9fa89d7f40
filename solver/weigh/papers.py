"""The papers of a weighing: table and chart, written whole or not at all."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from solver.sheets.drawing.saving import house_settings, pdf, png, svg
from solver.sheets.folder import Series, check_folder, write_folder
from solver.weigh.csvtable import weigh_csv
from solver.weigh.outcome import Weighing
from solver.weigh.page import weigh_pages

CHART = "weigh.svg"

OUR_NAMES = re.compile(r"weigh\.(csv|pdf)|weigh(-page-\d+)?\.(png|svg)")
"""The names of all papers of a weighing; nothing else in a folder is ever touched."""

_MADE_BY = "<dc:title>startrow</dc:title>"


def check_weigh_target(folder: Path, replace: bool) -> None:
    """Refuse a folder that may not be written to with a PaperError, before the long work."""
    check_folder(folder, SERIES, replace)


def write_weigh_papers(weighing: Weighing, folder: Path, replace: bool) -> tuple[Path, ...]:
    """Write the papers into a folder; return the files in order.

    A folder that is not empty is refused unless ``replace``, which replaces the papers of an
    earlier weighing and leaves every other file alone. Raises solver.sheets.folder.PaperError.
    """
    with house_settings():
        return write_folder(folder, SERIES, _contents(weighing), replace)


def _contents(weighing: Weighing) -> Iterator[tuple[str, bytes]]:
    """Every paper's name and bytes."""
    yield "weigh.csv", weigh_csv(weighing).encode()
    pages = weigh_pages(weighing)
    yield "weigh.pdf", pdf(pages, f"{weighing.job.name}: alternatives weighed")
    for number, page in enumerate(pages, 1):
        more = f"-page-{number}" if number > 1 else ""
        yield f"weigh{more}.png", png(page)
        yield f"weigh{more}.svg", svg(page)


def _written_here(path: Path) -> bool:
    """Whether a chart is one of startrow's."""
    try:
        return _MADE_BY in path.read_text(encoding="utf-8")
    except (OSError, ValueError):
        return False


SERIES = Series(OUR_NAMES, CHART, _written_here)
"""All papers of a weighing, known by their chart."""
