"""Documents of the audit's rooms, made once and handed out as copies to break."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from tests.audit.rooms import ROOMS
from tests.audit.scene import Document, document


@pytest.fixture(scope="session")
def documents() -> dict[str, str]:
    return {name: json.dumps(document(room())) for name, room in ROOMS.items()}


@pytest.fixture
def fresh(documents: dict[str, str]) -> Callable[[str], Document]:
    """A correct document of a room, as it would be read from a file."""

    def make(name: str) -> Document:
        found: Document = json.loads(documents[name])
        return found

    return make


Fresh = Callable[[str], Document]
