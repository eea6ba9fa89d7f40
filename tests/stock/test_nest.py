"""Slanted ends: two parallel ones are one cut, and what shares a unit never overlaps."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import translate

from models.floor.pieces import Cut, pieces_of
from models.floor.runs import Run
from models.lengths import TICKS_PER_MM as MM
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, Stock, parts_of
from tests.stock.sheet import part

LENGTH, WIDTH = 1200 * MM, 200 * MM


def end(along: Sits, length: int, lean: int, row: int = 1) -> Part:
    return part(along, length, Sits.FULL, 40, row, lean)


STOCK = Stock(200, 40, 0, directional=True)


def test_parallel_slanted_ends_nest() -> None:
    # The boxes are 130 and 100 long, more than a unit; the cut between them leans by 30.
    assert len(pack([end(Sits.LOW, 130, 30), end(Sits.HIGH, 100, 30)], STOCK)) == 1
    assert len(pack([end(Sits.LOW, 130, -30), end(Sits.HIGH, 100, -30)], STOCK)) == 1


def test_ends_that_lean_against_each_other_do_not_nest() -> None:
    assert len(pack([end(Sits.LOW, 130, 30), end(Sits.HIGH, 100, -30)], STOCK)) == 2


@pytest.mark.parametrize("lean", [30, -30])
def test_ends_that_nest_by_a_hair_too_little_do_not(lean: int) -> None:
    assert len(pack([end(Sits.LOW, 131, lean), end(Sits.HIGH, 100, lean)], STOCK)) == 2
    assert len(pack([end(Sits.LOW, 130, lean), end(Sits.HIGH, 101, lean)], STOCK)) == 2


def test_a_kerf_is_measured_square_to_the_slanted_cut() -> None:
    # Leaning by 30 in 40 a kerf of 4 takes 5 along the unit: 3-4-5.
    sawn = Stock(200, 40, 4, directional=True)
    assert len(pack([end(Sits.LOW, 125, 30), end(Sits.HIGH, 100, 30)], sawn)) == 1
    assert len(pack([end(Sits.LOW, 126, 30), end(Sits.HIGH, 100, 30)], sawn)) == 2


def slanted(row: int, left: int, right: int, leans: tuple[int, int]) -> Run:
    """A row between two walls that lean; millimetres, measured on its lower row line."""
    low = WIDTH * (row - 1)
    ring = (
        (left * MM, low),
        (right * MM, low),
        ((right + leans[1]) * MM, low + WIDTH),
        ((left + leans[0]) * MM, low + WIDTH),
    )
    us = [u for u, _ in ring]
    return Run(row, low, min(us), max(us), low, low + WIDTH, ring)


@st.composite
def floors(draw: st.DrawFn) -> list[Run]:
    """Rows between two straight walls off square, parallel or not."""
    lean = draw(st.integers(-90, 90))
    other = draw(st.sampled_from([lean, -lean, lean + 10]))
    length = draw(st.integers(1300, 3600))
    return [
        slanted(row, lean * (row - 1), length + other * (row - 1), (lean, other))
        for row in range(1, draw(st.integers(2, 6)))
    ]


@given(runs=floors(), data=st.data(), kerf=st.sampled_from([0, 3]))
@settings(max_examples=80, deadline=None, derandomize=True)
def test_pieces_of_one_unit_lie_apart_where_their_joints_put_them(
    runs: list[Run], data: st.DataObject, kerf: int
) -> None:
    offsets = [data.draw(st.integers(0, 1199)) * MM for _ in runs]
    cuts = pieces_of(runs, offsets, (LENGTH, WIDTH), measured=False)
    found = parts_of(cuts, runs)
    bins = pack(found, Stock(LENGTH, WIDTH, kerf * MM, directional=True))
    assert sorted(i for members in bins for i in members) == list(range(len(cuts)))
    for members in bins:
        # A piece with a joint at one end lies in its unit as it lies in its cell.
        fixed = [i for i in members if found[i].along in (Sits.LOW, Sits.HIGH)]
        shapes = [in_unit(cuts[i]) for i in fixed]
        for place, one in enumerate(shapes):
            for other in shapes[:place]:
                assert one.intersection(other).area < 1
                assert one.distance(other) >= kerf * MM - 2


def in_unit(cut: Cut) -> Polygon:
    return translate(Polygon(cut.ring), -cut.cell[0], -cut.cell[1])


@pytest.mark.parametrize(("lean", "units"), [(60, 6), (0, 6)])
def test_a_room_between_parallel_walls_takes_no_more_than_a_square_one(
    lean: int, units: int
) -> None:
    # Two rows of 3600, each from a joint 700 in on its lower line: 700 and 500 make one unit.
    runs = [slanted(row, lean * (row - 1), 3600 + lean * (row - 1), (lean, lean)) for row in (1, 2)]
    offsets = [(700 + lean * row) * MM for row in (0, 1)]
    cuts = pieces_of(runs, offsets, (LENGTH, WIDTH), measured=False)
    bins = pack(parts_of(cuts, runs), Stock(LENGTH, WIDTH, 0, directional=True))
    assert len(bins) == units
