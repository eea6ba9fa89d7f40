"""Reads one layout of a document: zones set out, rules, seams, order and figures."""

from __future__ import annotations

from collections.abc import Mapping

from models.job.data import RULE_NAMES, CentreOn, Kind
from solver.audit.document.claims import (
    FiguresClaim,
    LaidZoneClaim,
    LayoutClaim,
    OrderClaim,
    ProductClaim,
    RowClaim,
    RuleClaim,
    RunClaim,
    SeamClaim,
    ZoneClaim,
)
from solver.audit.document.named import one_of, pair
from solver.audit.document.node import Node
from solver.audit.document.pieces import pieces

SHOWN = {edge: edge for edge in ("factory", "cut", "mixed")}
"""What the pieces of a zone can show along a seam."""


def layout(
    node: Node, zones: Mapping[str, ZoneClaim], products: Mapping[str, ProductClaim]
) -> LayoutClaim:
    """One layout."""
    laid = tuple(_laid_zone(item, zones) for item in node.item("zones").some())
    if len({zone.zone for zone in laid}) != len(laid):
        raise node.item("zones").wrong("a list that names each zone once")
    seams = node.optional("seams")
    return LayoutClaim(
        node.item("rank").whole(),
        laid,
        pieces(node.item("pieces"), zones),
        tuple(_order(item, products) for item in node.item("order").some()),
        tuple(_rule(item, zones) for item in node.item("rules").items()),
        _figures(node.item("figures")),
        None if seams is None else tuple(_seam(item, zones) for item in seams.items()),
    )


def _laid_zone(node: Node, zones: Mapping[str, ZoneClaim]) -> LaidZoneClaim:
    return LaidZoneClaim(
        one_of(node.item("zone"), zones).name,
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
    joints = node.optional("joints")
    if joints is None:
        return RowClaim(node.item("row").whole(), node.item("low").number(), runs)
    listed = tuple(tuple(one.number() for one in run.items()) for run in joints.items())
    if len(listed) != len(runs):
        raise joints.wrong("a list with the joints of each run")
    return RowClaim(node.item("row").whole(), node.item("low").number(), runs, listed)


def _rule(node: Node, zones: Mapping[str, ZoneClaim]) -> RuleClaim:
    key = node.item("key")
    one_of(key, RULE_NAMES)
    on, zone = node.optional("on"), node.optional("zone")
    subject = node.item("subject")
    if key.text() in ("linked", "mirrored"):
        one_of(subject, zones)
    return RuleClaim(
        node.item("rule").text(),
        key.text(),
        subject.text(),
        one_of(node.item("kind"), {kind.value: kind for kind in Kind}) is Kind.MUST,
        node.item("limit").number(),
        node.item("worst").number_or_none(),
        node.item("kept").flag(),
        None if on is None else one_of(on, {one.value: one for one in CentreOn}).value,
        None if zone is None else one_of(zone, zones).name,
    )


def _order(node: Node, products: Mapping[str, ProductClaim]) -> OrderClaim:
    keys = ("breakage_units", "cartons_at_least", "cost", "lengths", "spare_cartons")
    breakage, at_least, cost, lengths, spare = (node.optional(key) for key in keys)
    return OrderClaim(
        one_of(node.item("product"), products).name,
        node.item("units").whole(),
        node.item("units_at_least").whole(),
        node.item("proved").flag(),
        node.item("spare_units").whole(),
        node.item("cartons").whole(),
        node.item("laid_area_m2").number(),
        node.item("waste_percent").number(),
        0 if breakage is None else breakage.whole(),
        None if at_least is None else at_least.whole(),
        None if cost is None else cost.number_or_none(),
        () if lengths is None else tuple(_length(item) for item in lengths.items()),
        None if spare is None else spare.whole(),
    )


def _length(node: Node) -> tuple[float, int]:
    return node.item("length").positive(), node.item("units").whole()


def _figures(node: Node) -> FiguresClaim:
    cost = node.optional("cost")
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
        None if cost is None else cost.number_or_none(),
    )


def _seam(node: Node, zones: Mapping[str, ZoneClaim]) -> SeamClaim:
    for name in node.item("zones").items():
        one_of(name, zones)
    for edge in node.item("edges").items():
        one_of(edge, SHOWN)
    return SeamClaim(
        pair(node.item("zones"), "zones"),
        node.item("length").not_negative(),
        pair(node.item("edges"), "edges"),
        node.item("trim").not_negative(),
    )
