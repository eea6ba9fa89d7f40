"""All papers of a job, from one solution: audited first, then written whole or not at all."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

from models.floor.layout import Solution
from solver.sheets.audited import AuditFailure, audited
from solver.sheets.axischeck.pages import axis_csv, axis_pages
from solver.sheets.compare.page import compare_page
from solver.sheets.contract import text_of
from solver.sheets.cutlist.pages import cut_list_csv, cut_list_pages
from solver.sheets.drawing.saving import house_settings, pdf, png, svg
from solver.sheets.folder import PaperError, Series, check_folder, write_folder
from solver.sheets.order.page import order_pages
from solver.sheets.order.table import order_csv
from solver.sheets.setout.pages import setout_pages

__all__ = ["OUR_NAMES", "AuditFailure", "PaperError", "check_target", "write_papers"]

LAYOUTS = "layouts.json"

OUR_NAMES = re.compile(
    r"layouts\.json|compare\.(png|svg|pdf)|set-out-\d+(-page-\d+)?\.png|set-out-\d+\.pdf"
    r"|cut-list-\d+\.(csv|pdf)|order\.(csv|pdf)|axis-check\.(csv|pdf)"
)
"""The names of all papers; nothing else in a folder is ever touched."""


def write_papers(solution: Solution, folder: Path, replace: bool = False) -> tuple[Path, ...]:
    """Audit a solution and write its papers into a folder; return the files in order.

    A folder that is not empty is refused unless ``replace``, which replaces the papers of an
    earlier run and leaves every other file alone. Raises AuditFailure, or PaperError.
    """
    found = audited(solution)
    with house_settings():
        return write_folder(folder, SERIES, _contents(solution, text_of(found)), replace)


def _contents(solution: Solution, layouts: str) -> Iterator[tuple[str, bytes]]:
    """Every paper's name and bytes."""
    job = solution.job
    yield LAYOUTS, layouts.encode()
    page = compare_page(solution)
    yield "compare.png", png(page)
    yield "compare.svg", svg(page)
    yield "compare.pdf", pdf([page], f"{job.name}: layouts compared")
    for layout in solution.layouts:
        pages, rank = setout_pages(solution, layout), layout.rank
        yield f"set-out-{rank}.pdf", pdf(pages, f"{job.name}: set-out sheet {rank}")
        for i, each in enumerate(pages, 1):
            yield f"set-out-{rank}{f'-page-{i}' if i > 1 else ''}.png", png(each)
        yield f"cut-list-{rank}.csv", cut_list_csv(job, layout).encode()
        cuts = cut_list_pages(job, layout)
        yield f"cut-list-{rank}.pdf", pdf(cuts, f"{job.name}: cut list {rank}")
    yield "order.csv", order_csv(job, solution.layouts).encode()
    yield "order.pdf", pdf(order_pages(solution), f"{job.name}: order summary")
    if job.features:
        pages = axis_pages(solution)
        yield "axis-check.pdf", pdf(pages, f"{job.name}: axis check")
        yield "axis-check.csv", axis_csv(solution).encode()


def check_target(folder: Path, replace: bool) -> None:
    """Refuse a target that is not a folder, or holds somebody's work, with a PaperError.

    ``write_papers`` asks this itself; ask it before a long search to spare the wait.
    """
    check_folder(folder, SERIES, replace)


def _written_here(path: Path) -> bool:
    """Whether a layouts.json is one of startrow's."""
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    return isinstance(found, dict) and "startrow" in found and "contract" in found


SERIES = Series(OUR_NAMES, LAYOUTS, _written_here)
"""All papers of a job, known by their layouts.json."""
