"""The compass rule against a printed traverse.

Source: J. Mahun, open access surveying library (jerrymahun.com), traverse computations,
chapters E, F and I: four legs by bearing and feet, closing error +0.083 ft north and
+0.075 ft east (1 in 12,115), and the coordinates adjusted by the compass rule from
A (500 N, 2000 E).
"""

from fractions import Fraction

import pytest

from models.job.data import Job
from models.job.reader import read_text
from models.lengths import TICKS_PER_FOOT


def degrees(quadrant: str, d: int, m: int, s: int) -> str:
    """A bearing as degrees counter-clockwise from east."""
    bearing = d + Fraction(m, 60) + Fraction(s, 3600)
    from_east = {"NE": 90 - bearing, "NW": 90 + bearing, "SW": 270 - bearing, "SE": 270 + bearing}
    return f"{float(from_east[quadrant]):.10f}"


@pytest.fixture
def job() -> Job:
    legs = (
        (degrees("SW", 68, 5, 35), "472.68"),
        (degrees("NW", 19, 46, 0), "216.13"),
        (degrees("NE", 45, 55, 20), "276.52"),
        (degrees("SE", 54, 59, 15), "382.24"),
    )
    lines = "\n".join(f"      - {{go: {angle}, length: {feet} ft}}" for angle, feet in legs)
    return read_text(
        "job: Boundary\nsystem: feet-inches\nroom:\n  walk:\n    start: [2000 ft, 500 ft]\n"
        f"    legs:\n{lines}\n"
        "products: [{name: slab, length: 6 ft, width: 3 ft}]\nfield: {bond: straight}\n",
        "boundary.yaml",
    )


def test_the_closing_error_is_the_printed_one(job: Job) -> None:
    assert job.closure is not None
    dx, dy = job.closure.dx / TICKS_PER_FOOT, job.closure.dy / TICKS_PER_FOOT
    assert dy == pytest.approx(0.083, abs=0.001)
    assert dx == pytest.approx(0.075, abs=0.001)
    # Printed as 1 in 12,115, from the closing error rounded to thousandths of a foot.
    walked = job.closure.walked / TICKS_PER_FOOT
    assert walked == pytest.approx(1347.57, abs=1e-5)
    assert walked / (dx**2 + dy**2) ** 0.5 == pytest.approx(12115, rel=0.01)


def test_the_compass_rule_gives_the_printed_coordinates(job: Job) -> None:
    printed = {(2000.0, 500.0), (1561.426, 323.614), (1488.321, 526.996), (1686.956, 719.336)}
    adjusted = [(x / TICKS_PER_FOOT, y / TICKS_PER_FOOT) for x, y in job.room]
    for corner in printed:
        assert any(corner == pytest.approx(point, abs=0.001) for point in adjusted), corner
