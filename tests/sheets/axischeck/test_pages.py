import csv
import io
from dataclasses import replace

import pytest

from models.floor.layout import Solution, Verdict
from models.job.data import Job, Kind
from solver.sheets.axischeck.pages import axis_csv, axis_lines, axis_pages, verdict
from tests.sheets.drawn import fills, lines, off_page, overlaps, rings_in, texts
from tests.sheets.floors import border_solution
from tests.sheets.jobs import inch

Pair = tuple[Job, Solution]


def moved(job: Job, by: int) -> Job:
    feature = job.features[0]
    x, y = feature.centre
    return replace(job, features=(replace(feature, centre=(x + by, y)),))


@pytest.mark.parametrize(
    ("by", "words"),
    [("0", "on axis"), ("1/8", "on axis"), ("9/64", "off axis"), ("2", "off axis")],
)
def test_the_verdict_is_against_the_tolerance(planks: Pair, by: str, words: str) -> None:
    job = moved(planks[0], inch(by))
    line = axis_lines(replace(planks[1], job=job))[0]
    assert line.off == inch(by)
    assert line.on_axis == (words == "on axis")
    assert verdict(line.off, line.feature) == words


def test_each_side_in_each_layout_has_a_line(planks: Pair) -> None:
    rows = list(csv.DictReader(io.StringIO(axis_csv(planks[1]))))
    assert len(rows) == 3 * 4
    first = {row["side"]: row for row in rows if row["layout"] == "1"}
    assert (first["bottom"]["least cut"], first["top"]["least cut"]) == ('4"', '2"')
    assert first["bottom"]["least mm"] == "101.6000"
    assert {row["verdict"] for row in rows} == {"on axis"}


def test_a_page_for_each_feature(planks: Pair) -> None:
    job, solution = planks
    twice = replace(job, features=(*job.features, replace(job.features[0], name="star")))
    first, second = axis_pages(replace(solution, job=twice))
    assert "Compass: on axis" in texts(first)
    assert "Star: on axis" in texts(second)


def test_nothing_overlaps_on_the_page(planks: Pair) -> None:
    for job in (planks[0], moved(planks[0], inch("1"))):
        (page,) = axis_pages(replace(planks[1], job=job))
        assert overlaps(page) == []
        assert off_page(page) == []


def test_close_ups_show_the_axis_and_only_near_pieces(planks: Pair) -> None:
    solution = planks[1]
    (page,) = axis_pages(solution)
    assert len(lines(page, "axis")) == 4  # three close-ups and the legend
    assert len(fills(page, "feature")) == 3
    every = sum(len(layout.zones[0].pieces) for layout in solution.layouts)
    shown = sum(
        rings_in(patch)
        for kind in ("whole unit", "cross cut", "rip", "notch only", "rip and cross cut")
        for patch in fills(page, kind)
    )
    assert 0 < shown < every


def test_cuts_are_dimensioned_and_told(planks: Pair) -> None:
    written = texts(axis_pages(planks[1])[0])
    assert "Cuts on its bottom side" in written
    assert '4"' in written
    assert '0" off door axis, tolerance 1/8"' in written


def test_the_field_on_the_axis_is_told_when_asked_for(planks: Pair) -> None:
    solution = planks[1]
    held = Verdict("centred", Kind.MUST, 0, inch("1/4"), False, "", "", "door axis", "field")
    layouts = tuple(replace(layout, verdicts=(held,)) for layout in solution.layouts)
    written = texts(axis_pages(replace(solution, layouts=layouts))[0])
    assert "Field centred on door axis" in written
    assert 'off, 1/4"' in written


def test_with_several_products_the_legend_shows_the_whole_unit_of_each() -> None:
    (page,) = axis_pages(border_solution())
    written = texts(page)
    assert {"whole Driftwood plank 48 x 6", "whole Shingle tile 9"} <= set(written)
    assert "whole unit" not in written
    assert overlaps(page) == []


def test_a_long_name_of_a_rule_is_told_in_full() -> None:
    solution = border_solution()
    centred = Verdict("centred", Kind.MUST, 0, 0, True, "", "", "door axis", "compass tiles")
    layouts = tuple(replace(each, verdicts=(centred,)) for each in solution.layouts)
    (page,) = axis_pages(replace(solution, layouts=layouts))
    assert texts(page).count("Compass tiles centred on door axis") == 3
    assert overlaps(page) == []
