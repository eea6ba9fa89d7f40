import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.data import Closure, Job
from models.job.errors import JobError
from models.job.walk import compass_rule
from tests.job.sample import MM, metres, read

SQUARE = metres((0, 0), (4, 0), (4, 3), (0, 3))


def walk(*legs: str, start: str = "[0, 0]") -> Job:
    joined = ", ".join(f"{{{leg}}}" for leg in legs)
    return read(room=f"{{walk: {{start: {start}, legs: [{joined}]}}}}")


def test_a_walk_by_directions() -> None:
    job = walk(
        "wall: s, length: 4 m, go: east",
        "wall: e, length: 3 m, go: north",
        "wall: n, length: 4 m, go: west",
        "wall: w, length: 3 m, go: south",
    )
    assert job.room == SQUARE
    assert [wall.name for wall in job.walls] == list("senw")
    assert job.closure == Closure(0, 0, 14000 * MM)


def test_a_walk_by_turns_with_the_room_on_either_hand() -> None:
    left = walk(
        "length: 4 m, go: east",
        "length: 3 m, turn: left",
        "length: 4 m, turn: left 90",
        "length: 3 m, turn: left",
    )
    right = walk(
        "length: 3 m, go: north",
        "length: 4 m, turn: right",
        "length: 3 m, turn: right",
        "length: 4 m, turn: right 90.0",
    )
    assert left.room == right.room == SQUARE
    assert [wall.name for wall in right.walls] == ["wall 4", "wall 3", "wall 2", "wall 1"]


def test_a_walk_by_degrees() -> None:
    job = walk("length: 3 m, go: 0", "length: 3 m, go: 120", "length: 3 m, turn: left 120")
    assert job.room[2] == pytest.approx((1500 * MM, 3000 * MM * math.sin(math.pi / 3)), abs=2)


def test_a_walk_starts_where_it_says() -> None:
    job = walk(
        "length: 4 m, go: east",
        "length: 3 m, turn: left",
        "length: close",
        start="[1 m, 2 m]",
    )
    assert job.room == metres((1, 2), (5, 2), (5, 5))


def test_the_last_leg_can_run_straight_back() -> None:
    job = walk("length: 4 m, go: east", "length: 3 m, turn: left", "wall: back, length: close")
    assert job.room == metres((0, 0), (4, 0), (4, 3))
    assert job.walls[2].name == "back"
    assert job.closure is None
    assert job.notes[0].startswith("the last wall was calculated to close the room: nothing checks")


def test_a_closing_leg_with_a_direction_still_checks_the_walk() -> None:
    job = walk(
        "length: 4000, go: east",
        "length: 3000, turn: left",
        "length: 4010, turn: left",
        "wall: w, length: close, turn: left",
    )
    assert job.closure == Closure(-10 * MM, 0, 14010 * MM)
    assert "missed its start by 10 mm (10 mm west, 0 mm north) in 14010 mm" in job.notes[0]


def test_a_small_miss_is_shared_by_the_compass_rule() -> None:
    job = walk(
        "length: 4000, go: east",
        "length: 3000, turn: left",
        "length: 3986, turn: left",
        "length: 3000, turn: left",
    )
    assert job.closure == Closure(14 * MM, 0, 13986 * MM)
    assert job.room == tuple(
        (x - round(14 * MM * walked / 13986), y)
        for (x, y), walked in zip(
            metres((0, 0), (4, 0), (4, 3), (0.014, 3)), (0, 4000, 7000, 10986), strict=True
        )
    )
    assert "shared over the walls by the compass rule" in job.notes[0]


def test_the_limit_is_25_mm_in_a_small_room_and_a_500th_of_a_long_walk() -> None:
    def miss(by: int, side: int) -> Job:
        return walk(
            f"length: {side}, go: east",
            f"length: {side}, turn: left",
            f"length: {side + by}, turn: left",
            f"length: {side}, turn: left",
        )

    assert miss(25, 2000).closure == Closure(-25 * MM, 0, 8025 * MM)
    with pytest.raises(JobError, match=r"room, walk: ends 26 mm from its start \(26 mm west, 0 mm"):
        miss(26, 2000)
    assert miss(80, 10000).closure == Closure(-80 * MM, 0, 40080 * MM)
    with pytest.raises(JobError, match=r"more than 80\.2 mm; check each leg's length and turn"):
        miss(81, 10000)


