"""Reads the pieces of a layout, as columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from solver.audit.document.claims import SIZE_KEYS, PieceClaims, ZoneClaim
from solver.audit.document.node import Node
from solver.audit.document.table import Table


def pieces(node: Node, zones: Mapping[str, ZoneClaim]) -> PieceClaims:
    """All pieces of a layout."""
    items = [item.value for item in node.some()]
    table = Table(items, node.path)
    names = table.texts("zone")
    for place, name in enumerate(names):
        if name not in zones:
            raise table.node(place).item("zone").wrong(f"one of {', '.join(zones)}")
    touches = _touched(table, "touches")
    sizes = table.under("sizes")
    quarter = table.flags("quarter") if table.has("quarter") else [False] * len(items)
    lengths = table.numbers("unit_length") if table.has("unit_length") else np.zeros(len(items))
    return PieceClaims(
        tuple(table.texts("id")),
        tuple(names),
        tuple(table.texts("unit")),
        touches,
        _touched(table, "rip_at") if table.has("rip_at") else touches,
        _touched(table, "end_at") if table.has("end_at") else touches,
        np.array(table.wholes("row"), dtype=np.int64),
        np.array(table.flags("cut"), dtype=np.bool_),
        table.points("corner"),
        np.column_stack([sizes.numbers_or_none(key) for key in SIZE_KEYS]),
        table.polygons(),
        np.array(quarter, dtype=np.bool_),
        lengths,
        np.array(table.wholes("cell"), dtype=np.int64) if table.has("cell") else None,
    )


def _touched(table: Table, key: str) -> tuple[tuple[str, ...], ...]:
    """The names under a key of every piece."""
    column: Sequence[object] = table.column(key, frozenset({list, tuple}), lambda item: item.value)
    return tuple(_names(table, key, place, value) for place, value in enumerate(column))


def _names(table: Table, key: str, place: int, value: object) -> tuple[str, ...]:
    """The names one piece touches; most pieces touch nothing."""
    if value == [] or value == ():
        return ()
    return tuple(node.text() for node in table.node(place).item(key).items())
