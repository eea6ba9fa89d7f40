"""The benchmark's names, table and command line; timings are not tested."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scenarios.series import AREAS
from solver.baselines import Baseline
from solver.bench import (
    HEADINGS,
    Result,
    Search,
    heading,
    load,
    main,
    measure,
    names,
    table,
    waste_table,
)

SEARCH = Search(units=125, at_least=124, waste=2.5, broken=(0, 1), seconds=1.5, peak=130.0)
RESULT = Result(
    job="reading-room",
    square_feet=243.9,
    floor_units=(121.95,),
    first=Search(126, 122, 3.3, (0, 1), 0.25, 120.0),
    search=SEARCH,
    hand=Baseline(126, 37592, kept=True),
    fresh=Baseline(146, 37592, kept=False),
    scan=Baseline(125, 26416, kept=True),
    scan_seconds=0.07,
)


def test_every_job_of_the_benchmark_loads() -> None:
    assert len(names()) >= 7 + len(AREAS)
    assert load("hall-500").name == "Tern House hall of 500 sq ft"
    assert load("galley").name == "Tern House galley"


def test_one_line_a_job_under_the_headings() -> None:
    head, rule, line = table([RESULT]).splitlines()
    assert [len(row.split("|")) for row in (head, rule, line)] == [len(HEADINGS) + 2] * 3
    assert line == (
        "| reading-room | 244 | 125 | 124 | 1 | 0.25 | 1.50 | 130 "
        "| 126 | 146 * | 125 | 0.1 | 0 + 1 |"
    )


def test_a_job_no_simple_way_lays_has_empty_cells() -> None:
    line = table([replace(RESULT, hand=None, fresh=None, scan=None)]).splitlines()[-1]
    assert line.endswith("| 130 |  |  |  |  | 0 + 1 |")


def test_waste_is_beside_the_simple_ways_and_the_area_alone() -> None:
    line = waste_table([RESULT]).splitlines()[-1]
    assert line == "| reading-room | 122 | 124 | 125 | 1.7 | 2.5 | 3.3 | 19.7 |"
    bare = waste_table([replace(RESULT, hand=None, fresh=None)]).splitlines()[-1]
    assert bare == "| reading-room | 122 | 124 | 125 |  | 2.5 |  |  |"


def test_the_heading_is_dated_and_states_the_protocol() -> None:
    assert heading().startswith("## 20")
    assert "OR-Tools" in heading()
    assert "Protocol: each job in a fresh process" in heading()


def test_a_job_is_measured_in_its_own_process() -> None:
    result = measure("hall-100")
    assert result.fresh is not None
    assert 0 < result.search.at_least <= result.search.units <= result.fresh.units
    assert result.search.peak > 0


def test_a_name_that_is_none_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as leaving:
        main(["attic"])
    assert leaving.value.code == 2
    assert f"no job called attic; there are {names()[0]}, " in capsys.readouterr().err
