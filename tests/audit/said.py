"""What the audit says of a document, for tests that break one thing in it."""

from __future__ import annotations

import re

from solver.audit import audit
from tests.audit.scene import Document


def said(document: Document) -> list[str]:
    """All findings as sentences."""
    return [str(finding) for finding in audit(document).findings]


def finds(document: Document, pattern: str) -> None:
    """Assert that some finding matches a pattern."""
    sentences = said(document)
    assert any(re.search(pattern, sentence) for sentence in sentences), "\n".join(
        [f"nothing said {pattern!r}, only:", *sentences]
    )


def finds_only(document: Document, pattern: str) -> None:
    """Assert that there are findings, and that they all match a pattern."""
    sentences = said(document)
    assert sentences
    others = [sentence for sentence in sentences if not re.search(pattern, sentence)]
    assert not others, "\n".join(others)


def pieces(document: Document) -> list[Document]:
    """The pieces of the first layout."""
    found: list[Document] = document["layouts"][0]["pieces"]
    return found


def whole(document: Document, skip: int = 0) -> Document:
    """A whole unit with pieces all round it."""
    rows = max(piece["row"] for piece in pieces(document))
    inner = [p for p in pieces(document) if not p["cut"] and 2 < p["row"] < rows - 1]
    return inner[skip]


def moved(piece: Document, dx: float, dy: float) -> None:
    """Move a piece in the job's axes."""
    piece["outer"] = [[x + dx, y + dy] for x, y in piece["outer"]]


def rule(document: Document, key: str) -> Document:
    """One rule of the first layout."""
    found: list[Document] = document["layouts"][0]["rules"]
    return next(one for one in found if one["key"] == key)
