"""Papers of floors with several zones, herringbone, mirrors and mixed lengths."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from models.floor.layout import Solution
from models.job.data import Job, Marks, Ring
from solver.audit import audit
from solver.sheets.axischeck.beside import cuts_beside, sides_together, zones_beside
from solver.sheets.axischeck.pages import axis_lines, axis_pages
from solver.sheets.chalk import chalk, line_ends, near
from solver.sheets.compare.page import compare_page
from solver.sheets.contract import document
from solver.sheets.cutlist.pages import cut_lines, cut_list_pages
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.zones import CLEAR, marks_of
from solver.sheets.order.page import order_pages
from solver.sheets.papers import OUR_NAMES, write_papers
from solver.sheets.setout.jointtable import joint_lines, write_joints
from solver.sheets.setout.pages import setout_pages
from solver.stock.cutplan.steps import cut_plan
from tests.sheets.drawn import columns_of, fills, lines, off_page, overlaps, text_boxes, texts
from tests.sheets.floors import (
    STRIP,
    border_solution,
    herringbone_solution,
    mirror_solution,
)
from tests.sheets.jobs import inch, mm, walls

Pair = tuple[Job, Solution]

FLOORS: dict[str, Callable[[], Solution]] = {
    "border": border_solution,
    "herringbone": herringbone_solution,
    "square herringbone": lambda: herringbone_solution(90),
    "mirror": mirror_solution,
}


@pytest.fixture(scope="module")
def border() -> Solution:
    return border_solution()


@pytest.fixture(scope="module")
def mirror() -> Solution:
    return mirror_solution()


@pytest.mark.parametrize("name", FLOORS)
def test_nothing_overlaps_on_any_page(name: str) -> None:
    solution = FLOORS[name]()
    pages = [
        compare_page(solution),
        *order_pages(solution),
        *axis_pages(solution),
        *(page for layout in solution.layouts for page in setout_pages(solution, layout)),
        *cut_list_pages(solution.job, solution.layouts[0]),
    ]
    for page in pages:
        assert overlaps(page) == []
        assert off_page(page) == []


@pytest.mark.parametrize("name", FLOORS)
def test_the_audit_finds_nothing_in_any_floor(name: str) -> None:
    assert audit(document(FLOORS[name]())).findings == ()


def test_the_comparison_tells_zones_and_products_apart(border: Solution) -> None:
    page = compare_page(border)
    written = texts(page)
    assert written.count("1 tile border, sea wall") == 3
    assert written.count("4 field") == 3
    # Twice four sides of the compass and three strip sides a side, in three plans; the legend.
    assert len(lines(page, "zone edge")) == 3 * (8 + 4 + 2) + 1
    assert len({patch.get_hatch() for patch in fills(page, "whole unit")}) == 2
    assert len(fills(page, "feature")) == 0
    told = " ".join(written)
    assert 'Chosen: tile border width 9", of 8" to 1\' 2".' in told
    assert "Zones: 1 tile border, sea wall; 2 tile border, lane wall; 3 compass tiles" in told
    assert "Chalk lines of narrow zones are on their set-out sheets." in told


def test_direction_marks_are_drawn_for_zones_of_marked_units(border: Solution) -> None:
    zones = border.layouts[0].zones
    assert [len(marks_of(border.job, zone)) for zone in zones] == [1, 1, 2, 1]
    free = tuple(replace(product, directional=False) for product in border.job.products)
    job = replace(border.job, products=free)
    assert [len(marks_of(job, zone)) for zone in zones] == [0, 0, 2, 0]


def test_each_zone_has_its_own_sheet_measured_from_the_walls(border: Solution) -> None:
    pages = setout_pages(border, border.layouts[0])
    assert len(pages) == 4
    for number, page in enumerate(pages, 1):
        written = texts(page)
        assert f"Set-out sheet 1, zone {number}" in written
        assert len(fills(page, "whole unit")) == 1
    compass = texts(pages[2])
    assert compass.count("7' 6\" from sea wall") == 2
    assert compass.count("10' 0\" from hall wall") == 2


def words_of(page: Page) -> str:
    return " ".join(texts(page))


def test_sheets_say_what_shows_at_the_seams_and_what_was_chosen(border: Solution) -> None:
    pages = setout_pages(border, border.layouts[0])
    field, fill = words_of(pages[3]), words_of(pages[2])
    assert "edge to tile border, lane wall: cut edges here, factory edges there" in field
    assert "edge to field: factory edges here, cut edges there" in fill
    assert "turn every second unit a quarter" in fill
    assert 'tile border width 9", of 8" to 1\' 2".' in field


def test_a_trim_and_a_mirror_are_told(mirror: Solution) -> None:
    pages = setout_pages(mirror, mirror.layouts[0])
    east = words_of(pages[1])
    assert '1/2" trim between' in east
    assert "laid as west floor is, seen in a mirror along ridge axis." in east
    assert "marks on the backs point toward the left." in east


def test_mixed_lengths_list_every_joint(mirror: Solution) -> None:
    west = mirror.layouts[0].zones[0]
    table = joint_lines(mirror.job, west)
    assert len(table) == len(west.rows)
    assert [entry.words.count(",") + 1 for entry in table] == [
        len(row.joints[0]) for row in west.rows
    ]
    page = setout_pages(mirror, mirror.layouts[0])[0]
    names = columns_of(page)[0::2]
    assert [name for column in names for name in column.texts] == [entry.name for entry in table]
    assert "End joints" in texts(page)


def test_a_table_of_joints_is_written_whole_or_by_parts(mirror: Solution) -> None:
    table = joint_lines(mirror.job, mirror.layouts[0].zones[0]) * 9
    page = Page(mirror.job.system, landscape=False)
    box = page.box.grown(-26)
    assert write_joints(page, box, table, True) == 0
    assert columns_of(page) == []
    assert 0 < write_joints(page, box, table, False) < len(table)
    assert overlaps(page) == []


@pytest.mark.parametrize("slant", [45, 90])
def test_a_herringbone_is_set_out_along_its_line_of_points(slant: int) -> None:
    solution = herringbone_solution(slant)
    zone = solution.layouts[0].zones[0]
    found = chalk(solution.job, zone)
    ends = [found.frame.to_job(end) for end in line_ends(found.start)]
    level = np.array([(0, mm("1300")), (mm("3600"), mm("1300"))])
    assert np.array(ends) == pytest.approx(level, abs=2)
    across = [found.frame.to_job(end) for end in line_ends(found.cross)]
    upright = np.array([(mm("1800"), 0), (mm("1800"), mm("2600"))])
    assert np.array(sorted(across, key=lambda end: end[1])) == pytest.approx(upright, abs=2)
    (page,) = setout_pages(solution, solution.layouts[0])
    written = words_of(page)
    assert "lay the first unit with a corner on the crossing" in written
    assert "Row offsets" not in written


@pytest.mark.parametrize(
    ("slant", "along", "wide", "second", "on"),
    [
        (45, "lower right", "upper right", "lower left", "along the start line both ways"),
        (90, "right", "top", "bottom", "toward the upper right and toward the lower left"),
    ],
)
def test_the_first_units_lie_where_the_steps_say(
    slant: int, along: str, wide: str, second: str, on: str
) -> None:
    solution = herringbone_solution(slant)
    (page,) = setout_pages(solution, solution.layouts[0])
    written = words_of(page)
    assert f"its length toward the {along} and its width toward the {wide}" in written
    assert f"against its far end, its length toward the {second}. Go on {on}" in written
    zone = solution.layouts[0].zones[0]
    u, v, (long, width) = zone.cross_u, zone.start_v, solution.job.products[0].pitch
    # As the frame has it: along, and across to the left of that; the second to the right.
    cells = {(u, v, u + long, v + width), (u + long, v + width - long, u + long + width, v + width)}
    # The third is one width along and one across from the first.
    cells.add((u + width, v + width, u + width + long, v + 2 * width))
    found = {_box(piece.outline) for piece in zone.pieces}
    assert all(any(box == pytest.approx(cell, abs=2) for box in found) for cell in cells)


def _box(ring: Ring) -> tuple[int, int, int, int]:
    us, vs = [u for u, _ in ring], [v for _, v in ring]
    return min(us), min(vs), max(us), max(vs)


def test_herringbone_points_lie_on_the_start_line() -> None:
    solution = herringbone_solution()
    zone = solution.layouts[0].zones[0]
    corners = {
        tuple(round(part) for part in zone.frame.to_job(point))
        for piece in zone.pieces
        if not piece.cut
        for point in piece.outline
    }
    on_line = [point for point in corners if abs(point[1] - mm("1300")) <= 2]
    # Points are a diagonal of the unit's width apart, 70 mm x 1.414.
    assert len(on_line) > 30
    gaps = np.diff(sorted(x for x, _ in on_line))
    assert gaps == pytest.approx(np.full(len(gaps), mm("70") * 2**0.5), abs=3)


def test_a_mirrored_herringbone_has_its_line_on_the_other_diagonal() -> None:
    zone = herringbone_solution().layouts[0].zones[0]
    job = herringbone_solution().job
    assert chalk(job, zone).frame.direction == (2, 0)
    assert chalk(job, replace(zone, mirrors="other")).frame.direction == (0, -2)


def test_sizes_of_upright_units_are_along_the_unit() -> None:
    solution = herringbone_solution(90)
    cuts = cut_lines(solution.job, solution.layouts[0])
    upright = {p.id for p in solution.layouts[0].zones[0].pieces if p.quarter}
    assert upright
    for line in (line for line in cuts if line.piece in upright):
        assert line.along[1] <= mm("350")
        assert line.across[1] <= mm("70")
    assert any(line.along[1] > mm("70") for line in cuts if line.piece in upright)


def test_filled_features_have_cuts_inside_and_outside(border: Solution) -> None:
    zones = border.layouts[0].zones
    feature = border.job.features[0]
    beside = zones_beside(border.job, zones, feature)
    assert [zone.zone for zone, _ in beside] == ["compass tiles", "field"]
    together = sides_together(beside)
    assert [side.where for side in together] == ["outside"] * 4 + ["inside"] * 4
    left = next(side for side in together if side.side == "left")
    assert (left.least, left.most) == (inch("7"), inch("47"))
    assert axis_lines(border)[0].sides == together


def test_cuts_inside_run_from_the_outline_inward(border: Solution) -> None:
    fill = border.layouts[0].zones[2]
    shifted = tuple(
        replace(
            piece,
            cut=True,
            touches=("field",),
            outline=tuple((u, v) for u, v in piece.outline),
        )
        for piece in fill.pieces
    )
    whole = cuts_beside(border.job, replace(fill, pieces=shifted), border.job.features[0])
    assert all(side.cuts == () for side in whole)
    wide = replace(border.job.products[1], length=inch("12"), width=inch("12"))
    job = replace(border.job, products=(border.job.products[0], wide))
    cut = cuts_beside(job, replace(fill, pieces=shifted), job.features[0])
    assert [side.least for side in cut] == [inch("9")] * 4
    assert [len(side.cuts) for side in cut] == [4] * 4


def test_strips_away_from_a_feature_have_no_cuts_there(border: Solution) -> None:
    south = border.layouts[0].zones[0]
    assert cuts_beside(border.job, south, border.job.features[0]) == ()


def test_only_the_stretches_near_a_zone_are_kept(border: Solution) -> None:
    south = border.layouts[0].zones[0]
    found = chalk(border.job, south)
    assert near(found, south) == found
    # Through the post the cross line is in two parts; only the lower comes to the strip.
    through = chalk(border.job, replace(south, cross_u=inch("16' 6\"")))
    assert len(through.cross) == 2
    kept = near(through, replace(south, cross_u=inch("16' 6\"")))
    assert kept.cross == through.cross[:1]


def test_one_unit_may_serve_two_zones(border: Solution) -> None:
    # The south strip starts with 3 in of a tile, the east one ends with 6: one tile for both.
    south, east, *others = border.layouts[0].zones
    first, last = south.pieces[0], replace(east.pieces[-1], unit=south.pieces[0].unit)
    shared = replace(
        border.layouts[0], zones=(south, replace(east, pieces=(*east.pieces[:-1], last)), *others)
    )
    no_kerf = replace(border.job, products=tuple(replace(p, kerf=0) for p in border.job.products))
    plan = cut_plan(no_kerf, shared)
    kept = next(offcut for offcut in plan.offcuts if last.id in offcut.part.later)
    assert plan.steps[kept.kept - 1].piece == first.id
    assert plan.steps[kept.used - 1].zone == east.zone


def test_the_document_holds_what_zones_add(border: Solution, mirror: Solution) -> None:
    found = document(border)
    assert found["chosen"] == [{"what": "tile border", "low": 203.2, "high": 355.6, "value": 228.6}]
    assert found["currency"] == "$"
    zone = found["zones"][2]
    assert (zone["laying"], zone["marks"], zone["mirrors"]) == (
        "compass tiles", "quarter-turned", None,
    )  # fmt: skip
    assert [side["name"] for side in zone["sides"]] == ["field"] * 4
    layout = found["layouts"][0]
    assert [order["cost"] for order in layout["order"]] == [861.0, 128.8]
    assert {rule["zone"] for rule in layout["rules"]} == {zone["name"] for zone in found["zones"]}
    seam = layout["seams"][0]
    assert (seam["length"], seam["edges"], seam["trim"]) == (
        STRIP / 320, ["factory", "cut"], 0.0,
    )  # fmt: skip
    other = document(mirror)
    assert other["zones"][1]["mirrors"] == {
        "zone": "west floor",
        "axis": {"point": [3657.6, 0.0], "direction": [0.0, 0.003125]},
    }
    assert [each["per_carton"] for each in other["products"][0]["lengths"]] == [4, 3, 3]
    west, *_ = other["layouts"][0]["zones"]
    assert len(west["rows"][0]["joints"]) == 1
    assert {piece["unit_length"] for piece in other["layouts"][0]["pieces"]} == {
        0.0, 609.6, 914.4, 1219.2,
    }  # fmt: skip


def test_long_set_outs_go_on_beside_and_then_on_another_page(border: Solution) -> None:
    many = tuple(replace(border.chosen[0], what=f"strip {i}") for i in range(12))
    (page, *more) = setout_pages(replace(border, chosen=many), border.layouts[0])[3:]
    assert "Setting out, continued" in texts(page)
    assert more == []
    held = border.job.features[0]
    features = tuple(replace(held, name=f"star {i}") for i in range(40))
    job = replace(border.job, features=features)
    pages = setout_pages(replace(border, job=job), border.layouts[0])
    titles = [text for page in pages for text in texts(page)]
    assert "Set-out sheet 1, zone 4: setting out" in titles
    assert titles.count("Row offsets") == 4
    for page in pages:
        assert overlaps(page) == []


def test_row_numbers_go_inside_where_another_line_is_in_the_way(border: Solution) -> None:
    clear = setout_pages(border, border.layouts[0])[3]
    room = border.job.room
    jog = (-inch("3"), inch("15'"))
    walled = (*room[:3], jog, (jog[0], 0))
    names = ["sea wall", "lane wall", "yard wall", "hall wall", "quay wall"]
    job = replace(border.job, room=walled, walls=walls(walled, names))
    behind = setout_pages(replace(border, job=job), border.layouts[0])[3]
    for page, inside in ((clear, False), (behind, True)):
        cut = min(line[:, 0].min() for line in lines(page, "zone edge"))
        five = next(t for t in page.axes.texts if t.get_text() == "5")
        assert (five.get_position()[0] > cut) == inside


def test_all_papers_of_a_floor_are_written(border: Solution, tmp_path: Path) -> None:
    found = write_papers(border, tmp_path / "papers")
    names = [path.name for path in found]
    assert all(OUR_NAMES.fullmatch(name) for name in names)
    assert {"set-out-1.png", "set-out-1-page-4.png", "set-out-3.pdf", "order.pdf"} <= set(names)
    assert "axis-check.csv" in names
    rows = (tmp_path / "papers" / "axis-check.csv").read_text().splitlines()
    assert sum(",inside," in row for row in rows) == 12


def test_one_zone_has_no_arrow_unless_its_units_lie_both_ways(planks: Pair) -> None:
    solution = planks[1]
    assert fills(compare_page(solution), "direction mark") == []
    laying = replace(solution.job.field, marks=Marks.QUARTER_TURNED)
    layouts = tuple(
        replace(layout, zones=(replace(layout.zones[0], laying=laying),))
        for layout in solution.layouts
    )
    assert len(fills(compare_page(replace(solution, layouts=layouts)), "direction mark")) == 3


def test_a_zones_name_keeps_clear_of_row_numbers_where_there_is_room() -> None:
    solution = border_solution()
    layout = solution.layouts[0]
    for page in setout_pages(solution, layout):
        boxes = text_boxes(page)
        (name,) = [box for text, box in boxes if text == f"{len(layout.zones)} field"]
        rows = [box for text, box in boxes if text.split()[0].isdigit() and box != name]
        assert not any(box.overlaps(name.grown(CLEAR - 1)) for box in rows)
