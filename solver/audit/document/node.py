"""A value of a JSON document with the path it stands at, read with clear errors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from solver.audit.document.claims import Floats
from solver.audit.tolerances import LONGEST


class AuditInputError(ValueError):
    """The document cannot be audited: the message names the place, and what would be right."""


@dataclass(frozen=True, slots=True)
class Node:
    """One value; ``path`` is such as ``layouts[0].pieces[3].outer``."""

    value: object
    path: str

    def wrong(self, expected: str) -> AuditInputError:
        """An error that says what stands here and what would be right."""
        return AuditInputError(f"{self.path or 'document'}: {_shown(self.value)} is not {expected}")

    def item(self, key: str) -> Node:
        """The value of a key that must be there."""
        node = self.optional(key)
        if node is None:
            raise AuditInputError(f"{self.path or 'document'}: has no {key!r}; add it")
        return node

    def optional(self, key: str) -> Node | None:
        """The value of a key, or None when there is no such key."""
        if not isinstance(self.value, Mapping):
            raise self.wrong("a table of keys and values")
        if key not in self.value:
            return None
        return Node(self.value[key], f"{self.path}.{key}" if self.path else key)

    def items(self) -> list[Node]:
        """The values of a list."""
        if isinstance(self.value, str | bytes) or not isinstance(self.value, Sequence):
            raise self.wrong("a list")
        return [Node(value, f"{self.path}[{i}]") for i, value in enumerate(self.value)]

    def some(self) -> list[Node]:
        """The values of a list that must not be empty."""
        if not (nodes := self.items()):
            raise self.wrong("a list with at least one item")
        return nodes

    def text(self) -> str:
        """A text."""
        if not isinstance(self.value, str):
            raise self.wrong("a text")
        return self.value

    def flag(self) -> bool:
        """True or false."""
        if not isinstance(self.value, bool):
            raise self.wrong("true or false")
        return self.value

    def number(self) -> float:
        """A finite number no larger than a floor can be."""
        value = self.value
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.wrong("a number")
        if not -LONGEST <= value <= LONGEST:
            raise self.wrong("a finite number of millimetres")
        return float(value)

    def positive(self) -> float:
        """A number greater than nothing."""
        if (value := self.number()) <= 0:
            raise self.wrong("a number above 0")
        return value

    def not_negative(self) -> float:
        """A number of nothing or more."""
        if (value := self.number()) < 0:
            raise self.wrong("a number of 0 or more")
        return value

    def number_or_none(self) -> float | None:
        """A number, or None for null."""
        return None if self.value is None else self.number()

    def whole(self) -> int:
        """A whole number."""
        if isinstance(self.value, bool) or not isinstance(self.value, int):
            raise self.wrong("a whole number")
        if not -LONGEST <= self.value <= LONGEST:
            raise self.wrong("a whole number a floor can reach")
        return self.value

    def point(self) -> tuple[float, float]:
        """A point [x, y]."""
        nodes = self.items()
        if len(nodes) != 2:
            raise self.wrong("a point [x, y]")
        return nodes[0].number(), nodes[1].number()

    def direction(self) -> tuple[float, float]:
        """A point [dx, dy] that is not [0, 0]."""
        if (value := self.point()) == (0.0, 0.0):
            raise self.wrong("a direction [dx, dy]")
        return value

    def line(self) -> Floats:
        """Two points, as an array (2, 2)."""
        points = [node.point() for node in self.items()]
        if len(points) != 2:
            raise self.wrong("a line of two points")
        return np.array(points)

    def ring(self) -> Floats:
        """Three points or more, as an array (n, 2)."""
        points = [node.point() for node in self.items()]
        if points and points[0] == points[-1]:
            points = points[:-1]
        if len(points) < 3:
            raise self.wrong("an outline of three points or more")
        return np.array(points)


def _shown(value: object) -> str:
    """A value as text, cut short."""
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, Sequence) and not isinstance(value, str | bytes):
        return f"a list of {len(value)}"
    try:
        text = repr(value)
    except ValueError:  # a whole number of thousands of digits
        return "a number of too many digits"
    return text if len(text) <= 40 else text[:37] + "..."
