"""Offcuts: none smaller than the product's least is used again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from solver.audit.document.claims import ProductClaim
from solver.audit.findings import Finding
from solver.audit.measured.laid import Laid
from solver.audit.measured.stock import Place, shared, stock_size
from solver.audit.tolerances import TOUCH

Size = tuple[float, float]
"""Along a unit and across it."""


def offcuts(rank: int, zones: Sequence[Laid]) -> Iterator[Finding]:
    """What the earlier of two pieces of a unit leaves for the later is not scrap.

    Pieces are laid by zone, row and place along it. Where two may lie end to end as well as
    side by side, either way will do.
    """
    for unit, places in shared(zones).items():
        product = zones[places[0][0]].product
        if product.scrap <= 0:
            continue
        laid = sorted(places, key=lambda place: _order(zones, place))
        for one, two in combinations(laid, 2):
            left = _left(zones, product, one, two)
            if left is not None and left < product.scrap - TOUCH:
                labels = [zones[zone].label(place) for zone, place in (one, two)]
                where = f"unit {unit}"
                claimed = f"{labels[1]} from what {labels[0]} leaves"
                found = f"{left:.3f} mm left, scrap below {product.scrap:.3f} mm"
                yield Finding(rank, "offcuts", where, claimed, found)


def _order(zones: Sequence[Laid], place: Place) -> tuple[int, int, float]:
    """Where a piece comes in the order of laying."""
    laid = zones[place[0]]
    left, _, right, _ = laid.bounds[place[1]].tolist()
    return place[0], int(laid.rows[place[1]]), (left + right) / 2


def _left(zones: Sequence[Laid], product: ProductClaim, one: Place, two: Place) -> float | None:
    """The most the earlier piece may leave for the later, None when they lie in neither way."""
    unit = stock_size(zones, one)
    turned = not product.directional and abs(unit[0] - unit[1]) <= TOUCH
    found = [
        unit[axis] - first[axis] - product.kerf
        for axis in (0, 1)
        for first in _ways(_size(zones, one), turned)
        for second in _ways(_size(zones, two), turned)
        if first[axis] + second[axis] + product.kerf <= unit[axis] + TOUCH
    ]
    return max(found, default=None)


def _size(zones: Sequence[Laid], place: Place) -> Size:
    """The extent of a piece along and across its unit."""
    laid = zones[place[0]]
    left, low, right, high = laid.bounds[place[1]].tolist()
    size = right - left, high - low
    return size[::-1] if laid.pieces.quarter[place[1]] else size


def _ways(size: Size, turned: bool) -> tuple[Size, ...]:
    """A piece as it lies in its unit, and turned a quarter where that is possible."""
    return (size, size[::-1]) if turned else (size,)
