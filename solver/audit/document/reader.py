"""Reads a layouts.json document into claims; every mistake is named by its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import TypeVar

import numpy as np
import shapely

from models.job.data import RULE_NAMES, BondKind, CentreOn, Kind
from solver.audit.document.claims import (
    SIZE_KEYS,
    AxisClaim,
    Claims,
    FeatureClaim,
    FiguresClaim,
    LaidZoneClaim,
    LayoutClaim,
    OrderClaim,
    PieceClaims,
    ProductClaim,
    RowClaim,
    RuleClaim,
    RunClaim,
    ZoneClaim,
)
from solver.audit.document.node import Node
from solver.audit.document.table import Table

CONTRACT = 1
"""The contract number this audit reads."""

LARGEST_STEP = 500
"""The largest denominator a bond's step can have."""

T = TypeVar("T")


def read(document: Mapping[str, object]) -> Claims:
    """The claims of a document. Raises AuditInputError."""
    root = Node(document, "")
    if root.item("contract").whole() != CONTRACT:
        raise root.item("contract").wrong(f"contract {CONTRACT}, the one this program reads")
    products = _by_name(root.item("products"), _product, lambda one: one.name)
    zones = _by_name(root.item("zones"), lambda node: _zone(node, products), lambda one: one.name)
    axes, hidden = root.optional("axes"), root.optional("hidden_walls")
    return Claims(
        zones,
        products,
        tuple(_feature(node) for node in root.item("features").items()),
        None if axes is None else tuple(_axis(node) for node in axes.items()),
        None if hidden is None else frozenset(node.text() for node in hidden.items()),
        tuple(_layout(node, zones, products) for node in root.item("layouts").some()),
    )


def _by_name(node: Node, make: Callable[[Node], T], name: Callable[[T], str]) -> dict[str, T]:
    """A list of named things as a table, names unique."""
    found: dict[str, T] = {}
    for item in node.some():
        thing = make(item)
        if name(thing) in found:
            raise item.item("name").wrong("a name used once only")
        found[name(thing)] = thing
    return found


def _one_of(node: Node, known: Mapping[str, T]) -> T:
    """The thing a text names."""
    if node.text() not in known:
        raise node.wrong(f"one of {', '.join(known)}")
    return known[node.text()]


def _product(node: Node) -> ProductClaim:
    per_carton = node.item("per_carton")
    if per_carton.whole() < 1:
        raise per_carton.wrong("1 or more")
    return ProductClaim(
        node.item("name").text(),
        node.item("length").positive(),
        node.item("width").positive(),
        node.item("joint").not_negative(),
        node.item("kerf").not_negative(),
        per_carton.whole(),
        node.item("directional").flag(),
    )


def _bond(zone: Node) -> tuple[BondKind, Fraction]:
    """A bond, and for a stepped one its step: in words ("stepped 1/3") or under "step"."""
    node, step = zone.item("bond"), zone.optional("step")
    word, _, fraction = node.text().partition(" ")
    kind = _one_of(Node(word, node.path), {bond.value: bond for bond in BondKind})
    if kind is not BondKind.STEPPED:
        return kind, Fraction(0)
    if not fraction and step is not None:
        # Written to six decimals: the simple fraction that was meant.
        return kind, Fraction(step.number()).limit_denominator(LARGEST_STEP)
    try:
        return kind, Fraction(fraction)
    except (ValueError, ZeroDivisionError):
        raise node.wrong('a stepped bond with its step, such as "stepped 1/3"') from None


def _polygon(node: Node) -> shapely.Polygon:
    holes = [hole.ring() for hole in node.item("holes").items()]
    return shapely.Polygon(node.item("outer").ring(), holes)


def _zone(node: Node, products: Mapping[str, ProductClaim]) -> ZoneClaim:
    bond, step = _bond(node)
    return ZoneClaim(
        node.item("name").text(),
        _one_of(node.item("product"), products).name,
        bond,
        step,
        _polygon(node.item("polygon")),
    )


def _axis(node: Node) -> AxisClaim:
    name = node.optional("name")
    return AxisClaim(
        None if name is None else name.text(),
        node.item("point").point(),
        node.item("direction").direction(),
    )


def _feature(node: Node) -> FeatureClaim:
    outline = node.item("polygon")
    as_table = isinstance(outline.value, Mapping)
    return FeatureClaim(
        node.item("name").text(),
        _polygon(outline) if as_table else shapely.Polygon(outline.ring()),
        _axis(node.item("axis")),
        node.item("off_axis").number(),
    )


