"""A shipped job from file to paper, in a process of its own as a user runs it."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from solver.cli.exits import Exit

ROOT = Path(__file__).parents[2]
STARTROW = (sys.executable, "-c", "from solver.cli import main; raise SystemExit(main())")
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


def startrow(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*STARTROW, *words],
        cwd=folder,
        env=ENVIRONMENT,
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        timeout=300,
        check=False,
    )


@pytest.fixture(scope="module")
def solved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which the reading room was solved."""
    folder = tmp_path_factory.mktemp("whole")
    ended = startrow(folder, "scenario", "reading-room", "--papers", "papers")
    assert ended.returncode == Exit.DONE, ended.stderr
    assert "Units to cut from" in ended.stdout
    return folder


def test_the_papers_listed_are_there(solved: Path) -> None:
    again = startrow(
        solved, "scenario", "reading-room", "--papers", "papers", "--replace", "--quiet"
    )
    assert (again.returncode, again.stderr) == (Exit.DONE, "")
    listed = again.stdout.partition("Papers:\n")[2].split()
    assert {solved / name for name in listed} == set((solved / "papers").iterdir())
    assert "papers/layouts.json" in listed


def test_the_saved_result_is_clean(solved: Path) -> None:
    ended = startrow(solved, "audit", "papers/layouts.json")
    assert ended.returncode == Exit.DONE, ended.stdout
    assert ended.stdout.splitlines()[-1].startswith("Clean")


def test_a_result_that_was_tampered_with_is_found(solved: Path) -> None:
    document = json.loads((solved / "papers" / "layouts.json").read_text())
    del document["layouts"][0]["pieces"][5]
    (solved / "short.json").write_text(json.dumps(document))
    ended = startrow(solved, "audit", "short.json")
    assert ended.returncode == Exit.AUDIT_FOUND
    assert "Not clean" in ended.stdout


def test_papers_that_are_there_are_left_alone(solved: Path) -> None:
    before = {path: path.read_bytes() for path in (solved / "papers").iterdir()}
    ended = startrow(solved, "scenario", "reading-room", "--papers", "papers", "--quiet")
    assert ended.returncode == Exit.CANNOT_WRITE
    assert "--replace" in ended.stderr
    assert {path: path.read_bytes() for path in (solved / "papers").iterdir()} == before


def test_the_same_job_gives_the_same_bytes(solved: Path) -> None:
    other = startrow(solved, "scenario", "reading-room", "--papers", "other", "--quiet")
    assert other.returncode == Exit.DONE
    for path in sorted((solved / "papers").iterdir()):
        assert (solved / "other" / path.name).read_bytes() == path.read_bytes(), path.name


def test_a_bad_job_ends_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("job: Lamp room\nsystem: millimetres\n")
    ended = startrow(tmp_path, "solve", "job.yaml", "--papers", "papers")
    assert ended.returncode == Exit.BAD_INPUT
    assert ended.stderr.startswith("startrow: job.yaml:1: the key 'room' is missing")
    assert ended.stderr.count("\n") == 1
    assert not (tmp_path / "papers").exists()


def test_a_file_that_is_no_result_is_bad_input(tmp_path: Path) -> None:
    (tmp_path / "layouts.json").write_text("{}")
    ended = startrow(tmp_path, "audit", "layouts.json")
    assert ended.returncode == Exit.BAD_INPUT
    assert ended.stderr.count("\n") == 1


def into(output: int, folder: Path, *words: str) -> tuple[int, str]:
    """Exit code and standard error of a command that prints into a file descriptor."""
    ended = subprocess.run(
        [*STARTROW, *words],
        cwd=folder,
        env=ENVIRONMENT,
        stdout=output,
        stderr=subprocess.PIPE,
        text=True,
        timeout=60,
        check=False,
    )
    os.close(output)
    return ended.returncode, ended.stderr


def test_a_reader_that_has_gone_is_no_error(tmp_path: Path) -> None:
    read, write = os.pipe()
    os.close(read)
    assert into(write, tmp_path, "scenarios") == (Exit.OUTPUT_CLOSED, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_under_the_output_is_told(tmp_path: Path) -> None:
    full = os.open("/dev/full", os.O_WRONLY)
    assert into(full, tmp_path, "scenarios") == (
        Exit.CANNOT_WRITE,
        "startrow: the result cannot be printed: No space left on device\n",
    )


def test_ctrl_c_keeps_the_best_so_far_and_writes_the_papers(tmp_path: Path) -> None:
    with subprocess.Popen(
        [*STARTROW, "scenario", "long-room", "--papers", "papers"],
        cwd=tmp_path,
        env=ENVIRONMENT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stderr is not None
        assert process.stderr.readline()  # the first word of progress: the search is on
        process.send_signal(signal.SIGINT)
        out, _ = process.communicate(timeout=300)
    assert process.returncode in (Exit.DONE, Exit.MUST_BROKEN)
    assert "Incomplete" in out
    saved = json.loads((tmp_path / "papers" / "layouts.json").read_text())
    assert saved["complete"] is False
