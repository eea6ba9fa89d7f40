"""Reads what all layouts of a document share: products, zones, axes, features and links."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import shapely

from models.job.data import BondKind, Marks, Share
from solver.audit.document.claims import (
    AxisClaim,
    FeatureClaim,
    LinkClaim,
    MirrorClaim,
    ProductClaim,
    SideClaim,
    ZoneClaim,
)
from solver.audit.document.named import one_of, pair
from solver.audit.document.node import Node

LARGEST_STEP = 500
"""The largest denominator a bond's step can have."""


def product(node: Node) -> ProductClaim:
    """A product."""
    scrap, shop, price = (node.optional(key) for key in ("scrap", "shop_cuts", "price"))
    return ProductClaim(
        node.item("name").text(),
        node.item("length").positive(),
        node.item("width").positive(),
        node.item("joint").not_negative(),
        node.item("kerf").not_negative(),
        _per_carton(node),
        node.item("directional").flag(),
        _lengths(node),
        0.0 if scrap is None else scrap.not_negative(),
        False if shop is None else shop.flag(),
        None if price is None or price.value is None else price.not_negative(),
    )


def _per_carton(node: Node) -> int:
    per_carton = node.item("per_carton")
    if per_carton.whole() < 1:
        raise per_carton.wrong("1 or more")
    return per_carton.whole()


def _lengths(node: Node) -> tuple[tuple[float, int], ...]:
    """The lengths a carton holds and how many of each; none when all are of one."""
    listed = node.optional("lengths")
    if listed is None:
        return ()
    found = tuple((n.item("length").positive(), _per_carton(n)) for n in listed.items())
    if found and sum(count for _, count in found) != node.item("per_carton").whole():
        raise listed.wrong("a list whose numbers a carton add up to per_carton")
    return found


def zone(node: Node, products: Mapping[str, ProductClaim]) -> ZoneClaim:
    """A zone."""
    bond, step = _bond(node)
    keys = ("double", "marks", "sides", "trim")
    double, marks, sides, trim = (node.optional(key) for key in keys)
    return ZoneClaim(
        node.item("name").text(),
        one_of(node.item("product"), products).name,
        bond,
        step,
        polygon(node.item("polygon")),
        False if double is None else double.flag(),
        None if marks is None else _turned(marks),
        _mirrors(node),
        None if sides is None else tuple(_side(side) for side in sides.items()),
        0.0 if trim is None else trim.not_negative(),
    )


def _bond(node: Node) -> tuple[BondKind, Fraction]:
    """A bond, and for a stepped one its step: in words ("stepped 1/3") or under "step"."""
    bond, step = node.item("bond"), node.optional("step")
    word, _, fraction = bond.text().partition(" ")
    kind = one_of(Node(word, bond.path), {each.value: each for each in BondKind})
    if kind is not BondKind.STEPPED:
        return kind, Fraction(0)
    if not fraction and step is not None:
        # Written to six decimals: the simple fraction that was meant.
        return kind, Fraction(step.number()).limit_denominator(LARGEST_STEP)
    try:
        return kind, Fraction(fraction)
    except (ValueError, ZeroDivisionError):
        raise bond.wrong('a stepped bond with its step, such as "stepped 1/3"') from None


def _turned(node: Node) -> bool:
    """Whether marks are quarter-turned."""
    return one_of(node, {each.value: each for each in Marks}) is Marks.QUARTER_TURNED


def _mirrors(node: Node) -> MirrorClaim | None:
    """What a zone is the reflection of, if anything."""
    found = node.optional("mirrors")
    if found is None or found.value is None:
        return None
    return MirrorClaim(found.item("zone").text(), axis(found.item("axis")))


def _side(node: Node) -> SideClaim:
    ends = Node([node.item("from").value, node.item("to").value], node.path)
    return SideClaim(ends.line(), node.item("name").text())


def polygon(node: Node) -> shapely.Polygon:
    """A polygon of keys ``outer`` and ``holes``; it may be invalid as a shape."""
    holes = [hole.ring() for hole in node.item("holes").items()]
    return shapely.Polygon(node.item("outer").ring(), holes)


def axis(node: Node) -> AxisClaim:
    """An axis, with a name or without."""
    name = node.optional("name")
    return AxisClaim(
        None if name is None else name.text(),
        node.item("point").point(),
        node.item("direction").direction(),
    )


def feature(node: Node) -> FeatureClaim:
    """A held feature."""
    outline = node.item("polygon")
    as_table = isinstance(outline.value, Mapping)
    return FeatureClaim(
        node.item("name").text(),
        polygon(outline) if as_table else shapely.Polygon(outline.ring()),
        axis(node.item("axis")),
        node.item("off_axis").number(),
    )


def link(node: Node) -> LinkClaim:
    """Two linked zones."""
    share = one_of(node.item("share"), {each.value: each for each in Share})
    return LinkClaim(pair(node.item("zones"), "zones"), share.value)
