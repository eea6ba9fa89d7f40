"""Finished layouts: the row laid first, the cross line, figures and piece names."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from models.floor.layout import Layout
from models.job.data import Axis, Bond, BondKind, Job, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search.outcome.finish import Bounds, finish
from tests.search.floors import STRAIGHT, TILE, box, job_of, laid_alone, must


def finished(job: Job, line: float, offsets: tuple[float, ...]) -> Layout:
    return finish(laid_alone(job, line, offsets), Bounds((1,), {job.field.product: 1}))


@pytest.mark.parametrize(
    ("line", "start"),
    [(100, 300), (0, 400), (60, 660), (150, 350)],
    ids=["line on the centre", "both as near", "below", "above"],
)
def test_the_start_line_is_near_the_centre_but_not_on_it(line: int, start: int) -> None:
    # The room is 1000 high: its centre is at 500. Lines at 100 fall on it, and 300 is as near
    # as 700; those at 0 leave 400 and 600, half a row off. Those at 60 fall at 460, too near,
    # and next at 660; those at 150 at 550, too near, and next at 350.
    rows = 5 if line == 0 else 6
    zone = finished(job_of(box(3600, 1000)), line, (0,) * rows).zones[0]
    assert zone.start_v == start * MM
    assert zone.rows[zone.start_row - 1].low == zone.start_v


def test_a_room_of_one_row_starts_at_the_wall() -> None:
    zone = finished(job_of(box(3600, 200)), 0, (0,)).zones[0]
    assert (zone.start_v, zone.start_row) == (0, 1)


def test_the_only_line_inside_is_taken_even_on_the_centre() -> None:
    zone = finished(job_of(box(3600, 400)), 0, (0, 0)).zones[0]
    assert (zone.start_v, zone.start_row) == (200 * MM, 2)


def test_row_offsets_are_measured_from_a_cross_line_near_the_middle() -> None:
    zone = finished(job_of(box(3100, 600)), 0, (500, 900, 250)).zones[0]
    assert zone.cross_u == 1550 * MM
    # 1700 - 1550, 2100 - 1550, and 1450 + 1200 - 1550.
    assert [run[1] / MM for row in zone.rows for run in row.runs] == [150, 550, 1100]


def test_the_cross_line_of_a_staggered_floor_lies_on_an_axis_square_to_it() -> None:
    axis = Axis("door", (700 * MM, 0), (0, 1))
    zone = finished(job_of(box(3100, 200), axes=[axis]), 0, (500,)).zones[0]
    assert zone.cross_u == 700 * MM
    assert zone.rows[0].runs == (((0, 3100 * MM), 1000 * MM),)


def test_the_cross_line_of_a_straight_bond_is_a_joint_near_the_middle() -> None:
    zone = finished(job_of(box(1000, 600), TILE, STRAIGHT), 0, (40, 40)).zones[0]
    # Joints at 40, 340, 640, 940: the middle is 500 and 640 as near as 340 but for a little.
    assert (zone.cross_u / MM - 40) % 300 == 0
    assert abs(zone.cross_u / MM - 500) <= 160
    assert [run[1] for row in zone.rows for run in row.runs] == [0, 0]


def test_the_cross_line_of_a_stepped_bond_is_a_joint_of_the_start_line() -> None:
    half = Bond(BondKind.STEPPED, Fraction(1, 2))
    job = job_of(box(3600, 600), bond=half)
    # Rows at 0, 200, 400, the first one shifted from nothing: 100, 700, 1300.
    zone = finished(job, 0, (100, 700, 1300)).zones[0]
    offsets = [run[1] / MM for row in zone.rows for run in row.runs]
    assert offsets == [0, 600, 0]


def test_figures_count_units_cuts_and_spares() -> None:
    rules = Rules(smallest_cut=must(30), joint_offset=must(800))
    job = replace(job_of(box(3100, 400), rules=rules), spare_units=2, spare_percent=Fraction(10))
    job = replace(job, products=(replace(job.products[0], per_carton=4),))
    layout = finished(job, 0, (500, 900))
    figures = layout.figures
    # Pieces 500 1200 1200 200 | 900 1200 1000: the end of 200 comes from what 900 leaves.
    assert (figures.units, figures.cuts, figures.smallest_cut) == (6, 4, 200 * MM)
    # Spares: 10 % of 6, rounded up, and 2. Cartons of 4 for 9.
    assert (figures.spare_units, figures.cartons) == (3, 3)
    laid_m2, bought_m2 = 3.1 * 0.4, 6 * 1.2 * 0.2
    assert figures.laid_area_mm2 == pytest.approx(laid_m2 * 1e6)
    assert figures.waste_percent == pytest.approx((bought_m2 - laid_m2) / laid_m2 * 100)
    assert figures.bought_mm2 == pytest.approx(bought_m2 * 1e6)
    assert (figures.broken_must, figures.broken_prefer) == (1, 0)
    assert [(v.key, v.kept) for v in layout.verdicts] == [
        ("smallest_cut", True),
        ("joint_offset", False),
    ]


def test_pieces_are_named_by_row_and_place_and_by_their_unit() -> None:
    pieces = finished(job_of(box(3100, 400)), 0, (500, 900)).zones[0].pieces
    assert [p.id for p in pieces] == ["1-1", "1-2", "1-3", "1-4", "2-1", "2-2", "2-3"]
    assert [p.cut for p in pieces] == [True, False, False, True, True, False, True]
    assert [p.size_along and p.size_along / MM for p in pieces] == [
        500, None, None, 200, 900, None, 1000,
    ]  # fmt: skip
    units = [p.unit for p in pieces]
    assert units[3] == units[4]
    assert len(set(units)) == 6
    assert pieces[0].touches == ("wall 1", "wall 4")
