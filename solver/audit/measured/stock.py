"""What is bought of a product: its units by their length, and their area."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from solver.audit.document.claims import ProductClaim
from solver.audit.measured.laid import Laid

Lengths = dict[float, int]
"""Units by their length without joint in mm; empty where all are of one length."""


def units_by_length(zones: Sequence[Laid]) -> Lengths:
    """The units some piece of these zones, all of one product, is cut from."""
    if not zones[0].product.lengths:
        return {}
    units = {
        unit: length
        for laid in zones
        for unit, length in zip(
            laid.pieces.unit, laid.pieces.unit_length.round(3).tolist(), strict=True
        )
    }
    return dict(Counter(units.values()))


def bought_area(product: ProductClaim, units: int, lengths: Lengths) -> float:
    """Area of so many units in mm2, joints included."""
    long, wide = product.pitch
    if not lengths:
        return units * long * wide
    return sum(count * (length + product.joint) for length, count in lengths.items()) * wide
