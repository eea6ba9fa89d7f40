"""Reads a layouts.json document into claims; every mistake is named by its place."""

from __future__ import annotations

from collections.abc import Mapping

from solver.audit.document.claims import Claims
from solver.audit.document.layouts import layout
from solver.audit.document.named import by_name
from solver.audit.document.node import Node
from solver.audit.document.setting import axis, feature, link, product, zone

CONTRACT = 1
"""The contract number this audit reads."""


def read(document: Mapping[str, object]) -> Claims:
    """The claims of a document. Raises AuditInputError."""
    root = Node(document, "")
    if root.item("contract").whole() != CONTRACT:
        raise root.item("contract").wrong(f"contract {CONTRACT}, the one this program reads")
    products = by_name(root.item("products"), product, lambda one: one.name)
    zones = by_name(root.item("zones"), lambda node: zone(node, products), lambda one: one.name)
    for node, one in zip(root.item("zones").items(), zones.values(), strict=True):
        if one.mirrors is not None and one.mirrors.zone not in zones:
            raise node.item("mirrors").item("zone").wrong(f"one of {', '.join(zones)}")
    axes, hidden = root.optional("axes"), root.optional("hidden_walls")
    links = root.optional("links")
    return Claims(
        zones,
        products,
        tuple(feature(node) for node in root.item("features").items()),
        None if axes is None else tuple(axis(node) for node in axes.items()),
        None if hidden is None else frozenset(node.text() for node in hidden.items()),
        tuple(layout(node, zones, products) for node in root.item("layouts").some()),
        () if links is None else tuple(link(node) for node in links.items()),
    )
