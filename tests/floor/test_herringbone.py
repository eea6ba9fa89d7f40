"""Herringbones: pieces by hand, pieces that tile, and the pattern's own motions."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry.polygon import orient

from models.floor.herringbone import Corner, cut_pieces, mirrored_corner, period, same_corner
from models.floor.pieces import Cut
from models.floor.sizes import SAME, Sizes
from models.floor.zone import Zone
from tests.floor.herringbones import ODD, PITCH, lay, zone_for
from tests.floor.rooms import box, shape_of


def flat_at(cuts: list[Cut], left: int, low: int) -> Cut:
    """The piece whose cell starts there, flat or upright."""
    return next(cut for cut in cuts if cut.cell[:2] == (left, low))


def test_the_two_units_of_one_turn_by_hand() -> None:
    # Room and corner so that a flat unit lies at 0, 0 and its upright one at its right end.
    zone = zone_for(box(-200_000, -200_000, 200_000, 200_000))
    cuts = lay(zone, (0, 0))
    flat, upright = flat_at(cuts, 0, 0), flat_at(cuts, 80_000, -60_000)
    assert (flat.cell, flat.quarter, flat.whole) == ((0, 0, 80_000, 20_000), False, True)
    assert (upright.cell, upright.quarter) == ((80_000, -60_000, 100_000, 20_000), True)
    # The zigzag goes on one width up and to the right.
    onward = flat_at(cuts, 20_000, 20_000)
    assert onward.row == flat.row == upright.row
    assert [c.order - flat.order for c in (flat, upright, onward)] == [0, 1, 2]
    # The next column lies to the left of the line of points, which runs up and to the right.
    assert flat_at(cuts, -80_000, 80_000).row == flat.row + 1


def test_a_double_herringbone_lays_two_units_side_by_side() -> None:
    zone = zone_for(box(-300_000, -300_000, 300_000, 300_000), double=True)
    cuts = lay(zone, (0, 0))
    pair = [flat_at(cuts, 0, 0), flat_at(cuts, 0, 20_000)]
    ups = [flat_at(cuts, 80_000, -40_000), flat_at(cuts, 100_000, -40_000)]
    assert [c.quarter for c in (*pair, *ups)] == [False, False, True, True]
    assert [c.order - pair[0].order for c in (*pair, *ups)] == [0, 1, 2, 3]
    assert period(PITCH, double=True) == ((40_000, 40_000), (80_000, -80_000))


def test_sizes_are_along_and_across_the_unit_itself() -> None:
    # The wall at u = 30000 cuts the flat unit to a length and the upright one to a rip.
    zone = zone_for(box(-200_000, -200_000, 30_000, 200_000))
    cuts = lay(zone, (0, 0))
    assert flat_at(cuts, 0, 0).sizes == Sizes(along=30_000)
    upright = flat_at(cuts, 20_000, -120_000 + 0)
    assert (upright.quarter, upright.sizes) == (True, Sizes(across=10_000))


def test_a_wall_at_45_degrees_leaves_slants() -> None:
    zone = zone_for(((0, 0), (300_000, 0), (0, 300_000)))
    slants = [cut for cut in lay(zone, (3_000, 5_000)) if cut.sizes.slant is not None]
    assert {cut.quarter for cut in slants} == {True, False}
    # A triangle's circle touches both legs: legs a give a diameter of a (2 - sqrt 2).
    corners = [c for c in slants if len(c.ring) == 3]
    assert corners
    for cut in corners:
        leg = cut.box[2] - cut.box[0]
        assert cut.sizes.slant == pytest.approx(leg * (2 - math.sqrt(2)), abs=3)


def test_a_column_in_one_unit_leaves_two_pieces_of_one_number() -> None:
    hole = box(30_000, -5_000, 40_000, 25_000)
    zone = zone_for(box(-200_000, -200_000, 200_000, 200_000), 90, False, (1, 0), hole)
    parts = [cut for cut in lay(zone, (0, 0)) if cut.cell == (0, 0, 80_000, 20_000)]
    assert [cut.sizes.along for cut in parts] == [30_000, 40_000]
    assert len({(cut.row, cut.order) for cut in parts}) == 1


@pytest.mark.parametrize("short", [1, SAME])
def test_a_slip_no_thicker_than_a_hair_is_left_out(short: int) -> None:
    whole = lay(zone_for(box(0, 0, 400_000, 400_000)), (0, 0))
    over = lay(zone_for(box(0, 0, 400_000 + short, 400_000)), (0, 0))
    under = lay(zone_for(box(0, 0, 400_000 - short, 400_000)), (0, 0))
    assert [c.cell for c in over] == [c.cell for c in whole] == [c.cell for c in under]
    assert sum(c.whole for c in under) == sum(c.whole for c in whole)


def stepped(corner: Corner, pitch: tuple[int, int], double: bool, steps: tuple[int, int]) -> Corner:
    """The corner after whole steps of the period."""
    one, two = period(pitch, double)
    return (
        corner[0] + steps[0] * one[0] + steps[1] * two[0],
        corner[1] + steps[0] * one[1] + steps[1] * two[1],
    )


corners = st.tuples(st.integers(-90_000, 90_000), st.integers(-90_000, 90_000))
pitches = st.sampled_from([PITCH, ODD, (60_000, 20_000), (40_000, 20_000), (61_234, 19_877)])


@st.composite
def zones(draw: st.DrawFn) -> Zone:
    """Rectangles and L shapes of a few dozen units, some laid at a slant to the room."""
    width, height = draw(st.integers(90, 500)) * 1_000, draw(st.integers(90, 400)) * 1_000
    room = box(0, 0, width, height)
    if draw(st.booleans()):
        u, v = draw(st.integers(30, 80)) * width // 100, draw(st.integers(30, 80)) * height // 100
        room = ((0, 0), (width, 0), (width, v), (u, v), (u, height), (0, height))
    vector = draw(st.sampled_from([(1, 0), (0, 1), (3, 1)]))
    return zone_for(room, draw(st.sampled_from([45, 90])), draw(st.booleans()), vector)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(zones(), corners, pitches)
def test_pieces_tile_any_zone(zone: Zone, corner: Corner, pitch: tuple[int, int]) -> None:
    cuts = lay(zone, corner, pitch)
    shapes = [shape_of(cut) for cut in cuts]
    # Corners are rounded to a tick, and what is thinner than a cut is left out or filled up.
    slack = sum(shape.length for shape in shapes) * SAME / 4
    assert sum(shape.area for shape in shapes) == pytest.approx(zone.polygon.area, abs=slack)
    assert shapely.union_all(shapes).area == pytest.approx(zone.polygon.area, abs=slack)
    for cut, shape in zip(cuts, shapes, strict=True):
        left, low, right, high = cut.cell
        size = (right - left, high - low)
        assert size == (pitch[::-1] if cut.quarter else pitch)
        assert shapely.box(*cut.cell).covers(shape)
        assert shape.is_valid
        assert shapely.is_ccw(shape.exterior)
        assert shape.bounds == cut.box
        if cut.whole:
            assert (cut.box, cut.sizes) == (cut.cell, Sizes())


@settings(max_examples=40, deadline=None, derandomize=True)
@given(zones(), corners, pitches, st.tuples(st.integers(-3, 3), st.integers(-3, 3)))
def test_the_pattern_repeats_at_its_period(
    zone: Zone, corner: Corner, pitch: tuple[int, int], steps: tuple[int, int]
) -> None:
    double = zone.laying.bond.double
    moved = stepped(corner, pitch, double, steps)
    assert lay(zone, moved, pitch) == lay(zone, corner, pitch)
    assert same_corner(moved, pitch, double) == same_corner(corner, pitch, double)
    assert lay(zone, same_corner(corner, pitch, double), pitch) == lay(zone, corner, pitch)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(zones(), corners, pitches)
def test_the_quick_way_gives_the_same_pieces(
    zone: Zone, corner: Corner, pitch: tuple[int, int]
) -> None:
    cuts = lay(zone, corner, pitch)
    whole, cut = cut_pieces(zone, corner, pitch, zone.laying.bond.double)
    assert whole == sum(one.whole for one in cuts)
    plain = Counter(replace(one, row=0, order=0) for one in cuts if not one.whole)
    assert Counter(replace(one, row=0) for one in cut) == plain


@settings(max_examples=30, deadline=None, derandomize=True)
@given(zones(), corners, pitches)
def test_rows_and_orders_are_numbered_from_1_without_gaps(
    zone: Zone, corner: Corner, pitch: tuple[int, int]
) -> None:
    cuts = lay(zone, corner, pitch)
    assert [(c.row, c.order) for c in cuts] == sorted((c.row, c.order) for c in cuts)
    rows = {cut.row for cut in cuts}
    assert rows == set(range(1, len(rows) + 1))
    for row in rows:
        orders = {cut.order for cut in cuts if cut.row == row}
        assert orders == set(range(1, len(orders) + 1))
        # A number is a unit: pieces share one only within one cell.
        cells = {(cut.order, cut.cell) for cut in cuts if cut.row == row}
        assert len(cells) == len(orders)


@pytest.mark.parametrize("double", [False, True])
@pytest.mark.parametrize("pitch", [PITCH, ODD])
@pytest.mark.parametrize("count", [1, 3])
def test_whole_periods_hold_only_whole_units(
    count: int, pitch: tuple[int, int], double: bool
) -> None:
    # The outline is that of the modules themselves, so nothing is cut.
    length, width = pitch[0], pitch[1] * (2 if double else 1)
    modules = [
        shapely.box(u + one[0], v + one[1], u + one[2], v + one[3])
        for i in range(2 * count)
        for k in range(count)
        for u, v in [(i * width + k * length, i * width - k * length)]
        for one in ((0, 0, length, width), (length, width - length, length + width, width))
    ]
    outline = shapely.union_all(modules)
    assert isinstance(outline, shapely.Polygon)
    ring = tuple((round(u), round(v)) for u, v in orient(outline).exterior.coords[:-1])
    cuts = lay(zone_for(ring, double=double), (0, 0), pitch)
    assert all(cut.whole for cut in cuts)
    assert len(cuts) == outline.area / (pitch[0] * pitch[1])
    assert len(cuts) == 4 * count * count * (2 if double else 1)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(corners, pitches, st.booleans(), st.integers(60, 300), st.integers(60, 300))
def test_exchanging_u_and_v_exchanges_flat_and_upright(
    corner: Corner, pitch: tuple[int, int], double: bool, wide: int, high: int
) -> None:
    room, turned = box(0, 0, wide * 1_000, high * 1_000), box(0, 0, high * 1_000, wide * 1_000)
    one = lay(zone_for(room, double=double), corner, pitch)
    two = lay(zone_for(turned, double=double), mirrored_corner(corner, pitch, double), pitch)
    exchanged = {(c.cell[1], c.cell[0], not c.quarter): c.sizes for c in one}
    assert exchanged == {(c.cell[0], c.cell[1], c.quarter): c.sizes for c in two}
