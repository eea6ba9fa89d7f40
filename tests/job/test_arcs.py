import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point

from models.job.arcs import ROUNDNESS_MM, arc_corners, rising, through
from tests.job.sample import MM

TICK = 2.0


def circle_of(a: tuple[int, int], b: tuple[int, int], rise: float) -> tuple[float, float, float]:
    """Centre and radius of the circle over a chord, its middle so far to the right."""
    chord = math.dist(a, b)
    radius = (chord**2 / 4 + rise**2) / (2 * abs(rise))
    right = (b[1] - a[1]) / chord, (a[0] - b[0]) / chord
    off = rise - math.copysign(radius, rise)
    return (a[0] + b[0]) / 2 + off * right[0], (a[1] + b[1]) / 2 + off * right[1], radius


lengths = st.integers(-20_000 * MM, 20_000 * MM)


@given(
    start=st.tuples(lengths, lengths),
    way=st.tuples(lengths, lengths).filter(lambda way: math.hypot(*way) > 100 * MM),
    share=st.floats(0.01, 1.5),
    right=st.booleans(),
)
def test_corners_lie_on_the_arc_and_sides_within_half_a_millimetre(
    start: tuple[int, int], way: tuple[int, int], share: float, right: bool
) -> None:
    end = start[0] + way[0], start[1] + way[1]
    rise = round(share * math.dist(start, end) / 2) * (1 if right else -1)
    corners = [start, *arc_corners(start, end, rising(start, end, rise)), end]
    x, y, radius = circle_of(start, end, rise)
    for corner in corners:
        assert abs(math.dist(corner, (x, y)) - radius) < TICK
    for a, b in pairwise(corners):
        middle = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        assert radius - math.dist(middle, (x, y)) <= ROUNDNESS_MM * MM


@given(
    way=st.tuples(lengths, lengths).filter(lambda way: math.hypot(*way) > 1000 * MM),
    share=st.floats(0.05, 1.5),
    right=st.booleans(),
)
def test_an_arc_through_a_point_passes_it_within_half_a_millimetre(
    way: tuple[int, int], share: float, right: bool
) -> None:
    x, y, radius = circle_of((0, 0), way, share * math.hypot(*way) / 2 * (1 if right else -1))
    towards = math.atan2(way[1] / 2 - y, way[0] / 2 - x) + (math.pi if share > 1 else 0)
    middle = round(x + radius * math.cos(towards)), round(y + radius * math.sin(towards))
    corners = [(0, 0), *arc_corners((0, 0), way, through((0, 0), middle, way)), way]
    assert LineString(corners).distance(Point(middle)) <= (ROUNDNESS_MM + 0.01) * MM


def test_a_half_circle_by_its_rise_and_by_a_point() -> None:
    start, end = (0, 0), (2000 * MM, 0)
    assert rising(start, end, 1000 * MM) == pytest.approx(math.pi / 2)
    assert through(start, (1000 * MM, -1000 * MM), end) == pytest.approx(math.pi / 2)
    assert through(start, (1000 * MM, 1000 * MM), end) == pytest.approx(-math.pi / 2)
    assert min(y for _, y in arc_corners(start, end, math.pi / 2)) >= -1000 * MM


def test_a_point_in_line_turns_nothing() -> None:
    assert through((0, 0), (500, 0), (1000, 0)) == 0
    assert abs(through((0, 0), (1500, 0), (1000, 0))) == math.pi
    assert through((0, 0), (0, 0), (1000, 0)) == 0


def test_the_shallowest_arc_still_has_a_corner() -> None:
    start, end = (0, 0), (3000 * MM, 0)
    assert arc_corners(start, end, rising(start, end, MM // 10)) == ((1500 * MM, -MM // 10),)


def test_an_arc_of_a_hair_repeats_no_corner() -> None:
    corners = [(0, 0), *arc_corners((0, 0), (3, 0), rising((0, 0), (3, 0), 2)), (3, 0)]
    assert len(corners) == len(set(corners))
