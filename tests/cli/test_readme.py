"""The README tells the commands, exit codes and papers there really are."""

from __future__ import annotations

from pathlib import Path

import pytest

from scenarios.catalogue import SCENARIOS
from solver.cli.arguments import parser
from solver.cli.exits import MEANINGS, Exit

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("code", Exit)
def test_every_exit_code_is_told_in_the_same_words(code: Exit) -> None:
    assert f"| {int(code)} | {MEANINGS[code]} |" in README


def test_every_command_shown_can_be_typed() -> None:
    blocks = README.split("```")[1::2]
    lines = [line for block in blocks for line in block.splitlines()]
    shown = [line.split("   ")[0].split()[1:] for line in lines if line.startswith("startrow ")]
    assert ["new", "my-job.yaml"] in shown
    for words in shown:
        parser().parse_args(words)


def test_scenarios_named_are_shipped() -> None:
    named = {words.split()[0].strip("`") for words in README.split("startrow scenario ")[1:]} - {
        "NAME"
    }
    assert named
    assert named <= set(SCENARIOS)


def test_links_lead_somewhere() -> None:
    targets = [part.split(")")[0] for part in README.split("](")[1:]]
    assert "docs/job-file.md" in targets
    for target in targets:
        assert (ROOT / target).exists(), target
