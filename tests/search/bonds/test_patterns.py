"""Patterns of start lines: which lines share their runs, and what a bound may count."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box as shape_of

from models.floor.runs import Run, runs_of, slabs
from models.job.data import Axis, Centred, CentreOn, Job, Kind, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds import patterns
from solver.search.bonds.patterns import bound_spans, choice_of, patterns_of
from tests.search.floors import PLANK, box, job_of, must, prefer, task_of, with_rules, zone_in

SAWN = 4 * MM

STEPPED = ((0, 0), (3000, 0), (3000, 700), (1800, 700), (1800, 1000), (0, 1000))
"""An L: the floor right of 1800 ends 300 below the rest."""


def runs_at(job: Job, line: float) -> tuple[Run, ...]:
    zone = zone_in(job)
    return runs_of(zone, slabs(zone), job.products[0].pitch[1], round(line * MM))


def spans_mm(job: Job, line: float) -> list[tuple[int, float, float, float]]:
    """Row, start, end and width of what a bound counts."""
    return [
        (s.row, s.start / MM, s.end / MM, s.width / MM)
        for s in bound_spans(job, job.field, runs_at(job, line))
    ]


def test_a_rectangle_is_counted_run_by_run() -> None:
    assert spans_mm(job_of(box(3000, 500)), 0) == [
        (1, 0, 3000, 200),
        (2, 0, 3000, 200),
        (3, 0, 3000, 100),
    ]


def test_an_odd_run_is_cut_into_the_stretches_it_holds() -> None:
    # Row 4 (600 to 800) is whole up to 1800 and ripped to 100 beyond.
    assert [span for span in spans_mm(job_of(STEPPED), 0) if span[0] == 4] == [
        (4, 0, 1800, 200),
        (4, 1800, 3000, 100),
    ]


def test_stretches_are_a_kerf_apart() -> None:
    # A piece across both counts twice in one unit: what it is short of a kerf is left out.
    job = job_of(STEPPED, product=type(PLANK)("plank", 1200 * MM, 200 * MM, kerf=SAWN))
    assert [span for span in spans_mm(job, 0) if span[0] == 4] == [
        (4, 0, 1800, 200),
        (4, 1804, 3000, 100),
    ]


COLUMN = ((1000, 250), (1400, 250), (1400, 350), (1000, 350))


def test_a_short_notch_is_no_gap_but_a_long_one_is() -> None:
    # The column takes 250 to 350 of row 2. Every piece that reaches beside it is longer.
    assert spans_mm(job_of(box(3000, 600), columns=[COLUMN]), 0)[1] == (2, 0, 3000, 200)
    long = [(900, 250), (2200, 250), (2200, 350), (900, 350)]
    assert [s for s in spans_mm(job_of(box(3000, 600), columns=[long]), 0) if s[0] == 2] == [
        (2, 0, 900, 200),
        (2, 900, 2200, 50),
        (2, 900, 2200, 50),
        (2, 2200, 3000, 200),
    ]


@given(
    width=st.integers(1300, 4000),
    height=st.integers(250, 900),
    notch=st.tuples(st.integers(1, 1200), st.integers(1, 240)),
    line=st.integers(0, 199),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_what_a_bound_counts_lies_in_the_floor_side_by_side(
    width: int, height: int, notch: tuple[int, int], line: int
) -> None:
    x, y = width - notch[0], height - notch[1]
    job = job_of(((0, 0), (width, 0), (width, y), (x, y), (x, height), (0, height)))
    zone, runs = zone_in(job), runs_at(job, line)
    spans = bound_spans(job, job.field, runs)
    lows = {run.row: run.low for run in runs}
    boxes = [
        shape_of(s.start, low, s.end, low + s.width)
        if s.side <= 0
        else shape_of(s.start, low + PLANK.width - s.width, s.end, low + PLANK.width)
        for s in spans
        for low in [lows[s.row]]
    ]
    for place, (one, span) in enumerate(zip(boxes, spans, strict=True)):
        if span.side != 0 or span.width == PLANK.width:
            assert zone.polygon.buffer(1).covers(one)
        assert not any(one.intersection(other).area > 0 for other in boxes[:place])


def test_needs_of_rules_that_must_hold_are_counted_and_preferences_are_not() -> None:
    rules = Rules(smallest_cut=must(40), smallest_end=prefer(300))
    job = job_of(box(3000, 600), rules=rules)
    runs = runs_at(job, 0)
    assert {(s.need_start, s.need_end) for s in bound_spans(job, job.field, runs)} == {
        (40 * MM, 40 * MM)
    }
    assert {s.need_start for s in choice_of(job, job.field, runs).spans} == {300 * MM}


def test_a_choice_holds_every_rule_on_joints() -> None:
    rules = Rules(
        joint_offset=must(200),
        second_joint_offset=prefer(80),
        no_stair=must(3 / MM),
        reuse_within=must(4 / MM),
        smallest_end=must(250),
        tape_tolerance=prefer(5),
    )
    job = job_of(box(3000, 600), rules=rules)
    choice = choice_of(job, job.field, runs_at(job, 0))
    assert (choice.pitch, choice.step, choice.kerf) == (1200 * MM, MM, 0)
    assert (choice.apart, choice.second_apart) == (200 * MM, 80 * MM)
    assert (choice.stair, choice.within) == (3, 4)
    assert (choice.second_must, choice.stair_must) == (False, True)
    assert {span.need_start for span in choice.spans} == {255 * MM}
    assert [(m.one, m.two) for m in choice.meets] == [(0, 1), (1, 2)]
    assert [(m.one, m.two) for m in choice.second] == [(0, 2)]


def lines_mm(job: Job) -> list[list[float]]:
    return [[line / MM for line in p.lines] for p in patterns_of(task_of(job))]


OTHER = ((0, 0), (2000, 0), (2000, 610), (900, 610), (900, 940), (0, 940))
ROOMS = [box(3000, 950), STEPPED, OTHER]


def narrowest(corners: Sequence[tuple[int, int]], line: int) -> int:
    """The narrowest rip a line leaves, at the wall at 0 and at all those above; ticks."""
    above = {y * MM for _, y in corners if y}
    rips = [line % (200 * MM), *((y - line) % (200 * MM) for y in above)]
    return min(rip or 200 * MM for rip in rips)


@pytest.mark.parametrize("corners", ROOMS, ids=["rectangle", "L", "other L"])
def test_lines_of_one_pattern_have_the_same_runs(corners: Sequence[tuple[int, int]]) -> None:
    job = job_of(corners, rules=Rules(smallest_cut=prefer(30)))
    found = patterns_of(task_of(job))
    lines = [line for pattern in found for line in pattern.lines]
    assert len(set(lines)) == len(lines)
    for pattern in found:
        assert len(pattern.lines) == len(pattern.runs)
        stops = {tuple((r.row, r.start, r.end) for r in runs) for runs in pattern.runs}
        assert len(stops) == 1
        assert [(s.row, s.start, s.end) for s in pattern.choice.spans] == list(stops.pop())


@pytest.mark.parametrize("corners", ROOMS, ids=["rectangle", "L", "other L"])
def test_walls_on_a_row_line_are_tried_and_the_widest_rips_lead(
    corners: Sequence[tuple[int, int]],
) -> None:
    job = job_of(corners)
    found = patterns_of(task_of(job))
    tried = {line / MM for pattern in found for line in pattern.lines}
    assert {y % 200 for _, y in corners} <= tried
    for pattern in found:
        rips = [narrowest(corners, line) for line in pattern.lines]
        assert pattern.rip == rips[0] == max(rips)


def test_lines_that_leave_a_sliver_under_a_must_rule_are_narrow() -> None:
    job = job_of(box(3000, 950), rules=Rules(smallest_cut=must(60)))
    narrow = {p.narrow: [line / MM for line in p.lines] for p in patterns_of(task_of(job))}
    # 950 is four rows and 150: lines at 0 leave 150, in between the two rips make 150 or 350.
    assert all(min(line or 200, (950 - line) % 200 or 200) >= 60 for line in narrow[False])
    assert all(min(line or 200, (950 - line) % 200 or 200) < 60 for line in narrow[True])
    assert not any(p.narrow for p in patterns_of(task_of(with_rules(job, Rules()))))


def test_a_wall_every_line_crosses_does_not_hide_slivers_at_the_others(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # The wall on the right rises by 220, more than a row: some line always meets it.
    room = [(0, 0), (3000, 0), (3000, 1170), (1500, 950), (0, 950)]
    monkeypatch.setattr(patterns, "SLANT_LINES", 4)
    kept = lines_mm(job_of(room, rules=Rules(smallest_cut=must(60))))
    assert len(kept) == 4
    assert all(min(line or 200, (950 - line) % 200 or 200) >= 60 for (line,) in kept)


@pytest.mark.parametrize(("on", "lines"), [(CentreOn.JOINT, {75}), (CentreOn.UNIT, {175})])
def test_a_line_held_on_an_axis_is_the_only_one(on: CentreOn, lines: set[int]) -> None:
    axis = Axis("middle", (0, 475 * MM), (1, 0))
    job = job_of(
        box(3000, 950), axes=[axis], rules=Rules(centred=(Centred(Kind.MUST, "middle", on),))
    )
    assert {line for lines_ in lines_mm(job) for line in lines_} == lines


def test_a_room_no_wider_than_a_unit_has_one_line() -> None:
    assert lines_mm(job_of(box(3000, 180))) == [[0]]
