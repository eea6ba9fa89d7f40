import csv
import io
from collections import Counter
from dataclasses import replace

import pytest

from models.floor.layout import Solution
from models.job.data import Job
from models.lengths import to_mm
from solver.sheets.cutlist.batch import batch_pages, batches
from solver.sheets.cutlist.diagrams import diagram_pages, diagrams
from solver.sheets.cutlist.pages import COLUMNS, cut_lines, cut_list_csv, cut_list_pages
from solver.sheets.cutlist.steps import kept_words, step_entries, step_pages
from solver.sheets.drawing.cuts import CutKind
from solver.stock.cutplan.steps import cut_plan
from tests.sheets.drawn import columns_of, fills, off_page, overlaps, rings_in, texts
from tests.sheets.drawn import lines as lines_on
from tests.sheets.floors import border_solution, herringbone_solution

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


def test_an_offcut_is_used_by_the_pieces_it_was_kept_for(planks: Pair) -> None:
    job, solution = planks
    plan = cut_plan(job, solution.layouts[0])
    assert plan.offcuts
    for offcut in plan.offcuts:
        kept, used = plan.steps[offcut.kept - 1], plan.steps[offcut.used - 1]
        assert kept.number < used.number
        assert kept.unit == used.unit
        assert used.source == offcut.part.name
        assert used.piece == offcut.part.later[0]
    fresh = [step.unit for step in plan.steps if step.fresh]
    assert sorted(fresh) == sorted(unit.name for unit in plan.units)


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
    layout = solution.layouts[0]
    rows = list(csv.DictReader(io.StringIO(cut_list_csv(job, layout))))
    assert tuple(rows[0]) == COLUMNS
    freed = [row for row in rows if row["frees piece"]]
    assert len(freed) == layout.figures.cuts
    first = freed[0]
    assert first["row"] == "18"
    # Row 18 has a joint 14 in right of 90 in, so its first piece is 104 - 2 x 48 = 8 in.
    assert (first["cut"], first["measure"], first["from"]) == (
        "cross cut", '8"', "factory head end",
    )  # fmt: skip
    assert first["along unit"] == '8"'
    assert first["along least mm"] == first["measure left or head mm"] == "203.2"
    assert any(row["neck"] for row in rows if row["cut"] == "cut to shape")


