import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.lengths import (
    TICKS_PER_FOOT,
    TICKS_PER_INCH,
    TICKS_PER_MM,
    System,
    parse,
    show,
    to_mm,
    to_ticks,
)

INCH, FOOT, MM = TICKS_PER_INCH, TICKS_PER_FOOT, TICKS_PER_MM
ANY = st.integers(-(10**10), 10**10)


@pytest.mark.parametrize(
    ("ticks", "text"),
    [
        (0, '0"'),
        (6 * INCH, '6"'),
        (INCH * 3 // 4, '3/4"'),
        (12 * FOOT, "12' 0\""),
        (12 * FOOT + INCH * 27 // 4, "12' 6-3/4\""),
        (12 * FOOT + INCH // 2, "12' 1/2\""),
        (FOOT - 1, "1' 0\""),
        (-18 * INCH, "-1' 6\""),
        (-1, '0"'),
    ],
)
def test_feet_inches_and_sixteenths(ticks: int, text: str) -> None:
    assert show(ticks, System.IMPERIAL) == text


@pytest.mark.parametrize(
    ("ticks", "text"),
    [
        (0, "0 mm"),
        (480 * MM, "480 mm"),
        (32, "0.1 mm"),
        (-32, "-0.1 mm"),
        (-1, "0 mm"),
        (1200 * MM + 160, "1200.5 mm"),
        (15, "0 mm"),
        (17, "0.1 mm"),
    ],
)
def test_millimetres_and_tenths(ticks: int, text: str) -> None:
    assert show(ticks, System.METRIC) == text


@given(st.integers(-(10**6), 10**6), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_what_a_tape_can_show_comes_back_exactly(parts: int, denominator: int) -> None:
    ticks = parts * INCH // denominator
    assert parse(show(ticks, System.IMPERIAL, denominator)) == ticks


@given(st.integers(-(10**8), 10**8))
def test_tenths_of_a_millimetre_come_back_exactly(tenths: int) -> None:
    assert parse(show(tenths * 32, System.METRIC)) == tenths * 32


@given(ANY, st.sampled_from([16, 64]))
def test_feet_and_inches_are_rounded_to_the_nearest_mark(ticks: int, denominator: int) -> None:
    assert abs(parse(show(ticks, System.IMPERIAL, denominator)) - ticks) * 2 * denominator <= INCH


@given(ANY)
def test_millimetres_are_rounded_to_the_nearest_tenth(ticks: int) -> None:
    assert abs(parse(show(ticks, System.METRIC)) - ticks) <= 16


@given(ANY)
def test_both_systems_survive_the_way_to_millimetre_floats(ticks: int) -> None:
    assert to_ticks(to_mm(ticks)) == ticks
