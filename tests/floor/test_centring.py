from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.centring import held_lines, off_axis, runs_along
from models.floor.zone import Zone
from models.job.data import Axis, Centred, CentreOn, Job, Kind, Point
from tests.floor.rooms import box, field_zone, job_of

HALL = box(0, 0, 1_000_000, 600_000)
PITCH = 20_000


def hall(*axes: Axis, vector: Point = (1, 0)) -> tuple[Zone, Job]:
    job = job_of(HALL, vector=vector, axes=axes)
    return field_zone(job), job


def level(at: int, name: str = "a1") -> Axis:
    return Axis(name, (123, at), (1, 0))


def lines(
    zone: Zone, job: Job, rules: list[Centred], along: bool = True, pitch: int = PITCH
) -> list[object] | None:
    held = held_lines(zone, job, rules, pitch, along)
    return None if held is None else list(held)


def on(axis: str, what: CentreOn) -> Centred:
    return Centred(Kind.MUST, axis, what)


@pytest.mark.parametrize(
    ("vector", "direction", "along"),
    [
        ((1, 0), (1, 0), True),
        ((1, 0), (-5, 0), True),
        ((1, 0), (0, 3), False),
        ((1, 0), (1, 1), None),
        ((4, 3), (4, 3), True),
        ((4, 3), (-3, 4), False),
        ((4, 3), (1, 0), None),
        ((1, 0), (100_000, 1), True),
        ((1, 0), (1, 100_000), False),
        ((1, 0), (1_000, 1), None),
    ],
)
def test_an_axis_runs_along_the_rows_square_to_them_or_neither(
    vector: Point, direction: Point, along: bool | None
) -> None:
    axis = Axis("a1", (400_000, 300_000), direction)
    zone, _ = hall(axis, vector=vector)
    assert runs_along(zone, axis) is along


def test_a_short_direction_is_not_rounded_to_the_rows() -> None:
    # (1, 1) lies 8.1 degrees off (4, 3): in that frame it is (1.4, 0.2) ticks.
    axis = Axis("a1", (400_000, 300_000), (1, 1))
    zone, _ = hall(axis, vector=(4, 3))
    assert runs_along(zone, axis) is None


def test_there_are_exactly_two_cases() -> None:
    zone, job = hall(level(310_000))
    cases = {what: lines(zone, job, [on("a1", what)]) for what in CentreOn}
    assert cases == {
        CentreOn.JOINT: [310_000],
        CentreOn.UNIT: [320_000],
        CentreOn.EITHER: [310_000, 320_000],
    }


def test_an_odd_pitch_centres_a_unit_on_half_a_tick() -> None:
    zone, job = hall(level(310_000))
    found = lines(zone, job, [on("a1", CentreOn.UNIT)], pitch=127)
    assert found == [310_000 + Fraction(127, 2)]


def test_without_a_rule_lines_are_free() -> None:
    zone, job = hall(level(310_000))
    assert lines(zone, job, []) is None


def test_an_axis_square_to_the_rows_holds_joint_lines_only() -> None:
    zone, job = hall(Axis("a1", (410_000, 55), (0, -2)))
    rules = [on("a1", CentreOn.JOINT)]
    assert lines(zone, job, rules) is None
    assert lines(zone, job, rules, along=False) == [410_000]


def test_an_oblique_axis_holds_nothing() -> None:
    zone, job = hall(Axis("a1", (410_000, 55), (1, 1)))
    rules = [on("a1", CentreOn.EITHER)]
    assert lines(zone, job, rules) is None
    assert lines(zone, job, rules, along=False) is None


def test_axes_that_contradict_each_other_leave_no_line() -> None:
    zone, job = hall(level(310_000, "a1"), level(317_000, "a2"))
    rules = [on("a1", CentreOn.EITHER), on("a2", CentreOn.EITHER)]
    assert lines(zone, job, rules) == []


def test_axes_that_agree_leave_the_lines_both_admit() -> None:
    # The second axis is two and a half pitches up: a joint on one is a unit on the other.
    zone, job = hall(level(310_000, "a1"), level(360_000, "a2"))
    either = [on("a1", CentreOn.EITHER), on("a2", CentreOn.EITHER)]
    assert lines(zone, job, either) == [310_000, 320_000]
    mixed = [on("a1", CentreOn.JOINT), on("a2", CentreOn.UNIT)]
    assert lines(zone, job, mixed) == [310_000]
    both = [on("a1", CentreOn.JOINT), on("a2", CentreOn.JOINT)]
    assert lines(zone, job, both) == []


def test_an_axis_is_placed_in_a_frame_turned_a_quarter() -> None:
    # Rows run up and start at (1000000, 0): v is 1000000 - x.
    zone, job = hall(Axis("a1", (410_000, 55), (0, 1)), vector=(0, 1))
    assert lines(zone, job, [on("a1", CentreOn.JOINT)]) == [590_000]


def test_distance_off_an_axis_by_hand() -> None:
    # Lines at 3000, 23000 ...; the axis at 310000 lies 7000 above 303000, and 3000 below the
    # unit centre at 313000.
    axis = level(310_000)
    zone, _ = hall(axis)
    gaps = {what: off_axis(zone, axis, what, 3_000, PITCH, True) for what in CentreOn}
    assert gaps == {CentreOn.JOINT: 7_000, CentreOn.UNIT: 3_000, CentreOn.EITHER: 3_000}


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.integers(0, 600_000),
    st.integers(-50_000, 50_000),
    st.sampled_from(list(CentreOn)),
    st.sampled_from([PITCH, 12_700]),
)
def test_distance_off_an_axis_is_the_least_over_all_lines(
    at: int, line: int, what: CentreOn, pitch: int
) -> None:
    axis = level(at)
    zone, job = hall(axis)
    joints = [line + pitch * i for i in range(-60, 70)]
    units = [joint + pitch // 2 for joint in joints]
    places = {CentreOn.JOINT: joints, CentreOn.UNIT: units, CentreOn.EITHER: joints + units}[what]
    assert off_axis(zone, axis, what, line, pitch, True) == min(abs(at - p) for p in places)
    for held in held_lines(zone, job, [on("a1", what)], pitch, True) or []:
        assert off_axis(zone, axis, what, int(held), pitch, True) == 0
