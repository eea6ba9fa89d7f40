"""Lengths, points and numbers of a job file, read exactly."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from models.job.data import Point
from models.job.errors import shown
from models.job.item import Item
from models.lengths import TICKS_PER_MM, LengthError, System, parse, show

# Short, and no exponent: Fraction would take 1e9999999 and never come back.
_FRACTION = re.compile(r"-?(?:\d{1,6}/0*[1-9]\d{0,5}|\d{1,6}(?:\.\d{1,12})?)", re.ASCII)

LONGEST = 10_000_000 * TICKS_PER_MM
"""10 km: beyond it the number is a slip, not a room."""


@dataclass(frozen=True, slots=True)
class Measures:
    """How this job writes lengths: its system, and the unit of bare numbers (or None)."""

    system: System
    bare_unit: str | None

    def length(self, item: Item) -> int:
        """Any length in ticks; JobError for a text that is none or over 10 km."""
        return self._read(item.text, item)

    def size(self, item: Item) -> int:
        """A length above 0 in ticks."""
        ticks = self.length(item)
        if ticks <= 0:
            raise item.error(f"{shown(item.text)} is not above 0", "write a length above 0")
        return ticks

    def gap(self, item: Item) -> int:
        """A length of 0 or more in ticks."""
        ticks = self.length(item)
        if ticks < 0:
            raise item.error(f"{shown(item.text)} is below 0", "write 0 or a length above it")
        return ticks

    def gap_in(self, group: Item, key: str, otherwise: int = 0) -> int:
        """The length of 0 or more under an optional key."""
        item = group.find(key)
        return otherwise if item is None else self.gap(item)

    def point(self, item: Item) -> Point:
        """A point [x, y] in ticks; errors name the point."""
        x, y = item.entries
        return self._read(x.text, item), self._read(y.text, item)

    def points(self, item: Item) -> tuple[Point, ...]:
        """A list of points."""
        return tuple(self.point(entry) for entry in item.entries)

    def sides(self, item: Item) -> Point:
        """A size [length, width], both above 0."""
        first, second = self.point(item)
        if first <= 0 or second <= 0:
            raise item.error("a side is not above 0", "write two lengths above 0")
        return first, second

    def pick(self, imperial: str, metric: str) -> int:
        """A default that differs by system, in ticks."""
        return parse(imperial if self.system is System.IMPERIAL else metric)

    def show(self, ticks: int) -> str:
        """A length in the job's system, for messages."""
        return show(ticks, self.system, 64)

    def _read(self, text: str, item: Item) -> int:
        """Ticks of a text; errors are about ``item``."""
        try:
            ticks = parse(text, self.bare_unit)
        except LengthError as error:
            raise item.error(error.problem, error.remedy) from None
        if abs(ticks) > LONGEST:
            raise item.error(f"{shown(text)} is over 10 km", "check the number and its unit")
        return ticks


def read_measures(root: Item) -> Measures:
    """The job's system and the unit of its bare numbers."""
    bare = root.find("bare_numbers")
    return Measures(System(root.group["system"].text), None if bare is None else bare.text)


def read_degrees(item: Item) -> Fraction:
    """An angle in degrees; JobError beyond a full turn either way."""
    degrees = Fraction(item.text)
    if abs(degrees) > 360:
        raise item.error(f"{shown(item.text)} is over a full turn", "write -360 to 360 degrees")
    return degrees


def read_fraction(item: Item) -> Fraction:
    """A fraction such as 1/3 or 0.25; JobError for anything else."""
    if not _FRACTION.fullmatch(item.text):
        raise item.error(f"{shown(item.text)} is not a fraction", "write a fraction such as 1/3")
    return Fraction(item.text)
