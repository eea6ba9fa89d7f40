"""What pieces ask of stock: where in its unit each has to sit."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.pieces import pieces_of
from models.floor.runs import Run
from models.job.data import Marks, Product
from solver.stock.parts import (
    NO_PIECE,
    Part,
    Sits,
    Stock,
    end_parts,
    parts_of,
    stock_of,
    turned_back,
)
from tests.stock.sheet import part, parts

MM = 320
PITCH = (12 * MM, 5 * MM)


def run(row: int, start: int, end: int, bottom: int | None = None, top: int | None = None) -> Run:
    """A run in millimetres, from row line to row line where nothing else is said."""
    low, bottom = 5 * MM * (row - 1), 5 * (row - 1) if bottom is None else bottom
    top = 5 * row if top is None else top
    return Run(row, low, start * MM, end * MM, bottom * MM, top * MM)


def slanted(row: int, *ring: tuple[int, int]) -> Run:
    """A run 28 mm long of any outline, given from its row's lower line."""
    low = 5 * MM * (row - 1)
    outline = tuple((u * MM, low + v * MM) for u, v in ring)
    return Run(row, low, 0, 28 * MM, low, low + 5 * MM, outline)


def parts_at(runs: list[Run], offsets: list[int]) -> list[Part]:
    return parts_of(pieces_of(runs, [offset * MM for offset in offsets], PITCH), runs)


def seen(runs: list[Run], offsets: list[int]) -> list[Part]:
    """The same in millimetres and without piece numbers."""
    return [in_mm(part_) for part_ in parts_at(runs, offsets)]


