"""Each alternative comes to what solving it by itself comes to, audited before it is told."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from models.floor.layout import Solution
from models.job.data import Job
from models.job.reader import read_text
from scenarios.catalogue import SCENARIOS
from solver.search import solve
from solver.sheets.audited import AuditFailure
from solver.sheets.papers import write_papers
from solver.weigh import outcome as outcomes
from solver.weigh.alternatives import By, Contest, contest_of
from solver.weigh.outcome import Weighed, weigh
from tests.job.sample import text
from tests.weigh.samples import SLIVER, outcome, weighed, weighing

Say = Callable[[str], None]
Stop = Callable[[], bool]

PLANK = "{name: plank, length: 600, width: 150, kerf: 3, per_carton: 9, price: 31.5}"
TILE = "{name: tile, length: 200, width: 200, joint: 4, per_carton: 10, price: 24}"
MIXED = (
    "{name: mixed, width: 120, price: 28.25, "
    "lengths: [{length: 700, per_carton: 3}, {length: 450, per_carton: 2}]}"
)
SMALL = {
    "room": "{corners: [[0, 0], [1250, 0], [1250, 620], [0, 620]], walls: [s, e, n, w]}",
    "products": f"[{PLANK}, {TILE}]",
    "field": "{product: plank, bond: {stepped: 1/2}, directions: [{along: s}, {along: e}]}",
    "breakage": "3 %",
}
ONE_WAY = "{product: plank, bond: staggered, directions: [{along: s}]}"


def small(by: By, **sections: str) -> Contest:
    return contest_of(text(**{**SMALL, **sections}), "galley.yaml", None, by)


def test_figures_are_those_of_solving_each_by_itself() -> None:
    found = weigh(small(By.BOTH))
    assert len(found.solved) == 4
    written = SMALL["field"]
    for each in found.outcomes:
        alternative = each.alternative
        (direction,) = alternative.directions
        field = written.replace("product: plank", f"product: {alternative.product}").replace(
            "[{along: s}, {along: e}]", f"[{{along: {direction[-1]}}}]"
        )
        alone = solve(read_text(text(**{**SMALL, "field": field}), "galley.yaml"))
        assert each.weighed is not None
        assert each.weighed.figures == alone.layouts[0].figures
        assert list(each.weighed.broken) == [v for v in alone.layouts[0].verdicts if not v.kept]


def test_what_is_bought_is_the_units_in_the_cartons() -> None:
    found = weigh(small(By.PRODUCTS, products=f"[{PLANK}, {TILE}, {MIXED}]", field=ONE_WAY))
    carton_m2 = {
        "plank": 9 * 0.6 * 0.15,
        "tile": 10 * 0.204 * 0.204,
        "mixed": (3 * 0.7 + 2 * 0.45) * 0.12,
    }
    for name, each in found.solved:
        assert each.bought_mm2 == pytest.approx(each.figures.cartons * carton_m2[name] * 1e6)
        assert each.bought_mm2 >= each.used_mm2 >= each.figures.laid_area_mm2


def test_the_scenario_figures_are_in_its_layouts_json(tmp_path: Path) -> None:
    source = SCENARIOS["net-store"].path.read_text(encoding="utf-8")
    contest = contest_of(source, "net-store.yaml", None, By.DIRECTIONS)
    found = weigh(replace(contest, alternatives=contest.alternatives[:1]))
    job = contest.alternatives[0].job
    assert job is not None
    write_papers(solve(job), tmp_path / "papers")
    saved = json.loads((tmp_path / "papers" / "layouts.json").read_text(encoding="utf-8"))
    figures = saved["layouts"][0]["figures"]
    ((_, each),) = found.solved
    assert each.figures.units == figures["units"]
    assert each.figures.cartons == figures["cartons"]
    assert each.figures.waste_percent == pytest.approx(figures["waste_percent"], abs=1e-6)


def test_what_cannot_be_laid_does_not_stop_the_rest() -> None:
    field = "{product: plank, bond: straight}"
    found = weigh(small(By.PRODUCTS, products=f"[{PLANK}, {MIXED}, {TILE}]", field=field))
    assert [(each.name, each.weighed is not None) for each in found.outcomes] == [
        ("plank", True), ("mixed", False), ("tile", True),
    ]  # fmt: skip
    assert found.missing == ()


def test_progress_says_which_alternative_is_solved() -> None:
    said: list[str] = []
    weigh(small(By.DIRECTIONS), said.append)
    assert said[0].startswith("1 of 2, along s: ")
    assert said[-1] == "2 of 2, along e: checking the layouts"


def test_stopping_keeps_what_was_solved(monkeypatch: pytest.MonkeyPatch) -> None:
    pressed: list[str] = []

    def solving(job: Job, say: Say, stop: Stop) -> Solution:
        if job.field.product == "tile":
            pressed.append("Ctrl-C")
        return solve(job, say, stop)

    monkeypatch.setattr(outcomes, "solve", solving)
    contest = small(By.PRODUCTS, products=f"[{PLANK}, {TILE}, {MIXED}]", field=ONE_WAY)
    found = weigh(contest, stop=lambda: bool(pressed))
    assert [name for name, _ in found.solved] == ["plank"]
    assert found.missing == ("tile", "mixed")


def test_a_layout_that_fails_its_audit_is_an_error_that_names_the_alternative(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def wrong(job: Job, say: Say, stop: Stop) -> Solution:
        found = solve(job, say, stop)
        first = found.layouts[0]
        fewer = replace(first.figures, units=first.figures.units - 1)
        return replace(found, layouts=(replace(first, figures=fewer), *found.layouts[1:]))

    monkeypatch.setattr(outcomes, "solve", wrong)
    with pytest.raises(AuditFailure, match="the layouts of 'plank' failed their audit"):
        weigh(small(By.PRODUCTS))


def test_the_best_keep_every_must_rule() -> None:
    found = weighing(
        outcome("a", weighed(4, 400)),
        outcome("b", weighed(1, 100, (SLIVER,))),
        outcome("c", weighed(5, 300)),
        outcome("d", None, "no"),
    )
    assert (found.least_waste, found.cheapest, found.must_broken) == (("a",), ("c",), True)


def test_ties_are_shared() -> None:
    found = weighing(outcome("a", weighed(4, 400)), outcome("b", weighed(4 + 1e-9, 400)))
    assert found.least_waste == found.cheapest == ("a", "b")


@pytest.mark.parametrize("second", [weighed(4), weighed(4, None, (SLIVER,))])
def test_nothing_is_cheapest_where_a_price_is_missing(second: Weighed) -> None:
    found = weighing(outcome("a", weighed(4, 400)), outcome("b", second))
    assert (found.cheapest, found.priced) == ((), True)


def test_none_is_best_when_all_break_a_must() -> None:
    found = weighing(*(outcome(name, weighed(4, 400, (SLIVER,))) for name in "ab"))
    assert found.least_waste == found.cheapest == ()