@pytest.mark.parametrize(
    ("legs", "message"),
    [
        (
            ["length: 4 m, go: east", "length: 3 m, turn: left", "length: 2 m, turn: left"],
            r"galley\.yaml:4: room, walk: ends 3605\.6 mm from its start \(2000 mm east, 3000 mm n",
        ),
        (
            ["length: 4 m, turn: left", "length: 3 m, go: north", "length: close"],
            "room, walk, legs 1, turn: the first leg has nothing to turn from; write 'go: east'",
        ),
        (
            ["length: 4 m", "length: 3 m, go: north", "length: close"],
            "room, walk, legs 1: has no direction; add 'go: east' or 'turn: left'",
        ),
        (
            ["length: 4 m, go: east", "wall: e, length: 3 m", "length: close"],
            "room, walk, legs 'e': has no direction",
        ),
        (
            ["length: 4 m, go: east", "length: 3 m, go: north, turn: left", "length: close"],
            "room, walk, legs 2: has both 'go' and 'turn'; keep one of them",
        ),
        (
            ["length: 4 m, go: east", "length: close, turn: left", "length: 5 m, turn: left"],
            "room, walk, legs 2, length: only the last leg can be closed",
        ),
        (
            ["length: 4 m, go: east", "length: 4 m, go: west", "length: close"],
            "room, walk, legs 3: the walk is back at its start already; leave the last leg out",
        ),
        (
            ["length: 4 m, go: east", "length: 3 m, go: north", "length: close, go: east"],
            "room, walk, legs 3: does not lead back to the start",
        ),
        (
            ["length: 0, go: east", "length: 3 m, go: north", "length: close"],
            "room, walk, legs 1, length: '0' is not above 0; write a length above 0",
        ),
        (
            ["length: -4 m, go: east", "length: 3 m, go: north", "length: close"],
            "'-4 m' is not above 0",
        ),
        (
            ["length: 4 m, go: up", "length: 3 m, go: north", "length: close"],
            "legs 1, go: 'up' will not do; write east, north, west, south, or degrees",
        ),
        (
            ["length: 4 m, go: 400", "length: 3 m, go: north", "length: close"],
            "legs 1, go: '400' is over a full turn; write -360 to 360 degrees",
        ),
        (
            ["length: 4 m, go: east", "length: 3 m, turn: 90", "length: close"],
            "legs 2, turn: '90' will not do; write left, right, or degrees to a side such as left",
        ),
        (
            ["length: 4 m, go: east", "length: 3 m, turn: left 180", "length: close"],
            "legs 2, turn: a turn of 180 degrees; write a turn above 0 and below 180 degrees",
        ),
        (["length: 4 m, go: east", "length: close"], "legs: has 2 entries; write 3 to 2000 legs"),
    ],
)
def test_walks_that_cannot_be(legs: list[str], message: str) -> None:
    with pytest.raises(JobError, match=message):
        walk(*legs)


@given(
    st.lists(
        st.tuples(st.integers(-(10**7), 10**7), st.integers(-(10**7), 10**7)),
        min_size=3,
        max_size=8,
    ),
    st.tuples(st.integers(-8000, 8000), st.integers(-8000, 8000)),
)
def test_the_compass_rule_moves_each_corner_by_its_share(
    corners: list[tuple[int, int]], error: tuple[int, int]
) -> None:
    stations = [*corners, (corners[0][0] + error[0], corners[0][1] + error[1])]
    lengths = [max(1, round(math.dist(a, b))) for a, b in pairwise(stations)]
    closed = compass_rule(stations, lengths)
    assert len(closed) == len(corners)
    assert closed[0] == corners[0]
    for i, (x, y) in enumerate(closed):
        share = sum(lengths[:i]) / sum(lengths)
        assert x == pytest.approx(corners[i][0] - error[0] * share, abs=0.51)
        assert y == pytest.approx(corners[i][1] - error[1] * share, abs=0.51)
