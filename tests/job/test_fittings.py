import math

import pytest

from models.job.data import Axis, Door, Job
from models.job.errors import JobError
from models.job.rings import twice_area
from models.lengths import to_mm
from tests.job.sample import MM, metres, read

CLOCKWISE = "{corners: [[0, 0], [0, 3000], [4000, 3000], [4000, 0]], walls: [w, n, e, s]}"
UNNAMED = "{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]}"
SLANTED = "{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 2000]], walls: [s, e, n, w]}"


def column(words: str) -> tuple[tuple[int, int], ...]:
    return read(columns=f"[{{name: pier, {words}}}]").columns[0].outline


def axis(words: str, **sections: str) -> Axis:
    return read(axes=f"[{{name: long, {words}}}]", **sections).axes[0]


def door(words: str, **sections: str) -> Door:
    return read(doors=f"[{{name: hatch, {words}}}]", **sections).doors[0]


def test_columns_by_corners_or_corner_and_size() -> None:
    square = metres((1, 1), (1.2, 1), (1.2, 1.3), (1, 1.3))
    assert column("corner: [1000, 1000], size: [200, 300]") == square
    corners = "[1000, 1000], [1000, 1300], [1200, 1300], [1200, 1000], [1000, 1000]"
    assert set(column(f"corners: [{corners}]")) == set(square)


def test_a_round_column_is_a_polygon_within_half_a_millimetre() -> None:
    ring = column("centre: [2000, 1500], diameter: 400")
    assert len(ring) % 4 == 0
    assert twice_area(ring) > 0
    centre = (2000 * MM, 1500 * MM)
    for corner, after in zip(ring, ring[1:] + ring[:1], strict=True):
        assert math.dist(corner, centre) == pytest.approx(200 * MM, abs=1)
        middle = (corner[0] + after[0]) / 2, (corner[1] + after[1]) / 2
        assert 199.5 <= to_mm(1) * math.dist(middle, centre) <= 200


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("corner: [1, 1], size: [0, 9]", "columns 'pier', size: a side is not above 0; write two"),
        ("corner: [1, 1], size: [9, -9]", "size: a side is not above 0"),
        ("centre: [1, 1], diameter: 0", "columns 'pier', diameter: '0' is not above 0"),
        ("corners: [[1, 1], [9, 9], [9, 1], [1, 9]]", "corners: its sides cross or touch; write"),
        ("corners: [[1, 1], [9, 9], [5, 5]]", "corners: encloses nothing; give at least three"),
        ("corners: [[1, 1], [1, 1], [1, 1]]", "corners: encloses nothing"),
    ],
)
def test_columns_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        column(words)


def test_a_door_is_measured_from_the_walls_own_start() -> None:
    words = "wall: n, from_start: 500, width: 900"
    assert door(words).jambs == metres((3.5, 3), (2.6, 3))
    assert door(words, room=CLOCKWISE).jambs == metres((0.5, 3), (1.4, 3))


def test_a_door_may_reach_the_walls_end() -> None:
    assert door("wall: e, from_start: 0, width: 3000").jambs == metres((4, 0), (4, 3))


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("wall: x, from_start: 0, width: 9", "doors 'hatch', wall: there is no wall called 'x'; "),
        ("wall: e, from_start: -1, width: 9", "from_start: '-1' is below 0; write 0 or a length"),
        ("wall: e, from_start: 0, width: 0", "width: '0' is not above 0"),
        (
            "wall: e, from_start: 2500, width: 900",
            "doors 'hatch': ends 3400 mm along wall 'e', which is 3000 mm long; check 'from_start'",
        ),
    ],
)
def test_doors_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        door(words)


def test_an_axis_through_two_points_runs_from_the_first() -> None:
    found = axis("through: [[1000, 0], [1000, 3000]]")
    assert (found.point, found.direction) == (metres((1, 0))[0], (0, 1))


@pytest.mark.parametrize("room", [None, CLOCKWISE])
def test_an_axis_square_to_a_wall_runs_into_the_room(room: str | None) -> None:
    sections = {} if room is None else {"room": room}
    found = axis("square_to: n, through: [1500, 500]", **sections)
    assert (found.point, found.direction) == (metres((1.5, 0.5))[0], (0, -1))
    at = axis("square_to: n, at: 500", **sections)
    assert at.point == metres((3.5, 3) if room is None else (0.5, 3))[0]
    assert at.direction == (0, -1)


def test_an_axis_between_the_jambs_of_a_door() -> None:
    found = axis("between: hatch", doors="[{name: hatch, wall: s, from_start: 500, width: 900}]")
    assert (found.point, found.direction) == (metres((0.95, 0))[0], (0, 1))


def test_an_axis_between_a_door_on_a_slanted_wall_is_square_to_the_wall() -> None:
    hatch = "[{name: hatch, wall: n, from_start: 1111, width: 777}]"
    found = axis("between: hatch", doors=hatch, room=SLANTED)
    # Wall n runs from (4, 3) to (0, 2), so its square runs along (1, -4), exactly.
    assert found.direction == (1, -4)


def test_an_axis_between_two_jambs_runs_to_the_left_of_the_line_between_them() -> None:
    found = axis("between: [[1000, 0], [2000, 0]]")
    assert (found.point, found.direction) == (metres((1.5, 0))[0], (0, 1))
    assert axis("between: [[2000, 0], [1000, 0]]").direction == (0, -1)


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("through: [[1, 1], [1, 1]]", "axes 'long', through: the two points are the same; write"),
        ("through: [1, 1]", "axes 'long', through: is one point; write two points"),
        ("between: [[1, 1], [1, 1]]", "between: the two points are the same"),
        ("between: hutch", "between: there is no door called 'hutch'; there are none in this job"),
        ("square_to: z, at: 1", "square_to: there is no wall called 'z'; known here: s, e, n, w"),
        ("square_to: s, at: 4001", "at: is not on wall 's', which is 4000 mm long; write a dis"),
        ("square_to: s, at: -1", "at: is not on wall 's'"),
        ("through: [[1, 1], 2]", "axes 'long', through: is a list; write two points"),
        ("square_to: s, through: [[1, 1], [2, 2]]", "through: is two points; write one point"),
    ],
)
def test_axes_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        axis(words)


def test_an_unknown_door_gets_the_nearest_one() -> None:
    with pytest.raises(JobError, match="no door called 'hutch'; did you mean 'hatch'"):
        axis("between: hutch", doors="[{name: hatch, wall: s, from_start: 500, width: 900}]")


@pytest.mark.parametrize(
    ("sections", "message"),
    [
        (
            {
                "columns": "[{name: a, centre: [900, 900], diameter: 9},"
                " {name: a, centre: [99, 99], diameter: 9}]"
            },
            r"columns 'a', name: the name 'a' is already used on line \d+; give each wall",
        ),
        (
            {"axes": "[{name: s, square_to: s, at: 9}]"},
            "axes 's', name: the name 's' is already used",
        ),
        (
            {"axes": "[{name: wall 2, through: [[0, 0], [1, 1]]}]", "room": UNNAMED},
            "axes 'wall 2', name: the name 'wall 2' is already used",
        ),
        (
            {"products": "[{name: a, length: 900, width: 90}, {name: a, length: 90, width: 9}]"},
            "products 'a', name: the name 'a' is already used",
        ),
    ],
)
def test_one_name_one_thing(sections: dict[str, str], message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(**sections)


def test_a_product_may_share_a_name_with_something_in_the_room() -> None:
    job: Job = read(columns="[{name: plank, corner: [1000, 1000], size: [200, 200]}]")
    assert job.columns[0].name == job.products[0].name == "plank"
