"""How rules came out: kept or broken, and what forces each break."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.floor.layout import Verdict
from models.job.data import Axis, Centred, CentreOn, Kind, Limit, Rules, Sight
from models.lengths import TICKS_PER_MM as MM
from solver.search.outcome.verdicts import explain, verdicts
from tests.search.floors import STRAIGHT, TILE, box, job_of, laid, must, prefer
from tests.search.layouts import layout, verdict

ROOM = box(3100, 1000)
OFFSETS = (500, 900, 250, 1000, 640)
"""Ends of 60 in row 5, joints 360 apart in rows 4 and 5 and 100 in rows 2 and 4."""


def only(rules: Rules) -> Verdict:
    (found,) = verdicts(laid(job_of(ROOM, rules=rules), 0, OFFSETS))
    return found


@pytest.mark.parametrize(
    ("key", "worst"),
    [
        ("smallest_cut", 60),
        ("smallest_end", 60),
        ("joint_offset", 360),
        ("second_joint_offset", 100),
    ],
)
def test_a_least_size_is_kept_up_to_its_limit(key: str, worst: int) -> None:
    for limit, kept in ((worst - 1, True), (worst, True), (worst + 1, False)):
        found = only(replace(Rules(), **{key: must(limit)}))  # type: ignore[arg-type]
        assert (found.key, found.limit, found.worst) == (key, limit * MM, worst * MM)
        assert found.kept is kept
        assert found.where


@pytest.mark.parametrize(("limit", "kept"), [(4, True), (3, False)])
def test_a_count_of_rows_is_kept_up_to_its_limit(limit: int, kept: bool) -> None:
    rules = Rules(no_stair=Limit(Kind.PREFER, limit))
    (found,) = verdicts(laid(job_of(ROOM, rules=rules), 0, (0, 300, 600, 900, 0)))
    assert (found.worst, found.kept, found.kind) == (4, kept, Kind.PREFER)


def test_opposite_cuts_may_differ_up_to_the_limit() -> None:
    for limit, kept in ((80, True), (79, False)):
        rules = Rules(balanced_cuts=prefer(limit))
        (found,) = verdicts(laid(job_of(box(3600, 1000), rules=rules), 60, (0,) * 6))
        assert found.kept is kept


def test_half_units_are_asked_of_ends_only_in_a_straight_bond() -> None:
    rules = Rules(half_unit_edges=prefer(0))
    assert only(rules).key == "half_unit_edges"
    straight = laid(job_of(box(1000, 400), TILE, STRAIGHT, rules), 0, (40, 40))
    edges, ends = verdicts(straight)
    # Tile of 300: a rip of 100 above, ends of 40 and 60; half a unit is 150.
    assert (edges.key, edges.limit, edges.worst) == ("half_unit_edges", 150 * MM, 100 * MM)
    assert (ends.key, ends.limit, ends.worst) == ("half_unit_ends", 150 * MM, 40 * MM)


def test_each_axis_has_a_verdict_of_its_own() -> None:
    axes = [Axis("door", (0, 400 * MM), (1, 0)), Axis("window", (0, 460 * MM), (1, 0))]
    centred = tuple(Centred(Kind.PREFER, axis.name, CentreOn.JOINT) for axis in axes)
    job = job_of(ROOM, axes=axes, rules=Rules(centred=centred))
    found = verdicts(laid(job, 0, OFFSETS))
    assert [(v.key, v.subject, v.worst, v.kept) for v in found] == [
        ("centred", "door", 0, True),
        ("centred", "window", 60 * MM, False),
    ]


def test_a_rule_not_asked_for_has_no_verdict() -> None:
    assert verdicts(laid(job_of(ROOM), 0, OFFSETS)) == ()


def test_a_wall_off_square_is_named_as_the_cause() -> None:
    # The far wall rises by 20 in 3600: the upper row narrows to nothing at its left end.
    corners = ((0, 0), (3600, 0), (3600, 620), (0, 600))
    rules = Rules(smallest_cut=must(30))
    (found,) = verdicts(laid(job_of(corners, rules=rules), 0, (0, 0, 0, 0)))
    assert not found.kept
    assert found.because == "wall 3 runs 0.32 degrees off the rows"


def test_a_preference_given_up_says_what_keeping_it_takes() -> None:
    broken = verdict("balanced_cuts", Kind.PREFER, 40, 90)
    mine = replace(layout(1), verdicts=(broken,))
    kept = replace(broken, kept=True)
    others = [replace(layout(i, units=units), verdicts=(kept,)) for i, units in ((2, 61), (3, 58))]
    (told,) = explain(mine, [mine, *others]).verdicts
    assert told.because.startswith("given up here")
    assert "58 units" in told.because
    (told,) = explain(mine, [mine]).verdicts
    assert told.because == "no layout found keeps it"


def test_what_seems_to_force_a_preference_does_not_where_another_layout_keeps_it() -> None:
    broken = verdict("balanced_cuts", Kind.PREFER, 40, 90, because="lines are held on door")
    mine = replace(layout(1), verdicts=(broken,))
    other = replace(layout(2, units=61), verdicts=(replace(broken, kept=True, because=""),))
    (told,) = explain(mine, [mine, other]).verdicts
    assert "61 units" in told.because
    assert explain(mine, [mine]) == mine


def test_a_layout_that_breaks_more_must_rules_does_not_keep_a_preference_for_another() -> None:
    broken = verdict("balanced_cuts", Kind.PREFER, 40, 90)
    mine = replace(layout(1), verdicts=(broken,))
    worse = replace(layout(2, broken_must=1), verdicts=(replace(broken, kept=True),))
    (told,) = explain(mine, [mine, worse]).verdicts
    assert told.because == "no layout found keeps it"


def test_what_is_kept_or_explained_is_left_as_it_is() -> None:
    forced = verdict("smallest_cut", Kind.MUST, 50, 40, because="lines are held on door")
    kept = verdict("smallest_end", Kind.MUST, 50, 60, kept=True)
    mine = replace(layout(1), verdicts=(forced, kept))
    assert explain(mine, [mine]) == mine


def test_hidden_walls_alone_decide_no_half_unit() -> None:
    rules = Rules(half_unit_edges=prefer(0))
    hidden = dict.fromkeys((1, 2, 3, 4), Sight.HIDDEN)
    (found,) = verdicts(laid(job_of(box(3600, 1000), rules=rules, sights=hidden), 60, (0,) * 6))
    assert (found.worst, found.kept) == (None, True)
