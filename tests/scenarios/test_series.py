"""The generated halls of the benchmark series."""

from __future__ import annotations

import pytest
from shapely import Polygon

from models.lengths import TICKS_PER_FOOT
from scenarios.series import AREAS, SIXTEENTH, hall, series


@pytest.mark.parametrize("area", AREAS)
def test_a_hall_has_about_its_area(area: int) -> None:
    job = hall(area)
    found = Polygon(job.room).area / TICKS_PER_FOOT**2
    assert area <= found <= 1.1 * area
    assert all(Polygon(job.room).contains(Polygon(column.outline)) for column in job.columns)


def test_every_corner_lies_on_a_sixteenth() -> None:
    for job in series():
        assert all(x % SIXTEENTH == y % SIXTEENTH == 0 for x, y in job.room)


def test_the_series_is_the_same_every_time() -> None:
    assert series() == series()


def test_a_hall_too_small_says_so() -> None:
    with pytest.raises(ValueError, match="19 sq ft is too small; 20 is the least"):
        hall(19)
