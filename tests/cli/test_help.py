"""Help: every command and exit code is told, and every command shows an example."""

from __future__ import annotations

import pytest

from models import __version__
from solver.cli.exits import MEANINGS, Exit
from tests.cli.conftest import Run

COMMANDS = ("solve", "check", "new", "audit", "weigh", "scenarios", "scenario")


def test_every_command_and_exit_code_is_told(run: Run) -> None:
    ended = run("--help")
    assert ended.code == 0
    for command in COMMANDS:
        assert f"\n    {command}" in ended.out
    for code in Exit:
        assert f"{code:>3}  {MEANINGS[code]}" in ended.out


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_shows_an_example(run: Run, command: str) -> None:
    ended = run(command, "--help")
    assert ended.code == 0
    assert f"\n  startrow {command}".rstrip("s") in ended.out


def test_the_version_is_the_packages(run: Run) -> None:
    assert run("--version").out == f"startrow {__version__}\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "COMMAND"),
        (("lay",), "invalid choice: 'lay'"),
        (("solve", "job.yaml"), "required: --papers"),
        (("check",), "required: JOB"),
    ],
)
def test_wrong_usage_is_bad_input(run: Run, words: tuple[str, ...], said: str) -> None:
    ended = run(*words)
    assert ended.code == Exit.BAD_INPUT
    assert said in ended.err
