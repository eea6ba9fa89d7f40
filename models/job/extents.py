"""Lengths left to choose: from a least to a most, in lengths or in whole units."""

from __future__ import annotations

import re
from collections.abc import Callable

from models.job.data import Extent, Product
from models.job.errors import shown
from models.job.item import Item
from models.job.measures import Measures

_UNITS = re.compile(r"(\d{1,4}) *units?", re.ASCII)


def read_range(item: Item, read: Callable[[Item], int]) -> tuple[int, int]:
    """The two ends of a range, the first below the second."""
    low, high = (read(item.group[key]) for key in ("from", "to"))
    if low >= high:
        raise item.error(
            f"'from' {shown(item.group['from'].text)} is not below 'to' "
            f"{shown(item.group['to'].text)}",
            "write the least first, or one length in place of a range",
        )
    return low, high


def read_width(item: Item, product: Product, measures: Measures) -> Extent:
    """A border's width: a length, whole units across (joints included), or a range of one."""
    step = product.pitch[1]
    if isinstance(item.value, str):
        in_units = _UNITS.fullmatch(item.text) is not None
        width = _width(item, step, measures)
        return Extent(width, width, step if in_units else 0)
    units = [_UNITS.fullmatch(item.group[key].text) is not None for key in ("from", "to")]
    if any(units) and not all(units):
        raise item.error(
            "mixes a length with a number of units", "write both ends as lengths, or both in units"
        )
    low, high = read_range(item, lambda end: _width(end, step, measures))
    return Extent(low, high, step if all(units) else 0)


def _width(item: Item, step: int, measures: Measures) -> int:
    """One width in ticks."""
    units = _UNITS.fullmatch(item.text)
    if units is None:
        return measures.size(item)
    count = int(units[1])
    if count == 0:
        raise item.error("0 units are no width", "write 1 unit or more")
    return count * step
