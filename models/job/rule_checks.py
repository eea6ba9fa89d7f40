"""Rules that could never hold are refused with the reason, before any search."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.job.data import Bond, BondKind, Direction, Limit, Product
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
