"""What the pieces on a comb reach at slanted walls: never more than any layout's pieces do."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.combs import longest_comb
from models.floor.reach import least_reach
from models.floor.runs import runs_of, slabs
from models.job.data import Job, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds.lay import earlier_meets, lay
from solver.search.bonds.patterns import choice_of
from solver.search.bounds import firm_units
from solver.search.draft import zone_stock
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, end_parts
from tests.search.floors import PLANK, box, job_of, must, prefer, zone_in

CUT = 60
PITCH = 200 * MM
LENGTH = 1200 * MM


def reach(corners: list[tuple[int, int]], cut: float = CUT) -> float:
    return least_reach(zone_in(job_of(corners)), PITCH, round(cut * MM)) / MM


def test_between_square_walls_the_pieces_reach_as_far_as_the_comb() -> None:
    # Five rows of 3000, and a comb of five lines wherever it lies.
    assert reach([*box(3000, 1000)]) == pytest.approx(15_000)


def test_a_wall_that_leans_is_reached_at_its_furthest_in_every_row() -> None:
    # The right wall leans by 20 a row. Ten rows that start on the lower wall reach
    # 3000 + 20 k, k from 1 to 10; sure in an interval of start lines is 1/32 of a lean less.
    corners = [(0, 0), (3000, 0), (3200, 2000), (0, 2000)]
    most = sum(3000 + 20 * k for k in range(1, 11))
    comb = longest_comb(zone_in(job_of(corners)), PITCH) / MM
    # Right below every row line; the last line ends where the corner is a row high.
    assert comb == pytest.approx(most - 20, abs=1)
    assert comb - 1 <= reach(corners) <= most


def test_walls_that_both_lean_out_are_reached_at_both_ends() -> None:
    # Leaning out by 20 a row on the left, in by as much on the right: parallel ends nest.
    slanted = [(0, 0), (3000, 0), (3200, 2000), (200, 2000)]
    assert 30_000 - 21 <= reach(slanted) <= 30_000
    # On the right by 24: the two no longer nest, and every row reaches further than its comb.
    other = [(0, 0), (3000, 0), (3240, 2000), (200, 2000)]
    comb = longest_comb(zone_in(job_of(other)), PITCH) / MM
    assert reach(other) > comb + 150


def test_without_a_smallest_cut_a_wall_counts_as_far_as_the_comb() -> None:
    corners = [(0, 0), (3000, 0), (3240, 2000), (200, 2000)]
    comb = longest_comb(zone_in(job_of(corners)), PITCH) / MM
    assert reach(corners, cut=0) == pytest.approx(comb, abs=1)


def part_reach(parts: list[Part], height: int) -> int:
    """What parts that lie across a height in their units reach together, in ticks."""
    total = 0
    for part in parts:
        low = PITCH - part.width if part.across is Sits.HIGH else 0
        high = part.width if part.across is Sits.LOW else PITCH
        total += part.length if low <= height <= high else 0
    return total


@st.composite
def slanted_jobs(draw: st.DrawFn) -> Job:
    """Rooms of four to six corners, every wall a little off square, some well off it."""

    def off() -> int:
        return draw(st.integers(-120, 120))

    width, height = draw(st.integers(1500, 3500)), draw(st.integers(500, 1700))
    corners = [(off(), off()), (width + off(), off()), (width + 3 * off(), height + off())]
    if draw(st.booleans()):
        corners.append((width // 2 + off(), height + off()))
        corners.append((width // 2 + off(), height - 250 + off() // 2))
        corners.append((off(), height - 250 + off() // 2))
    else:
        corners.append((off(), height + off()))
    rules = Rules(smallest_cut=must(CUT), smallest_end=must(CUT))
    plank = replace(PLANK, kerf=draw(st.sampled_from([0, 3 * MM])))
    return job_of(corners, plank, rules=rules)


@given(job=slanted_jobs(), lines=st.lists(st.integers(0, 199), min_size=4, max_size=6))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_no_layout_whose_ends_keep_the_smallest_cut_takes_fewer_units(
    job: Job, lines: list[int]
) -> None:
    zone = zone_in(job)
    stock, levels = zone_stock(job, zone.laying), slabs(zone)
    least = least_reach(zone, PITCH, CUT * MM)
    for seed, line in enumerate(lines):
        runs = runs_of(zone, levels, PITCH, line * MM)
        choice = choice_of(job, zone.laying, runs)
        laid = lay(choice, earlier_meets(choice), seed)
        if laid.broken:
            continue
        whole, parts = end_parts(runs, laid.offsets, (LENGTH, PITCH))
        units = whole + len(pack(parts, stock, 3))
        assert units >= firm_units(job, zone)
        assert units * LENGTH >= least
        # Stronger: already what lies across one height in its units reaches so far.
        heights = range(0, PITCH + 1, PITCH // 100)
        together = max(part_reach(parts, height) for height in heights)
        assert whole * LENGTH + together >= least - LENGTH // 100


def test_only_a_cut_that_must_be_kept_bounds_the_units_of_directional_planks() -> None:
    corners = [(0, 0), (3000, 0), (3240, 2000), (200, 2000)]
    job = job_of(corners, rules=Rules(smallest_cut=must(CUT)))
    assert firm_units(job, zone_in(job)) == -(-reach(corners) // 1200)
    for other in (
        job_of(corners, rules=Rules(smallest_cut=prefer(CUT))),
        job_of(corners, replace(PLANK, directional=False), rules=Rules(smallest_cut=must(CUT))),
        job_of([*box(3000, 1000)], rules=Rules(smallest_cut=must(CUT))),
    ):
        assert firm_units(other, zone_in(other)) == 0
