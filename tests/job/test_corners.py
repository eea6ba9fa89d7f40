import math

import pytest

from models.job.data import Job, Outline, Sight
from models.job.errors import JobError
from tests.job.sample import MM, read

BAY = "[0, 0], [4000, 0], {arc_through: [5000, 1500]}, [4000, 3000], [0, 3000]"


def room(corners: str, rest: str = "", **sections: str) -> Job:
    return read(room=f"{{corners: [{corners}]{rest}}}", **sections)


def test_an_arc_wall_is_one_name_over_several_sides() -> None:
    job = room(BAY, ", walls: [s, bay, n, w], prominent: [bay]")
    names = [wall.name for wall in job.walls]
    sides = [wall for wall in job.walls if wall.name == "bay"]
    assert list(dict.fromkeys(names)) == ["s", "bay", "n", "w"]
    assert len(sides) > 10
    assert {wall.sight for wall in sides} == {Sight.PROMINENT}
    assert [wall.start for wall in job.walls] == list(job.room)
    assert f"wall 'bay' is worked as {len(sides)} sides within 0.5 mm of its arc" in job.notes


def test_the_arc_runs_the_same_whichever_way_round_the_room_is_given() -> None:
    back = "[0, 3000], [4000, 3000], {arc_through: [5000, 1500]}, [4000, 0], [0, 0]"
    one = room(BAY, ", walls: [s, bay, n, w]")
    other = room(back, ", walls: [n, bay, s, w]")
    assert set(one.room) == set(other.room)
    assert [w.name for w in one.walls] == [w.name for w in (*other.walls[1:], other.walls[0])]


def test_an_arc_listed_first_lies_between_the_last_corner_and_the_first() -> None:
    first = room("{arc_through: [5000, 1500]}, [4000, 3000], [0, 3000], [0, 0], [4000, 0]")
    assert set(first.room) == set(room(BAY).room)


def test_a_room_of_two_half_circles() -> None:
    job = room("[0, 0], {arc_through: [1000, -1000]}, [2000, 0], {arc_through: [1000, 1000]}")
    assert {wall.name for wall in job.walls} == {"wall 1", "wall 2"}
    assert all(math.dist(p, (1000 * MM, 0)) == pytest.approx(1000 * MM, abs=2) for p in job.room)
    assert job.field.directions[0].label == "at 0 degrees"
    assert "rows run along the x axis: no direction was given, and every wall is an arc" in (
        job.notes
    )


def test_the_longest_wall_is_a_straight_one() -> None:
    job = room("[0, 0], [1000, 0], [1000, 2000], {arc_through: [500, 2500]}, [0, 2000]")
    assert job.field.directions[0].label == "along wall 2"


def test_a_leg_with_a_rise_bulges_to_the_right_of_the_way_walked() -> None:
    def walk(rise: str) -> Job:
        legs = (
            "{length: 4 m, go: east}, {wall: bow, length: 3 m, turn: left, rise: " + rise + "},"
            " {length: 4 m, turn: left}, {length: 3 m, turn: left}"
        )
        return read(room=f"{{walk: {{legs: [{legs}]}}}}")

    out, into = walk("500"), walk("-500")
    assert max(x for x, _ in out.room) == pytest.approx(4500 * MM, abs=MM)
    bow = [wall.start for wall in into.walls if wall.name == "bow"]
    assert min(x for x, _ in bow) == pytest.approx(3500 * MM, abs=MM)
    assert len(walk("0").room) == 4
    assert out.closure == into.closure


def test_a_column_a_feature_and_a_zone_may_have_arcs() -> None:
    half = "[[1000, 1000], [1400, 1000], {arc_through: [1200, 1200]}]"
    job = read(
        columns=f"[{{name: bay post, corners: {half}}}]",
        axes="[{name: up, through: [[3000, 0], [3000, 3000]]}]",
        features="[{name: shell, axis: up, along: 1500,"
        " corners: [[-200, 0], [200, 0], {arc_through: [0, 200]}]}]",
        zones="[{name: niche, corners: [[0, 3000], [0, 2000], {arc_through: [800, 2200]},"
        " [1000, 3000]]}]",
    )
    shape = job.zones[0].shape
    assert isinstance(shape, Outline)
    for outline in (job.columns[0].outline, job.features[0].outline, shape.ring):
        assert len(outline) > 6


def test_a_border_may_run_along_an_arc() -> None:
    job = room(
        BAY,
        ", walls: [s, bay, n, w]",
        zones="[{name: edge, border: {width: 2 units, along: [bay]}}]",
    )
    assert job.zones[0].name == "edge"


@pytest.mark.parametrize(
    ("corners", "message"),
    [
        (
            "[0, 0], {arc_through: [1, 1]}, {arc_through: [2, 1]}, [9, 9]",
            "room, corners 3: is an arc after an arc; write the corner where the two meet",
        ),
        (
            "[0, 0], {arc_through: [5, 0]}, [9, 0], [9, 9]",
            "room, corners 2: is in line with the corners beside it; leave it out, or write a po",
        ),
        ("[0, 0], {arc_through: [12, 0]}, [9, 0], [9, 9]", "corners 2: is in line with the"),
        ("[0, 0], {arc_through: [0, 0]}, [9, 0], [9, 9]", "corners 2: is in line with the"),
        (
            "[0, 0], {arc_through: [5, 5]}, [0, 0], [9, 9]",
            "corners 2: begins and ends at one corner; write two arcs for a full circle",
        ),
        (
            "[0, 0], {arc_through: [5, 5]}, {arc_through: [5, 6]}",
            "room, corners: has fewer than two corners; write the corners an arc runs between",
        ),
        ("[0, 0], {arc_thru: [5, 5]}, [9, 0]", "corners 2: unknown key 'arc_thru'; did you mean"),
        ("[0, 0], {}, [9, 0]", "corners 2: the key 'arc_through' is missing"),
        ("[0, 0], [9, 0], {arc_through: [5, 1]}, [0, 9]", None),
    ],
)
def test_arcs_that_cannot_be(corners: str, message: str | None) -> None:
    if message is None:
        assert len(room(corners.replace("9", "900").replace("5, 1", "500, 100")).walls) > 3
        return
    with pytest.raises(JobError, match=message):
        room(corners)


@pytest.mark.parametrize(
    ("sections", "message"),
    [
        (
            {"doors": "[{name: d, wall: bay, from_start: 100, width: 900}]"},
            "doors 'd', wall: wall 'bay' is an arc, and a door needs a straight one; put it in a",
        ),
        (
            {"axes": "[{name: a, square_to: bay, at: 100}]"},
            "axes 'a', square_to: wall 'bay' is an arc, and square to it is another way at every "
            "point; give the axis 'through' two points",
        ),
        (
            {"field": "{bond: staggered, directions: [{along: bay}]}"},
            "directions 1, along: wall 'bay' is an arc, and nothing runs straight along it; name",
        ),
        (
            {"zones": "[{name: z, band: {along: bay, width: 200}}]"},
            "zones 'z', band, along: wall 'bay' is an arc, and nothing runs straight along it",
        ),
    ],
)
def test_what_an_arc_wall_cannot_do(sections: dict[str, str], message: str) -> None:
    with pytest.raises(JobError, match=message):
        room(BAY, ", walls: [s, bay, n, w]", **sections)


def test_two_arcs_of_one_name_are_refused() -> None:
    with pytest.raises(JobError, match="the name 'n' is already used"):
        room(BAY, ", walls: [s, n, n, w]")
