"""Loads a saved layouts.json, so that it can be audited long after it was written."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

from solver.audit.document.node import AuditInputError
from solver.audit.document.reader import read


def load(path: Path) -> Mapping[str, object]:
    """The document in a file, checked to have the contract's keys and types.

    Raises AuditInputError with the file and the place in it, and what would be right.
    """
    document = _parsed(path)
    if not isinstance(document, dict):
        raise AuditInputError(f"{path}: is not a layouts document; it must be a table of keys")
    try:
        read(document)
    except AuditInputError as error:
        raise AuditInputError(f"{path}: {error}") from None
    return document


def _parsed(path: Path) -> object:
    """The JSON value in a file."""
    if path.is_dir():
        raise AuditInputError(f"{path}: is a folder; name the layouts.json in it")
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise AuditInputError(f"{path}: there is no such file") from None
    except UnicodeDecodeError:
        raise AuditInputError(f"{path}: is not text in UTF-8; name a layouts.json") from None
    except OSError as error:
        raise AuditInputError(f"{path}: cannot be read: {error.strerror}") from None
    try:
        return json.loads(text)
    except json.JSONDecodeError as error:
        raise AuditInputError(
            f"{path}:{error.lineno}: is not JSON: {error.msg} at column {error.colno}"
        ) from None
    except RecursionError:
        raise AuditInputError(f"{path}: is nested too deeply for a layouts document") from None
    except ValueError:  # a whole number of more digits than Python reads
        raise AuditInputError(f"{path}: has a number of too many digits") from None
