from dataclasses import replace

import numpy as np
import pytest

from models.floor.layout import Layout, RowPlan, Solution
from models.job.data import Job
from models.lengths import System
from solver.sheets.drawing.legend import WARNING_WORDS
from solver.sheets.drawing.page import Page
from solver.sheets.setout.pages import setout_pages
from tests.sheets.drawn import columns_of, lines, marks, off_page, overlaps, texts
from tests.sheets.jobs import inch, mm, rectangle, walls

Pair = tuple[Job, Solution]


@pytest.fixture(scope="module")
def page(planks: Pair) -> Page:
    (found,) = setout_pages(planks[1], planks[1].layouts[0])
    return found


def test_no_two_texts_overlap(planks: Pair, tiles: Pair) -> None:
    for _, solution in (planks, tiles):
        for layout in solution.layouts:
            for page in setout_pages(solution, layout):
                assert overlaps(page) == []
                assert off_page(page) == []


def test_both_ends_of_both_lines_are_dimensioned_from_named_walls(page: Page) -> None:
    written = texts(page)
    assert "8' 5\" from sea wall" in written
    assert "3' 2\" from wall step" in written
    assert written.count("7' 6\" from hall wall") == 2


def test_dimension_lines_are_as_long_as_they_say(page: Page) -> None:
    (start,) = [line for line in lines(page, "start line") if np.ptp(line[:, 0]) > 100]
    points = float(np.ptp(start[:, 0])) / 24  # a foot on paper: the line is 24 ft long
    drawn = lines(page, "dimension")
    sizes = {round(float(np.hypot(*(line[1] - line[0]))) / points, 2) for line in drawn}
    assert {8.42, 3.17, 7.5} <= sizes


def test_the_check_is_drawn_with_its_three_lengths(page: Page) -> None:
    written = texts(page)
    assert {"8' 0\"", "6' 0\"", "10' 0\""} <= set(written)
    assert len(lines(page, "3-4-5 check")) == 2  # one on the plan, one in the legend


def test_every_row_is_numbered_and_the_first_two_are_named(planks: Pair, page: Page) -> None:
    single = [text.get_text() for text in page.axes.texts]
    assert "18 first" in single
    assert "19 second" in single
    for row in planks[1].layouts[0].zones[0].rows:
        assert row.row in {18, 19} or str(row.row) in single


def test_edge_rows_show_their_widths(page: Page) -> None:
    assert 'row 1: 5" wide' in texts(page)
    assert 'row 36: 4-1/2" wide' in texts(page)


def test_the_table_has_every_offset(planks: Pair, page: Page) -> None:
    names, words = columns_of(page)
    assert names.texts == tuple(str(row.row) for row in planks[1].layouts[0].zones[0].rows)
    assert words.texts[:3] == ("3' 0\"", "2' 1\"", '2"')


def broken_rows(layout: Layout, runs: int) -> Layout:
    zone = layout.zones[0]
    rows = tuple(
        RowPlan(row.row, row.low, tuple(((i, i + 1), inch("1/16") * i) for i in range(runs)))
        for row in zone.rows
    )
    return replace(layout, zones=(replace(zone, rows=rows),))


def test_a_long_table_goes_on_pages_of_its_own(planks: Pair) -> None:
    solution = planks[1]
    first, second, *more = setout_pages(solution, broken_rows(solution.layouts[0], 9))
    assert "Row offsets: on the next page" in texts(first)
    assert columns_of(first) == []
    assert not more
    assert "36i" in columns_of(second)[0].texts
    assert overlaps(second) == []


def test_a_very_long_table_takes_more_pages(planks: Pair) -> None:
    solution = planks[1]
    pages = setout_pages(solution, broken_rows(solution.layouts[0], 40))
    assert len(pages) > 2
    names = [name for page in pages for column in columns_of(page)[::2] for name in column.texts]
    assert len(names) == len(set(names)) == 36 * 40


def test_the_words_go_where_the_plan_comes_out_largest(tiles: Pair) -> None:
    for size, system, landscape, beside in (
        (("4000", "2500"), System.METRIC, False, False),
        (("3000", "3000"), System.IMPERIAL, True, True),
        (("2000", "6000"), System.METRIC, False, True),
    ):
        page = room_of(tiles, system, *size)
        assert (page.box.width > page.box.height) == landscape
        heading = next(text for text in page.axes.texts if text.get_text() == "Setting out")
        assert (heading.get_position()[0] > page.box.width / 3) == beside
        assert overlaps(page) == []
        assert off_page(page) == []


def room_of(tiles: Pair, system: System, width: str, depth: str) -> Page:
    """The first sheet of a rectangular room laid like the galley."""
    job, solution = tiles
    room = rectangle((0, 0), (mm(width), mm(depth)))
    named = walls(room, ["a", "b", "c", "d"])
    job = replace(job, system=system, room=room, walls=named, doors=(), axes=())
    zone = replace(solution.layouts[0].zones[0], cross_u=mm(width) // 2)
    solution = replace(solution, job=job)
    return setout_pages(solution, replace(solution.layouts[0], zones=(zone,)))[0]


def test_cautions_are_on_the_sheet(page: Page) -> None:
    told = " ".join(texts(page))
    assert "adhesive maker's" in told
    assert "asbestos" in told


def test_what_the_warning_mark_means_stands_beside_the_plan_that_has_one(planks: Pair) -> None:
    # Only the third layout has slivers, of a row that starts with them.
    solution = planks[1]
    told = []
    for layout in solution.layouts:
        (page,) = setout_pages(solution, layout)
        told.append((marks(page) > 0, WARNING_WORDS in texts(page)))
        assert overlaps(page) == []
    assert (True, True) in told
    assert (False, False) in told
    assert all(mark == word for mark, word in told)
