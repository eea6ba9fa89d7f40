import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.data import Job, Sight
from models.job.errors import JobError
from models.job.rings import twice_area
from tests.job.sample import MM, metres, read

SQUARE = metres((0, 0), (4, 0), (4, 3), (0, 3))


def by_corners(corners: str, rest: str = "") -> Job:
    return read(room=f"{{corners: [{corners}]{rest}}}")


def test_walls_follow_the_corners_counter_clockwise() -> None:
    job = by_corners("[0, 0], [4000, 0], [4000, 3000], [0, 3000]", ", walls: [s, e, n, w]")
    assert job.room == SQUARE
    assert [(wall.name, wall.start, wall.end) for wall in job.walls] == [
        (name, SQUARE[i], SQUARE[(i + 1) % 4]) for i, name in enumerate("senw")
    ]
    assert job.closure is None
    assert job.notes == ("rows run along 's', the longest wall: no direction was given",)


def test_a_clockwise_room_is_turned_and_its_walls_keep_their_names() -> None:
    job = by_corners("[0, 0], [0, 3000], [4000, 3000], [4000, 0]", ", walls: [w, n, e, s]")
    assert job.room == SQUARE
    assert [wall.name for wall in job.walls] == list("senw")
    west = job.walls[3]
    assert (west.start, west.end) == (SQUARE[3], SQUARE[0])


def test_walls_without_names_are_numbered_as_given() -> None:
    job = by_corners("[0, 0], [0, 3000], [4000, 3000], [4000, 0]")
    assert [wall.name for wall in job.walls] == ["wall 4", "wall 3", "wall 2", "wall 1"]


def test_repeated_and_straight_corners_without_names_are_left_out() -> None:
    job = by_corners("[2000, 0], [4000, 0], [4000, 0], [4000, 3000], [0, 3000], [0, 0], [2000, 0]")
    assert set(job.room) == set(SQUARE)
    assert len(job.walls) == 4
    assert "left out 3 corners that were repeated or on a straight wall" in job.notes[0]


def test_one_left_out_corner_is_told_as_one() -> None:
    job = by_corners("[0, 0], [2000, 0], [4000, 0], [4000, 3000], [0, 3000]")
    assert job.notes[0].startswith("left out a corner that was repeated")
    assert job.walls[0].end == SQUARE[1]


def test_a_straight_corner_between_named_walls_stays() -> None:
    job = by_corners(
        "[0, 0], [2000, 0], [4000, 0], [4000, 3000], [0, 3000]", ", walls: [a, b, c, d, e]"
    )
    assert [wall.name for wall in job.walls] == list("abcde")


def test_prominent_and_hidden_walls() -> None:
    job = read(
        room="{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]], "
        "prominent: [wall 1, wall 1], hidden: [wall 3]}"
    )
    assert [wall.sight for wall in job.walls] == [
        Sight.PROMINENT,
        Sight.PLAIN,
        Sight.HIDDEN,
        Sight.PLAIN,
    ]


@pytest.mark.parametrize(
    ("corners", "rest", "message"),
    [
        ("[0, 0], [4000, 3000], [4000, 0], [0, 3000]", "", "'wall 1' and 'wall 3' cross or touch"),
        ("[0, 0], [4000, 0], [2000, 0], [2000, 3000]", "", "'wall 1' and 'wall 2' cross or touch"),
        ("[0, 0], [4, 0], [4, 4], [2, 0], [0, 4]", "", "'wall 1' and 'wall 3' cross or touch"),
        ("[0, 0], [1000, 0], [3000, 0]", "", "room: encloses no floor"),
        ("[0, 0], [0, 0], [0, 0]", "", "room: encloses no floor"),
        (
            "[0, 0], [9, 0], [9, 9], [9, 9]",
            ", walls: [a, b, c, d]",
            "walls 3: wall 'c' has no length",
        ),
        ("[0, 0], [9, 0], [9, 9]", ", walls: [a, b]", "room, walls: 2 names for 3 walls; give one"),
        ("[0, 0], [9, 0], [9, 9]", ", walls: [a, b, a]", "the name 'a' is already used on line 4"),
        ("[0, 0], [9, 0], [9, 9]", ", walls: [a, wall 3, wall 1]", None),
        (
            "[0, 0], [9, 0], [9, 9]",
            ", prominent: [wal 1]",
            "room, prominent 1: there is no wall called 'wal 1'; did you mean 'wall 1'",
        ),
        (
            "[0, 0], [9, 0], [9, 9]",
            ", prominent: [wall 1], hidden: [wall 1]",
            "room, hidden 1: wall 'wall 1' is prominent too; keep it in one of the lists",
        ),
        ("[0, 0], [11 km, 0], [9, 9]", "", "room, corners 2: '11 km' is not a length; write a"),
        ("[0, 0], [10001 m, 0], [9, 9]", "", "room, corners 2: '10001 m' is over 10 km; check"),
        ("[0, 0], [.nan, 0], [9, 9]", "", r"corners 2: '\.nan' is not a length"),
        ("[0, 0], [-.inf, 0], [9, 9]", "", r"corners 2: '-\.inf' is not a length"),
        ("[0, 0], [1e9, 0], [9, 9]", "", "corners 2: '1e9' is not a length"),
        ("[0, 0], [10:30, 0], [9, 9]", "", "corners 2: '10:30' is not a length"),
    ],
)
def test_rooms_that_cannot_be(corners: str, rest: str, message: str | None) -> None:
    if message is None:
        assert by_corners(corners.replace("9", "900"), rest).walls[1].name == "wall 3"
        return
    with pytest.raises(JobError, match=message):
        by_corners(corners, rest)


def test_a_bare_number_needs_a_declared_unit() -> None:
    with pytest.raises(JobError, match=r"galley\.yaml:3: room, corners 2: '4000' has no unit; add"):
        read(bare_numbers=None)


def test_numbers_stay_exact() -> None:
    job = by_corners("[0, 0], [4000.1, 0], [157-31/64 in, 3 m], [0, 12' 6-3/4\"]")
    assert job.room[1:] == (
        (40001 * 32, 0),
        (157 * 8128 + 31 * 127, 3000 * MM),
        (0, (12 * 12 + 6) * 8128 + 6096),
    )


@given(
    steps=st.lists(st.tuples(st.integers(1, 900), st.integers(1, 900)), min_size=1, max_size=6),
    first=st.integers(0, 20),
    clockwise=st.booleans(),
)
def test_any_way_round_and_any_first_corner_give_the_same_room(
    steps: list[tuple[int, int]], first: int, clockwise: bool
) -> None:
    """A flight of stairs: along the x axis, up, and down again step by step."""
    width = sum(dx for dx, _ in steps)
    corners, x, y = [(0, 0), (width, 0)], width, 0
    for dx, dy in steps:
        corners += [(x, y + dy), (x - dx, y + dy)]
        x, y = x - dx, y + dy
    plain = by_corners(", ".join(f"[{x} cm, {y} cm]" for x, y in corners))
    turned = corners[first % len(corners) :] + corners[: first % len(corners)]
    turned = turned[::-1] if clockwise else turned
    job = by_corners(", ".join(f"[{x} cm, {y} cm]" for x, y in turned))
    assert twice_area(job.room) == twice_area(plain.room) > 0
    assert set(zip(job.room, job.room[1:] + job.room[:1], strict=True)) == set(
        zip(plain.room, plain.room[1:] + plain.room[:1], strict=True)
    )
    assert [(w.start, w.end) for w in job.walls] == list(
        zip(job.room, job.room[1:] + job.room[:1], strict=True)
    )
