"""The 3-4-5 check is common practice, no source; the sizes here are worked out by hand."""

from models.floor.squaring import Triangle, largest_triangle
from models.floor.tape import Side, row_line, square_line
from tests.floor.test_tape import BAY, ROOM, column, sides


def triangle(
    walls: tuple[Side, ...], start: int, cross: int, step: int, longest: int = 10**6
) -> Triangle | None:
    lines = row_line(walls, start), square_line(walls, cross)
    return largest_triangle(*lines, walls, step, longest)


def test_the_largest_multiple_that_fits_starts_at_the_crossing() -> None:
    # 700 to the right and 400 up: 13 x (40, 30) fits, 14 does not, and 10 x (30, 40) is less.
    found = triangle(sides(ROOM), 200, 300, 10)
    assert found == Triangle((300, 200), (820, 200), (300, 590), (520, 390), 650)


def test_the_longer_leg_may_lie_on_either_line() -> None:
    turned = tuple(Side(side.name, side.end[::-1], side.start[::-1]) for side in sides(ROOM))
    found = triangle(turned, 300, 200, 10)
    assert found is not None
    assert (found.legs, found.across) == ((390, 520), 650)


def test_whole_steps_only() -> None:
    found = triangle(sides(ROOM), 200, 300, 100)
    assert found is not None
    assert (found.legs, found.across) == ((400, 300), 500)


def test_no_side_is_longer_than_the_tape() -> None:
    found = triangle(sides(ROOM), 200, 300, 10, 320)
    assert found is not None
    assert found.across == 300


def test_a_column_under_the_tape_makes_it_smaller() -> None:
    # The near corner of the column, 200 along and 180 up, is reached at 11 steps.
    found = triangle((*sides(ROOM), *column("p", (500, 380), (560, 420))), 200, 300, 10)
    assert found is not None
    assert found.across == 550


def test_the_tape_keeps_off_the_corner_of_a_recess() -> None:
    # Corner (600, 400) from (100, 300): 500 / 4k + 100 / 3k = 1 at k = 158.3.
    found = triangle(sides(BAY), 300, 100, 1)
    assert found is not None
    assert (found.legs, found.across) == ((632, 474), 790)


def test_there_is_none_when_the_room_is_too_small() -> None:
    assert triangle(sides(ROOM), 200, 300, 400) is None


def test_there_is_none_when_the_lines_do_not_meet_on_the_floor() -> None:
    assert triangle(sides(BAY), 700, 800, 10) is None
