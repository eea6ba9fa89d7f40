"""What is chosen for a border's width and a feature's place, against solving every value."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from models.job.carve.area import Plan
from models.job.carve.plan import plan_of
from models.job.data import Axis, Extent, Feature, Job, Laying, Product, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search import solve
from solver.search.choices import open_lengths
from solver.search.decide import decide
from solver.search.outcome.pick import Grade, grade
from tests.search.floors import (
    PLANK,
    STAGGERED,
    STRAIGHT,
    TILE,
    box,
    job_of,
    must,
    ring,
)
from tests.search.zoned import border, fixed, zoned

STRIP = Product("strip", 400 * MM, 100 * MM)
SMALL = Product("small tile", 200 * MM, 200 * MM, directional=False)

WASTE = 4
"""How much of a grade tells rules and stock; the rest tells layouts apart by their cuts."""


def decided(job: Job) -> Plan:
    return decide(job, lambda _: None, lambda: False)


def best(job: Job) -> Grade:
    return min(grade(layout) for layout in solve(job).layouts)


def every(job: Job) -> list[Grade]:
    """The best grade of every value, or pair of values, on the tape step, each solved in full."""
    lengths = open_lengths(job)
    ranges = [
        range(x.extent.low, x.extent.high + 1, x.extent.step or job.tape_step) for x in lengths
    ]
    names = [x.name for x in lengths]
    return [best(fixed(job, dict(zip(names, values, strict=True)))) for values in product(*ranges)]


def bordered(
    size: tuple[int, int],
    widths: tuple[int, int],
    tile: Product = TILE,
    rules: Rules | None = None,
    tape: int = 25,
    walls: tuple[int, ...] = (1,),
    step: int = 0,
) -> Job:
    """A room with a border of strips along walls, its width left open; mm."""
    zones = [border(*widths, step, STRIP, walls)]
    job = zoned(box(*size), zones, tile, STRAIGHT, rules, products=[STRIP])
    return replace(job, tape_step=tape * MM)


def sliding(
    size: tuple[int, int], places: tuple[int, int], tape: int, zones: tuple[Laying, ...] = ()
) -> Job:
    """A room of small tile with an inset 200 square free to slide along its middle; mm."""
    width, height = size
    middle = height // 2
    corners = ((-100, middle - 100), (100, middle - 100), (100, middle + 100), (-100, middle + 100))
    slide = Extent(places[0] * MM, places[1] * MM)
    inset = Feature("inset", "middle", (0, middle * MM), ring(corners), MM, slide=slide)
    axis = Axis("middle", (0, middle * MM), (1, 0))
    job = zoned(
        box(width, height), zones, SMALL, STRAIGHT, axes=[axis], features=[inset], products=[STRIP]
    )
    return replace(job, tape_step=tape * MM)


BOTH = sliding((1350, 1050), (400, 700), 50, (border(100, 200, 0, STRIP, (1,)),))

JOBS = {
    "width": bordered((1500, 1130), (100, 300)),
    "width, cuts not too small": bordered((1500, 1130), (100, 300), rules=Rules(must(60))),
    "width in strips": bordered((1500, 1130), (100, 300), step=100),
    "width, small tile": bordered((1110, 930), (80, 280), SMALL, tape=20),
    "width at two walls": bordered((1150, 930), (100, 250), SMALL, tape=25, walls=(1, 3)),
    "width all round": bordered((1190, 920), (100, 200), SMALL, tape=50, walls=(1, 2, 3, 4)),
    "place": sliding((1350, 900), (400, 900), 50),
}


@pytest.mark.parametrize("name", JOBS)
def test_no_other_value_has_a_better_layout_than_the_one_chosen(name: str) -> None:
    job = JOBS[name]
    assert best(decided(job).job) <= min(every(job))


def test_width_and_place_are_chosen_together_as_well_as_can_be() -> None:
    assert best(decided(BOTH).job) <= min(every(BOTH))


def test_no_other_width_of_planks_breaks_fewer_rules_or_wastes_less() -> None:
    rules = Rules(smallest_end=must(150), joint_offset=must(100))
    zones = [border(110, 290, 0, STRIP, (1,))]
    job = zoned(box(1710, 930), zones, PLANK, STAGGERED, rules, products=[STRIP])
    job = replace(job, tape_step=20 * MM)
    assert best(decided(job).job)[:WASTE] <= min(every(job))[:WASTE]


def test_what_is_chosen_is_told_with_its_range() -> None:
    plan = decided(BOTH)
    assert [(c.what, c.low, c.high) for c in plan.chosen] == [
        ("border", 100 * MM, 200 * MM),
        ("inset", 400 * MM, 700 * MM),
    ]
    assert all(c.low <= c.value <= c.high for c in plan.chosen)
    assert open_lengths(plan.job) == ()
    assert decided(BOTH) == plan


def test_a_width_in_units_is_a_whole_number_of_them() -> None:
    (chosen,) = decided(JOBS["width in strips"]).chosen
    assert chosen.value % (100 * MM) == 0


def test_a_job_that_leaves_nothing_open_is_left_as_it_is() -> None:
    said: list[str] = []
    job = job_of(box(1500, 1300))
    assert decide(job, said.append, lambda: False) == plan_of(job)
    assert said == []


def test_a_decision_stopped_at_once_takes_the_first_value_tried() -> None:
    (chosen,) = decide(JOBS["width"], lambda _: None, lambda: True).chosen
    assert chosen.value == chosen.low


def test_where_too_many_are_open_one_is_decided_after_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    together = best(decided(BOTH).job)
    monkeypatch.setattr("solver.search.decide.MOST_TOGETHER", 0)
    said: list[str] = []
    plan = decide(BOTH, said.append, lambda: False)
    start = {one.name: one.extent.low for one in open_lengths(BOTH)}
    assert together <= best(plan.job) <= best(fixed(BOTH, start))
    assert any(text.startswith("open lengths: 1 of ") for text in said)
