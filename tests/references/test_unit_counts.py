"""Counting units: printed examples laid out by the search."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.floor.layout import Figures
from models.floor.pieces import pieces_of
from models.floor.runs import Run
from models.job.data import Job, Kind, Limit, Product, Rules
from models.lengths import TICKS_PER_FOOT as FOOT
from models.lengths import TICKS_PER_INCH as INCH
from models.lengths import TICKS_PER_MM as MM
from solver.search import solve
from solver.stock.pack import pack
from solver.stock.parts import Part, parts_of, stock_of
from tests.references.jobs import STRAIGHT, box, make_job

METRIC_LESSON = box(2630 * MM, 3540 * MM)
CLASSROOM = box(60 * INCH, 72 * INCH)


def tile(
    side: int, directional: bool = False, per_carton: int = 1, shop_cuts: bool = False
) -> Product:
    return Product(
        "tile", side, side, per_carton=per_carton, directional=directional, shop_cuts=shop_cuts
    )


def fewest(job: Job) -> Figures:
    """The figures of the layout with fewest units among those that keep every rule."""
    kept = [one.figures for one in solve(job).layouts if not one.figures.broken_must]
    return min(kept, key=lambda figures: figures.units)


def area_bound(job: Job) -> int:
    """Floor area over unit area, rounded up: what a count by area alone says."""
    (_, _), (width, _), (_, height), *_ = job.room
    product = job.products[0]
    return -(-width * height // (product.length * product.width))


def test_area_alone_understates_a_metric_room() -> None:
    # flooringtech.com.au unit 4 section 3 lesson 4, read: 108 tiles, where area says 104.
    job = make_job(METRIC_LESSON, tile(300 * MM, directional=True), STRAIGHT, tape_step=MM)
    assert area_bound(job) == 104
    assert fewest(job).units == 108


def test_the_same_room_balanced() -> None:
    # Split derived from the same page: 7 x 10 whole, 20 + 14 sides, 4 corners; none shares.
    rules = Rules(half_unit_edges=Limit(Kind.MUST, 0), balanced_cuts=Limit(Kind.MUST, MM))
    job = make_job(METRIC_LESSON, tile(300 * MM), STRAIGHT, rules, tape_step=MM)
    assert fewest(job).units == 108


@pytest.mark.parametrize(("directional", "units"), [(True, 72), (False, 68)])
def test_a_half_unit_strip_shares_when_units_may_turn(directional: bool, units: int) -> None:
    # Room of mathforum.org, Dr. Math 56485; counts derived. 63 whole units and nine strips
    # 4 in wide, two of which come from one unit only when one of them may be turned.
    job = make_job(CLASSROOM, tile(8 * INCH, directional), STRAIGHT)
    assert area_bound(job) == 68  # 67.5
    assert fewest(job).units == units


def test_wide_cuts_on_both_sides_share_nothing() -> None:
    # Same room: 6 whole and two cuts of 6 in a row, 9 rows; 6 + 6 is over 8.
    rules = Rules(smallest_cut=Limit(Kind.MUST, 6 * INCH))
    assert fewest(make_job(CLASSROOM, tile(8 * INCH), STRAIGHT, rules)).units == 72


def laid(across: int, product: Product) -> list[Part]:
    """The classroom's parts, a joint line ``across`` from its long wall."""
    pitch = product.pitch[1]
    rows = [
        Run(row, pitch * (row - 1), 0, 60 * INCH, pitch * (row - 1), pitch * row)
        for row in range(1, 10)
    ]
    return parts_of(pieces_of(rows, [across] * 9, product.pitch), rows)


@pytest.mark.parametrize("directional", [True, False])
@pytest.mark.parametrize(
    ("across", "shop_cuts", "units"),
    [(6, False, 72), (6, True, 72), (2, False, 72), (2, True, 68), (4, True, 68)],
)
def test_narrow_strips_share_by_fours_once_cut_edges_may_lie_at_joints(
    across: int, shop_cuts: bool, units: int, directional: bool
) -> None:
    # Same room, counts derived. Two strips of 2 in a row, 18 in all: with factory edges at
    # every joint a tile serves one strip of each side, without them four strips.
    product = tile(8 * INCH, directional, shop_cuts=shop_cuts)
    assert len(pack(laid(across * INCH, product), stock_of(product))) == units


@pytest.mark.parametrize(("directional", "units"), [(True, 72), (False, 68)])
def test_strips_of_one_side_share_when_turned(directional: bool, units: int) -> None:
    # The same with all the rest on one side, 4 in: nine strips, two from a tile if turned.
    product = tile(8 * INCH, directional)
    assert len(pack(laid(0, product), stock_of(product))) == units


def test_an_offcut_under_the_scrap_size_is_thrown_away() -> None:
    # The 4 in left of each tile are no scrap at 4 in, and scrap at 4-1/16.
    for scrap, units in ((4 * INCH, 68), (4 * INCH + INCH // 16, 72)):
        product = replace(tile(8 * INCH), scrap=scrap)
        assert len(pack(laid(0, product), stock_of(product))) == units


def test_a_square_room_of_whole_units() -> None:
    # move.com resilient tile page, read: 16 x 16 ft takes 256 units of 12 in.
    figures = fewest(make_job(box(16 * FOOT, 16 * FOOT), tile(12 * INCH), STRAIGHT))
    assert (figures.units, figures.units_at_least, figures.cuts) == (256, 256, 0)


def test_a_count_by_area_is_a_lower_bound() -> None:
    # Same page: 456 units of 9 in, which is the area rounded up; laying it takes no less.
    job = make_job(box(16 * FOOT, 16 * FOOT), tile(9 * INCH), STRAIGHT)
    assert area_bound(job) == 456
    figures = fewest(job)
    assert 456 <= figures.units_at_least <= figures.units


def test_spare_units_and_whole_cartons() -> None:
    # math.andyou.com/5, read: 162.25 sq ft and 20 spare, 12 in a carton: 183, 16 cartons.
    # Laid here as 11 rows of 14' 9" whose offcuts are all used: 163 units of 1 sq ft.
    room = box(14 * FOOT + 9 * INCH, 11 * FOOT)
    figures = fewest(make_job(room, tile(FOOT, per_carton=12), spare=(20, 0)))
    assert figures.units + figures.spare_units == 183
    assert figures.cartons == 16


def test_exact_division_is_not_rounded_up() -> None:
    # fcimag.com 85818, read: 107 sq ft of 4 x 12 in is 321 units exactly; the print divides
    # by 0.33 and gets 324.24. Laid here as 24 rows of 13' 4-1/2" that use every offcut.
    plank = Product("plank", 12 * INCH, 4 * INCH)
    room = box(13 * FOOT + 9 * INCH // 2, 8 * FOOT)
    job = make_job(room, plank, tape_step=INCH // 2)
    assert area_bound(job) == 321
    figures = fewest(job)
    assert (figures.units, figures.units_at_least) == (321, 321)


@pytest.mark.parametrize(("cartons", "spare"), [(50, 1), (51, 2), (100, 2), (101, 3)])
def test_a_spare_carton_for_each_fifty_or_part_of_fifty(cartons: int, spare: int) -> None:
    # Project specification section 09 65 19 (Carmel, Indiana, 2015 and 2018), read. One in
    # fifty is 2 per cent: one row of whole units, so many that they fill their cartons.
    plank = Product("plank", FOOT, 4 * INCH, per_carton=2)
    job = make_job(box(2 * cartons * FOOT, 4 * INCH), plank, spare=(0, 2), tape_step=FOOT)
    assert fewest(job).cartons == cartons + spare
