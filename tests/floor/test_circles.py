import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from models.floor.circles import largest_circle
from models.job.data import Ring

LEG = st.integers(3_000, 400_000)


def searched(outline: Ring, *holes: Ring) -> float:
    """The diameter by shapely's search, to 1 tick."""
    return 2 * float(
        shapely.maximum_inscribed_circle(Polygon(outline, holes), tolerance=0.5).length
    )


@settings(max_examples=60, deadline=None, derandomize=True)
@given(LEG, LEG)
def test_a_right_triangle_has_the_closed_form(a: int, b: int) -> None:
    # Euclid, Elements IV.4: the diameter is a + b - c.
    expected = a + b - math.hypot(a, b)
    for outline in (((0, 0), (a, 0), (0, b)), ((-a, b), (0, 0), (0, b))):
        assert largest_circle(outline) == pytest.approx(expected, abs=2)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(*[st.integers(-200_000, 200_000)] * 6)
def test_any_triangle_has_four_times_its_area_over_its_sides(
    ax: int, ay: int, bx: int, by: int, cx: int, cy: int
) -> None:
    shape = Polygon([(ax, ay), (bx, by), (cx, cy)])
    if shape.area < 1e6:
        return
    outline = ((ax, ay), (bx, by), (cx, cy))
    if not shapely.is_ccw(shape.exterior):
        outline = outline[::-1]
    assert largest_circle(outline) == pytest.approx(4 * shape.area / shape.length, abs=2)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.lists(st.tuples(st.integers(0, 300_000), st.integers(0, 48_000)), min_size=4, max_size=9))
def test_a_convex_outline_has_the_circle_that_shapely_finds(points: list[tuple[int, int]]) -> None:
    hull = shapely.MultiPoint(points).convex_hull
    if not isinstance(hull, Polygon) or hull.area < 1e6:
        return
    corners = shapely.get_coordinates(shapely.orient_polygons(hull))[:-1]
    outline = tuple((round(u), round(v)) for u, v in corners)
    assert largest_circle(outline) == pytest.approx(searched(outline), abs=4)


def test_a_rectangle_has_a_circle_as_wide_as_itself() -> None:
    assert largest_circle(((0, 0), (90_000, 0), (90_000, 40_000), (0, 40_000))) == 40_000


def test_corners_on_a_straight_side_change_nothing() -> None:
    plain = ((0, 0), (90_000, 0), (70_000, 40_000), (0, 40_000))
    dented = ((0, 0), (45_000, 1), (90_000, 0), (80_000, 20_000), (70_000, 40_000), (0, 40_000))
    assert largest_circle(dented) == pytest.approx(largest_circle(plain), abs=2)


def test_where_the_piece_lies_does_not_matter() -> None:
    outline = ((0, 0), (90_000, 3_000), (70_000, 40_000), (0, 40_000))
    moved = tuple((u + 7_654_321, v - 1_234_567) for u, v in outline)
    assert largest_circle(moved) == largest_circle(outline)


def test_a_notched_outline() -> None:
    # An L with arms of 40000: the circle touches both outer sides and goes through the inner
    # corner, (40000 - r) sqrt 2 = r, so that its diameter is 80000 / (1 + 1 / sqrt 2).
    ell = (
        (0, 0),
        (200_000, 0),
        (200_000, 40_000),
        (40_000, 40_000),
        (40_000, 200_000),
        (0, 200_000),
    )
    assert largest_circle(ell) == pytest.approx(80_000 / (1 + 1 / math.sqrt(2)), abs=8)


def test_a_small_notch_takes_little_from_the_circle() -> None:
    # 2 mm out of the lower side of a plank 150 mm wide that is cut at a slant.
    notched = ((0, 0), (200_000, 0), (200_000, 640), (200_640, 640), (200_640, 0), (384_000, 0),
               (384_000, 48_000), (30_000, 48_000))  # fmt: skip
    assert largest_circle(notched) == pytest.approx(searched(notched), abs=8)
    assert largest_circle(notched) == pytest.approx(48_000, abs=8)


def test_a_hole_is_kept_out() -> None:
    outline = ((0, 0), (100_000, 0), (100_000, 40_000), (0, 40_000))
    hole = ((5_000, 5_000), (5_000, 35_000), (95_000, 35_000), (95_000, 5_000))
    assert largest_circle(outline, (hole,)) == pytest.approx(searched(outline, hole), abs=8)
