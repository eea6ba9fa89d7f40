import json
from dataclasses import replace

import pytest

from models import __version__
from models.floor.layout import Solution, Verdict
from models.job.data import Closure, Job, Kind
from models.lengths import to_mm
from solver.audit import audit
from solver.sheets.contract import Json, document, text_of
from tests.sheets.builders import plank_solution
from tests.sheets.jobs import inch

Pair = tuple[Job, Solution]


@pytest.fixture(scope="module")
def found() -> Json:
    return document(plank_solution())


def test_the_contract_has_its_keys(found: Json) -> None:
    assert list(found) == [
        "contract", "startrow", "job", "system", "tape_step", "notes", "complete", "closure_mm",
        "chosen", "currency", "zones", "links", "products", "features", "axes", "hidden_walls",
        "layouts",
    ]  # fmt: skip
    assert (found["contract"], found["startrow"]) == (1, __version__)
    assert (found["system"], found["tape_step"]) == ("feet-inches", 1.5875)
    layout = found["layouts"][0]
    assert {"rank", "best_at", "zones", "pieces", "order", "rules", "figures", "seams"} == set(
        layout
    )
    assert {"zone", "angle_deg", "origin", "start_line", "units", "units_at_least", "proved"} < set(
        layout["zones"][0]
    )
    assert {"id", "zone", "row", "cut", "outer", "holes", "unit"} < set(layout["pieces"][0])
    assert {
        "product", "units", "units_at_least", "proved", "spare_units", "cartons",
        "laid_area_m2", "waste_percent", "breakage_units", "spare_cartons",
        "cartons_at_least", "cost", "lengths",
    } == set(layout["order"][0])  # fmt: skip
    assert {"rule", "kind", "limit", "worst", "kept", "where", "because"} < set(layout["rules"][0])


def test_every_length_is_in_millimetres(found: Json) -> None:
    product = found["products"][0]
    assert (product["length"], product["width"], product["kerf"]) == (1219.2, 152.4, 3.175)
    assert found["features"][0]["tolerance"] == 3.175
    assert found["layouts"][0]["zones"][0]["start_line"] == [[0.0, 2565.4], [7315.2, 2565.4]]
    assert found["layouts"][0]["zones"][0]["cross_line"] == [[2286.0, 0.0], [2286.0, 5422.9]]


def test_pieces_tile_the_zone_in_job_axes(found: Json) -> None:
    def area(ring: list[list[float]]) -> float:
        pairs = zip(ring, ring[1:] + ring[:1], strict=True)
        return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2

    polygon = found["zones"][0]["polygon"]
    floor = area(polygon["outer"]) - sum(abs(area(hole)) for hole in polygon["holes"])
    for layout in found["layouts"]:
        pieces = [area(piece["outer"]) for piece in layout["pieces"]]
        assert all(size > 0 for size in pieces)
        assert sum(pieces) == pytest.approx(floor)


def test_turned_rows_are_given_in_job_axes(found: Json) -> None:
    zone = found["layouts"][2]["zones"][0]
    assert zone["angle_deg"] == 90.0
    assert zone["start_line"][0] == [inch("11'") / 320, 0.0]


def test_the_audit_finds_nothing_in_it(found: Json) -> None:
    report = audit(found)
    assert report.findings == ()


def test_counting_rules_keep_their_counts(planks: Pair) -> None:
    solution = planks[1]
    stair = Verdict("no_stair", Kind.PREFER, 2, 4, False, "", "")
    ends = Verdict("smallest_end", Kind.MUST, inch("8"), None, True, "", "")
    layout = replace(solution.layouts[0], verdicts=(stair, ends))
    rules = document(replace(solution, layouts=(layout,)))["layouts"][0]["rules"]
    assert (rules[0]["rule"], rules[0]["limit"], rules[0]["worst"]) == ("no repeating stair", 2, 4)
    assert (rules[1]["limit"], rules[1]["worst"]) == (203.2, None)


def test_notes_are_said_once_and_the_closure_is_given(planks: Pair) -> None:
    job, solution = planks
    job = replace(job, notes=("walked", solution.notes[0]), closure=Closure(320, -96, 9000))
    found = document(replace(solution, job=job))
    assert found["notes"] == ["walked", solution.notes[0]]
    assert found["closure_mm"] == [1.0, -0.3]


def test_the_text_is_the_same_bytes_each_time_and_reads_back() -> None:
    first = text_of(document(plank_solution()))
    assert first == text_of(document(plank_solution()))
    assert first.endswith("}\n")
    assert json.loads(first) == document(plank_solution())
    assert "-0.0," not in first
    assert "-0.0]" not in first


def test_pieces_stand_one_on_a_line() -> None:
    text = text_of(document(plank_solution()))
    pieces = [line for line in text.splitlines() if line.lstrip().startswith('{"id"')]
    assert len(pieces) == sum(len(x.zones[0].pieces) for x in plank_solution().layouts)


def test_coordinates_are_exact_to_the_tick() -> None:
    layout = plank_solution().layouts[0]
    pieces = document(plank_solution())["layouts"][0]["pieces"]
    for piece, written in zip(layout.zones[0].pieces, pieces, strict=True):
        assert [[to_mm(u), to_mm(v)] for u, v in piece.outline] == written["outer"]
