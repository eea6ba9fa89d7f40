import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.angles import is_parallel, is_square, vector
from models.job.data import Direction
from models.job.errors import JobError
from tests.job.sample import read

AXES = "[{name: aisle, through: [[0, 0], [3000, 1000]]}]"


def directions(words: str) -> tuple[Direction, ...]:
    field = f"{{bond: straight, directions: [{words}]}}"
    return read(axes=AXES, field=field).field.directions


@pytest.mark.parametrize(
    ("field", "message"),
    [
        (
            "{bond: straight, directions: [{along: sluth}]}",
            "field, directions 1, along: there is no wall or axis called 'sluth'; known here: s, e",
        ),
        ("{bond: straight, directions: [{angle: 361}]}", "angle: '361' is over a full turn"),
        ("{bond: straight, directions: [{angle: north}]}", "'north' will not do; write degrees"),
        ("{bond: straight, directions: []}", "field, directions: has 0 entries; write a list such"),
        ("{bond: straight, directions: {along: s}}", "directions: is a group of keys; write a li"),
    ],
)
def test_directions_that_cannot_be(field: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(field=field)


def test_directions_along_walls_axes_and_at_angles() -> None:
    assert directions("{along: n}, {along: w}, {along: aisle}, {angle: 45}, {angle: -45.0}") == (
        Direction("along n", (1, 0)),
        Direction("along w", (0, 1)),
        Direction("along aisle", (3, 1)),
        Direction("at 45 degrees", (1, 1)),
        Direction("at -45.0 degrees", (1, -1)),
    )


def test_a_direction_given_twice_is_kept_once_with_a_note() -> None:
    job = read(field="{bond: straight, directions: [{along: n}, {along: s}, {angle: 180}]}")
    assert [direction.label for direction in job.field.directions] == ["along n"]
    assert job.notes == (
        "direction 'along s' left out: it is that of 'along n'",
        "direction 'at 180 degrees' left out: it is that of 'along n'",
    )


def test_the_default_direction_is_the_longest_wall() -> None:
    job = read(room="{corners: [[0, 0], [3 m, 0], [3 m, 5 m], [0, 5 m]], walls: [s, e, n, w]}")
    assert job.field.directions == (Direction("along e", (0, 1)),)
    assert "rows run along 'e', the longest wall: no direction was given" in job.notes


@pytest.mark.parametrize(
    ("degrees", "exact"),
    [(0, (1, 0)), (90, (0, 1)), (-90, (0, -1)), (360, (1, 0)), (135, (-1, 1)), (225, (-1, -1))],
)
def test_right_angles_and_their_halves_are_exact(degrees: int, exact: tuple[int, int]) -> None:
    assert vector(Fraction(degrees)) == exact


@given(st.fractions(-360, 360, max_denominator=10**6))
def test_any_angle_is_held_to_a_thousand_millionth_of_a_radian(degrees: Fraction) -> None:
    dx, dy = vector(degrees)
    apart = math.atan2(dy, dx) - math.radians(degrees)
    assert abs(math.remainder(apart, 2 * math.pi)) < 1e-9


@given(st.integers(-(10**9), 10**9), st.integers(-(10**9), 10**9))
def test_parallel_and_square_directions(dx: int, dy: int) -> None:
    if (dx, dy) != (0, 0):
        assert is_parallel((dx, dy), (-2 * dx, -2 * dy))
        assert is_square((dx, dy), (-3 * dy, 3 * dx))
        assert not is_parallel((dx, dy), (-dy, dx))
    assert not is_parallel((10_000, 0), (10_000, 1))
    assert is_parallel((1_000_000, 0), (1_000_000, 1))
