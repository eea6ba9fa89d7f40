"""Needs against a scan: the joint is put everywhere and the pieces before it are measured."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.ends import end_needs
from models.floor.pieces import pieces_of
from models.floor.runs import Run, runs_of, slabs
from models.job.data import Job, Ring
from tests.floor.rooms import PITCH, any_jobs, field_zone

LENGTH, WIDTH = PITCH

FINE = 33
"""Ticks within which a need is found where there is no closed form (0.1 mm)."""

HAIR = 100
"""Pieces shorter than this are not laid."""


def run_of(outline: Ring) -> Run:
    left, low, right, high = (round(x) for x in shapely.Polygon(outline).bounds)
    return Run(1, low, left, right, low, high, outline)


def enough(run: Run, joint: int, first: bool, cut: int, end: int) -> bool:
    """Whether every piece between a stop and the first (or last) joint there is large enough."""
    pieces = [
        piece
        for piece in pieces_of([run], [joint], PITCH)
        if (piece.box[2] <= joint if first else piece.box[0] >= joint)
    ]
    sizes = [
        (min(s for s in (p.sizes.along, p.sizes.across, p.sizes.slant, LENGTH) if s is not None), p)
        for p in pieces
    ]
    return all(size >= cut and (p.sizes.along or LENGTH) >= end for size, p in sizes)


def scan(run: Run, first: bool, need: int, cut: int, end: int) -> None:
    """Every joint from the need on is far enough, and one just short of it is not."""

    def good(distance: int) -> bool:
        joint = run.start + distance if first else run.end - distance
        return enough(run, joint, first, cut, end)

    if not good(LENGTH):
        assert need == max(cut, end)
        return
    assert need <= LENGTH
    for distance in range(need, LENGTH, 2_500):
        assert good(distance), distance
    if need - FINE > HAIR:
        assert not good(need - FINE)


def test_a_plain_run_needs_the_larger_limit() -> None:
    assert end_needs(Run(1, 0, 0, 500_000, 0, WIDTH), PITCH, 9_000, 30_000) == (30_000, 30_000)
    assert end_needs(Run(1, 0, 0, 500_000, 0, WIDTH), PITCH, 9_000, 0) == (9_000, 9_000)


def test_an_end_wall_a_little_off_square_takes_its_lean_more() -> None:
    # The walls lean by 2000 and 3000 in 20000; the narrow side of an end piece is that shorter.
    run = run_of(((2_000, 0), (500_000, 0), (497_000, WIDTH), (0, WIDTH)))
    assert end_needs(run, PITCH, 9_000, 30_000) == (32_000, 33_000)


def test_a_slanted_end_wall_leaves_a_triangle_that_must_hold_the_circle() -> None:
    # At 45 degrees the circle before a joint at x is x (2 - sqrt 2); an end piece's length
    # along the row is not measured on a slant.
    run = run_of(((0, 0), (500_000, 0), (480_000, WIDTH), (20_000, WIDTH)))
    expected = 9_000 / (2 - math.sqrt(2))
    assert end_needs(run, PITCH, 9_000, 30_000) == pytest.approx((expected, expected), abs=2)


def test_an_acute_corner_is_no_straight_end() -> None:
    # The lower wall rises by 2.2 degrees from the very corner, so that the triangle before a
    # joint at x is no right one: its sides are x (1, tan 2.18 and tan 25.05 degrees).
    run = run_of(((0, 0), (193_872, 7_374), (203_216, 20_000), (42_783, 20_000)))
    first, _ = end_needs(run, PITCH, 500, 500)
    low, high = 7_374 / 193_872, 20_000 / 42_783
    around = high - low + math.hypot(1, low) + math.hypot(1, high)
    circle = 2 * (high - low) / around  # Four times the area over the sides, for x = 1.
    assert first == pytest.approx(500 / circle, abs=FINE)


def test_a_step_at_the_end_needs_the_row_to_be_wide_enough() -> None:
    # The upper 4000 reach 30000 further left: too narrow by themselves, so that the joint must
    # be past the step.
    run = run_of(
        ((30_000, 0), (500_000, 0), (500_000, WIDTH), (0, WIDTH), (0, 16_000), (30_000, 16_000))
    )
    first, last = end_needs(run, PITCH, 9_000, 9_000)
    assert first == pytest.approx(30_000, abs=FINE)
    assert last == 9_000


def test_a_run_ripped_under_the_limit_still_keeps_its_ends_long() -> None:
    # 5000 is left of the row whatever its joints: only the length of the ends is to choose.
    run = run_of(((0, 0), (500_000, 0), (500_000, 5_000), (900, 5_000)))
    assert end_needs(run, PITCH, 9_000, 30_000) == (30_000, 30_000)


def test_no_limits_need_nothing() -> None:
    run = run_of(((0, 0), (500_000, 0), (500_000, WIDTH), (30_000, WIDTH)))
    assert end_needs(run, PITCH, 0, 0) == (0, 0)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    st.integers(-40_000, 40_000),
    st.integers(-40_000, 40_000),
    st.integers(500, 9_000),
    st.integers(500, 40_000),
)
def test_straight_ends_need_what_a_scan_needs(left: int, right: int, cut: int, end: int) -> None:
    run = run_of(
        (
            (max(left, 0), 0),
            (600_000 + min(right, 0), 0),
            (600_000 - max(right, 0), WIDTH),
            (max(-left, 0), WIDTH),
        )
    )
    first, last = end_needs(run, PITCH, cut, end)
    scan(run, True, first, cut, end)
    scan(run, False, last, cut, end)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    any_jobs(),
    st.integers(0, WIDTH - 1),
    st.integers(500, 9_000),
    st.integers(500, 40_000),
    st.data(),
)
def test_ends_of_any_run_need_what_a_scan_needs(
    job: Job, line: int, cut: int, end: int, data: st.DataObject
) -> None:
    zone = field_zone(job)
    odd = [
        run
        for run in runs_of(zone, slabs(zone), WIDTH, line)
        if run.outline and run.length > LENGTH
    ]
    if not odd:
        return
    run = data.draw(st.sampled_from(odd))
    first, last = end_needs(run, PITCH, cut, end)
    scan(run, True, first, cut, end)
    scan(run, False, last, cut, end)