def in_mm(found: Part) -> Part:
    lean = None if found.lean is None else found.lean // MM
    size = (found.length // MM, found.across, found.width // MM)
    return Part(NO_PIECE, found.row, found.along, *size, lean)


def test_a_start_piece_sits_high_and_an_end_piece_low() -> None:
    full = (Sits.FULL, 5)
    assert seen([run(1, 0, 29)], [8]) == [
        part(Sits.HIGH, 8, *full),
        part(Sits.FULL, 12, *full),
        part(Sits.LOW, 9, *full),
    ]


def test_a_piece_from_stop_to_stop_sits_anywhere() -> None:
    assert seen([run(1, 2, 9)], [0]) == [part(Sits.FREE, 7, Sits.FULL, 5)]
    # One that begins at a row of joints has no joint there either: the stop is a wall.
    assert seen([run(1, 0, 9)], [0]) == [part(Sits.FREE, 9, Sits.FULL, 5)]


def test_the_lowest_and_highest_rows_are_ripped_at_the_wall() -> None:
    rows = [run(1, 0, 12, bottom=3), run(2, 0, 12), run(3, 0, 12, top=14)]
    assert [(p.across, p.width) for p in seen(rows, [0, 0, 0])] == [
        (Sits.HIGH, 2),
        (Sits.FULL, 5),
        (Sits.LOW, 4),
    ]


def test_a_rip_with_no_floor_beside_it_sits_anywhere() -> None:
    # Row 2 is cut off at 9 and nothing of row 1 lies below it there: both sides are walls.
    rows = [run(1, 0, 12), run(2, 12, 24, top=9)]
    assert [p.across for p in parts_at(rows, [0, 0])] == [Sits.FULL, Sits.FREE]


def test_parts_keep_their_piece_and_row() -> None:
    rows = [run(1, 0, 29), run(2, 0, 29)]
    assert [(p.cut, p.row) for p in parts_at(rows, [8, 3])] == [
        (0, 1), (1, 1), (2, 1), (3, 2), (4, 2), (5, 2), (6, 2)
    ]  # fmt: skip


LEANS = ((0, 0), (22, 0), (28, 5), (0, 5))
"""An end wall that leans outwards: the end piece is longer at its high side."""


def test_a_slanted_end_tells_how_far_it_leans() -> None:
    assert [(p.along, p.length, p.lean) for p in seen([slanted(1, *LEANS)], [6])] == [
        (Sits.HIGH, 6, 0),
        (Sits.FULL, 12, 0),
        (Sits.LOW, 10, 6),
    ]


def test_an_end_of_several_cuts_does_not_nest() -> None:
    blunt = slanted(1, (0, 0), (22, 0), (28, 3), (28, 5), (0, 5))
    assert parts_at([blunt], [6])[-1].lean is None


def test_stock_is_the_product_with_its_joint() -> None:
    tile = Product("tile", length=298, width=298, joint=2, kerf=3, directional=False)
    assert stock_of(tile, within=4) == Stock(300, 300, 3, False, 4)
    assert stock_of(tile).square
    assert not stock_of(replace(tile, directional=True)).square
    assert not stock_of(replace(tile, width=148)).square
    kept = stock_of(replace(tile, scrap=90, shop_cuts=True))
    assert (kept.scrap, kept.shop_cuts) == (90, True)


SQUARE = (12 * MM, 12 * MM)


def chequered(runs: list[Run], offsets: list[int]) -> list[Part]:
    cuts = pieces_of(runs, [offset * MM for offset in offsets], SQUARE)
    return [in_mm(part_) for part_ in parts_of(cuts, runs, Marks.QUARTER_TURNED)]


def square_run(row: int, start: int, end: int, bottom: int, top: int) -> Run:
    return Run(row, SQUARE[1] * (row - 1), start * MM, end * MM, bottom * MM, top * MM)


def test_every_second_unit_lies_turned_a_quarter() -> None:
    # Row 1: its second unit is turned, row 2: its first and third. A turned unit's length
    # runs up, its width to the left: the right of the floor is its low side.
    rows = [square_run(1, 4, 31, 0, 12), square_run(2, 4, 31, 12, 24)]
    full = (Sits.FULL, 12)
    assert chequered(rows, [0, 0]) == [
        part(Sits.HIGH, 8, *full),
        part(Sits.FULL, 12, *full),
        part(Sits.LOW, 7, *full),
        part(*full, Sits.LOW, 8, row=2),
        part(Sits.FULL, 12, *full, row=2),
        part(*full, Sits.HIGH, 7, row=2),
    ]


def test_a_turned_corner_piece_keeps_both_its_joints() -> None:
    # The lower left corner of row 1 is not turned; that of the floor above it is.
    rows = [square_run(1, 4, 31, 7, 12), square_run(2, 4, 31, 12, 20)]
    found = chequered(rows, [0, 0])
    assert found[0] == part(Sits.HIGH, 8, Sits.HIGH, 5)
    # Joints above and to the right in row 1; in row 2 below (its low end) and right (low).
    assert found[3] == part(Sits.LOW, 8, Sits.LOW, 8, row=2)


def test_a_piece_that_says_so_is_turned_whatever_the_marks() -> None:
    cuts = pieces_of([square_run(1, 4, 31, 0, 12)], [0], SQUARE)
    upright = [replace(cut, quarter=True) for cut in cuts]
    found = parts_of(upright, [square_run(1, 4, 31, 0, 12)])
    assert in_mm(found[0]) == part(Sits.FULL, 12, Sits.LOW, 8)


@given(found=parts(Stock(6, 6, 0, directional=True)))
@settings(deadline=None, derandomize=True)
def test_four_quarters_turn_a_part_back(found: Part) -> None:
    turned = turned_back(turned_back(found))
    assert turned == replace(found, along=found.along.flipped, across=found.across.flipped)
    assert turned_back(turned_back(turned)) == found


@st.composite
def floors(draw: st.DrawFn) -> tuple[list[Run], list[int]]:
    """Rows of one or two runs, the outer ones ripped, and an offset for each run."""
    rows = draw(st.integers(1, 4))
    runs = []
    for row in range(1, rows + 1):
        start, gap = draw(st.integers(0, 8)), draw(st.integers(1, 6))
        middle, end = start + draw(st.integers(1, 30)), draw(st.integers(1, 30))
        bottom = draw(st.integers(0, 4)) if row == 1 else None
        top = 5 * row - draw(st.integers(0, 2)) if row == rows and row > 1 else None
        runs.append(run(row, start, middle, bottom, top))
        if draw(st.booleans()):
            runs.append(run(row, middle + gap, middle + gap + end, bottom, top))
    if draw(st.booleans()):
        runs.append(slanted(rows + 1, *LEANS))
    return runs, [draw(st.integers(0, 11)) for _ in runs]


@given(floor=floors(), marks=st.sampled_from(Marks))
@settings(deadline=None, derandomize=True, max_examples=200)
def test_parts_counted_fast_are_the_parts_of_the_pieces(
    floor: tuple[list[Run], list[int]], marks: Marks
) -> None:
    runs, offsets = floor
    whole, fast = end_parts(runs, [offset * MM for offset in offsets], PITCH, marks)
    cuts = pieces_of(runs, [offset * MM for offset in offsets], PITCH)
    slow = [in_mm(part_) for part_ in parts_of(cuts, runs, marks)]
    assert whole == sum(p.whole for p in slow)
    # In laying order too, which the scrap size goes by.
    assert [in_mm(part_) for part_ in fast] == [p for p in slow if not p.whole]
