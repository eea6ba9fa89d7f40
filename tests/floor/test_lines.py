from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.lines import (
    SHORT_EDGE,
    Stop,
    breaklines,
    candidates,
    cut_at,
    smallest,
    stops_across,
    stops_along,
)
from models.floor.pieces import pieces_of
from models.floor.runs import runs_of, slabs
from models.floor.zone import Edge
from models.job.data import Sight
from tests.floor.rooms import box, zone_for

PITCH = 1000


def stop(low: int, high: int, above: bool) -> Stop:
    return Stop(low, high, above, Sight.PLAIN, "w")


def left_at(at: Stop, line: int) -> int:
    """What rows leave at a stop, row by row: the least at the narrow end of any."""
    found = [PITCH]
    first = line + (at.low - line) // PITCH * PITCH - PITCH
    for low in range(first, at.high + PITCH, PITCH):
        high = low + PITCH
        if at.low < high and at.high > low:
            found.append(max(high - at.high if at.above else at.low - low, 0))
    return min(found)


STOPS = st.lists(
    st.builds(
        lambda low, slope, above: stop(low, low + slope, above),
        st.integers(-3000, 3000),
        st.one_of(st.just(0), st.integers(0, 1200)),
        st.booleans(),
    ),
    max_size=6,
)
LEAN = st.integers(-3000, 3000).map(lambda tens: 10 * tens)
"""Heights in tens of ticks: walls and lines fall together, or are more than a hair apart."""

STEPS = st.sampled_from([1, 7, 16, 50, 125])


def test_a_wall_by_hand() -> None:
    # Lines at 300, 1300 ... ; a wall at 2000 with the floor above it: 300 up to the next line;
    # with the floor below it: 700 down to the last.
    assert cut_at(stop(2000, 2000, True), 300, PITCH) == 300
    assert cut_at(stop(2000, 2000, False), 300, PITCH) == 700


@pytest.mark.parametrize("above", [True, False])
def test_a_line_on_the_wall_leaves_whole_units(above: bool) -> None:
    assert cut_at(stop(2000, 2000, above), 0, PITCH) == PITCH


def test_a_slanted_wall_counts_at_its_narrow_end() -> None:
    # From 2000 to 2100, lines at 400: above it 2400 - 2100, below it 2000 - 1400.
    assert cut_at(stop(2000, 2100, True), 400, PITCH) == 300
    assert cut_at(stop(2000, 2100, False), 400, PITCH) == 600


@pytest.mark.parametrize("line", [1, 50, 99])
@pytest.mark.parametrize("above", [True, False])
def test_a_line_that_crosses_a_slanted_wall_leaves_nothing(line: int, above: bool) -> None:
    assert cut_at(stop(2000, 2100, above), line, PITCH) == 0


def test_a_line_from_the_end_of_a_slanted_wall_leaves_a_wedge_on_one_side_of_it() -> None:
    # From 2000 to 2100 with the floor above. A line through 2000 leaves 900 at the narrow end;
    # one through 2100 has a wedge below it that runs out to nothing. Below the wall it is
    # the other way round.
    assert cut_at(stop(2000, 2100, True), 0, PITCH) == 900
    assert cut_at(stop(2000, 2100, True), 100, PITCH) == 0
    assert cut_at(stop(2000, 2100, False), 0, PITCH) == 0
    assert cut_at(stop(2000, 2100, False), 100, PITCH) == 900


def test_a_wall_that_leans_by_a_whole_row_always_leaves_nothing() -> None:
    assert {cut_at(stop(0, PITCH, True), line, PITCH) for line in range(PITCH)} == {0}


def test_no_stop_leaves_whole_units() -> None:
    assert smallest([], 123, PITCH) == PITCH


@settings(max_examples=60, deadline=None, derandomize=True)
@given(STOPS, st.integers(1, 12))
def test_smallest_is_the_least_of_a_row_by_row_count_at_every_step(
    stops: list[Stop], step: int
) -> None:
    for line in range(0, PITCH, step):
        expected = min((left_at(at, line) for at in stops), default=PITCH)
        assert smallest(stops, line, PITCH) == expected


@settings(max_examples=40, deadline=None, derandomize=True)
@given(LEAN, LEAN, LEAN, st.data())
def test_smallest_is_what_the_pieces_of_a_room_measure(
    lower: int, upper: int, line: int, data: st.DataObject
) -> None:
    """One piece a row between level and leaning walls: its rip at the narrow end."""
    room = ((0, 0), (200_000, lower), (200_000, 100_000 + upper), (0, 100_000))
    zone = zone_for(room)
    stops = stops_along(zone.edges, 200_000, zone.around)
    line = data.draw(st.sampled_from([line, lower, 100_000 + upper, 100_000, 0])) % 20_000
    pitch = (400_000, 20_000)
    runs = runs_of(zone, slabs(zone), pitch[1], line)
    cuts = pieces_of(runs, [-100_000] * len(runs), pitch)
    measured = [cut.sizes.across for cut in cuts if cut.sizes.across is not None]
    assert min(measured, default=20_000) == pytest.approx(smallest(stops, line, 20_000), abs=8)


