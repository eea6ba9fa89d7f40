"""What ``startrow weigh`` does, from parsed arguments to an exit code.

The search and the papers are imported where they are used, so that help and errors in a
job file come at once.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from models.job.errors import JobError
from models.job.source import read_source
from solver.cli.exits import CommandError, Ended, Exit
from solver.cli.interrupt import stop_on_interrupt
from solver.cli.progress import Progress

if TYPE_CHECKING:
    from solver.weigh.alternatives import Contest
    from solver.weigh.outcome import Weighing

KEPT = "the alternatives solved so far are kept"


def weigh_job(arguments: argparse.Namespace) -> Ended:
    """``startrow weigh JOB --papers FOLDER``; printing comes after the papers are written."""
    from solver.cli.weightext import weigh_text

    contest = _contest(arguments)
    progress = Progress(sys.stderr, arguments.quiet)
    try:
        with stop_on_interrupt(KEPT) as stop:
            weighing, papers = _papers(contest, arguments, progress, stop)
    finally:
        progress.close()
    listed = "".join(f"  {path}\n" for path in papers)
    return Ended(
        Exit.MUST_BROKEN if weighing.must_broken else Exit.DONE,
        f"{weigh_text(weighing)}\nPapers:\n{listed}",
    )


def _contest(arguments: argparse.Namespace) -> Contest:
    """The alternatives of the job; bad input becomes a CommandError."""
    from solver.weigh.alternatives import By, WeighError, contest_of

    path: Path = arguments.job
    by = By(arguments.by) if arguments.by else None
    try:
        return contest_of(read_source(path), str(path), arguments.zone, by)
    except JobError as error:
        raise CommandError(str(error), Exit.BAD_INPUT) from error
    except WeighError as error:
        raise CommandError(f"{path}: {error}", Exit.BAD_INPUT) from error


def _papers(
    contest: Contest, arguments: argparse.Namespace, progress: Progress, stop: Callable[[], bool]
) -> tuple[Weighing, tuple[Path, ...]]:
    """The outcomes and their papers; a CommandError when there are none to write.

    Raises KeyboardInterrupt when the work was stopped before any alternative was solved.
    """
    from solver.sheets.audited import AuditFailure
    from solver.sheets.folder import PaperError
    from solver.weigh.outcome import weigh
    from solver.weigh.papers import check_weigh_target, write_weigh_papers

    folder, replace = arguments.papers, arguments.replace
    try:
        check_weigh_target(folder, replace)
        weighing = weigh(contest, progress, stop)
        if not weighing.solved:
            raise KeyboardInterrupt
        progress("writing the papers")
        return weighing, write_weigh_papers(weighing, folder, replace)
    except AuditFailure as error:
        raise CommandError(str(error), Exit.AUDIT_FOUND) from error
    except PaperError as error:
        raise CommandError(str(error), Exit.CANNOT_WRITE) from error
