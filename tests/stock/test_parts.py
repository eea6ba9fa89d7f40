"""What pieces ask of stock: where in its unit each has to sit."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.pieces import pieces_of
from models.floor.runs import Run
from models.job.data import Product
from solver.stock.parts import NO_PIECE, Part, Sits, Stock, end_parts, parts_of, stock_of
from tests.stock.sheet import part

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


@given(floor=floors())
@settings(deadline=None, derandomize=True, max_examples=200)
def test_parts_counted_fast_are_the_parts_of_the_pieces(floor: tuple[list[Run], list[int]]) -> None:
    runs, offsets = floor
    whole, fast = end_parts(runs, [offset * MM for offset in offsets], PITCH)
    slow = seen(runs, offsets)
    assert whole == sum(p.whole for p in slow)
    assert Counter(map(in_mm, fast)) == Counter(p for p in slow if not p.whole)
