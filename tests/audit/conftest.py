"""Documents of the audit's rooms, made once and handed out as copies to break."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache

import pytest

from tests.audit.rooms import ROOMS
from tests.audit.scene import Document, document

Fresh = Callable[[str], Document]


@cache
def _written(name: str) -> str:
    return json.dumps(document(ROOMS[name]()))


def copy_of(name: str) -> Document:
    """A correct document of a room, as it would be read from a file."""
    found: Document = json.loads(_written(name))
    return found


@pytest.fixture
def fresh() -> Fresh:
    """Makes a correct document of a room of a given name."""
    return copy_of
