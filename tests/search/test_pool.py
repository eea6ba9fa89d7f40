"""Offsets of several zones as one choice: zones kept apart, and never made worse together."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from models.lengths import TICKS_PER_INCH as INCH
from models.program.spans import Choice
from solver.search.bonds.lay import earlier_meets, judge, lay
from solver.search.found import Found
from solver.search.pool import FAR, improved, merge
from tests.program.solved import choice_of, meet_of, span_of
from tests.search.choices import choices
from tests.search.floors import PLANK, box, job_of, zone_in

ZONE = zone_in(job_of(box(1200, 200)))


@st.composite
def kin(draw: st.DrawFn) -> list[Choice]:
    """Two or three zones' choices under the same rules."""
    first = draw(choices(rows=4))
    others = [draw(choices(rows=4)) for _ in range(draw(st.integers(1, 2)))]
    return [
        first,
        *(replace(first, spans=o.spans, meets=o.meets, second=o.second) for o in others),
    ]


def found_of(choice: Choice, offsets: tuple[int, ...]) -> Found:
    laid = judge(choice, offsets)
    return Found(ZONE, 0, (), offsets, laid.units, laid.broken, choice)


@given(each=kin())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_no_joint_of_one_zone_meets_one_of_another(each: list[Choice]) -> None:
    one = merge(each)
    zone_of_span = [n for n, choice in enumerate(each) for _ in choice.spans]
    assert len(one.spans) == len(zone_of_span)
    for meets, own in ((one.meets, "meets"), (one.second, "second")):
        assert len(meets) == sum(len(getattr(choice, own)) for choice in each)
        assert all(zone_of_span[m.one] == zone_of_span[m.two] for m in meets)
    for number, choice in enumerate(each):
        mine = [s for s, n in zip(one.spans, zone_of_span, strict=True) if n == number]
        assert [replace(s, row=s.row - number * FAR) for s in mine] == list(choice.spans)


@given(each=kin(), seed=st.integers(0, 99))
@settings(max_examples=60, deadline=None, derandomize=True)
def test_zones_break_together_what_they_break_apart(each: list[Choice], seed: int) -> None:
    # No stair runs on over zones, and offcuts shared among them can only save units.
    each = [replace(choice, stair=None) for choice in each]
    laid = [lay(choice, earlier_meets(choice), seed) for choice in each]
    together = judge(merge(each), [offset for one in laid for offset in one.offsets])
    assert together.broken == sum(one.broken for one in laid)
    assert together.soft == sum(one.soft for one in laid)
    assert together.units <= sum(one.units for one in laid)
    if each[0].within is not None:
        assert together.units == sum(one.units for one in laid)


@given(each=kin(), seed=st.integers(0, 99))
@settings(max_examples=6, deadline=None, derandomize=True)
def test_improving_zones_together_never_makes_them_worse(each: list[Choice], seed: int) -> None:
    found = {
        2 * n: found_of(choice, lay(choice, earlier_meets(choice), seed).offsets)
        for n, choice in enumerate(each)
    }
    better = improved(found, {PLANK.name: 0})
    assert set(better) == set(found)
    for number, one in better.items():
        assert replace(one, offsets=found[number].offsets) == found[number]
        assert len(one.offsets) == len(found[number].offsets)
    together = merge(each)
    before, after = (
        judge(together, [offset for f in layout.values() for offset in f.offsets])
        for layout in (found, better)
    )
    assert after.cost <= before.cost
    assert improved(found, {PLANK.name: 0}) == better


def row_of(length: int, rows: int = 1, apart: int = 0) -> Choice:
    spans = [span_of(row, 0, length) for row in range(1, rows + 1)]
    near = tuple(meet_of(spans, i, i + 1) for i in range(rows - 1))
    return choice_of(spans, meets=near, apart=apart)


def test_two_zones_share_the_unit_that_each_would_halve() -> None:
    # Each a row of 30 in units of 12: three apart, five together.
    found = {n: found_of(row_of(30), (0,)) for n in (0, 1)}
    assert [one.units for one in found.values()] == [3, 3]
    better = improved(found, {PLANK.name: 5})
    offsets = [better[n].offsets for n in (0, 1)]
    assert judge(merge([row_of(30)] * 2), [o for each in offsets for o in each]).units == 5


def test_each_zone_gets_its_own_offsets_back() -> None:
    # The bound is met from the start: what comes back is what was given, split as it was.
    given_ = [tuple(i * INCH for i in range(start, start + n)) for start, n in ((0, 2), (4, 3))]
    found = {
        n: found_of(row_of(24 + 6 * n, rows=len(offsets)), offsets)
        for n, offsets in enumerate(given_)
    }
    better = improved(found, {PLANK.name: 99})
    assert [len(better[n].offsets) for n in found] == [2, 3]


def test_zones_of_other_rules_or_products_are_left_alone() -> None:
    apart = {0: row_of(30), 1: row_of(30, apart=3 * INCH)}
    assert improved({n: found_of(c, (0,)) for n, c in apart.items()}, {PLANK.name: 0}) == {}
    laying = replace(ZONE.laying, product="tile")
    tile = replace(found_of(row_of(30), (0,)), zone=replace(ZONE, laying=laying))
    found = {0: found_of(row_of(30), (0,)), 1: tile}
    assert improved(found, {PLANK.name: 0, "tile": 0}) == {}


def test_zones_without_offsets_of_their_own_are_left_alone() -> None:
    straight = replace(found_of(row_of(30), (0,)), choice=None)
    assert improved({0: straight, 1: found_of(row_of(30), (0,))}, {PLANK.name: 0}) == {}
