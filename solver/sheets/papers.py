"""All papers of a job, from one solution: audited first, then written whole or not at all."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

from models.floor.layout import Solution
from solver.audit import Finding, audit
from solver.sheets.axischeck import axis_csv, axis_pages
from solver.sheets.compare import compare_page
from solver.sheets.contract import document, text_of
from solver.sheets.cutlist import cut_list_csv, cut_list_pages
from solver.sheets.order import order_csv
from solver.sheets.orderpage import order_pages
from solver.sheets.saving import house_settings, pdf, png, svg
from solver.sheets.setout import setout_pages

LAYOUTS = "layouts.json"

OUR_NAMES = re.compile(
    r"layouts\.json|compare\.(png|svg|pdf)|set-out-\d+(-page-\d+)?\.png|set-out-\d+\.pdf"
    r"|cut-list-\d+\.(csv|pdf)|order\.(csv|pdf)|axis-check\.(csv|pdf)"
)
"""The names of all papers; nothing else in a folder is ever touched."""


class PaperError(Exception):
    """The papers cannot be written; the message says where, why and what to do."""


class AuditFailure(Exception):  # noqa: N818 (a finding about the layout, not a fault of the call)
    """The audit found that the layouts are not what they claim; nothing was written."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(
            "the layouts failed their audit and no papers were written:\n"
            + "\n".join(f"  {finding}" for finding in findings)
        )
        self.findings = findings


def write_papers(solution: Solution, folder: Path, replace: bool = False) -> tuple[Path, ...]:
    """Audit a solution and write its papers into a folder; return the files in order.

    A folder that is not empty is refused unless ``replace``, which replaces the papers of an
    earlier run and leaves every other file alone. Raises AuditFailure, or PaperError.
    """
    found = document(solution)
    report = audit(found)
    if not report.clean:
        raise AuditFailure(report.findings)
    check_target(folder, replace)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".papers-", dir=folder.parent) as work:
            fresh = Path(work) / "new"
            fresh.mkdir()
            names = []
            with house_settings():
                for name, content in _contents(solution, text_of(found)):
                    (fresh / name).write_bytes(content)
                    names.append(name)
            _move(fresh, folder, Path(work) / "old")
    except OSError as error:
        where = error.filename or folder
        raise PaperError(
            f"{folder}: the papers cannot be written ({error.strerror or error}: {where}); "
            "give a folder you may write to"
        ) from error
    return tuple(folder / name for name in names)


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
    if not folder.exists():
        return
    if not folder.is_dir():
        raise PaperError(f"{folder}: is a file, not a folder; give another name")
    try:
        names = [path.name for path in folder.iterdir()]
    except OSError as error:
        raise PaperError(
            f"{folder}: cannot be read ({error.strerror}); give another folder"
        ) from error
    if names and not replace:
        raise PaperError(
            f"{folder}: is not empty; give a new folder, or replace the papers in it (--replace)"
        )
    ours = sorted(name for name in names if OUR_NAMES.fullmatch(name))
    if ours and not _written_here(folder / LAYOUTS):
        raise PaperError(
            f"{folder}: holds {ours[0]}, but no {LAYOUTS} of startrow's, so it may be somebody's "
            "work; give another folder"
        )


def _written_here(path: Path) -> bool:
    """Whether a layouts.json is one of startrow's."""
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    return isinstance(found, dict) and "startrow" in found and "contract" in found


def _move(fresh: Path, folder: Path, old: Path) -> None:
    """Put the new papers in the folder in place of old ones; put the old back on failure."""
    if not folder.exists():
        fresh.rename(folder)
        return
    old.mkdir()
    done: list[Callable[[], object]] = []
    try:
        for path in sorted(folder.iterdir()):
            if OUR_NAMES.fullmatch(path.name):
                _shift(path, old / path.name, done)
        for path in sorted(fresh.iterdir()):
            _shift(path, folder / path.name, done)
    except BaseException:
        for undo in reversed(done):
            undo()
        raise


def _shift(path: Path, to: Path, done: list[Callable[[], object]]) -> None:
    """Move one file and remember how to move it back."""
    path.replace(to)
    done.append(lambda: to.replace(path))
