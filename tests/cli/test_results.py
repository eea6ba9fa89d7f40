"""The result table: every figure with its unit, every broken rule with place and cause."""

from __future__ import annotations

from dataclasses import replace

from models.job.reader import read_job
from scenarios.catalogue import SCENARIOS
from solver.cli.results import PAGE, must_broken, result_text
from tests.cli.samples import FIGURES, INCH, KEPT, SLIVER, STAIR, UNEVEN, layout, solution


def row_of(text: str, name: str) -> str:
    return next(line for line in text.splitlines() if line.startswith(name))


def test_the_figures_stand_beside_their_names() -> None:
    text = result_text(solution(layout(KEPT)))
    assert text.startswith("Tern House reading room\n")
    assert row_of(text, "Units to cut from").split()[-1] == "125"
    assert "122, gap 3" in row_of(text, "Least possible")
    assert "8, 3 units spare" in row_of(text, "Cartons to buy")
    assert "2.5 %" in row_of(text, "Waste")
    assert '4-5/8", row 1, at the window wall' in row_of(text, "Smallest cut")
    assert row_of(text, "Pieces to cut").split()[-1] == "50"
    assert row_of(text, "Rules broken").split()[-1] == "none"


def test_a_bound_that_is_reached_is_called_proved() -> None:
    reached = replace(layout(KEPT), figures=replace(FIGURES, units_at_least=125))
    assert "125: proved least" in result_text(solution(reached))


def test_three_layouts_stand_side_by_side_within_the_page() -> None:
    three = [layout(KEPT, rank=rank) for rank in (1, 2, 3)]
    text = result_text(solution(*three))
    assert row_of(text, "Layout").split() == ["Layout", "1", "2", "3"]
    assert row_of(text, "Units to cut from").split()[-3:] == ["125", "125", "125"]
    assert max(map(len, text.splitlines())) <= PAGE


def test_broken_rules_are_named_with_amount_place_and_cause_musts_first() -> None:
    broken = (layout(UNEVEN, KEPT, SLIVER), layout(SLIVER, STAIR, rank=2))
    told = " ".join(result_text(solution(*broken)).partition("Rules not kept")[2].split())
    assert told == (
        '- layouts 1 and 2: smallest cut (must): 1", asked 2", row 9;'
        " the hoist axis must be kept"
        ' - layout 1: balanced opposite cuts (preferred): 3", asked 1", rows 1 and 9'
        " - layout 2: no repeating stair (preferred): 5, asked 3, rows 2 to 7"
    )


def test_a_layout_that_keeps_everything_names_no_rule() -> None:
    assert "not kept" not in result_text(solution(layout(KEPT)))


def test_an_interrupted_search_is_marked() -> None:
    assert "Incomplete: the search was stopped" in result_text(
        solution(layout(KEPT), complete=False)
    )
    assert "Incomplete" not in result_text(solution(layout(KEPT)))


def test_notes_are_printed_once() -> None:
    text = result_text(solution(layout(KEPT), notes=("only one layout differs",)))
    assert text.count("only one layout differs") == 1


def test_lengths_are_in_the_jobs_own_system() -> None:
    metric = read_job(SCENARIOS["net-loft"].path)
    cut = replace(layout(KEPT), figures=replace(FIGURES, smallest_cut=10 * INCH))
    assert "254 mm, row 1" in result_text(solution(cut, job=metric))


def test_a_must_rule_broken_in_any_layout_counts() -> None:
    assert not must_broken(solution(layout(KEPT), layout(UNEVEN)))
    assert must_broken(solution(layout(KEPT), layout(SLIVER)))
