"""``startrow solve`` and ``scenario``: what each outcome prints, writes and ends with.

The search and the papers are stood in for here; ``test_whole_job.py`` runs the real ones.
"""

from __future__ import annotations

import signal
from collections.abc import Callable
from pathlib import Path

import pytest

from models.floor.layout import Solution
from models.job.data import Job
from scenarios.catalogue import SCENARIOS
from solver.audit import Finding
from solver.cli.exits import Exit
from solver.sheets.papers import AuditFailure, PaperError
from tests.cli.conftest import Run
from tests.cli.samples import KEPT, SLIVER, UNEVEN, layout, solution

JOB = SCENARIOS["reading-room"].path
Say = Callable[[str], None]
Stop = Callable[[], bool]


class Papers:
    """Stands in for the papers: keeps what it was given."""

    def __init__(self, failure: Exception | None = None) -> None:
        self.failure = failure
        self.given: list[tuple[Solution, Path, bool]] = []

    def __call__(self, found: Solution, folder: Path, replace: bool) -> tuple[Path, ...]:
        if self.failure is not None:
            raise self.failure
        self.given.append((found, folder, replace))
        return (folder / "layouts.json",)


@pytest.fixture
def papers(monkeypatch: pytest.MonkeyPatch) -> Papers:
    return stand_in(monkeypatch, Papers())


def stand_in(monkeypatch: pytest.MonkeyPatch, papers: Papers) -> Papers:
    monkeypatch.setattr("solver.sheets.papers.write_papers", papers)
    return papers


def finds(monkeypatch: pytest.MonkeyPatch, found: Solution) -> None:
    """Let the search find this."""

    def solve(_job: Job, progress: Say, _stop: Stop) -> Solution:
        progress("looking")
        return found

    monkeypatch.setattr("solver.search.solve", solve)


def test_every_must_kept_is_done(run: Run, papers: Papers, monkeypatch: pytest.MonkeyPatch) -> None:
    found = solution(layout(KEPT, UNEVEN))
    finds(monkeypatch, found)
    ended = run("solve", JOB, "--papers", "out")
    assert ended.code == Exit.DONE
    assert "balanced opposite cuts (preferred)" in ended.out
    assert ended.out.endswith("Papers:\n  out/layouts.json\n")
    assert ended.err == "looking\nchecking the layouts and writing the papers\n"
    assert papers.given == [(found, Path("out"), False)]


def test_a_broken_must_is_named_and_has_its_own_code(
    run: Run, papers: Papers, monkeypatch: pytest.MonkeyPatch
) -> None:
    finds(monkeypatch, solution(layout(SLIVER)))
    ended = run("scenario", "net-loft", "--papers", "out")
    assert ended.code == Exit.MUST_BROKEN
    assert "smallest cut (must)" in ended.out
    assert "the hoist axis must be kept" in " ".join(ended.out.split())
    assert len(papers.given) == 1


def test_replace_and_quiet_are_handed_on(
    run: Run, papers: Papers, monkeypatch: pytest.MonkeyPatch
) -> None:
    finds(monkeypatch, solution(layout(KEPT)))
    ended = run("solve", JOB, "--papers", "out", "--replace", "--quiet")
    assert papers.given[0][2] is True
    assert ended.err == ""


def test_a_layout_that_fails_the_audit_is_never_shown(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    finding = Finding(1, "tiling", "pieces 3 and 4", "apart", "an overlap of 2 mm")
    stand_in(monkeypatch, Papers(AuditFailure((finding,))))
    finds(monkeypatch, solution(layout(KEPT)))
    ended = run("solve", JOB, "--papers", "out", "--quiet")
    assert ended.code == Exit.AUDIT_FOUND
    assert ended.out == ""
    assert "an overlap of 2 mm" in ended.err


def test_papers_that_cannot_be_written_are_told(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(monkeypatch, Papers(PaperError("out: is there already")))
    finds(monkeypatch, solution(layout(KEPT)))
    ended = run("solve", JOB, "--papers", "out", "--quiet")
    assert ended.code == Exit.CANNOT_WRITE
    assert ended.err == "startrow: out: is there already\n"


def test_a_folder_in_use_is_refused_before_the_search(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solve(_job: Job, _progress: Say, _stop: Stop) -> Solution:
        raise AssertionError("nothing is to be searched")

    monkeypatch.setattr("solver.search.solve", solve)
    (tmp_path / "mine.txt").write_text("mine")
    ended = run("solve", JOB, "--papers", tmp_path)
    assert ended.code == Exit.CANNOT_WRITE
    assert "is not empty; give a new folder, or replace the papers in it (--replace)" in ended.err


def test_an_interrupt_keeps_the_best_so_far(
    run: Run, papers: Papers, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solve(_job: Job, _progress: Say, stop: Stop) -> Solution:
        signal.raise_signal(signal.SIGINT)
        return solution(layout(KEPT), complete=not stop())

    monkeypatch.setattr("solver.search.solve", solve)
    ended = run("solve", JOB, "--papers", "out", "--quiet")
    assert ended.code == Exit.DONE
    assert "Incomplete: the search was stopped" in ended.out
    assert not papers.given[0][0].complete


def test_a_second_interrupt_quits_and_writes_nothing(
    run: Run, papers: Papers, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solve(_job: Job, _progress: Say, _stop: Stop) -> Solution:
        signal.raise_signal(signal.SIGINT)
        signal.raise_signal(signal.SIGINT)
        raise AssertionError("the second Ctrl-C must not come back here")

    monkeypatch.setattr("solver.search.solve", solve)
    ended = run("solve", JOB, "--papers", "out", "--quiet")
    assert ended.code == Exit.INTERRUPTED
    assert ended.err == "startrow: interrupted\n"
    assert papers.given == []


def test_a_defect_is_one_line_and_never_a_traceback(
    run: Run, papers: Papers, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solve(_job: Job, _progress: Say, _stop: Stop) -> Solution:
        raise KeyError("row 7\nof 9")

    monkeypatch.setattr("solver.search.solve", solve)
    monkeypatch.delenv("STARTROW_DEBUG", raising=False)
    ended = run("solve", JOB, "--papers", "out")
    assert ended.code == Exit.DEFECT
    assert ended.err.count("\n") == 1
    assert ended.err.startswith("startrow: this is a defect in the program (KeyError: 'row 7")
    assert "please report it" in ended.err
    assert papers.given == []
    monkeypatch.setenv("STARTROW_DEBUG", "1")
    assert "Traceback" in run("solve", JOB, "--papers", "out").err