def test_breaklines_are_the_corners_within_one_pitch() -> None:
    assert breaklines([0, 2300, -700, 999, 5000], PITCH) == [0, 300, 999]
    assert breaklines([], PITCH) == []


def on_steps(low: int, high: int, step: int) -> list[int]:
    """The lines on the tape strictly between two breaklines."""
    return [line for line in range(low + 1, high) if line % step == 0]


@settings(max_examples=80, deadline=None, derandomize=True)
@given(STOPS, STEPS)
def test_candidates_hold_the_best_line_of_every_interval(stops: list[Stop], step: int) -> None:
    breaks = breaklines([v for at in stops for v in (at.low, at.high)], PITCH)
    found = candidates(stops, breaks, PITCH, step, None, 0)
    marks = breaks or [0]
    assert found == sorted(set(found))
    for low, high in pairwise([*marks, marks[0] + PITCH]):
        inside = on_steps(low, high, step)
        lines = {line % PITCH for line in inside} & set(found)
        if inside:
            best = max(smallest(stops, line, PITCH) for line in inside)
            assert max(smallest(stops, line, PITCH) for line in lines) == best
            assert {inside[0] % PITCH, inside[-1] % PITCH} <= lines


@settings(max_examples=60, deadline=None, derandomize=True)
@given(STOPS, STEPS)
def test_candidates_are_corners_or_lines_on_the_tape(stops: list[Stop], step: int) -> None:
    breaks = breaklines([v for at in stops for v in (at.low, at.high)], PITCH)
    found = candidates(stops, breaks, PITCH, step, None, 0)
    assert set(breaks) <= set(found)
    assert all(0 <= line < PITCH for line in found)
    for line in set(found) - set(breaks) - {0}:
        # Past the last breakline of a pitch, the tape reads one pitch more.
        assert line % step == 0 or (line + PITCH) % step == 0


def test_samples_are_even_steps_on_the_tape() -> None:
    assert candidates([], [], PITCH, 50, None, 4) == [0, 50, 250, 500, 750, 950]
    assert set(candidates([], [], PITCH, 30, None, 4)) >= {0, 240, 480, 750}


def test_held_lines_are_the_only_ones() -> None:
    held = [Fraction(2300), Fraction(5601, 2), Fraction(-700)]
    assert candidates([stop(0, 0, True)], [0], PITCH, 50, held, 12) == [300, 800]


def edge(start: tuple[int, int], end: tuple[int, int], name: str = "w") -> Edge:
    return Edge(start, end, name, Sight.HIDDEN)


def test_stops_know_which_side_the_floor_is_on() -> None:
    # A room walked counter-clockwise: floor above the lower wall, below the upper one.
    edges = zone_for(box(0, 0, 500_000, 300_000)).edges
    assert [(s.low, s.high, s.above, s.name) for s in stops_along(edges, 1, set())] == [
        (0, 0, True, "w1"),
        (300_000, 300_000, False, "w3"),
    ]
    assert [(s.low, s.high, s.above, s.name) for s in stops_across(edges, 1, set())] == [
        (500_000, 500_000, False, "w2"),
        (0, 0, True, "w4"),
    ]


def test_stops_keep_their_extent_and_sight() -> None:
    leaning = edge((900_000, 40_000), (100_000, 70_000))
    assert stops_along([leaning], 1, set()) == [Stop(40_000, 70_000, False, Sight.HIDDEN, "w")]
    assert stops_across([leaning], 1, set()) == []
    steep = edge((10_000, 0), (0, 300_000))
    assert stops_across([steep], 1, set()) == [Stop(0, 10_000, False, Sight.HIDDEN, "w")]


def test_a_side_of_a_column_counts_when_it_is_longer_than_a_unit() -> None:
    side = edge((0, 0), (400_000, 0), "c1")
    assert stops_along([side], 400_000, {"c1"}) == []
    assert len(stops_along([side], 399_999, {"c1"})) == 1


def test_a_wall_counts_unless_it_is_short_and_shorter_than_a_unit() -> None:
    assert len(stops_along([edge((0, 0), (SHORT_EDGE, 0))], 10**6, set())) == 1
    assert stops_along([edge((0, 0), (SHORT_EDGE - 1, 0))], 10**6, set()) == []
    assert len(stops_along([edge((0, 0), (50_000, 0))], 50_000, set())) == 1
