"""What is bought of a product: units by their length, their area, and what each serves."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence

from solver.audit.document.claims import ProductClaim
from solver.audit.measured.laid import Laid

Lengths = dict[float, int]
"""Units by their length without joint in mm; empty where all are of one length."""

Place = tuple[int, int]
"""Which zone of the layout, and which of its pieces."""


def shared(zones: Sequence[Laid]) -> dict[str, list[Place]]:
    """The units that serve more than one piece, with those pieces."""
    places: dict[str, list[Place]] = defaultdict(list)
    for number, laid in enumerate(zones):
        for place, unit in enumerate(laid.pieces.unit):
            places[unit].append((number, place))
    return {unit: those for unit, those in places.items() if len(those) > 1}


def stock_size(zones: Sequence[Laid], place: Place) -> tuple[float, float]:
    """Length and width of the unit a piece is cut from, joint included."""
    laid = zones[place[0]]
    along, across = laid.unit[place[1]].tolist()
    return (across, along) if laid.pieces.quarter[place[1]] else (along, across)


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
