import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.lengths import (
    TICKS_PER_FOOT,
    TICKS_PER_INCH,
    TICKS_PER_MM,
    UNIT_TICKS,
    LengthError,
    parse,
)

INCH, FOOT, MM = TICKS_PER_INCH, TICKS_PER_FOOT, TICKS_PER_MM


def test_ticks_make_sixty_fourths_and_tenths_of_a_millimetre_whole() -> None:
    # 1 in = 25.4 mm exactly: the international inch (agreement of 1959, from memory).
    assert INCH * 10 == 254 * MM
    assert INCH % 64 == 0
    assert MM % 10 == 0


@pytest.mark.parametrize(
    ("text", "ticks"),
    [
        ("12' 6-3/4\"", 12 * FOOT + 6 * INCH + INCH * 3 // 4),
        ("12' 6 3/4\"", 12 * FOOT + 6 * INCH + INCH * 3 // 4),
        ("12'-6\"", 12 * FOOT + 6 * INCH),
        ("12' - 6\"", 12 * FOOT + 6 * INCH),
        ("12'6\"", 12 * FOOT + 6 * INCH),
        ("12'", 12 * FOOT),
        ("12 ft 6 in", 12 * FOOT + 6 * INCH),
        ("12 feet 6 inches", 12 * FOOT + 6 * INCH),
        ("1 foot 1 inch", 13 * INCH),
        ("3' 3/4\"", 3 * FOOT + INCH * 3 // 4),
        ("1/64 in", 127),
        ("6''", 6 * INCH),
        ("150.75 in", 603 * INCH // 4),
        ("472.68 ft", Fraction("472.68") * FOOT),
        ("12\u2032 6\u2033", 12 * FOOT + 6 * INCH),
        ("12\u2019 6\u201d", 12 * FOOT + 6 * INCH),
        ("3.81 m", 3810 * MM),
        ("381 cm", 3810 * MM),
        ("3810mm", 3810 * MM),
        ("0.1 mm", 32),
        (" 480 mm ", 480 * MM),
        ("-6 in", -6 * INCH),
        ("- 6 in", -6 * INCH),
        ("\u22126 in", -6 * INCH),
        ("-1' 6\"", -18 * INCH),
        ("0", 0),
        ("0.0", 0),
        ("-0", 0),
        ("0/4", 0),
    ],
)
def test_reads_what_people_write(text: str, ticks: Fraction | int) -> None:
    assert parse(text) == round(ticks)


@pytest.mark.parametrize("unit", sorted(UNIT_TICKS))
def test_a_bare_number_takes_the_declared_unit(unit: str) -> None:
    assert parse("12", unit) == 12 * UNIT_TICKS[unit]
    assert parse("12 1/2", unit) == round(Fraction(25, 2) * UNIT_TICKS[unit])
    assert parse("3/4", unit) == round(Fraction(3, 4) * UNIT_TICKS[unit])
    assert parse("5 mm", unit) == 5 * MM


def test_a_bare_number_without_a_declared_unit_is_refused() -> None:
    with pytest.raises(LengthError, match=r"^'12\.50' has no unit; add in, ft, mm, cm or m"):
        parse("12.50")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "-",
        "--6 in",
        "12'-",
        "12' -",
        "12' 6",
        "6.5-3/4 in",
        "6 -- 3/4 in",
        "6/0 in",
        "12:30",
        "1_000 mm",
        "1e3 mm",
        "3,81 m",
        "12 yd",
        "mm",
        "nan",
        ".inf",
        "+6 in",
        "6 in 2'",
        "6 in 2 in",
        "1/2/3 in",
        "\u0661\u0662 mm",
        "12 m m",
    ],
)
def test_refuses_what_is_not_a_length(text: str) -> None:
    with pytest.raises(LengthError, match=re.escape(f"'{text}' is not a length; write a length")):
        parse(text, "mm")


def test_an_absurdly_long_number_is_refused_in_one_short_line() -> None:
    with pytest.raises(LengthError, match=r"^'1{20}\.\.\.' is not a length") as caught:
        parse("1" * 5000 + " mm")
    assert len(str(caught.value)) < 150


def test_the_error_keeps_problem_and_remedy_apart() -> None:
    with pytest.raises(LengthError) as caught:
        parse("a bit")
    assert caught.value.problem == "'a bit' is not a length"
    assert caught.value.remedy.startswith("write a length such as 12' 6-3/4\"")


@given(st.integers(0, 10**7), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_decimals_are_read_exactly_when_a_tick_can_hold_them(hundredths: int, unit: str) -> None:
    text = f"{hundredths // 100}.{hundredths % 100:02d} {unit}"
    assert abs(parse(text) - Fraction(hundredths, 100) * UNIT_TICKS[unit]) <= Fraction(1, 2)


@given(
    feet=st.integers(0, 5000),
    inches=st.integers(0, 11),
    sixty_fourths=st.integers(0, 63),
    gap=st.sampled_from([" ", "-", " - "]),
    sign=st.sampled_from(["", "-"]),
)
def test_feet_inches_and_sixty_fourths_are_exact(
    feet: int, inches: int, sixty_fourths: int, gap: str, sign: str
) -> None:
    ticks = feet * FOOT + inches * INCH + sixty_fourths * 127
    text = f"{sign}{feet}' {inches}{gap}{sixty_fourths}/64\""
    assert parse(text) == (-ticks if sign else ticks)


@given(st.text(max_size=80), st.sampled_from([None, *sorted(UNIT_TICKS)]))
def test_any_text_is_read_or_refused_with_a_remedy(text: str, bare: str | None) -> None:
    try:
        ticks = parse(text, bare)
    except LengthError as error:
        assert error.remedy  # noqa: PT017 - either outcome is right, a refusal must say more
    else:
        assert isinstance(ticks, int)


@given(st.text(alphabet="0123456789 '\"-/.inftmc", max_size=25))
def test_a_leading_minus_only_changes_the_sign(body: str) -> None:
    try:
        ticks = parse(body)
    except LengthError:
        return
    if not body.strip().startswith("-"):
        assert parse(f"-{body}") == -ticks
