"""Rules that could never hold are refused with the reason, before any search."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.job.angles import is_parallel, is_square
from models.job.data import Axis, Bond, BondKind, Direction, Limit, Point, Product
from models.job.item import Item
from models.job.measures import Measures

_ABOVE_ZERO = ("smallest_cut", "smallest_end", "joint_offset", "second_joint_offset", "no_stair")
_JOINTS = {"joint_offset": 1, "second_joint_offset": 2}
_IN_HERRINGBONE = {
    "joint_offset": "the bond itself says where joints fall",
    "second_joint_offset": "the bond itself says where joints fall",
    "half_unit_edges": "units meet every edge both ways",
    "balanced_cuts": "units meet every edge both ways",
}


@dataclass(frozen=True, slots=True)
class Basis:
    """What a rule is judged against: the product, its bond and the directions of its rows.

    ``directions`` are empty in a border whose strips each lie along their own side.
    """

    product: Product
    bond: Bond
    directions: Sequence[Direction]


def check_meaning(key: str, item: Item, basis: Basis) -> None:
    """Refuse a rule this bond or this product gives no meaning."""
    if item.value == "off":
        return
    kind, remedy = basis.bond.kind, f"leave '{key}' out"
    if key == "no_stair" and kind is not BondKind.STAGGERED:
        raise item.error(f"a {kind.value} bond repeats its shift in every row", remedy)
    if key == "no_stair" and basis.product.mix:
        raise item.error("units of several lengths make no stair", remedy)
    if key in _IN_HERRINGBONE and kind is BondKind.HERRINGBONE:
        raise item.error(f"means nothing in a herringbone: {_IN_HERRINGBONE[key]}", remedy)


def check_limit(key: str, item: Item, limit: Limit, basis: Basis, measures: Measures) -> None:
    """Refuse a limit that no layout of this product and bond could keep."""
    if key in _ABOVE_ZERO and limit.limit == 0:
        raise item.error("a limit of 0 asks for nothing", "write a limit above 0, or 'off'")
    product = basis.product
    if key in ("smallest_cut", "smallest_end"):
        side, words = (product.width, "wide") if key == "smallest_cut" else (product.length, "long")
        if limit.limit > side:
            raise item.error(
                f"{measures.show(limit.limit)} is more than the whole unit, which is "
                f"{measures.show(side)} {words}",
                f"write at most {measures.show(side)}",
            )
    if key in _JOINTS:
        _check_joints(item, limit.limit, _JOINTS[key], product, basis.bond, measures)


def _check_joints(
    item: Item, limit: int, rows: int, product: Product, bond: Bond, measures: Measures
) -> None:
    """Refuse end joints asked to be further apart than the bond can ever put them."""
    pitch = product.pitch[0]
    if bond.kind is BondKind.STAGGERED:
        if 2 * limit > pitch:
            every = "at least every" if product.mix else "every"
            raise item.error(
                f"{measures.show(limit)} is more than half a unit: end joints come {every} "
                f"{measures.show(pitch)}, so one is always within half of that",
                f"write at most {measures.show(pitch // 2)}",
            )
        return
    step = Fraction(0) if bond.kind is BondKind.STRAIGHT else bond.step * rows % 1
    apart = math.floor(min(step, 1 - step) * pitch)
    if limit > apart:
        raise item.error(
            f"{measures.show(limit)} cannot hold: in this {bond.kind.value} bond these end "
            f"joints are {measures.show(apart)} apart",
            "leave the rule out, or choose another bond",
        )


def check_centred(item: Item, axis: Axis, bond: Bond, directions: Sequence[Direction]) -> None:
    """Refuse an axis neither row lines nor end joints can ever lie on."""
    if bond.kind is BondKind.HERRINGBONE:
        raise item.error(
            "a herringbone has no row line or joint line that runs from wall to wall",
            "leave 'centred' out",
        )
    if not directions:
        raise item.error(
            "the strips of this border each lie along their own side",
            "leave 'centred' out, or give the border 'directions'",
        )
    vectors = [direction.vector for direction in directions]
    if any(is_parallel(axis.direction, vector) for vector in vectors):
        return
    if not any(is_square(axis.direction, vector) for vector in vectors):
        raise item.error(
            f"axis '{axis.name}' is oblique to every direction rows may run in "
            f"({_off_by(axis.direction, vectors)} off the nearest)",
            f"add {{along: {axis.name}}} to the directions",
        )
    if bond.kind is not BondKind.STRAIGHT:
        raise item.error(
            f"axis '{axis.name}' is square to the rows, and in a {bond.kind.value} bond the end "
            "joints do not line up on it",
            f"write 'bond: straight', or lay the rows along '{axis.name}'",
        )


def _off_by(axis: Point, vectors: Sequence[Point]) -> str:
    """The least angle between an axis and the rows or the line square to them."""
    angle = math.degrees(math.atan2(axis[1], axis[0]))
    apart = (
        (angle - math.degrees(math.atan2(vector[1], vector[0])) + 45) % 90 - 45
        for vector in vectors
    )
    return f"{min(map(abs, apart)):.3g} degrees"
