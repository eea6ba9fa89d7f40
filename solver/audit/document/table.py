"""Columns of a list of like items (the pieces): read at once, errors as clear as one by one."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import TypeVar

import numpy as np
import shapely

from solver.audit.document.claims import Floats, Shapes
from solver.audit.document.node import Node
from solver.audit.tolerances import LONGEST

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Table:
    """Items as they stand in the document, and the path of each as head[i]tail."""

    items: Sequence[object]
    head: str
    tail: str = ""

    def node(self, place: int) -> Node:
        """One item with its path."""
        return Node(self.items[place], f"{self.head}[{place}]{self.tail}")

    def column(self, key: str, kinds: frozenset[type], read: Callable[[Node], T]) -> list[T]:
        """A key of every item: as they stand if all are of these types, else read one by one."""
        try:
            values = [item[key] for item in self.items]  # type: ignore[index]
        except (TypeError, KeyError, IndexError):
            values = None
        if values is not None and set(map(type, values)) <= kinds:
            return values
        return [read(self.node(place).item(key)) for place in range(len(self.items))]

    def has(self, key: str) -> bool:
        """Whether any item has a key: those of later documents are in none of an older one."""
        return any(isinstance(item, Mapping) and key in item for item in self.items)

    def texts(self, key: str) -> list[str]:
        """A column of texts."""
        return self.column(key, frozenset({str}), Node.text)

    def flags(self, key: str) -> list[bool]:
        """A column of true or false."""
        return self.column(key, frozenset({bool}), Node.flag)

    def wholes(self, key: str) -> list[int]:
        """A column of whole numbers."""
        values = self.column(key, frozenset({int}), Node.whole)
        if values and not -LONGEST <= min(values) <= max(values) <= LONGEST:
            return [self.node(place).item(key).whole() for place in range(len(values))]
        return values

    def under(self, key: str) -> Table:
        """The tables under a key of every item."""
        values = self.column(key, frozenset({dict}), lambda node: node.value)
        return Table(values, self.head, f"{self.tail}.{key}")

    def numbers_or_none(self, key: str) -> Floats:
        """A column of numbers, nan for null."""
        values = self.column(
            key, frozenset({float, int, type(None)}), lambda node: node.number_or_none()
        )
        if all(value is None or -LONGEST <= value <= LONGEST for value in values):
            return np.array([np.nan if value is None else value for value in values], dtype=float)
        checked = [self.node(place).item(key).number_or_none() for place in range(len(values))]
        return np.array([np.nan if value is None else value for value in checked], dtype=float)

    def numbers(self, key: str) -> Floats:
        """A column of numbers."""
        values = self.column(key, frozenset({float, int}), Node.number)
        if not all(-LONGEST <= value <= LONGEST for value in values):
            values = [self.node(place).item(key).number() for place in range(len(values))]
        return np.array(values, dtype=np.float64)

    def points(self, key: str) -> Floats:
        """A column of points, as an array (n, 2)."""
        values = self.column(key, frozenset({list, tuple}), lambda node: node.value)
        flat = _flat(values)
        if flat is None:
            flat = np.array([self.node(i).item(key).point() for i in range(len(values))])
        return flat.reshape(-1, 2)

    def polygons(self) -> Shapes:
        """The polygons of keys ``outer`` and ``holes``; they may be invalid as shapes."""
        rings = self.column("outer", frozenset({list, tuple}), lambda node: node.value)
        holes = self.column("holes", frozenset({list, tuple}), lambda node: node.value)
        sizes = [len(ring) if isinstance(ring, Sequence) else 0 for ring in rings]
        flat = None
        if min(sizes, default=0) >= 3 and all(ring[0] != ring[-1] for ring in rings):  # type: ignore[index]
            flat = _flat(list(chain.from_iterable(rings)))  # type: ignore[arg-type]
        if flat is None:
            read = [self.node(place).item("outer").ring() for place in range(len(rings))]
            flat, sizes = np.concatenate(read), [len(ring) for ring in read]
        index = np.repeat(np.arange(len(sizes)), sizes)
        shapes: Shapes = np.asarray(shapely.polygons(shapely.linearrings(flat, indices=index)))
        for place, inner in enumerate(holes):
            if inner:
                nodes = self.node(place).item("holes").items()
                cut_out = [shapely.LinearRing(node.ring()) for node in nodes]
                shapes[place] = shapely.Polygon(shapes[place].exterior, cut_out)
        return shapes


def _flat(points: Sequence[object]) -> Floats | None:
    """Points as an array (n, 2), or None when any is not two finite numbers."""
    if not set(map(type, points)) <= {list, tuple}:
        return None
    if not set(map(len, points)) <= {2}:  # type: ignore[arg-type]
        return None
    numbers: list[float] = list(chain.from_iterable(points))  # type: ignore[arg-type]
    if not set(map(type, numbers)) <= {int, float}:
        return None
    if not all(map((-LONGEST).__le__, numbers)) or not all(map(LONGEST.__ge__, numbers)):
        return None
    return np.array(numbers, dtype=np.float64).reshape(-1, 2)
