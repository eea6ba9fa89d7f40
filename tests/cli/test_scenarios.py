"""Shipped scenarios: listed by name, and a wrong name gets the nearest."""

from __future__ import annotations

from pathlib import Path

from scenarios.catalogue import SCENARIOS
from solver.cli.exits import Exit
from tests.cli.conftest import Run


def test_every_scenario_is_listed_with_what_it_is_about(run: Run) -> None:
    ended = run("scenarios")
    assert ended.code == Exit.DONE
    lines = ended.out.splitlines()
    assert [line.split()[0] for line in lines] == list(SCENARIOS)
    for line, scenario in zip(lines, SCENARIOS.values(), strict=True):
        assert line.endswith(scenario.about)


def test_a_wrong_name_gets_the_nearest(run: Run, tmp_path: Path) -> None:
    ended = run("scenario", "netloft", "--papers", tmp_path / "papers")
    assert ended.code == Exit.BAD_INPUT
    assert ended.err == "startrow: no scenario is called 'netloft'; did you mean 'net-loft'?\n"
    assert not (tmp_path / "papers").exists()
