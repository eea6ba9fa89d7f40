import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.floor.frame import Frame
from models.floor.tape import Mark, Side, off_line, row_line, sides_of, square_line
from models.job.data import Ring
from tests.sheets.jobs import inch, plank_job, rectangle


def sides(ring: Ring, names: str = "abcdefghij", wall: bool = True) -> tuple[Side, ...]:
    ends = ring[1:] + ring[:1]
    return tuple(Side(n, a, b, wall) for n, a, b in zip(names, ring, ends, strict=False))


def column(name: str, low: tuple[int, int], high: tuple[int, int]) -> tuple[Side, ...]:
    return sides(rectangle(low, high), name * 4, wall=False)


ROOM = rectangle((0, 0), (1000, 600))
"""Walls a (bottom), b (right), c (top), d (left)."""

BAY = ((0, 0), (1000, 0), (1000, 400), (600, 400), (600, 900), (0, 900))
"""An L: walls a bottom, b right, c step, d return, e top, f left."""


def test_both_ends_of_a_row_line_are_read_from_the_nearer_wall() -> None:
    (part,) = row_line(sides(ROOM), 200)
    assert part.start == Mark((0, 200), "d", (0, 0), "a", 200)
    assert part.end == Mark((1000, 200), "b", (1000, 0), "a", 200)


def test_a_line_past_the_middle_is_read_from_the_other_wall() -> None:
    (part,) = row_line(sides(ROOM), 350)
    assert (part.start.measured_from, part.start.distance) == ("c", 250)


def test_a_cross_line_is_read_along_the_rows() -> None:
    (part,) = square_line(sides(ROOM), 700)
    assert part.start == Mark((700, 0), "a", (1000, 0), "b", 300)
    assert part.end == Mark((700, 600), "c", (1000, 600), "b", 300)


def test_the_two_ends_may_be_read_from_different_walls() -> None:
    (part,) = row_line(sides(BAY), 300)
    assert (part.start.measured_from, part.start.distance) == ("a", 300)
    assert (part.end.measured_from, part.end.distance) == ("c", 100)


def test_a_line_ends_at_the_return_above_the_step() -> None:
    (part,) = row_line(sides(BAY), 500)
    assert part.end == Mark((600, 500), "d", (600, 900), "e", 400)


def test_a_tape_does_not_run_through_a_corner_into_the_wider_part() -> None:
    (part,) = row_line(sides(BAY), 450)
    assert part.end.measured_from == "a"
    assert part.end.distance == 450


def test_off_square_walls_give_two_distances() -> None:
    room = ((0, 0), (1000, 0), (1000, 640), (0, 600))
    (part,) = row_line(sides(room), 500)
    assert (part.start.distance, part.end.distance) == (100, 140)


def test_no_tape_is_laid_outside_a_leaning_end_wall() -> None:
    room = ((0, 0), (1000, 0), (1100, 600), (0, 600))
    (part,) = row_line(sides(room), 240)
    assert part.end == Mark((1040, 240), "b", (1040, 600), "c", 360)


def test_a_wall_square_to_the_tape_is_preferred_to_a_nearer_slanted_one() -> None:
    room = ((0, 0), (1000, 0), (1000, 600), (700, 900), (0, 900))
    (part,) = row_line(sides(room), 500)
    assert (part.end.measured_from, part.end.distance) == ("a", 500)


def test_a_wall_leaning_by_a_hair_does_not_turn_the_tape_back() -> None:
    # The left wall leans out by 3 in 300000 toward the lower wall, which alone is square.
    room = ((-3, 0), (300_000, 0), (300_000, 200_000), (90_000, 260_000), (0, 200_000))
    (part,) = row_line(sides(room), 150_000)
    assert (part.start.measured_from, part.start.distance) == ("a", 150_000)


def test_a_wall_leaning_by_more_than_the_tape_can_bear_does() -> None:
    room = ((9000, 0), (300_000, 0), (300_000, 200_000), (90_000, 260_000), (0, 200_000))
    (part,) = row_line(sides(room), 150_000)
    assert part.start.measured_from == "d"


def test_a_column_breaks_a_line_in_two() -> None:
    first, second = row_line((*sides(ROOM), *column("p", (400, 100), (500, 300))), 200)
    assert (first.end.point, first.end.ends_on) == ((400, 200), "p")
    assert (second.start.point, second.start.ends_on) == ((500, 200), "p")
    assert second.start.measured_from == "a"


def test_a_wall_is_preferred_to_a_nearer_column() -> None:
    found = row_line((*sides(ROOM), *column("p", (0, 250), (50, 300))), 200)
    assert (found[0].start.measured_from, found[0].start.distance) == ("a", 200)


def test_a_column_at_a_wall_shortens_the_line() -> None:
    (part,) = row_line((*sides(ROOM), *column("p", (0, 100), (80, 300))), 200)
    assert part.start.point == (80, 200)


def test_a_line_on_a_wall_is_at_no_distance() -> None:
    for v, wall in ((0, "a"), (600, "c")):
        (part,) = row_line(sides(ROOM), v)
        assert (part.start.measured_from, part.start.distance) == (wall, 0)
        assert (part.start.point[0], part.end.point[0]) == (0, 1000)


def test_a_line_outside_the_room_is_refused() -> None:
    with pytest.raises(ValueError, match="a chalk line at 700 ticks misses the room"):
        row_line(sides(ROOM), 700)


def test_sides_of_a_job_are_in_the_frame() -> None:
    job = plank_job()
    found = sides_of(job, Frame((0, 0), (0, 1)))
    assert found[0] == Side("sea wall", (0, 0), (0, -inch("24'")))
    assert [side.name for side in found if not side.wall] == ["post"] * 4


@given(
    st.integers(1, 10**7), st.integers(2, 10**7), st.integers(0, 10**7), st.integers(-9999, 9999)
)
def test_a_rectangle_reads_to_its_nearer_long_wall(
    wide: int, tall: int, at: int, move: int
) -> None:
    v = at % tall
    ring = tuple((u + move, w + move) for u, w in rectangle((0, 0), (wide, tall)))
    (part,) = row_line(sides(ring), v + move)
    assert part.start.distance == part.end.distance == min(v, tall - v)


@given(st.integers(1, 599), st.integers(-80, 80))
def test_turning_the_room_exchanges_both_kinds_of_line(v: int, lean: int) -> None:
    room = ((0, 0), (1000, lean), (1000, 600), (0, 600))
    turned = tuple((y, x) for x, y in reversed(room))
    try:
        found = row_line(sides(room), v)
    except ValueError:
        return
    marks = [(m.distance, m.point) for part in found for m in (part.start, part.end)]
    again = [
        (m.distance, m.point[::-1])
        for part in square_line(sides(turned), v)
        for m in (part.start, part.end)
    ]
    assert marks == again


@given(*[st.integers(-(10**6), 10**6)] * 6)
def test_distance_off_a_line(x: int, y: int, a: int, b: int, dx: int, dy: int) -> None:
    if (dx, dy) == (0, 0):
        return
    found = off_line((x, y), (a, b), (dx, dy))
    size = math.hypot(dx, dy)
    foot = ((x - a) * dx + (y - b) * dy) / size
    expected = math.sqrt(max(0.0, (x - a) ** 2 + (y - b) ** 2 - foot**2))
    assert found == pytest.approx(expected, abs=2)
