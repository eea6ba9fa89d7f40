import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.data import Extent, Feature, Job
from models.job.errors import JobError
from models.job.shapes import circle, circle_sides
from models.lengths import to_mm, to_ticks
from tests.job.sample import MM, metres, read

AXES = (
    "[{name: up, through: [[2000, 500], [2000, 3000]]},"
    " {name: slant, through: [[1000, 1000], [1300, 1400]]}]"
)


def job(words: str, axis: str = "up") -> Job:
    return read(axes=AXES, features=f"[{{name: star, axis: {axis}, {words}}}]")


def feature(words: str, axis: str = "up") -> Feature:
    return job(words, axis).features[0]


def test_a_rectangle_runs_along_its_axis() -> None:
    found = feature("along: 1000, rectangle: [600, 400]")
    assert found.centre == metres((2, 1.5))[0]
    assert set(found.outline) == set(metres((1.8, 1.2), (2.2, 1.2), (2.2, 1.8), (1.8, 1.8)))
    assert (found.axis, found.tolerance, found.round_diameter) == ("up", MM, None)


def test_along_may_be_backwards() -> None:
    assert feature("along: -200, rectangle: [60, 40]").centre == metres((2, 0.3))[0]


def test_a_rectangle_on_a_slanted_axis_is_turned_with_it() -> None:
    found = feature("along: 500, rectangle: [500, 250]", "slant")
    assert found.centre == metres((1.3, 1.4))[0]
    # The axis runs along (3, 4)/5: half the length is (150, 200) mm, half the width (-100, 75).
    assert set(found.outline) == set(
        metres((1.05, 1.275), (1.25, 1.125), (1.55, 1.525), (1.35, 1.675))
    )


def test_any_polygon_is_given_from_its_centre_along_the_axis_and_left_of_it() -> None:
    found = feature("along: 1000, corners: [[-300, 0], [0, -100], [300, 0], [0, 200]]")
    assert set(found.outline) == set(metres((2, 1.2), (2.1, 1.5), (2, 1.8), (1.8, 1.5)))


def test_a_circle_keeps_its_diameter_and_says_how_it_is_worked() -> None:
    found = job("along: 1000, diameter: 600, tolerance: 0")
    assert found.features[0].round_diameter == 600 * MM
    assert found.features[0].tolerance == 0
    assert "is worked as 56 equal sides within 0.5 mm of the circle" in found.notes[0]
    assert len(found.features[0].outline) == 56


@pytest.mark.parametrize(
    ("x", "words"),
    [
        ("2000.6", "is 0.6 mm off axis 'up', within its tolerance of 1 mm"),
        ("2010", "is 10 mm off axis 'up', more than its tolerance of 1 mm"),
    ],
)
def test_off_its_axis_is_a_note_and_no_error(x: str, words: str) -> None:
    found = job(f"centre: [{x}, 1500], rectangle: [60, 40]")
    assert f"feature 'star' {words}" in found.notes
    assert found.features[0].centre == (to_ticks(float(x)), 1500 * MM)


def test_on_its_axis_needs_no_note() -> None:
    found = job("centre: [2000, 1500], rectangle: [60, 40]")
    assert not any("star" in note for note in found.notes)


def test_the_default_tolerance_goes_with_the_system() -> None:
    found = read(
        system="feet-inches", axes=AXES, features="[{name: f, axis: up, along: 0, diameter: 9}]"
    )
    assert found.features[0].tolerance == 508


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("along: 1000, rectangle: [0, 9]", "features 'star', rectangle: a side is not above 0"),
        ("along: 1000, diameter: -9", "features 'star', diameter: '-9' is not above 0"),
        ("along: 1000, rectangle: [9, 9], tolerance: -1", "tolerance: '-1' is below 0"),
        ("along: far, rectangle: [9, 9]", "along: 'far' is not a length"),
        ("along: 1, rectangle: [9, 9], diameter: 9", "write one place .* and one shape"),
        ("along: 1, corners: [[0, 0], [9, 9], [9, 0], [0, 9]]", "its sides cross or touch"),
    ],
)
def test_features_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        feature(words)


def test_an_unknown_axis_gets_the_nearest_one() -> None:
    with pytest.raises(JobError, match="'star', axis: there is no axis called 'slent'; did you m"):
        feature("along: 1, diameter: 9", "slent")


def test_a_feature_free_to_slide_lies_at_the_low_end_of_its_range() -> None:
    found = feature("along: {from: 250, to: 1400.5}, rectangle: [300, 200]")
    assert found.slide == Extent(250 * MM, 448160)
    assert found.centre == metres((2, 0.75))[0]
    assert feature("along: 250, rectangle: [300, 200]").outline == found.outline
    back = feature("along: {from: -300, to: 300}, rectangle: [300, 200]")
    assert back.centre == metres((2, 0.2))[0]


@pytest.mark.parametrize(
    ("words", "column", "message"),
    [
        (
            "along: {from: 900, to: 900}, diameter: 90",
            "",
            "features 'star', along: 'from' '900' is not below 'to' '900'; write the least first",
        ),
        ("along: {from: 900}, diameter: 90", "", "along: the key 'to' is missing"),
        (
            "along: {from: 900, till: 950}, diameter: 90",
            "",
            "along: unknown key 'till'; known here: from",
        ),
        ("along: {from: 100, to: 2400}, rectangle: [300, 200]", "", "'star': reaches outside the"),
        (
            # clear at both ends, not on the way
            "along: {from: 200, to: 2000}, rectangle: [100, 100]",
            "{name: post, corner: [1990, 1600], size: [20, 20]}",
            "features 'star': overlaps column 'post'",
        ),
        (
            "along: {from: 200, to: 600}, rectangle: [100, 100]",
            "{name: post, corner: [1970, 1200], size: [40, 40]}",
            None,
        ),
    ],
)
def test_a_sliding_feature_must_be_clear_all_the_way(
    words: str, column: str, message: str | None
) -> None:
    sections = {
        "axes": AXES,
        "columns": f"[{column}]",
        "features": f"[{{name: star, axis: up, {words}}}]",
    }
    if message is None:
        assert read(**sections).features[0].slide is not None
        return
    with pytest.raises(JobError, match=message):
        read(**sections)


@given(st.integers(1, 4_000_000), st.integers(0, 359))
def test_every_circle_stays_within_half_a_millimetre(diameter: int, degrees: int) -> None:
    sides = circle_sides(diameter)
    assert sides % 4 == 0
    radius = to_mm(diameter) / 2
    assert radius * (1 - math.cos(math.pi / sides)) <= 0.5
    if diameter > 100 * MM:
        turn = math.radians(degrees)
        ring = circle((0, 0), (round(1e6 * math.cos(turn)), round(1e6 * math.sin(turn))), diameter)
        assert len(ring) == sides
        assert all(abs(to_mm(1) * math.hypot(*corner) - radius) < 0.01 for corner in ring)
