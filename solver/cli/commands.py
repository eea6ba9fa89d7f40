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
from models.job.reader import read_job
from models.job.template import template
from scenarios.catalogue import SCENARIOS
from solver.cli.exits import CommandError, Exit
from solver.cli.interrupt import stop_on_interrupt
from solver.cli.progress import Progress
from solver.cli.ruletext import rule_sources


def solve_job(arguments: argparse.Namespace) -> Exit:
    """``startrow solve JOB --papers FOLDER``."""
    return _solve(_read(arguments.job), arguments)


def check_job(arguments: argparse.Namespace) -> Exit:
    """``startrow check JOB``."""
    from solver.cli.jobtext import job_text

    print(job_text(_read(arguments.job), rule_sources(arguments.job)), end="")
    return Exit.DONE


def new_job(arguments: argparse.Namespace) -> Exit:
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
    print(f"{path}: fill it in, then: startrow check {path}")
    return Exit.DONE


def _fill(file: TextIO, path: Path) -> None:
    """Write the template into the file just made; on failure take the file away again."""
    try:
        file.write(template())
        file.flush()
    except OSError:
        path.unlink()
        raise


def audit_result(arguments: argparse.Namespace) -> Exit:
    """``startrow audit LAYOUTS``."""
    from solver.audit import AuditInputError, audit, load
    from solver.cli.audittext import audit_text

    try:
        report = audit(load(arguments.layouts))
    except AuditInputError as error:
        raise CommandError(str(error), Exit.BAD_INPUT) from error
    print(audit_text(report), end="")
    return Exit.DONE if report.clean else Exit.AUDIT_FOUND


def list_scenarios(_arguments: argparse.Namespace) -> Exit:
    """``startrow scenarios``."""
    width = max(map(len, SCENARIOS))
    for scenario in SCENARIOS.values():
        print(f"{scenario.name:<{width}}  {scenario.about}")
    return Exit.DONE


def solve_scenario(arguments: argparse.Namespace) -> Exit:
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


def _solve(job: Job, arguments: argparse.Namespace) -> Exit:
    """Search, write the papers, then print: a closed output cannot cost the papers."""
    from solver.cli.results import must_broken, result_text

    progress = Progress(sys.stderr, arguments.quiet)
    try:
        with stop_on_interrupt() as stop:
            solution, papers = _papers(job, arguments, progress, stop)
    finally:
        progress.close()
    print(result_text(job, solution))
    print("Papers:")
    for path in papers:
        print(f"  {path}")
    return Exit.MUST_BROKEN if must_broken(solution) else Exit.DONE


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
        return solution, write_papers(job, solution, folder, replace)
    except AuditFailure as error:
        raise CommandError(str(error), Exit.AUDIT_FOUND) from error
    except PaperError as error:
        raise CommandError(str(error), Exit.CANNOT_WRITE) from error
