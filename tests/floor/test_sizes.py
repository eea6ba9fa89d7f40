"""Cut sizes worked out by hand, in millimetres; a unit is 1200 by 150."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.sizes import SAME, Cell, Sizes, box_sizes, sizes_of
from models.job.data import Ring
from models.lengths import TICKS_PER_MM

Corners = list[tuple[float, float]]


def ring(corners: Corners) -> Ring:
    return tuple((round(u * TICKS_PER_MM), round(v * TICKS_PER_MM)) for u, v in corners)


CELL: Cell = (0, 0, 1200 * TICKS_PER_MM, 150 * TICKS_PER_MM)


def sized(corners: Corners, *holes: Corners) -> tuple[float | None, ...]:
    """Along, across, slant and neck of a piece of the unit at the origin, in millimetres."""
    found = sizes_of(ring(corners), tuple(ring(hole) for hole in holes), CELL)
    sizes = (found.along, found.across, found.slant, found.neck)
    return tuple(None if size is None else size / TICKS_PER_MM for size in sizes)


def test_a_plain_end_cut() -> None:
    assert sized([(0, 0), (700, 0), (700, 150), (0, 150)]) == (700, None, None, None)


def test_a_rip() -> None:
    assert sized([(0, 60), (1200, 60), (1200, 150), (0, 150)]) == (None, 90, None, None)


def test_a_corner_piece_is_cut_both_ways() -> None:
    assert sized([(500, 0), (1200, 0), (1200, 90), (500, 90)]) == (700, 90, None, None)


def test_a_piece_cut_at_both_ends() -> None:
    # Between walls at 300 and at 1050: 750 is left, wherever in the unit it is taken from.
    assert sized([(300, 0), (1050, 0), (1050, 150), (300, 150)]) == (750, None, None, None)


def test_a_piece_ripped_on_both_sides() -> None:
    assert sized([(0, 20), (1200, 20), (1200, 110), (0, 110)]) == (None, 90, None, None)


def test_walls_that_lean_both_ways_leave_what_is_between_their_inner_ends() -> None:
    # The left wall runs from 100 to 120, the right one from 900 down to 890: 890 - 120.
    assert sized([(100, 0), (900, 0), (890, 150), (120, 150)]) == (770, None, None, None)


def test_an_end_wall_five_degrees_off() -> None:
    # Over 150 mm the wall moves by 150 tan 5 = 13.12: of 700 at the long side 686.88 is left.
    lean = 150 * math.tan(math.radians(5))
    along, *others = sized([(0, 0), (700, 0), (700 - lean, 150), (0, 150)])
    assert along == pytest.approx(686.877, abs=0.005)
    assert others == [None, None, None]


def test_a_tapered_rip_counts_at_its_narrow_end() -> None:
    assert sized([(0, 40), (1200, 55), (1200, 150), (0, 150)]) == (None, 95, None, None)


def test_a_tapered_rip_that_runs_out_is_near_nothing_wide() -> None:
    # At the narrow end the wall is 0.5 under the row line, then on it.
    assert sized([(0, 100), (1200, 149.5), (1200, 150), (0, 150)]) == (None, 0.5, None, None)
    assert sized([(0, 100), (1200, 150), (0, 150)]) == (None, 0, None, None)


@pytest.mark.parametrize("leg", [60, 120, 150])
def test_a_45_degree_triangle_is_as_wide_as_its_circle(leg: float) -> None:
    # Inside a right triangle of legs a the circle has the diameter a + a - a sqrt 2.
    *others, slant, neck = sized([(0, 0), (leg, 0), (0, leg)])
    assert slant == pytest.approx(leg * (2 - math.sqrt(2)), abs=0.005)
    assert [*others, neck] == [None, None, None]


def test_a_slanted_cut_from_row_line_to_row_line_leaves_room_for_a_circle_the_row_wide() -> None:
    assert sized([(0, 0), (500, 0), (600, 150), (0, 150)]) == (None, None, 150, None)


def test_a_slanted_corner_of_a_rip_counts_both_ways() -> None:
    # Ripped at 30, then cut across from (1000, 30) to (1200, 130): the circle is 120 wide.
    along, across, slant, _ = sized([(0, 30), (1000, 30), (1200, 130), (1200, 150), (0, 150)])
    assert (along, across) == (None, 120)
    assert slant == pytest.approx(120, abs=0.01)


def test_fifteen_degrees_divide_end_cuts_from_slanted_ones() -> None:
    for degrees, is_end in ((14.9, True), (15.1, False)):
        lean = 150 * math.tan(math.radians(degrees))
        along, _, slant, _ = sized([(0, 0), (700, 0), (700 - lean, 150), (0, 150)])
        assert (along is not None, slant is not None) == (is_end, not is_end)
    for degrees, is_rip in ((14.9, True), (15.1, False)):
        rise = 200 * math.tan(math.radians(degrees))
        _, across, slant, _ = sized([(0, 0), (200, 0), (200, 140 - rise), (0, 140)])
        assert (across is not None, slant is not None) == (is_rip, not is_rip)


def test_a_notch_in_a_corner_leaves_two_necks() -> None:
    # A wall corner takes 400 by 110 of the upper right: 40 is left below it, 800 beside it.
    found = sized([(0, 0), (1200, 0), (1200, 40), (800, 40), (800, 150), (0, 150)])
    assert found == (None, None, None, 40)
    found = sized([(0, 0), (1200, 0), (1200, 140), (30, 140), (30, 150), (0, 150)])
    assert found == (None, None, None, 30)


def test_a_notch_in_a_side_leaves_a_neck_and_its_ends() -> None:
    # A pipe of 100 by 90 in the upper side: 60 below it, 500 and 600 beside it.
    found = sized([(0, 0), (1200, 0), (1200, 150), (600, 150), (600, 60), (500, 60), (500, 150),
                   (0, 150)])  # fmt: skip
    assert found == (None, None, None, 60)


def test_the_neck_of_a_leaning_notch_is_its_narrow_end() -> None:
    # The notch's floor rises from 50 to 60 on its way left.
    found = sized([(0, 0), (1200, 0), (1200, 50), (800, 60), (800, 150), (0, 150)])
    assert found == (None, None, None, 50)


def test_a_hole_leaves_the_least_of_four_necks() -> None:
    # Clockwise from (500, 30) to (600, 100): 30 below, 50 above, 500 and 600 beside.
    hole: Corners = [(500, 30), (500, 100), (600, 100), (600, 30)]
    assert sized([(0, 0), (1200, 0), (1200, 150), (0, 150)], hole) == (None, None, None, 30)


def test_a_neck_is_measured_through_the_piece_and_not_across_a_second_hole() -> None:
    # Two holes 20 apart along the row; each is 200 long.
    first: Corners = [(300, 60), (300, 90), (500, 90), (500, 60)]
    second: Corners = [(520, 60), (520, 90), (720, 90), (720, 60)]
    found = sized([(0, 0), (1200, 0), (1200, 150), (0, 150)], first, second)
    assert found == (None, None, None, 20)


def test_a_leaning_end_is_no_far_side_of_a_notch() -> None:
    # The end leans from (40, 0) to (40/3, 100), where a notch 100 up and 50 high cuts it off
    # as far as 30: under the notch's floor there is only that end, beside it 1170.
    found = sized([(40, 0), (1200, 0), (1200, 150), (30, 150), (30, 100), (40 / 3, 100)])
    assert found == (1160, None, None, 1170)


def test_an_end_cut_with_a_notch_has_both() -> None:
    # 700 long, with 200 by 50 taken out of the far corner: 100 below it, 500 beside it.
    found = sized([(0, 0), (700, 0), (700, 100), (500, 100), (500, 150), (0, 150)])
    assert found == (700, None, None, 100)


def test_sides_on_the_units_own_edges_are_no_cuts() -> None:
    hair = SAME / TICKS_PER_MM
    assert sized([(0, 0), (1200, 0), (1200, 150), (0, 150)]) == (None,) * 4
    assert sized([(hair, 0), (1200, 0), (1200, 150), (0, 150 - hair)]) == (None,) * 4


def test_a_side_shorter_than_a_hair_is_no_cut() -> None:
    # The corner at (600, 0) is rounded off by 3 by 5 ticks: only the end cut counts.
    tick = 1 / TICKS_PER_MM
    along, *others = sized(
        [(0, 0), (600, 0), (600 + 3 * tick, 5 * tick), (600 + 3 * tick, 150), (0, 150)]
    )
    assert along == pytest.approx(600, abs=0.02)
    assert others == [None, None, None]


def test_the_corner_of_a_jog_of_a_hair_is_a_notch_and_no_end_cut() -> None:
    # The wall jogs by 10 ticks at 500: nothing is cut along the row there.
    jog = 10 / TICKS_PER_MM
    along, across, *_ = sized([(0, jog), (500, jog), (500, 0), (1200, 0), (1200, 150), (0, 150)])
    assert along is None
    assert across is None or across >= 150 - jog


@settings(max_examples=100, deadline=None, derandomize=True)
@given(*[st.integers(0, 1200)] * 2, *[st.integers(0, 150)] * 2)
def test_a_box_has_the_same_sizes_either_way(u0: int, u1: int, v0: int, v1: int) -> None:
    (left, right), (low, high) = sorted((u0, u1)), sorted((v0, v1))
    if left == right or low == high:
        return
    box = tuple(n * TICKS_PER_MM for n in (left, low, right, high))
    corners: Corners = [(left, low), (right, low), (right, high), (left, high)]
    found = box_sizes((box[0], box[1], box[2], box[3]), CELL)
    assert found == sizes_of(ring(corners), (), CELL)
    assert found == Sizes(
        None if right - left == 1200 else box[2] - box[0],
        None if high - low == 150 else box[3] - box[1],
    )


def test_less_than_a_hair_is_no_cut() -> None:
    right, high = CELL[2:]
    assert box_sizes((0, 0, right - SAME, high), CELL) == Sizes()
    assert box_sizes((0, 0, right - SAME - 1, high), CELL) == Sizes(along=right - SAME - 1)
    assert box_sizes((0, SAME + 1, right, high), CELL) == Sizes(across=high - SAME - 1)
