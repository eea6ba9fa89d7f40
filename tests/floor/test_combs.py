import math
from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.combs import fewest_points, longest_comb, most_points, shortest_comb, thick
from models.floor.zone import Zone
from models.lengths import TICKS_PER_INCH as INCH
from models.lengths import TICKS_PER_MM as MM
from tests.floor.rooms import zone_for

NEAR = 200
"""Ticks (0.6 mm) a comb may lack by keeping off the corners."""


def box(length: int, width: int) -> Zone:
    return zone_for(((0, 0), (length, 0), (length, width), (0, width)))


def test_a_comb_counts_the_ripped_row_as_a_whole_one() -> None:
    # 10 ft 3 in across in 6 in rows: 20 rows and a rip, so at its longest 21 lines of 20 ft.
    room = box(240 * INCH, 123 * INCH)
    assert longest_comb(room, 6 * INCH) == pytest.approx(21 * 240 * INCH, abs=NEAR)
    assert shortest_comb(room, 6 * INCH) == pytest.approx(20 * 240 * INCH, abs=NEAR)


def test_a_slanted_end_counts_at_half_its_lean() -> None:
    # 100 and 112 in at the two walls, 12 rows of 10 in: their middle lines sum to 12 x 106.
    room = zone_for(((0, 0), (100 * INCH, 0), (112 * INCH, 120 * INCH), (0, 120 * INCH)))
    middle = longest_comb(room, 10 * INCH)
    assert 12 * 106 * INCH <= middle <= 12 * 106.5 * INCH


def test_the_grid_of_the_printed_example_holds_a_point_a_tile() -> None:
    # 2630 x 3540 mm in 300 mm tile takes 108; flooringtech.com.au unit 4 s. 3 lesson 4.
    room = box(3540 * MM, 2630 * MM)
    assert most_points(room, (300 * MM, 300 * MM), Fraction(0)) == 12 * 9
    assert fewest_points(room, (300 * MM, 300 * MM), Fraction(0)) == 11 * 8


def test_a_stepped_grid_holds_as_many_points_as_rows_can_show() -> None:
    # Rows of 50 in hold 5 points of a 12 in grid at the most shift (0, 12 .. 48) and 4 at the
    # least; stepped by a third the three shifts 0, 4, 8 show 5 + 4 + 4 or 5 + 4 + 4.
    room = box(50 * INCH, 36 * INCH)
    assert most_points(room, (12 * INCH, 12 * INCH), Fraction(1, 3)) == 13


def test_parts_too_thin_to_hold_a_piece_are_left_out() -> None:
    # A corridor 4 in deep beside a room: nothing keeps a 6 in plank in place there.
    ring = ((0, 0), (200 * INCH, 0), (200 * INCH, 4 * INCH), (100 * INCH, 4 * INCH),
            (100 * INCH, 60 * INCH), (0, 60 * INCH))  # fmt: skip
    kept = thick(zone_for(ring), 6 * INCH)
    assert kept.bounds[2] == 100 * INCH
    assert thick(box(100 * INCH, 4 * INCH), 6 * INCH).is_empty


def test_a_wedge_counts_from_where_it_is_thick_enough() -> None:
    # 0 to 30 in deep over 100 in: 6 in deep at 20 in.
    ring = ((0, 0), (100 * INCH, 0), (100 * INCH, 30 * INCH))
    assert thick(zone_for(ring), 6 * INCH).bounds[0] == pytest.approx(20 * INCH, abs=10)


@given(
    width=st.integers(30, 90), depth=st.integers(20, 60),
    lean=st.integers(-12, 12), shift=st.integers(0, 47), pitch=st.integers(3, 9),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_no_comb_is_longer_than_the_longest(
    width: int, depth: int, lean: int, shift: int, pitch: int
) -> None:
    ring = ((0, 0), (width * INCH, 0), ((width + lean) * INCH, depth * INCH), (0, depth * INCH))
    room = zone_for(ring)
    floor = thick(room, pitch * INCH)
    line = shift * pitch * INCH / 48
    (left, low, right, _), total = room.polygon.bounds, 0.0
    while line < depth * INCH:
        total += floor.intersection(shapely.box(left, low + line, right, low + line + 1)).area
        line += pitch * INCH
    assert total <= longest_comb(room, pitch * INCH) + NEAR * math.ceil(depth / pitch)
    assert total >= shortest_comb(room, pitch * INCH) - NEAR * math.ceil(depth / pitch)
