"""Exact lengths: read 12' 6-3/4", 3.81 m or 480 mm; print them back.

Inside the program every length is a whole number of *ticks* of 3.125 micrometres, because
1/64 in is exactly 127 ticks and 0.1 mm exactly 32: both systems are exact, so "the joint
falls on the wall" is an equality and not a tolerance.
"""

from __future__ import annotations

import re
from enum import Enum
from fractions import Fraction

TICKS_PER_MM = 320
TICKS_PER_INCH = 8128
TICKS_PER_FOOT = 12 * TICKS_PER_INCH

UNIT_TICKS = {
    "in": TICKS_PER_INCH,
    "ft": TICKS_PER_FOOT,
    "mm": TICKS_PER_MM,
    "cm": 10 * TICKS_PER_MM,
    "m": 1000 * TICKS_PER_MM,
}


class System(Enum):
    """The system a job is printed in."""

    IMPERIAL = "feet-inches"
    METRIC = "millimetres"


class LengthError(ValueError):
    """A text that is not a length: what is wrong with it, and what would be right."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(f"{problem}; {remedy}")
        self.problem = problem
        self.remedy = remedy


_FRACTION = r"\d+/[1-9]\d*"
_NUMBER = (
    r"(?:(?P<{0}w>\d+)(?:(?: +| *- *)(?P<{0}f>" + _FRACTION + r"))?"
    r"|(?P<{0}d>\d+\.\d+)|(?P<{0}g>" + _FRACTION + r"))"
)
_FEET = re.compile(
    r"(?:" + _NUMBER.format("a") + r"\s*(?:'|ft|feet|foot)(?:\s*-\s*(?=\d)|\s*))?"
    r"(?:" + _NUMBER.format("b") + r"\s*(?:\"|''|in|inch|inches))?",
    re.ASCII,
)
_METRIC = re.compile(r"(?P<n>\d+(?:\.\d+)?)\s*(?P<u>mm|cm|m)", re.ASCII)
_BARE = re.compile(_NUMBER.format("b"), re.ASCII)

EXPECTED = "write a length such as 12' 6-3/4\", 150.75 in, 3.81 m, 381 cm or 3810 mm"

LONGEST_TEXT = 60
"""No length takes more characters than this; the limit keeps absurd input cheap."""

# Typed primes, curly quotes and the minus sign mean the same as their plain forms.
_PLAIN = {0x2032: "'", 0x2019: "'", 0x2033: '"', 0x201D: '"', 0x2212: "-"}


def _number(match: re.Match[str], key: str) -> Fraction | None:
    """The number under one prefix of a match: whole, fraction or both; None if absent."""
    found = [Fraction(text) for end in "wfdg" if (text := match.group(key + end)) is not None]
    return sum(found, Fraction(0)) if found else None


def parse(text: str, bare_unit: str | None = None) -> int:
    """Read a length into ticks.

    ``bare_unit`` is the unit of a bare number (a key of ``UNIT_TICKS``); None refuses one,
    except 0, which needs no unit. A minus sign in front is allowed (coordinates). The nearest
    tick is taken: at most 1.6 micrometres away, and no way at all for sixty-fourths and
    tenths of a millimetre. Raises LengthError with what would be right.
    """
    if len(text) > LONGEST_TEXT:
        raise LengthError(f"'{text[:20]}...' is not a length", EXPECTED)
    clean = text.strip().translate(_PLAIN)
    sign = -1 if clean.startswith("-") else 1
    body = clean.removeprefix("-").strip()
    ticks = _ticks(body, bare_unit)
    if ticks is None:
        raise LengthError(f"'{text}' is not a length", EXPECTED)
    return sign * round(ticks)


def _ticks(body: str, bare_unit: str | None) -> Fraction | None:
    """Unsigned exact ticks of a cleaned text, or None when it is not a length."""
    metric = _METRIC.fullmatch(body)
    if metric:
        return Fraction(metric["n"]) * UNIT_TICKS[metric["u"]]
    bare = _BARE.fullmatch(body)
    if bare:
        return _bare_ticks(body, _number(bare, "b") or Fraction(0), bare_unit)
    feet = _FEET.fullmatch(body)
    if not feet:
        return None
    ft, inch = _number(feet, "a"), _number(feet, "b")
    if ft is None and inch is None:
        return None
    return (ft or Fraction(0)) * TICKS_PER_FOOT + (inch or Fraction(0)) * TICKS_PER_INCH


def _bare_ticks(body: str, number: Fraction, bare_unit: str | None) -> Fraction:
    """A bare number in the declared unit; LengthError without one, unless it is 0."""
    if bare_unit is not None:
        return number * UNIT_TICKS[bare_unit]
    if number == 0:
        return number
    raise LengthError(f"'{body}' has no unit", "add in, ft, mm, cm or m, or declare 'bare_numbers'")


def show(ticks: int, system: System, denominator: int = 16) -> str:
    """Print ticks as feet-inches-sixteenths or millimetres, to what a tape can show.

    Imperial lengths are rounded to 1/``denominator`` in, metric ones to 0.1 mm; a rounded
    value is not marked, so print exact values where exactness is the point.
    """
    if system is System.METRIC:
        tenths = round(Fraction(ticks, 32))
        whole, rest = divmod(abs(tenths), 10)
        sign = "-" if tenths < 0 else ""
        return f"{sign}{whole}.{rest} mm" if rest else f"{sign}{whole} mm"
    parts = round(Fraction(ticks * denominator, TICKS_PER_INCH))
    sign = "-" if parts < 0 else ""
    inches, rest = divmod(abs(parts), denominator)
    feet, inches = divmod(inches, 12)
    fraction = str(Fraction(rest, denominator)) if rest else ""
    tail = "-".join(text for text in (str(inches) if inches or not rest else "", fraction) if text)
    return f"{sign}{feet}' {tail}\"" if feet else f'{sign}{tail}"'


def to_mm(ticks: int) -> float:
    """Ticks as millimetres, for shapely, pictures and layouts.json."""
    return ticks / TICKS_PER_MM


def to_ticks(mm: float) -> int:
    """The nearest tick to a length in millimetres."""
    return round(mm * TICKS_PER_MM)
