"""Distances, needs and pieces of spans against counting them out."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.runs import Run
from models.program.spans import (
    Meet,
    Span,
    allowed,
    cut_ends,
    end_piece,
    gap,
    longest_spans,
    meets_of,
    shortfall,
    start_piece,
    unit_places,
)
from tests.program.laid import distance, end_is_short, pieces

repeatable = settings(deadline=None, derandomize=True)
pitches = st.integers(2, 12)
needs = st.integers(0, 14)


@st.composite
def spans(draw: st.DrawFn) -> Span:
    start = draw(st.integers(-20, 20))
    return Span(1, start, start + draw(st.integers(1, 40)), draw(needs), draw(needs), 1)


@given(span=spans(), pitch=pitches, offset=st.integers(-30, 30))
@repeatable
def test_end_pieces_are_what_is_left_between_stops_and_joints(
    span: Span, pitch: int, offset: int
) -> None:
    laid = pieces(span, offset, pitch)
    if len(laid) > 1:
        assert start_piece(span, offset, pitch) == laid[0]
        assert end_piece(span, offset, pitch) == laid[-1]
        assert cut_ends(span, offset, pitch) == (laid[0], laid[-1])
    else:
        assert start_piece(span, offset, pitch) >= span.length
        assert end_piece(span, offset, pitch) >= span.length
        assert cut_ends(span, offset, pitch) == (span.length, pitch)
    assert unit_places(span, offset, pitch) == len(laid)


@given(span=spans(), pitch=pitches, offset=st.integers(-30, 30))
@repeatable
def test_an_offset_a_unit_further_is_the_same(span: Span, pitch: int, offset: int) -> None:
    for piece in (start_piece, end_piece, shortfall):
        assert piece(span, offset, pitch) == piece(span, offset + pitch, pitch)


@given(span=spans(), pitch=pitches, offset=st.integers(-30, 30))
@repeatable
def test_a_span_seen_in_a_mirror_has_its_ends_exchanged(
    span: Span, pitch: int, offset: int
) -> None:
    mirrored = Span(1, -span.end, -span.start, span.need_end, span.need_start, 1)
    assert start_piece(span, offset, pitch) == end_piece(mirrored, -offset, pitch)
    assert shortfall(span, offset, pitch) == shortfall(mirrored, -offset, pitch)


def worst(span: Span, offset: int, pitch: int) -> int:
    """By how much the worse cut end is under its need."""
    laid = pieces(span, offset, pitch)
    ends = [(laid[0], span.need_start), (laid[-1], span.need_end)] if len(laid) > 1 else []
    return max((need - size for size, need in ends if size < min(need, pitch)), default=0)


@given(span=spans(), pitch=pitches, step=st.integers(1, 3))
@repeatable
def test_the_offsets_allowed_are_those_with_no_end_short(span: Span, pitch: int, step: int) -> None:
    every = range(0, pitch, step)
    assert [shortfall(span, p, pitch) for p in every] == [worst(span, p, pitch) for p in every]
    assert allowed(span, pitch, step) == [p for p in every if not end_is_short(span, p, pitch)]


@given(one=spans(), two=spans(), pitch=pitches, p=st.integers(0, 11), q=st.integers(0, 11))
@repeatable
def test_the_gap_is_the_least_distance_of_two_joints_that_count(
    one: Span, two: Span, pitch: int, p: int, q: int
) -> None:
    low, high = max(one.start, two.start), min(one.end, two.end)
    meet = Meet(
        0,
        1,
        (max(low, one.start + 1), min(high, one.end - 1)),
        (max(low, two.start + 1), min(high, two.end - 1)),
    )
    counted = distance(meet, (one, two), (p, q), pitch)
    if any(a > b for a, b in (meet.one_range, meet.two_range)):
        assert counted is None
    else:
        assert gap(meet, p % pitch, q % pitch, pitch) == counted


def test_a_joint_on_a_stop_of_the_other_row_counts() -> None:
    # The upper row starts at 10, where the lower row has a joint: two joints could meet there.
    (meet,), _ = meets_of([run(1, 0, 30), run(2, 10, 40)])
    assert (meet.one_range, meet.two_range) == ((10, 29), (11, 30))
    assert gap(meet, 10 % 6, 13 % 6, 6) == 3


def run(row: int, start: int, end: int, low: int | None = None) -> Run:
    """A run 5 wide between its row lines."""
    base = 5 * (row - 1)
    return Run(row, base, start, end, base if low is None else low, base + 5)


def test_rows_two_apart_meet_where_the_row_between_is_laid() -> None:
    near, second = meets_of([run(1, 0, 60), run(2, 0, 20), run(2, 30, 60), run(3, 0, 60)])
    assert [(m.one, m.two) for m in near] == [(0, 1), (0, 2), (1, 3), (2, 3)]
    assert [(m.one, m.two, m.one_range) for m in second] == [(0, 3, (1, 20)), (0, 3, (30, 59))]


def test_rows_that_share_no_length_do_not_meet() -> None:
    assert meets_of([run(1, 0, 20), run(2, 20, 40), run(3, 0, 20)]) == ((), ())


def test_a_run_that_does_not_reach_the_row_line_does_not_meet() -> None:
    assert meets_of([run(1, 0, 20), run(2, 0, 20, low=7)]) == ((), ())


def test_a_stepped_run_meets_only_where_it_reaches_the_row_line() -> None:
    step = ((0, 5), (12, 5), (12, 8), (30, 8), (30, 10), (0, 10))
    (meet,), _ = meets_of([run(1, 0, 30), Run(2, 5, 0, 30, 5, 10, step)])
    assert (meet.one_range, meet.two_range) == ((1, 12), (1, 12))


def test_each_row_is_followed_along_its_longest_span() -> None:
    laid = [Span(row, 0, end, 0, 0, 1) for row, end in ((2, 9), (1, 5), (2, 9), (1, 7), (3, 1))]
    assert longest_spans(laid) == [3, 0, 4]
