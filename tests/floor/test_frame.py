import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.frame import Frame

COORDINATE = st.integers(-(10**7), 10**7)
POINT = st.tuples(COORDINATE, COORDINATE)
VECTOR = st.tuples(st.integers(-(10**5), 10**5), st.integers(-(10**5), 10**5)).filter(
    lambda vector: vector != (0, 0)
)


@pytest.mark.parametrize(
    ("direction", "expected", "angle"),
    [
        ((5, 0), (30, 40), 0),
        ((0, 7), (40, -30), 90),
        ((-1, 0), (-30, -40), 180),
        ((0, -2), (-40, 30), -90),
    ],
)
def test_quarter_turns_are_exact(
    direction: tuple[int, int], expected: tuple[int, int], angle: float
) -> None:
    frame = Frame((100, 200), direction)
    assert frame.to_frame((130, 240)) == expected
    assert frame.to_job(expected) == (130, 240)
    assert frame.angle_deg == angle


def test_a_3_4_5_frame_by_hand() -> None:
    # Along (4, 3): u = (4 x + 3 y) / 5, v = (4 y - 3 x) / 5.
    frame = Frame((0, 0), (4, 3))
    assert frame.to_frame((10, 0)) == (8, -6)
    assert frame.to_frame((0, 10)) == (6, 8)
    assert frame.to_job((8, -6)) == pytest.approx((10, 0))
    assert frame.angle_deg == pytest.approx(math.degrees(math.atan2(3, 4)))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(POINT, VECTOR, POINT)
def test_there_and_back_is_within_a_tick(
    origin: tuple[int, int], direction: tuple[int, int], point: tuple[int, int]
) -> None:
    frame = Frame(origin, direction)
    x, y = frame.to_job(frame.to_frame(point))
    assert math.dist((x, y), point) <= math.sqrt(0.5) + 1e-6


@settings(max_examples=60, deadline=None, derandomize=True)
@given(POINT, VECTOR, st.integers(-200, 200), POINT)
def test_points_of_one_line_along_the_rows_share_their_v_exactly(
    origin: tuple[int, int], direction: tuple[int, int], times: int, point: tuple[int, int]
) -> None:
    frame = Frame(origin, direction)
    other = (point[0] + times * direction[0], point[1] + times * direction[1])
    assert frame.to_frame(point)[1] == frame.to_frame(other)[1]


def test_corners_that_fall_on_one_tick_are_merged() -> None:
    # (1, 1) and (2, 0) both lie near u = 1.41 and only v = 0 and -1.41 tell them apart;
    # (5, 5) and (5, 6) lie at u = 7.07 and 7.78, v = 0 and 0.71: (7, 0) and (8, 1).
    frame = Frame((0, 0), (1, 1))
    assert frame.ring_to_frame(((0, 0), (2, 0), (5, 5), (5, 6))) == (
        (0, 0),
        (1, -1),
        (7, 0),
        (8, 1),
    )
    flat = Frame((0, 0), (1000, 1))
    assert flat.ring_to_frame(((0, 0), (0, 0), (9, 0), (9, 9))) == ((0, 0), (9, 0), (9, 9))
