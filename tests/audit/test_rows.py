from __future__ import annotations

import pytest

from tests.audit.conftest import Fresh
from tests.audit.said import finds, finds_only, pieces, whole


def test_swapped_rows(fresh: Fresh) -> None:
    broken = fresh("plank")
    for piece in pieces(broken):
        piece["row"] = {4: 5, 5: 4}.get(piece["row"], piece["row"])
    finds(broken, r"row numbers: piece P\d+ \(row 5\): claimed row 5, found row 4 by its place")


def test_a_piece_over_a_row_line(fresh: Fresh) -> None:
    broken = fresh("plank")
    piece = whole(broken)
    high = max(y for _, y in piece["outer"])
    piece["outer"] = [[x, y + 3 if y == high else y] for x, y in piece["outer"]]
    finds(broken, rf"row numbers: piece {piece['id']} .*found 3.000 mm over a row line")


def test_a_wrong_corner(fresh: Fresh) -> None:
    broken = fresh("plank")
    piece = whole(broken)
    piece["corner"][0] += 1.0
    finds_only(broken, rf"unit corners: piece {piece['id']} .*found 1.000 mm out of it")


def test_rows_listed_that_are_not_laid(fresh: Fresh) -> None:
    broken = fresh("plank")
    listed = broken["layouts"][0]["zones"][0]["rows"]
    listed.append({"row": 40, "low": 5810.0, "runs": []})
    del listed[2]
    finds(broken, r"row lines: row 40: claimed listed, found no piece in it")
    finds(broken, r"row lines: row 3: claimed not listed, found laid")


def test_a_row_line_off_its_place(fresh: Fresh) -> None:
    broken = fresh("plank")
    broken["layouts"][0]["zones"][0]["rows"][4]["low"] += 0.5
    finds_only(broken, r"row lines: row 5: claimed low line at v 560.500 mm, found 560.000 mm")


def test_a_start_line_off_the_row_line(fresh: Fresh) -> None:
    broken = fresh("off square")
    for point in broken["layouts"][0]["zones"][0]["start_line"]:
        point[1] += 2.0
    finds_only(
        broken, r"start line: start line: claimed the low line of row 2, found \+1.9\d+ mm off"
    )


def test_a_start_line_half_a_unit_off(fresh: Fresh) -> None:
    broken = fresh("plank")
    for point in broken["layouts"][0]["zones"][0]["start_line"]:
        point[1] += 75.0
    finds_only(broken, r"start line: start line: .*found \+75.000 mm off that line")


def test_a_start_row_that_is_another(fresh: Fresh) -> None:
    broken = fresh("plank")
    broken["layouts"][0]["zones"][0]["start_row"] = 3
    finds_only(broken, r"start line: start line: claimed the low line of row 3, found -150.000 mm")
    broken["layouts"][0]["zones"][0]["start_row"] = 99
    finds(broken, r"start line: start row: claimed row 99, found no such row")


def test_a_cross_line_out_of_square(fresh: Fresh) -> None:
    broken = fresh("plank")
    broken["layouts"][0]["zones"][0]["cross_line"][1][0] += 4
    finds_only(
        broken, r"cross line: claimed square to the start line, found 4.000 mm out of square"
    )


def test_an_offset_that_is_not_the_rows(fresh: Fresh) -> None:
    broken = fresh("plank")
    broken["layouts"][0]["zones"][0]["rows"][3]["runs"][0]["offset"] += 25
    finds_only(
        broken, r"runs: row 4 from u 0.0 to 5230.0 mm: claimed offset \d+.* found joints 25.000"
    )


def test_offsets_may_count_from_the_cross_line(fresh: Fresh) -> None:
    document = fresh("plank")
    for row in document["layouts"][0]["zones"][0]["rows"]:
        for run in row["runs"]:
            run["offset"] = (run["offset"] - 100) % 1200
    with pytest.raises(AssertionError):
        finds(document, "runs")


def test_a_run_that_is_not_listed(fresh: Fresh) -> None:
    broken = fresh("column")
    rows = broken["layouts"][0]["zones"][0]["rows"]
    split = next(row for row in rows if len(row["runs"]) > 1)
    del split["runs"][0]
    finds_only(
        broken, rf"runs: row {split['row']} from .*claimed no such run, found a run of pieces"
    )
