"""The job file against ``schema.json``, with every failure in plain words at its line.

The schema is the one list of keys. Beside the standard keywords it holds ``x-write``: what
a value should be, in the words of the error's remedy.
"""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError

from models.job.errors import JobError, nearest, shown, suggestion
from models.job.item import Item

_WORDS = {
    "object": "a group of keys",
    "array": "a list",
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
}
# Fifteen digits are exact as a float, and no count or angle takes more.
_INTEGER = re.compile(r"[-+]?\d{1,15}", re.ASCII)
_DECIMAL = re.compile(r"[-+]?\d{1,15}\.\d{1,15}", re.ASCII)


@functools.cache
def load_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a job file."""
    text = files("models.job").joinpath("schema.json").read_text(encoding="utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


def validate(root: Item) -> None:
    """Check keys, types, choices and counts; JobError for the first failure by line.

    A mistyped key comes first: it often explains a missing one.
    """
    errors = list(Draft202012Validator(load_schema()).iter_errors(_plain(root)))
    if errors:
        raise min((_plain_error(error, root) for error in errors), key=_order)


def _order(error: JobError) -> tuple[bool, int]:
    """Unknown keys first, then down the file."""
    return not error.problem.startswith("unknown key"), error.line or 0


def _plain(item: Item) -> object:
    """An item as JSON data; unquoted numbers, true, false and nothing get their JSON type."""
    if isinstance(item.value, tuple):
        return [_plain(entry) for entry in item.value]
    if isinstance(item.value, Mapping):
        return {key: _plain(value) for key, value in item.value.items()}
    text = item.value
    if item.quoted:
        return text
    if text in ("", "~", "null"):
        return None
    if text in ("true", "false"):
        return text == "true"
    if _INTEGER.fullmatch(text):
        return int(text)
    return float(text) if _DECIMAL.fullmatch(text) else text


def _plain_error(error: ValidationError, root: Item) -> JobError:
    """One schema failure as a job error at the right line."""
    item = _find(root, list(error.absolute_path))
    schema = error.schema if isinstance(error.schema, dict) else {}
    if error.validator == "additionalProperties":
        return _unknown_key(item, schema)
    if error.validator == "required":
        return _missing_key(item, schema)
    if error.instance is None:
        return item.error("has no value", _write(schema) or "write one, or delete the line")
    remedy = _close_choice(item, schema) or _write(schema) or _limit_words(error)
    return item.error(_problem(error, item), remedy)


def _find(root: Item, path: list[str | int]) -> Item:
    """The item at a path of keys and list positions."""
    item = root
    for step in path:
        item = item.entries[step] if isinstance(step, int) else item.group[step]
    return item


def _unknown_key(item: Item, schema: Mapping[str, object]) -> JobError:
    """The first key of a group the schema does not know."""
    known = _known_keys(schema)
    key = next(key for key in item.group if key not in known)
    wrong = item.group[key]
    return JobError(
        wrong.file, wrong.line, item.label, f"unknown key {shown(key)}", suggestion(key, known)
    )


def _known_keys(schema: Mapping[str, object]) -> list[str]:
    """The keys a group may hold."""
    properties = schema.get("properties")
    return list(properties) if isinstance(properties, dict) else []


def _missing_key(item: Item, schema: Mapping[str, object]) -> JobError:
    """The first key a group lacks."""
    required = schema["required"]
    keys = [str(key) for key in required] if isinstance(required, list) else []
    missing = next(key for key in keys if key not in item.group)
    return item.error(f"the key '{missing}' is missing", f"add '{missing}: ...'")


def _problem(error: ValidationError, item: Item) -> str:
    """What is wrong, in plain words."""
    if isinstance(item.value, str):
        return f"{shown(item.value)} will not do" if item.value else "is blank"
    if isinstance(item.value, tuple):
        if error.validator not in ("minItems", "maxItems"):
            return "is a list"
        count = len(item.value)
        return f"has {count} {'entry' if count == 1 else 'entries'}"
    if error.validator not in ("oneOf", "not", "minProperties", "maxProperties"):
        return "is a group of keys"
    return f"these keys do not make one whole: {', '.join(item.value) or 'none'}"


def _close_choice(item: Item, schema: Mapping[str, object]) -> str | None:
    """'did you mean' for a mistyped choice, or None."""
    choices = schema.get("enum")
    if not isinstance(choices, list) or not isinstance(item.value, str):
        return None
    close = nearest(item.value, [choice for choice in choices if isinstance(choice, str)])
    return None if close is None else f"did you mean '{close}'?"


def _write(schema: Mapping[str, object]) -> str | None:
    """The schema's own words for a right value, or the choices it lists, if any."""
    if "x-write" in schema:
        return f"write {schema['x-write']}"
    if "enum" in schema:
        return f"write one of {', '.join(map(str, _list(schema['enum'])))}"
    return None


def _limit_words(error: ValidationError) -> str:
    """What a bare keyword asks for, where the schema has no words of its own."""
    limit = error.validator_value
    if error.validator == "type":
        return f"write {' or '.join(_WORDS[str(word)] for word in _list(limit))}"
    bounds = {
        "minimum": "at least",
        "maximum": "at most",
        "minItems": "at least",
        "maxItems": "at most",
    }
    return f"write {bounds[str(error.validator)]} {limit}"


def _list(value: object) -> list[object]:
    """A list, or one value as a list."""
    return value if isinstance(value, list) else [value]
