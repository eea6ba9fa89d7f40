"""Straight and stepped bonds: row offsets, and the pairs of lines worth keeping."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import pytest

from models.floor.runs import Run, runs_of, slabs
from models.job.data import Axis, Bond, BondKind, Centred, CentreOn, Job, Kind, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds.grid import row_offsets, search
from solver.search.found import Searched
from tests.search.floors import PLANK, STRAIGHT, TILE, box, job_of, must, task_of, zone_in

THIRD = Bond(BondKind.STEPPED, Fraction(1, 3))


def searched(job: Job, stop_after: int | None = None) -> Searched:
    asked = iter(range(10**6))
    halt = lambda: stop_after is not None and next(asked) >= stop_after  # noqa: E731
    return search(task_of(job), lambda _: None, halt)


def offsets_mm(job: Job, line: int, joint: int) -> list[float]:
    zone, pitch = zone_in(job), job.products[0].pitch
    runs = runs_of(zone, slabs(zone), pitch[1], line * MM)
    return [o / MM for o in row_offsets(runs, line * MM, joint * MM, pitch, job.field.bond.step)]


def test_joints_of_a_straight_bond_line_up() -> None:
    assert offsets_mm(job_of(box(1000, 700), TILE, STRAIGHT), 50, 40) == [40, 40, 40, 40]


def test_each_row_of_a_stepped_bond_is_shifted_from_the_start_line() -> None:
    # Lines at 50 begin at -150: that row is shifted from the start line's by minus a third.
    assert offsets_mm(job_of(box(3000, 700), PLANK, THIRD), 50, 100) == [900, 100, 500, 900, 100]


def sizes(found: Searched) -> set[tuple[float, float]]:
    """The smallest rip and the smallest end cut of each layout, of tile 300."""
    return {
        (min(r.top - r.bottom for r in f.runs) / MM, min(map(_shorter, f.runs, f.offsets)) / MM)
        for f in found.found
    }


def _shorter(run: Run, offset: int) -> int:
    """The shorter end piece of a run."""
    return min((at - 1) % (300 * MM) + 1 for at in (offset - run.start, run.end - offset))


def test_the_widest_cuts_both_ways_are_kept() -> None:
    # 1000 is 3 tiles and 100: cuts of 200 at both sides; 700 is 2 and 100, likewise.
    assert (200, 200) in sizes(searched(job_of(box(1000, 700), TILE, STRAIGHT)))


@pytest.mark.parametrize(("width", "height", "units"), [(900, 600, 6), (1050, 600, 7)])
def test_the_fewest_units_are_kept_and_bounded(width: int, height: int, units: int) -> None:
    # 1050 leaves half a tile a row, and two halves come from one.
    found = searched(job_of(box(width, height), TILE, STRAIGHT))
    assert min(f.units for f in found.found) == found.at_least == units
    assert found.complete


def test_lines_held_on_axes_are_the_only_ones() -> None:
    axes = [Axis("door", (0, 350 * MM), (1, 0)), Axis("window", (500 * MM, 0), (0, 1))]
    rules = Rules(centred=tuple(Centred(Kind.MUST, a.name, CentreOn.UNIT) for a in axes))
    found = searched(job_of(box(1000, 700), TILE, STRAIGHT, rules, axes=axes))
    assert {(f.start_line / MM, f.offsets[0] / MM % 300) for f in found.found} == {(200, 50)}


def test_a_layout_that_keeps_the_rules_comes_first() -> None:
    rules = Rules(smallest_cut=must(150), smallest_end=must(150))
    first, *_ = searched(job_of(box(1000, 700), TILE, STRAIGHT, rules)).found
    assert first.broken == 0
    assert min(run.top - run.bottom for run in first.runs) >= 150 * MM


def test_a_search_that_is_stopped_keeps_what_it_has() -> None:
    corners: Sequence[tuple[int, int]] = (
        (0, 0), (4130, 0), (4130, 1210), (3170, 1210), (3170, 2930), (1040, 2930),
        (1040, 2270), (0, 2270),
    )  # fmt: skip
    job = job_of(corners, TILE, STRAIGHT)
    whole, part = searched(job), searched(job, stop_after=0)
    assert part.found
    assert (whole.complete, part.complete) == (True, False)
    assert part.at_least <= whole.at_least
