from dataclasses import replace

import numpy as np
import pytest

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets.compare import foot
from solver.sheets.compare.page import compare_page
from solver.sheets.drawing import ink
from solver.sheets.drawing.cuts import CutKind, kind_of, marked
from solver.sheets.drawing.page import Page
from tests.sheets.drawn import fills, lines, marks, off_page, overlaps, rings_in, texts

Pair = tuple[Job, Solution]


@pytest.fixture(scope="module")
def page(planks: Pair) -> Page:
    return compare_page(planks[1])


def test_no_two_texts_overlap(planks: Pair, tiles: Pair) -> None:
    for pair in (planks, tiles):
        page = compare_page(pair[1])
        assert overlaps(page) == []
        assert off_page(page) == []


def test_the_page_is_landscape_letter_or_a4(planks: Pair, tiles: Pair) -> None:
    inches = compare_page(planks[1]).figure.get_size_inches()
    assert inches.tolist() == [11, 8.5]
    metric = compare_page(tiles[1]).figure.get_size_inches() * 25.4
    assert metric.round().tolist() == [297, 210]


def test_every_piece_is_drawn_once_in_its_kind(planks: Pair, page: Page) -> None:
    pieces = [piece for layout in planks[1].layouts for piece in layout.zones[0].pieces]
    for kind in CutKind:
        drawn = [rings_in(patch) for patch in fills(page, kind.value)]
        assert sum(drawn) == sum(kind_of(piece) is kind for piece in pieces)


def test_kinds_differ_in_hatch_and_in_lightness() -> None:
    hatches = {tone.hatch for tone in ink.TONES.values()}
    assert len(hatches) == len(ink.TONES)
    assert ink.START.width > ink.CROSS.width > ink.AXIS.width
    assert len({ink.START.pattern, ink.CROSS.pattern, ink.AXIS.pattern}) == 3


def test_the_layouts_share_one_scale(page: Page) -> None:
    starts = lines(page, "start line")[:2]
    assert len({round(float(np.ptp(line[:, 0])), 6) for line in starts}) == 1


def test_each_plan_has_its_lines_where_they_run(page: Page) -> None:
    # Three plans and the legend; the post breaks the third cross line in two.
    assert len(lines(page, "start line")) == 4
    assert len(lines(page, "cross line")) == 5
    assert len(lines(page, "axis")) == 4
    level, _, upright = lines(page, "start line")[:3]
    assert np.ptp(level[:, 1]) == pytest.approx(0)
    assert np.ptp(upright[:, 0]) == pytest.approx(0)


def test_walls_and_things_are_named_on_every_plan(planks: Pair, page: Page) -> None:
    written = texts(page)
    job = planks[0]
    names = [wall.name for wall in job.walls] + [axis.name for axis in job.axes]
    for name in (*names, "post", "compass", "street door"):
        assert written.count(name) >= 3
    assert written.count("start line") == 4


def test_slivers_are_marked_and_in_the_legend(planks: Pair, page: Page) -> None:
    job, solution = planks
    count = sum(len(marked(job, layout, layout.zones[0])) for layout in solution.layouts)
    assert count > 0
    assert marks(page) == count + 1
    kept = compare_page(replace(solution, layouts=solution.layouts[:1]))
    assert marks(kept) == 0


def test_titles_and_figures_are_written(planks: Pair, page: Page) -> None:
    written = texts(page)
    assert "Least waste; no slivers" in written
    assert written.count("Waste") == 3
    units = str(planks[1].layouts[0].figures.units)
    assert units in written


def test_broken_rules_are_told_in_words(page: Page) -> None:
    told = " ".join(texts(page))
    assert "smallest cut (must)" in told
    assert "the compass is held" in told


def test_a_search_stopped_early_is_said(planks: Pair) -> None:
    solution = planks[1]
    written = " ".join(texts(compare_page(replace(solution, complete=False))))
    assert "stopped early" in written
    assert "No layout keeps half a plank at every wall." in written


def test_rows_too_thin_for_hatching_lose_it(planks: Pair) -> None:
    job, solution = planks
    thin = (replace(job.products[0], width=job.products[0].width // 8),)
    page = compare_page(replace(solution, job=replace(job, products=thin)))
    plan_fills = [p for p in fills(page, "cross cut") if rings_in(p) > 1]
    assert plan_fills
    assert all(patch.get_hatch() is None for patch in plan_fills)


def test_what_has_no_room_for_a_name_is_listed(planks: Pair) -> None:
    job, solution = planks
    long = tuple(replace(wall, name=f"{wall.name} {'of the old house ' * 9}") for wall in job.walls)
    page = compare_page(replace(solution, job=replace(job, walls=long, doors=())))
    assert overlaps(page) == []
    written = " ".join(texts(page))
    assert all(f"{wall.name[:9]}" in written for wall in job.walls)
    assert "Not named on the plans for want of room" in written


def test_many_broken_rules_leave_room_for_the_plans(planks: Pair) -> None:
    _, solution = planks
    layouts = tuple(
        replace(layout, verdicts=tuple(replace(v, kept=False) for v in layout.verdicts * 12))
        for layout in solution.layouts
    )
    crowded = compare_page(replace(solution, layouts=layouts))
    told = [text for text in texts(crowded) if "more broken rules" in text]
    assert len(told) == len(layouts)
    assert overlaps(crowded) == []
    assert off_page(crowded) == []


def test_the_scale_bar_keeps_clear_of_a_long_legend(
    planks: Pair, monkeypatch: pytest.MonkeyPatch
) -> None:
    heights: list[float] = []
    monkeypatch.setattr(foot, "scale_bar", lambda *given: heights.append(given[2]))
    monkeypatch.setattr(foot, "piece_legend", lambda *_: 100.0)
    compare_page(planks[1])
    monkeypatch.setattr(foot, "piece_legend", lambda page, *_: page.box.right - 200)
    compare_page(planks[1])
    beside, below = heights
    assert below == pytest.approx(beside - foot.ROW)
