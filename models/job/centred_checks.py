"""Axes that nothing of a zone can be centred on are refused with the reason."""

from __future__ import annotations

import math
from collections.abc import Sequence

from models.job.angles import is_parallel, is_square
from models.job.data import Axis, BondKind, CentreOn, Point
from models.job.item import Item
from models.job.rule_checks import Basis


def check_centred(item: Item, axis: Axis, on: CentreOn, basis: Basis) -> None:
    """Refuse an axis none of the zone's lines, nor the middle of its units, can lie on."""
    if not basis.directions:
        raise item.error(
            "the strips of this border each lie along their own side",
            "leave 'centred' out, or give the border 'directions'",
        )
    if basis.bond.kind is BondKind.HERRINGBONE:
        _check_herringbone(item, axis, on, basis)
    else:
        _check_rows(item, axis, basis)


def _check_rows(item: Item, axis: Axis, basis: Basis) -> None:
    """An axis may run along the rows, or square to them where end joints line up."""
    vectors = [direction.vector for direction in basis.directions]
    if any(is_parallel(axis.direction, vector) for vector in vectors):
        return
    if not any(is_square(axis.direction, vector) for vector in vectors):
        raise item.error(
            f"axis '{axis.name}' is oblique to every direction rows may run in "
            f"({_off_by(axis.direction, vectors)} off the nearest)",
            f"add {{along: {axis.name}}} to the directions",
        )
    if basis.bond.kind is not BondKind.STRAIGHT:
        raise item.error(
            f"axis '{axis.name}' is square to the rows, and in a {basis.bond.kind.value} bond the "
            "end joints do not line up on it",
            f"write 'bond: straight', or lay the rows along '{axis.name}'",
        )


def _check_herringbone(item: Item, axis: Axis, on: CentreOn, basis: Basis) -> None:
    """An axis may run along the line of points; units' middles may lie on one square to it.

    Along the units themselves lines run through only where a unit is a whole number of
    widths long.
    """
    length, width = basis.product.pitch
    square_only = False
    for direction in basis.directions:
        flat, points = _herringbone_ways(direction.vector, basis.bond.slant)
        along_units = is_parallel(axis.direction, flat) or is_square(axis.direction, flat)
        if is_parallel(axis.direction, points) or (along_units and length % width == 0):
            return
        if is_square(axis.direction, points):
            if on is not CentreOn.JOINT:
                return
            square_only = True
    if square_only:
        raise item.error(
            f"axis '{axis.name}' is square to the line of points, and no joint runs along it",
            "write 'on: unit'",
        )
    raise item.error(
        f"axis '{axis.name}' runs neither along the line of points nor square to it, and no "
        "other line runs through this herringbone",
        f"lay the herringbone along '{axis.name}', its units at 45 degrees to it",
    )


def _herringbone_ways(direction: Point, slant: int) -> tuple[Point, Point]:
    """The directions of half the units, and of the line of points 45 degrees to its left."""
    dx, dy = direction
    flat = direction if slant == 90 else (dx + dy, dy - dx)
    return flat, (flat[0] - flat[1], flat[0] + flat[1])


def _off_by(axis: Point, vectors: Sequence[Point]) -> str:
    """The least angle between an axis and the rows or the line square to them."""
    angle = math.degrees(math.atan2(axis[1], axis[0]))
    apart = (
        (angle - math.degrees(math.atan2(vector[1], vector[0])) + 45) % 90 - 45
        for vector in vectors
    )
    return f"{min(map(abs, apart)):.3g} degrees"
