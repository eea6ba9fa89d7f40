"""What is bought beyond the units laid: spare stock and breakage."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from models.job.item import Item

_PER_CARTON = re.compile(r"1 +carton +per +(?P<number>\d+)", re.ASCII)
_MOST_PERCENT = 100


@dataclass(frozen=True, slots=True)
class Spare:
    """Spare stock as a percentage, as units, or as a carton per so many; the others are 0."""

    percent: Fraction = Fraction(0)
    units: int = 0
    carton_per: int = 0


def read_spare(root: Item) -> Spare:
    """The spare stock asked for; JobError for more than everything laid."""
    item = root.find("spare")
    if item is None:
        return Spare()
    cartons = _PER_CARTON.fullmatch(item.text)
    if cartons is not None:
        return Spare(carton_per=int(cartons["number"]))
    if "%" in item.text:
        return Spare(percent=_percent(item, "write a percentage of the units laid, or '20 units'"))
    return Spare(units=int(item.text.split()[0]))


def read_breakage(root: Item) -> Fraction:
    """The percentage of the units laid bought on top for breakage."""
    item = root.find("breakage")
    return Fraction(0) if item is None else _percent(item, "write a percentage of the units laid")


def _percent(item: Item, remedy: str) -> Fraction:
    """A percentage as written, at most all there is."""
    percent = Fraction(item.text.rstrip(" %"))
    if percent > _MOST_PERCENT:
        raise item.error("is over 100 %", remedy)
    return percent
