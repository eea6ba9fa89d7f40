"""Bounds: no layout, no choice of offsets and no packing goes below them."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.job.data import Job, Product, Rules
from models.lengths import TICKS_PER_MM as MM
from models.program.spans import Choice, Span
from solver.search import solve
from solver.search.bounds import (
    apart_across,
    cover_of,
    firm_units,
    flow_bound,
    quick_bound,
    whole_units,
)
from solver.stock.bound import least_units
from solver.stock.pack import pack
from solver.stock.parts import Stock
from tests.program.laid import units
from tests.search.floors import PLANK, STAGGERED, STRAIGHT, TILE, box, job_of, must, zone_in
from tests.stock.sheet import least, parts

TURNED = replace(PLANK, directional=False, kerf=3 * MM)
SMALL = replace(TILE, length=200 * MM, kerf=2 * MM)

KINDS = [(p, STAGGERED) for p in (PLANK, TURNED, SMALL)]
KINDS += [(p, STRAIGHT) for p in (PLANK, TILE, SMALL)]


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Small rooms, rectangles and L shapes, in any bond and product."""
    product_, bond = draw(st.sampled_from(KINDS))
    width, height = draw(st.integers(300, 2600)), draw(st.integers(150, 900))
    x, y = draw(st.integers(50, width - 50)), draw(st.integers(50, height - 50))
    corners = [(0, 0), (width, 0), (width, y), (x, y), (x, height), (0, height)]
    rules = Rules(joint_offset=must(30)) if bond == STAGGERED else Rules()
    room = corners if draw(st.booleans()) else box(width, height)
    return job_of(room, product_, bond, rules)


@given(job=jobs())
@settings(max_examples=10, deadline=None, derandomize=True)
def test_no_layout_found_takes_less_than_the_area_or_the_bound(job: Job) -> None:
    zone = zone_in(job)
    figures = [layout.figures for layout in solve(job).layouts]
    kept = [f.units for f in figures if not f.broken_must]
    cover = cover_of(job, zone)
    assert whole_units(cover.area) <= cover.units <= figures[0].units_at_least
    assert all(figures[0].units_at_least <= found for found in kept)


@st.composite
def choices(draw: st.DrawFn) -> tuple[Choice, Stock]:
    """Up to three rows in whole steps, the outer ones ripped on either side."""
    stock = Stock(8, 6, draw(st.integers(0, 1)), directional=draw(st.booleans()))
    spans = []
    for row in range(1, draw(st.integers(1, 3)) + 1):
        start, need = draw(st.integers(0, 7)), draw(st.integers(0, 2))
        width = draw(st.integers(1, 6))
        side = 0 if width == 6 else draw(st.sampled_from([-1, 0, 1]))
        end = start + draw(st.integers(1, 20))
        spans.append(Span(row, start, end, need, need, width, side))
    return Choice(8, 1, stock.kerf, tuple(spans)), stock


@given(case=choices())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_the_length_bounds_the_flow_and_the_flow_bounds_all_offsets(
    case: tuple[Choice, Stock],
) -> None:
    choice, stock = case
    kept = apart_across(choice.spans, stock)
    bound = flow_bound(choice, stock)
    assert sum(span.length for span in kept) <= stock.length * quick_bound(choice, stock)
    assert quick_bound(choice, stock) <= bound
    # With units that may be turned pieces pair more freely than end to end, so less is asked.
    if stock.directional:
        alone = replace(choice, spans=tuple(kept))
        tried = product(range(8), repeat=len(kept))
        good = [p for p in tried if all(long_enough(s, q) for s, q in zip(kept, p, strict=True))]
        assert all(bound <= units(alone, offsets) for offsets in good)


def long_enough(span: Span, offset: int) -> bool:
    """Whether no end piece is short, in units of 8."""
    joints = [u for u in range(span.start + 1, span.end) if (u - offset) % 8 == 0]
    return not joints or (
        joints[0] - span.start >= span.need_start and span.end - joints[-1] >= span.need_end
    )


@given(case=choices())
@settings(max_examples=100, deadline=None, derandomize=True)
def test_no_two_rips_counted_fit_side_by_side(case: tuple[Choice, Stock]) -> None:
    choice, stock = case
    kept = [span for span in apart_across(choice.spans, stock) if span.width < stock.width]
    for one, two in combinations(kept, 2):
        opposite = one.side != two.side or one.side == 0
        assert not (opposite and one.width + two.width + stock.kerf <= stock.width)
    full = [span for span in choice.spans if span.width == stock.width]
    assert all(span in apart_across(choice.spans, stock) for span in full)


def test_rips_of_one_side_are_all_counted_and_of_two_sides_the_longer() -> None:
    stock = Stock(8, 6, 1, directional=True)
    low = Span(1, 0, 20, 0, 0, 2, side=1)
    lower, high = Span(2, 0, 9, 0, 0, 2, side=1), Span(3, 0, 25, 0, 0, 2, side=-1)
    assert apart_across([low, lower, high], stock) == [low, lower]
    assert apart_across([low, high], stock) == [high]
    # 3 + 2 + kerf is a whole width: 4 and 2 no longer fit, and all are counted.
    wide = replace(high, width=4)
    assert apart_across([low, lower, wide], stock) == [low, lower, wide]


STOCKS = (Stock(6, 4, 0, True), Stock(6, 4, 1, True), Stock(6, 4, 1, False), Stock(5, 5, 0, False))


@pytest.mark.parametrize("stock", STOCKS, ids=str)
@given(data=st.data())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_no_way_to_cut_parts_takes_less_than_their_bound(data: st.DataObject, stock: Stock) -> None:
    found = [p for p in data.draw(st.lists(parts(stock), max_size=5)) if not p.whole]
    whole = data.draw(st.integers(0, 2))
    exact = whole + least(found, stock)
    assert whole + least_units(found, stock) <= exact <= whole + len(pack(found, stock))


def test_the_area_bound_is_the_area() -> None:
    tile = Product("tile", 300 * MM, 300 * MM)
    for room, count in ((box(900, 600), 6), (box(901, 600), 7), (box(10, 10), 1)):
        job = job_of(room, tile, STRAIGHT)
        assert whole_units(cover_of(job, zone_in(job)).area) == count


def test_where_every_end_keeps_the_smallest_cut_leaning_walls_raise_the_bound() -> None:
    # Walls that lean out by 20 and 24 a row: the comb is 30.20 m, the pieces reach 30.40 m.
    corners = [(0, 0), (3000, 0), (3240, 2000), (200, 2000)]
    for plank in (PLANK, replace(PLANK, length=1008 * MM)):
        job = job_of(corners, plank, STAGGERED, Rules(smallest_cut=must(60)))
        zone, layouts = zone_in(job), solve(job).layouts
        assert cover_of(job, zone).units <= firm_units(job, zone)
        kept = [one.figures.units for one in layouts if not one.figures.broken_must]
        at_least = layouts[0].figures.units_at_least
        assert at_least >= firm_units(job, zone)
        assert all(at_least <= units for units in kept)
    assert cover_of(job, zone).units < firm_units(job, zone)