def test_the_whole_units_of_a_row_have_a_line(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    rows = list(csv.DictReader(io.StringIO(cut_list_csv(job, layout))))
    whole = [row for row in rows if row["cut"] == "whole units"]
    pieces = layout.zones[0].pieces
    assert sum(int(row["units opened"]) for row in whole) == sum(not p.cut for p in pieces)
    assert sum(int(row["units opened"]) for row in rows) == layout.figures.units
    assert [row["row"] for row in whole] == list(dict.fromkeys(row["row"] for row in whole))


def test_the_printed_list_has_every_cut_and_no_overlaps(planks: Pair, tiles: Pair) -> None:
    for job, solution in (planks, tiles):
        for layout in solution.layouts:
            pages = cut_list_pages(job, layout)
            plan = cut_plan(job, layout)
            entries = step_entries(job, layout, plan)
            words = Counter(word for page in pages for word in texts(page))
            for entry in entries:
                assert words[entry[0]] > 0
            assert sum(len(entry) > 1 for entry in entries) == len(plan.steps)
            for page in pages:
                assert overlaps(page) == []
                assert off_page(page) == []


def test_a_long_list_goes_on_over_pages_and_no_heading_stands_last(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    pages = step_pages(job, layout, cut_plan(job, layout))
    assert len(pages) > 1
    assert "Cut list 1, page 2" in texts(pages[1])
    for page in pages:
        heads = [y for c in columns_of(page) if c.bold for _, y in c.places]
        lines = [y for c in columns_of(page) if not c.bold for _, y in c.places]
        assert min(lines) < min(heads)


def test_nothing_to_cut_is_still_a_page(planks: Pair) -> None:
    job, solution = planks
    zone = replace(solution.layouts[0].zones[0], pieces=())
    (page,) = cut_list_pages(job, replace(solution.layouts[0], zones=(zone,)))
    assert columns_of(page) == []
    assert any("0 pieces from 0 units" in text for text in texts(page))


def test_the_most_offcuts_kept_are_told(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    plan = cut_plan(job, layout)
    held, most = set[str](), (0, 0)
    for step in plan.steps:
        held.discard(step.source)
        if step.other and step.other.name:
            held.add(step.other.name)
        most = max(most, (len(held), -step.number))
    row = plan.steps[-most[1] - 1].row
    assert not held
    assert kept_words(plan.stacks) == f"Offcuts kept at most: {most[0]} in row {row}"
    assert step_entries(job, layout, plan)[0] == (kept_words(plan.stacks),)


def test_offcuts_are_counted_for_each_product() -> None:
    solution = border_solution()
    plan = cut_plan(solution.job, solution.layouts[0])
    everything, *each = plan.stacks
    assert {stack.product for stack in each} == {laid.product for laid in plan.laid}
    assert max(stack.most for stack in each) <= everything.most
    assert everything.most <= sum(stack.most for stack in each)


def test_cuts_that_are_alike_are_made_ahead(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    plan = cut_plan(job, layout)
    found = batches(job, plan)
    assert found
    for batch in found:
        assert len(batch.steps) > 1
        assert all(step.fresh and step.trim for step in batch.steps)
        assert {(step.kind, step.product) for step in batch.steps} == {(batch.kind, batch.product)}
        assert len({step.trim.at for step in batch.steps if step.trim}) == 1
    alone = {step.number for step in plan.steps if step.fresh and step.trim}
    alone -= {step.number for batch in found for step in batch.steps}
    measures = [(s.kind, s.trim) for s in plan.steps if s.number in alone]
    assert len(measures) == len(set(measures))
    words = [word for page in batch_pages(job, layout, plan) for word in texts(page)]
    assert sum(word == str(len(found[0].steps)) for word in words) > 0


def test_turned_round_a_slanted_cut_is_the_same() -> None:
    solution = herringbone_solution()
    job, layout = solution.job, solution.layouts[0]
    free = replace(job, products=tuple(replace(p, directional=False) for p in job.products))
    one, two = (batches(each, cut_plan(each, layout)) for each in (job, free))
    assert len(two) <= len(one)
    assert {batch.side for batch in two} <= {"factory end", "factory edge"}


def test_every_pattern_is_drawn_once_with_its_pieces(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    plan = cut_plan(job, layout)
    found = diagrams(plan)
    assert sum(len(diagram.units) for diagram in found) == len(plan.units)
    pages = diagram_pages(job, layout, plan)
    words = [word.removesuffix("*") for page in pages for word in texts(page)]
    for diagram in found:
        assert all(piece.id in words for piece in diagram.units[0].pieces)
    drawn = sum(rings_in(patch) for page in pages for patch in fills(page, "piece"))
    assert drawn == sum(len(diagram.units[0].pieces) for diagram in found)
    cuts = sum(len(lines_on(page, "saw cut")) for page in pages)
    assert cuts == sum(len(diagram.pattern.cuts) for diagram in found)


def test_a_diagram_is_to_scale(tiles: Pair) -> None:
    job, solution = tiles
    layout = solution.layouts[0]
    plan = cut_plan(job, layout)
    (page, *_) = diagram_pages(job, layout, plan)
    found = diagrams(plan)
    place = next(i for i, each in enumerate(found) if len(each.pattern.rings) == 1)
    ((start, *corners),) = found[place].pattern.rings
    share = (max(u for u, _ in corners) - start[0]) / found[place].units[0].size[0]
    frame, piece = (fills(page, name)[place].get_extents() for name in ("scrap", "piece"))
    assert share < 1
    assert piece.width / frame.width == pytest.approx(share)
