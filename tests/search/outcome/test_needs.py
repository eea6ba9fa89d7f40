"""What a floor needs of a product: cartons, spares and breakage, against a printed rule.

A carton of spare stock for every 50 or fraction: project specification section 09 65 19
(Carmel, Indiana, 2015 and 2018), read.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.data import Job
from solver.search.outcome.needs import cartons_for, needs_of
from tests.search.floors import PLANK, box, job_of, laid_alone

BOXED = replace(PLANK, per_carton=4)
ROOM = job_of(box(2400, 400), BOXED)
"""Four planks laid whole: one carton."""


def cartons(job: Job, units: int) -> int:
    return cartons_for(job, job.products[0], units)


@pytest.mark.parametrize(("bought", "spare"), [(1, 1), (50, 1), (51, 2), (100, 2), (101, 3)])
def test_a_carton_is_kept_for_every_fifty_or_fraction(bought: int, spare: int) -> None:
    job = replace(ROOM, spare_carton_per=50)
    assert cartons(ROOM, bought * 4) == bought
    assert cartons(job, bought * 4) == bought + spare


@pytest.mark.parametrize(
    ("units", "percent", "broken"), [(100, 2, 2), (101, 2, 3), (49, 2, 1), (50, 0, 0)]
)
def test_breakage_is_a_share_of_the_units_rounded_up(units: int, percent: int, broken: int) -> None:
    job = replace(ROOM, breakage_percent=Fraction(percent))
    assert cartons(job, units) == -(-(units + broken) // 4)


def test_breakage_and_spares_are_added_before_cartons_are_counted() -> None:
    job = replace(
        ROOM, breakage_percent=Fraction(2), spare_percent=Fraction(5), spare_units=1,
        spare_carton_per=50,
    )  # fmt: skip
    # 196 units, 4 for breakage, 10 and 1 spare: 211 in 53 cartons, and two cartons to keep.
    assert cartons(job, 196) == 53 + 2


@given(units=st.integers(0, 5000), per=st.integers(1, 60), percent=st.integers(0, 12))
def test_cartons_hold_what_is_wanted_and_no_carton_is_too_many(
    units: int, per: int, percent: int
) -> None:
    job = replace(ROOM, breakage_percent=Fraction(percent), spare_carton_per=per)
    wanted = units + -(-units * percent // 100)
    whole = cartons(replace(job, spare_carton_per=0), units)
    assert (whole - 1) * 4 < wanted <= whole * 4
    assert cartons(job, units) - whole == -(-whole // per)


def test_the_needs_of_a_floor_say_all_of_it() -> None:
    job = replace(
        ROOM, breakage_percent=Fraction(2), spare_units=3, spare_carton_per=50,
        products=(replace(BOXED, price=Fraction(97, 2)),),
    )  # fmt: skip
    (need,) = needs_of(laid_alone(job, 0, (0, 0)), {"plank": 4})
    assert (need.units, need.units_at_least, need.proved) == (4, 4, True)
    assert (need.breakage_units, need.spare_units) == (1, 3)
    # 8 units in 2 cartons, and one to keep.
    assert (need.cartons, need.cartons_at_least, need.cost) == (3, 3, Fraction(291, 2))
    assert need.laid_area_mm2 == 2400 * 400
    assert need.waste_percent == 0


def test_without_a_price_there_is_no_cost() -> None:
    (need,) = needs_of(laid_alone(ROOM, 0, (0, 0)), {"plank": 4})
    assert need.cost is None
