"""The whole search: the same answer twice, stopped early, two directions, rules at odds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.floor.layout import Layout
from models.job.data import Axis, Centred, CentreOn, Job, Kind, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search import solve
from tests.search.floors import (
    ALONG_X,
    ALONG_Y,
    PLANK,
    STAGGERED,
    STRAIGHT,
    TILE,
    box,
    job_of,
    must,
    prefer,
)

RULES = Rules(
    smallest_cut=must(40),
    smallest_end=must(200),
    joint_offset=must(150),
    second_joint_offset=prefer(60),
    balanced_cuts=prefer(30),
)
ROOM = ((0, 0), (4130, 0), (4130, 1210), (3170, 1210), (3170, 2230), (0, 2230))

PLANKS = job_of(ROOM, PLANK, STAGGERED, RULES)
TILES = job_of(ROOM, TILE, STRAIGHT, Rules(smallest_cut=must(50), half_unit_edges=prefer(0)))
BOTH_WAYS = job_of(box(2300, 1750), PLANK, STAGGERED, RULES, (ALONG_X, ALONG_Y))


def check(layout: Layout, job: Job) -> None:
    """Pieces cover the floor once, and pieces of one unit are no larger than it."""
    zone = layout.zones[0]
    area = sum(_area(p.outline) - sum(_area(h) for h in p.holes) for p in zone.pieces)
    assert abs(area) == abs(_area(zone.outer))
    length, width = job.products[0].pitch
    for unit in {p.unit for p in zone.pieces}:
        assert sum(abs(_area(p.outline)) for p in zone.pieces if p.unit == unit) <= length * width
    assert len({p.unit for p in zone.pieces}) == layout.figures.units >= zone.units_at_least


def _area(ring: tuple[tuple[int, int], ...]) -> float:
    sides = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in sides) / 2


@pytest.mark.parametrize("job", [PLANKS, TILES, BOTH_WAYS], ids=["planks", "tiles", "both ways"])
def test_the_same_job_has_the_same_answer(job: Job) -> None:
    once = solve(job)
    assert solve(job) == once
    assert once.complete
    for layout in once.layouts:
        check(layout, job)
        assert not layout.figures.broken_must
    assert [layout.rank for layout in once.layouts] == list(range(1, len(once.layouts) + 1))


@pytest.mark.parametrize("job", [PLANKS, TILES, BOTH_WAYS], ids=["planks", "tiles", "both ways"])
def test_a_search_stopped_at_once_still_has_a_layout(job: Job) -> None:
    stopped = solve(job, stop=lambda: True)
    assert stopped.layouts
    for layout in stopped.layouts:
        check(layout, job)
    whole = solve(job)
    assert stopped.layouts[0].zones[0].units_at_least <= whole.layouts[0].zones[0].units_at_least


@pytest.mark.parametrize("job", [PLANKS, BOTH_WAYS], ids=["planks", "both ways"])
def test_a_search_stopped_early_is_not_complete(job: Job) -> None:
    assert not solve(job, stop=lambda: True).complete


def test_progress_is_told_in_words() -> None:
    said: list[str] = []
    solve(BOTH_WAYS, progress=said.append)
    assert said[-1] == "finishing the best layouts"
    assert any(text.startswith("floor, along x: start lines 1 of") for text in said)
    assert any(text.startswith("floor, along y: ") for text in said)


def test_every_direction_is_searched_and_bounded() -> None:
    # Two planks long and one wide: along x two units are laid whole, along y none is.
    room = box(2400, 200)
    along, across = (job_of(room, directions=(d,)) for d in (ALONG_X, ALONG_Y))
    assert solve(along).layouts[0].figures.units == 2
    across_units = solve(across).layouts[0].figures.units
    both = solve(job_of(room, directions=(ALONG_Y, ALONG_X))).layouts
    assert both[0].zones[0].direction == ALONG_X
    assert both[0].figures.units == both[0].figures.units_at_least == 2 <= across_units


def test_rules_that_cannot_all_hold_are_broken_by_name() -> None:
    # Centred on a joint, 1000 is two rows of 200 and a rip of 100 at either side.
    axis = Axis("door", (0, 500 * MM), (1, 0))
    rules = Rules(smallest_cut=must(150), centred=(Centred(Kind.MUST, "door", CentreOn.JOINT),))
    solution = solve(job_of(box(3600, 1000), axes=[axis], rules=rules))
    best = solution.layouts[0]
    assert best.figures.broken_must == 1
    broken = [v for v in best.verdicts if not v.kept]
    assert [(v.key, v.worst, v.because) for v in broken] == [
        ("smallest_cut", 100 * MM, "lines are held on door")
    ]
    assert broken[0].where


def test_joints_that_cannot_be_kept_apart_are_broken_by_as_little_as_can_be() -> None:
    # Half a unit to the next row puts rows two apart on one joint line.
    rules = Rules(joint_offset=must(600), second_joint_offset=must(100))
    best = solve(job_of(box(3600, 600), rules=rules)).layouts[0]
    broken = {v.key: v for v in best.verdicts if not v.kept}
    assert len(broken) == best.figures.broken_must == 1
    assert all(v.because for v in broken.values())


def test_a_room_smaller_than_a_unit_is_laid() -> None:
    best = solve(job_of(box(700, 150))).layouts[0]
    assert (best.figures.units, best.figures.cuts) == (1, 1)


def test_notes_say_when_fewer_than_three_are_worth_showing() -> None:
    solution = solve(job_of(box(2400, 200)))
    assert len(solution.layouts) < 3
    assert any("worth showing" in note for note in solution.notes)


def test_where_tile_has_joints_a_note_tells_which_sizes_are_with_them() -> None:
    jointed = replace(TILE, joint=3 * MM)
    notes = [solve(job_of(box(1000, 700), tile, STRAIGHT)).notes for tile in (TILE, jointed)]
    told = ["one joint with the piece" in " ".join(each) for each in notes]
    assert told == [False, True]
