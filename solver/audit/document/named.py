"""Named things of a document: lists as tables by name, and texts that must name one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from solver.audit.document.node import Node

T = TypeVar("T")


def by_name(node: Node, make: Callable[[Node], T], name: Callable[[T], str]) -> dict[str, T]:
    """A list of named things as a table, names unique."""
    found: dict[str, T] = {}
    for item in node.some():
        thing = make(item)
        if name(thing) in found:
            raise item.item("name").wrong("a name used once only")
        found[name(thing)] = thing
    return found


def one_of(node: Node, known: Mapping[str, T]) -> T:
    """The thing a text names."""
    if node.text() not in known:
        raise node.wrong(f"one of {', '.join(known)}")
    return known[node.text()]


def pair(node: Node, what: str) -> tuple[str, str]:
    """Two texts."""
    texts = [item.text() for item in node.items()]
    if len(texts) != 2:
        raise node.wrong(f"a list of two {what}")
    return texts[0], texts[1]
