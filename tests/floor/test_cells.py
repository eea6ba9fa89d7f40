"""Pieces of rows laid with units of several lengths."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.cells import RunCells, in_units, joints_of, pieces_in_cells
from models.floor.pieces import pieces_of
from models.floor.runs import Run
from models.floor.sizes import Sizes

WIDTH = 20_000
SHORT, MIDDLE, LONG = 40_000, 60_000, 100_000
LENGTHS = (LONG, MIDDLE, SHORT)


def cells_over(run: Run, first: int, lengths: list[int]) -> RunCells:
    """Cells from a first joint on: what is left of the first unit, then these lengths in turn."""
    joint = run.start + first
    found = [(joint - LONG, joint)]
    for place in range(100):
        if found[-1][1] >= run.end:
            break
        joint = found[-1][1]
        found.append((joint, joint + lengths[place % len(lengths)]))
    return tuple(found)


def test_a_plain_row_by_hand() -> None:
    run = Run(1, 0, 0, 250_000, 0, WIDTH)
    cells = ((-30_000, 70_000), (70_000, 130_000), (130_000, 230_000), (230_000, 270_000))
    cuts = pieces_in_cells([run], [cells], WIDTH)
    assert [cut.box for cut in cuts] == [
        (0, 0, 70_000, WIDTH),
        (70_000, 0, 130_000, WIDTH),
        (130_000, 0, 230_000, WIDTH),
        (230_000, 0, 250_000, WIDTH),
    ]
    assert [cut.whole for cut in cuts] == [False, True, True, False]
    assert [cut.order for cut in cuts] == [1, 2, 3, 4]
    assert (cuts[0].sizes, cuts[3].sizes) == (Sizes(along=70_000), Sizes(along=20_000))
    assert cuts[3].cell == (230_000, 0, 270_000, WIDTH)
    assert joints_of(cells) == (70_000, 130_000, 230_000)


def odd_run(step: int, slant: int) -> Run:
    """A run whose wall steps back half way up its low end, and slants at its high end."""
    outline = (
        (0, 0),
        (400_000, 0),
        (400_000 - slant, WIDTH),
        (-step, WIDTH),
        (-step, WIDTH // 2),
        (0, WIDTH // 2),
    )
    return Run(1, 0, -step, 400_000, 0, WIDTH, outline)


@given(
    st.integers(1_000, 90_000),
    st.integers(1_000, 90_000),
    st.integers(1_000, LONG),
    st.lists(st.sampled_from(LENGTHS), min_size=1, max_size=6),
)
@settings(max_examples=60, deadline=None)
def test_pieces_tile_a_run_without_gap_or_overlap(
    step: int, slant: int, first: int, lengths: list[int]
) -> None:
    run = odd_run(step, slant)
    cuts = pieces_in_cells([run], [cells_over(run, first, lengths)], WIDTH)
    shapes = [shapely.Polygon(cut.ring, cut.holes) for cut in cuts]
    # Corners are rounded to ticks: along a slant a piece may be off by a tick of its length.
    assert sum(shape.area for shape in shapes) == pytest.approx(run.polygon.area, abs=slant + WIDTH)
    assert shapely.union_all(shapes).symmetric_difference(run.polygon).area < 2 * (slant + WIDTH)
    for cut, shape in zip(cuts, shapes, strict=True):
        assert shapely.box(*cut.cell).buffer(1).covers(shape)


@given(st.integers(0, 120_000), st.integers(1_000, 90_000), st.integers(-200_000, 200_000))
@settings(max_examples=40, deadline=None)
def test_cells_of_one_length_give_the_pieces_of_a_row_offset(
    step: int, slant: int, offset: int
) -> None:
    plain = Run(1, 0, 0, 250_000, 0, WIDTH)
    runs = (plain, odd_run(step or 1, slant))
    cells = []
    for run in runs:
        first = offset + (run.start - offset) // LONG * LONG
        count = -((first - run.end) // LONG)
        cells.append(tuple((first + i * LONG, first + (i + 1) * LONG) for i in range(count)))
    assert pieces_in_cells(runs, cells, WIDTH) == pieces_of(runs, [offset] * 2, (LONG, WIDTH))


def test_a_start_piece_from_another_unit_keeps_its_joint() -> None:
    run = Run(1, 0, 0, 150_000, 0, WIDTH)
    cuts = pieces_in_cells([run], [((-10_000, 30_000), (30_000, 130_000), (130_000, 170_000))], 20)
    first, whole, last = in_units(cuts, [MIDDLE, LONG, LONG])
    assert (first.cell[0], first.cell[2]) == (-30_000, 30_000)
    assert whole == cuts[1]
    assert (last.cell[0], last.cell[2]) == (130_000, 230_000)
    assert [cut.box for cut in (first, last)] == [cut.box for cut in (cuts[0], cuts[2])]


def test_a_piece_cut_at_both_ends_lies_inside_whatever_unit_it_comes_from() -> None:
    # A run that widens in the middle of a unit: its one piece touches neither end of its cell.
    run = Run(1, 0, 10_000, 35_000, 0, WIDTH)
    cuts = pieces_in_cells([run], [((0, 100_000),)], WIDTH)
    for length in (25_000, SHORT, MIDDLE):
        (cut,) = in_units(cuts, [length])
        assert cut.cell[2] - cut.cell[0] == length
        assert cut.cell[0] <= 10_000
        assert cut.cell[2] >= 35_000


@pytest.mark.parametrize(
    ("cells", "message"),
    [
        ((), "row 3 do not reach from stop to stop"),
        (((10, 200),), "row 3 do not reach from stop to stop"),
        (((0, 60), (60, 90)), "row 3 do not reach from stop to stop"),
        (((0, 60), (70, 100)), "row 3 do not touch"),
    ],
)
def test_cells_that_leave_some_of_the_run_out_are_refused(cells: RunCells, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        pieces_in_cells([Run(3, 0, 0, 100, 0, 20)], [cells], 20)
