"""Seams of hand-made floors, whose lengths and edges are known from how they were drawn."""

from dataclasses import replace

import pytest

from models.floor.layout import ZoneLayout
from models.job.data import Job
from solver.sheets.seams import Seam, Shown, seams_of
from tests.sheets.floors import HALF, STRIP, border_solution, mirror_solution
from tests.sheets.jobs import inch


def by_zones(job: Job, zones: tuple[ZoneLayout, ...]) -> dict[tuple[str, str], Seam]:
    return {seam.zones: seam for seam in seams_of(job, zones)}


@pytest.fixture(scope="module")
def border() -> dict[tuple[str, str], Seam]:
    solution = border_solution()
    return by_zones(solution.job, solution.layouts[0].zones)


SOUTH, EAST = "tile border, sea wall", "tile border, lane wall"


def test_every_two_zones_that_meet_have_one_seam(border: dict[tuple[str, str], Seam]) -> None:
    assert list(border) == [
        (SOUTH, EAST), (SOUTH, "field"), (EAST, "field"), ("compass tiles", "field"),
    ]  # fmt: skip


def test_a_seam_is_as_long_as_the_line_the_zones_share(
    border: dict[tuple[str, str], Seam],
) -> None:
    assert border[(SOUTH, EAST)].length == STRIP
    assert border[(SOUTH, "field")].length == inch("21'") - STRIP
    assert border[(EAST, "field")].length == inch("15'") - STRIP
    assert border[("compass tiles", "field")].length == 4 * inch("36")
    assert {seam.trim for seam in border.values()} == {0}


def test_what_shows_at_a_seam_follows_the_units(border: dict[tuple[str, str], Seam]) -> None:
    # The strips are one unit wide; the field is cut to the east strip and to the compass,
    # while a row line of it lies on the south strip: 7 ft 3 in less 9 in is 13 rows.
    assert border[(SOUTH, "field")].edges == (Shown.FACTORY, Shown.FACTORY)
    assert border[(EAST, "field")].edges == (Shown.FACTORY, Shown.CUT)
    assert border[("compass tiles", "field")].edges == (Shown.FACTORY, Shown.CUT)
    assert border[(SOUTH, EAST)].edges == (Shown.FACTORY, Shown.CUT)


def test_zones_face_each_other_over_a_trim() -> None:
    solution = mirror_solution()
    found = by_zones(solution.job, solution.layouts[0].zones)
    assert {seam.trim for seam in found.values()} == {HALF}
    assert {seam.length for seam in found.values()} == {inch("11'")}
    assert [seam.edges[0] for seam in found.values()] == [Shown.MIXED, Shown.MIXED]


def test_a_gap_wider_than_the_trim_is_no_seam() -> None:
    solution = mirror_solution()
    zones = solution.layouts[0].zones
    bare = tuple(replace(zone, laying=replace(zone.laying, trim=0)) for zone in zones)
    assert seams_of(solution.job, bare) == ()


def test_zones_that_only_touch_at_a_corner_have_no_seam() -> None:
    solution = border_solution()
    south, _, _, field = solution.layouts[0].zones
    corner = replace(
        field,
        outer=((inch("21'"), STRIP), (inch("22'"), STRIP), (inch("22'"), inch("15'"))),
        holes=(),
        pieces=(),
    )
    assert seams_of(solution.job, (south, corner)) == ()


def test_one_zone_has_no_seam() -> None:
    solution = border_solution()
    assert seams_of(solution.job, solution.layouts[0].zones[:1]) == ()
