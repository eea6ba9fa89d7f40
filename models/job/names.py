"""Names: each given once, and looked up with the nearest one at hand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

from models.job.errors import shown, suggestion
from models.job.item import Item

T = TypeVar("T")


def check_unique(named: Iterable[tuple[str, Item]]) -> None:
    """Refuse the second of two equal names; ``named`` pairs each name with where it stands."""
    lines: dict[str, int] = {}
    for name, item in named:
        if name in lines:
            raise item.error(
                f"the name {shown(name)} is already used on line {lines[name]}",
                "give each wall, column, door, axis, feature, zone and product a name of its own",
            )
        lines[name] = item.line


def look_up(item: Item, things: Mapping[str, T], kind: str) -> T:
    """The thing a text names; ``kind`` says in words what it should be."""
    found = things.get(item.text)
    if found is None:
        raise item.error(
            f"there is no {kind} called {shown(item.text)}", suggestion(item.text, things)
        )
    return found
