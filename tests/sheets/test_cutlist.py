import csv
import io
from dataclasses import replace

from models.floor.layout import Solution
from models.job.data import Job
from models.lengths import to_mm
from solver.sheets.cutlist import cut_lines, cut_list_csv, cut_list_pages
from solver.sheets.cuts import CutKind
from tests.sheets.drawn import columns_of, off_page, overlaps, texts

Pair = tuple[Job, Solution]


def test_every_cut_piece_is_listed_once(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    lines = cut_lines(job, layout)
    cut = {piece.id for piece in layout.zones[0].pieces if piece.cut}
    assert {line.piece for line in lines} == cut
    assert len(lines) == len(cut) == layout.figures.cuts


def test_rows_are_in_laying_order(planks: Pair) -> None:
    job, solution = planks
    rows = [line.row for line in cut_lines(job, solution.layouts[0])]
    start = solution.layouts[0].zones[0].start_row
    assert rows[0] == start
    assert rows[-1] == 1
    turn = rows.index(start - 1)
    assert rows[:turn] == sorted(rows[:turn])
    assert rows[turn:] == sorted(rows[turn:], reverse=True)


def test_an_offcut_names_the_piece_it_is_left_from(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    lines = cut_lines(job, layout)
    by_piece = {line.piece: line for line in lines}
    offcuts = [line for line in lines if line.offcut_of]
    assert offcuts
    for line in offcuts:
        giver = by_piece[line.offcut_of or ""]
        assert giver.unit == line.unit
        assert lines.index(giver) < lines.index(line)
    fresh = [line.unit for line in lines if not line.offcut_of]
    assert len(fresh) == len(set(fresh))


def test_sizes_are_without_the_joint(tiles: Pair) -> None:
    job, solution = tiles
    line = next(x for x in cut_lines(job, solution.layouts[0]) if x.kind is CutKind.CROSS)
    # 2310 - 5 x 452 = 50 less the joint of 2, and a whole unit of 450 across.
    assert (to_mm(line.along[0]), to_mm(line.across[0])) == (48, 450)


def test_a_slanted_end_shows_its_short_and_its_long_side(tiles: Pair) -> None:
    job, solution = tiles
    lines = [x for x in cut_lines(job, solution.layouts[0]) if "net wall" in x.touches]
    assert all(line.along[0] < line.along[1] for line in lines)


def test_csv_gives_words_and_millimetres(planks: Pair) -> None:
    job, solution = planks
    text = cut_list_csv(job, solution.layouts[0])
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == solution.layouts[0].figures.cuts
    assert rows[0]["row"] == "18"
    # Row 18 has a joint 14 in right of 90 in, so its first piece is 104 - 2 x 48 = 8 in.
    assert rows[0]["along unit"] == '8"'
    assert rows[0]["along least mm"] == "203.2000"
    assert {row["from"].split(" of ")[0] for row in rows} == {"fresh unit", "offcut"}
    assert any(row["neck"] for row in rows if row["cut"] == "notch only")


def test_the_printed_list_has_every_piece_and_no_overlaps(planks: Pair) -> None:
    job, solution = planks
    for layout in solution.layouts:
        pages = cut_list_pages(job, layout)
        words = [word for page in pages for word in texts(page)]
        for line in cut_lines(job, layout):
            assert line.piece in words
        for page in pages:
            assert overlaps(page) == []
            assert off_page(page) == []


def test_a_long_list_goes_on_over_pages(planks: Pair) -> None:
    job, solution = planks
    zone = solution.layouts[0].zones[0]
    layout = replace(solution.layouts[0], zones=(replace(zone, pieces=zone.pieces * 3),))
    pages = cut_list_pages(job, layout)
    assert len(pages) > 1
    assert "Cut list 1, page 2" in texts(pages[1])


def test_nothing_to_cut_is_still_a_page(planks: Pair) -> None:
    job, solution = planks
    zone = replace(solution.layouts[0].zones[0], pieces=())
    (page,) = cut_list_pages(job, replace(solution.layouts[0], zones=(zone,)))
    assert columns_of(page) == []
    assert any("0 pieces to cut" in text for text in texts(page))
