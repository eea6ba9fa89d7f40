"""``startrow new``: the whole template in a new file, or no file at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from models.job.template import template
from solver.cli import commands
from solver.cli.exits import Exit
from tests.cli.conftest import Run


def test_a_new_job_file_is_the_template(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    ended = run("new", job)
    assert ended.code == Exit.DONE
    assert job.read_text(encoding="utf-8") == template()
    assert f"startrow check {job}" in ended.out


def test_a_file_that_is_there_is_left_alone(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text("mine")
    ended = run("new", job)
    assert ended.code == Exit.CANNOT_WRITE
    assert ended.err == f"startrow: {job}: is there already and is left alone; give another name\n"
    assert job.read_text() == "mine"


def test_a_folder_that_is_not_there_is_told(run: Run, tmp_path: Path) -> None:
    ended = run("new", tmp_path / "none" / "job.yaml")
    assert ended.code == Exit.CANNOT_WRITE
    assert "cannot be written: No such file or directory" in ended.err


def test_a_full_disk_leaves_no_half_file(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full() -> str:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(commands, "template", full)
    ended = run("new", tmp_path / "job.yaml")
    assert ended.code == Exit.CANNOT_WRITE
    assert "No space left on device" in ended.err
    assert list(tmp_path.iterdir()) == []
