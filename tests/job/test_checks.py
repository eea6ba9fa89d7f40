import pytest

from models.job.data import Job
from models.job.errors import JobError
from tests.job.sample import read

AXES = "[{name: up, through: [[2000, 0], [2000, 3000]]}]"


def columns(*words: str) -> Job:
    joined = ", ".join(f"{{name: c{i}, {text}}}" for i, text in enumerate(words, start=1))
    return read(columns=f"[{joined}]")


def features(*words: str, column: str = "") -> Job:
    joined = ", ".join(f"{{name: f{i}, axis: up, {text}}}" for i, text in enumerate(words, start=1))
    return read(axes=AXES, features=f"[{joined}]", columns=f"[{column}]")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["corner: [5000, 0], size: [9, 9]"], "columns 'c1': is outside the room; check its place"),
        (["corner: [3900, 0], size: [101, 9]"], "columns 'c1': reaches outside the room"),
        (["corner: [-10, 0], size: [4020, 9]"], "columns 'c1': is wider than the room; check its"),
        (["centre: [2000, 1500], diameter: 3001"], "columns 'c1': is wider than the room"),
        (["corner: [0, 0], size: [4000, 3000]"], "columns 'c1': covers the whole floor"),
        (
            ["corner: [1000, 1000], size: [100, 100]", "corner: [1050, 1050], size: [9, 9]"],
            "columns 'c2': overlaps column 'c1'; move one of them",
        ),
        (
            ["corner: [1000, 0], size: [100, 3000]"],
            "columns 'c1': splits the floor into 2 parts; write a job for each part",
        ),
        (
            ["corner: [1000, 0], size: [100, 1500]", "corner: [1000, 1500], size: [100, 1500]"],
            "columns 'c2': splits the floor into 2 parts",
        ),
    ],
)
def test_columns_that_do_not_fit(words: list[str], message: str) -> None:
    with pytest.raises(JobError, match=message):
        columns(*words)


def test_columns_may_touch_walls_and_each_other() -> None:
    job = columns(
        "corner: [0, 0], size: [100, 100]",
        "corner: [100, 0], size: [100, 100]",
        "corner: [3900, 1000], size: [100, 100]",
        "centre: [2000, 2900], diameter: 200",
    )
    assert len(job.columns) == 4


def test_a_column_on_a_slanted_wall_may_be_a_tick_out() -> None:
    job = read(
        room="{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 1999.3]]}",
        columns="[{name: pier, corners: [[1000, 2249.48], [1100, 2274.49], [1100, 2200]]}]",
    )
    assert job.columns[0].name == "pier"


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["along: 2900, rectangle: [300, 300]"], "features 'f1': reaches outside the room"),
        (["along: 5000, diameter: 300"], "features 'f1': is outside the room"),
        (
            ["along: 1000, diameter: 600", "along: 1500, rectangle: [500, 500]"],
            "features 'f2': overlaps feature 'f1'",
        ),
        (["along: 1500, rectangle: [3000, 10]"], "features 'f1': splits the floor into 2 parts"),
        (["along: 1500, rectangle: [9000, 9000]"], "features 'f1': reaches outside the room"),
    ],
)
def test_features_that_do_not_fit(words: list[str], message: str) -> None:
    with pytest.raises(JobError, match=message):
        features(*words)


def test_a_feature_over_a_column() -> None:
    column = "{name: post, centre: [2000, 1500], diameter: 100}"
    with pytest.raises(JobError, match="features 'f1': overlaps column 'post'"):
        features("along: 1500, rectangle: [300, 300]", column=column)


def test_features_may_touch() -> None:
    job = features("along: 1000, rectangle: [300, 300]", "along: 1300, rectangle: [300, 300]")
    assert len(job.features) == 2


def test_a_unit_longer_than_the_room_is_fine() -> None:
    job = read(products="[{name: board, length: 9000, width: 150}]")
    assert job.products[0].name == "board"


def test_an_absurd_number_of_units() -> None:
    with pytest.raises(JobError, match="room: takes about 12000000 units of 'chip', over 200000; "):
        read(products="[{name: chip, length: 1, width: 1}]", rules="{smallest_cut: off}")


def test_too_many_corners_in_all() -> None:
    posts = ", ".join(
        f"{{name: p{i}, centre: [{100 + 30 * (i % 100)}, {100 + 30 * (i // 100)}], diameter: 20}}"
        for i in range(200)
    )
    with pytest.raises(JobError, match="room: the plan has 2404 corners, over 2000; leave out"):
        read(columns=f"[{posts}]")