def _layout(
    node: Node, zones: Mapping[str, ZoneClaim], products: Mapping[str, ProductClaim]
) -> LayoutClaim:
    laid = tuple(_laid_zone(item, zones) for item in node.item("zones").some())
    if len({zone.zone for zone in laid}) != len(laid):
        raise node.item("zones").wrong("a list that names each zone once")
    return LayoutClaim(
        node.item("rank").whole(),
        laid,
        _pieces(node.item("pieces"), zones),
        tuple(_order(item, products) for item in node.item("order").some()),
        tuple(_rule(item) for item in node.item("rules").items()),
        _figures(node.item("figures")),
    )


def _laid_zone(node: Node, zones: Mapping[str, ZoneClaim]) -> LaidZoneClaim:
    return LaidZoneClaim(
        _one_of(node.item("zone"), zones).name,
        node.item("angle_deg").number(),
        node.item("origin").point(),
        node.item("start_line").line(),
        node.item("cross_line").line(),
        node.item("start_row").whole(),
        tuple(_row(item) for item in node.item("rows").items()),
        node.item("units").whole(),
        node.item("units_at_least").whole(),
        node.item("proved").flag(),
    )


def _row(node: Node) -> RowClaim:
    runs = tuple(
        RunClaim(run.item("from").number(), run.item("to").number(), run.item("offset").number())
        for run in node.item("runs").items()
    )
    return RowClaim(node.item("row").whole(), node.item("low").number(), runs)


def _pieces(node: Node, zones: Mapping[str, ZoneClaim]) -> PieceClaims:
    items = [item.value for item in node.some()]
    table = Table(items, node.path)
    names = table.texts("zone")
    for place, name in enumerate(names):
        if name not in zones:
            raise table.node(place).item("zone").wrong(f"one of {', '.join(zones)}")
    touches = _touched(table, items, "touches")
    sizes = table.under("sizes")
    return PieceClaims(
        tuple(table.texts("id")),
        tuple(names),
        tuple(table.texts("unit")),
        touches,
        _touched(table, items, "rip_at") or touches,
        _touched(table, items, "end_at") or touches,
        np.array(table.wholes("row"), dtype=np.int64),
        np.array(table.flags("cut"), dtype=np.bool_),
        table.points("corner"),
        np.column_stack([sizes.numbers_or_none(key) for key in SIZE_KEYS]),
        table.polygons(),
    )


def _touched(table: Table, items: Sequence[object], key: str) -> tuple[tuple[str, ...], ...]:
    """The names under a key of every piece; empty when an optional key is not there at all."""
    if key != "touches" and not any(isinstance(i, Mapping) and key in i for i in items):
        return ()
    column = table.column(key, frozenset({list, tuple}), lambda item: item.value)
    return tuple(_names(table, key, place, value) for place, value in enumerate(column))


def _names(table: Table, key: str, place: int, value: object) -> tuple[str, ...]:
    """The names one piece touches; most pieces touch nothing."""
    if value == [] or value == ():
        return ()
    return tuple(node.text() for node in table.node(place).item(key).items())


def _rule(node: Node) -> RuleClaim:
    key = node.item("key")
    _one_of(key, RULE_NAMES)
    on = node.optional("on")
    return RuleClaim(
        node.item("rule").text(),
        key.text(),
        node.item("subject").text(),
        _one_of(node.item("kind"), {kind.value: kind for kind in Kind}) is Kind.MUST,
        node.item("limit").number(),
        node.item("worst").number_or_none(),
        node.item("kept").flag(),
        None if on is None else _one_of(on, {one.value: one for one in CentreOn}).value,
    )


def _order(node: Node, products: Mapping[str, ProductClaim]) -> OrderClaim:
    return OrderClaim(
        _one_of(node.item("product"), products).name,
        node.item("units").whole(),
        node.item("units_at_least").whole(),
        node.item("proved").flag(),
        node.item("spare_units").whole(),
        node.item("cartons").whole(),
        node.item("laid_area_m2").number(),
        node.item("waste_percent").number(),
    )


def _figures(node: Node) -> FiguresClaim:
    return FiguresClaim(
        node.item("units").whole(),
        node.item("units_at_least").whole(),
        node.item("cartons").whole(),
        node.item("spare_units").whole(),
        node.item("smallest_cut").number_or_none(),
        node.item("cuts").whole(),
        node.item("balance").number_or_none(),
        node.item("broken_must").whole(),
        node.item("broken_prefer").whole(),
        node.item("waste_percent").number(),
    )
