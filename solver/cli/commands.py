"""What each command does: one function a command, from parsed arguments to an exit code.

The search, the papers and the audit are imported where they are used, so that help and
errors in a job file come at once.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TextIO

from models.floor.layout import Solution
from models.job.data import Job
from models.job.errors import JobError, suggestion
from models.job.reader import read_job, read_text
from models.job.source import read_source
from models.job.template import template
from scenarios.catalogue import SCENARIOS
from solver.cli.exits import CommandError, Ended, Exit
from solver.cli.interrupt import stop_on_interrupt
from solver.cli.progress import Progress
from solver.cli.ruletext import rule_sources


def solve_job(arguments: argparse.Namespace) -> Ended:
    """``startrow solve JOB --papers FOLDER``."""
    return _solve(_read(arguments.job), arguments)


def check_job(arguments: argparse.Namespace) -> Ended:
    """``startrow check JOB``."""
    from solver.cli.jobtext import job_text

    file = str(arguments.job)
    try:
        text = read_source(arguments.job)
        return Ended(Exit.DONE, job_text(read_text(text, file), rule_sources(text, file)))
    except JobError as error:
        raise CommandError(str(error), Exit.BAD_INPUT) from error


def new_job(arguments: argparse.Namespace) -> Ended:
    """``startrow new FILE``: the whole template in a new file, or no file at all."""
    path: Path = arguments.file
    try:
        with path.open("x", encoding="utf-8") as file:
            _fill(file, path)
    except FileExistsError:
        raise CommandError(
            f"{path}: is there already and is left alone; give another name", Exit.CANNOT_WRITE
        ) from None
    except OSError as error:
        raise CommandError(
            f"{path}: cannot be written: {error.strerror}", Exit.CANNOT_WRITE
        ) from error
    return Ended(Exit.DONE, f"{path}: fill it in, then: startrow check {path}\n")


def _fill(file: TextIO, path: Path) -> None:
    """Write the template into the file just made; on failure take the file away again."""
    try:
        file.write(template())
        file.flush()
    except OSError:
        path.unlink()
        raise


def audit_result(arguments: argparse.Namespace) -> Ended:
    """``startrow audit LAYOUTS``."""
    from solver.audit import AuditInputError, audit, load
    from solver.cli.audittext import audit_text

    try:
        report = audit(load(arguments.layouts))
    except AuditInputError as error:
        raise CommandError(str(error), Exit.BAD_INPUT) from error
    return Ended(Exit.DONE if report.clean else Exit.AUDIT_FOUND, audit_text(report))


def list_scenarios(_arguments: argparse.Namespace) -> Ended:
    """``startrow scenarios``."""
    width = max(map(len, SCENARIOS))
    lines = (f"{scenario.name:<{width}}  {scenario.about}\n" for scenario in SCENARIOS.values())
    return Ended(Exit.DONE, "".join(lines))


def solve_scenario(arguments: argparse.Namespace) -> Ended:
    """``startrow scenario NAME --papers FOLDER``."""
    scenario = SCENARIOS.get(arguments.name)
    if scenario is None:
        raise CommandError(
            f"no scenario is called '{arguments.name}'; {suggestion(arguments.name, SCENARIOS)}",
            Exit.BAD_INPUT,
        )
    return _solve(_read(scenario.path), arguments)


def _read(path: Path) -> Job:
    """The job in a file; a bad file becomes a CommandError."""
    try:
        return read_job(path)
    except JobError as error:
        raise CommandError(str(error), Exit.BAD_INPUT) from error


def _solve(job: Job, arguments: argparse.Namespace) -> Ended:
    """Search and write the papers; printing comes after, so a lost output costs no paper."""
    from solver.cli.results import must_broken, result_text

    progress = Progress(sys.stderr, arguments.quiet)
    try:
        with stop_on_interrupt() as stop:
            solution, papers = _papers(job, arguments, progress, stop)
    finally:
        progress.close()
    listed = "".join(f"  {path}\n" for path in papers)
    return Ended(
        Exit.MUST_BROKEN if must_broken(solution) else Exit.DONE,
        f"{result_text(solution)}\nPapers:\n{listed}",
    )


def _papers(
    job: Job, arguments: argparse.Namespace, progress: Progress, stop: Callable[[], bool]
) -> tuple[Solution, tuple[Path, ...]]:
    """The solution and its papers, written whole; a CommandError when they are not."""
    from solver.search import solve
    from solver.sheets.papers import AuditFailure, PaperError, check_target, write_papers

    folder, replace = arguments.papers, arguments.replace
    try:
        check_target(folder, replace)
        solution = solve(job, progress, stop)
        progress("checking the layouts and writing the papers")
        return solution, write_papers(solution, folder, replace)
    except AuditFailure as error:
        raise CommandError(str(error), Exit.AUDIT_FOUND) from error
    except PaperError as error:
        raise CommandError(str(error), Exit.CANNOT_WRITE) from error
