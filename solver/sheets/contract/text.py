"""The document as the text of its file."""

from __future__ import annotations

import json

from solver.sheets.contract.values import Json

DEEPEST = 3
"""How deep the file is spread over lines: layouts, layout, pieces, then a line each."""


def text_of(found: Json) -> str:
    """The document as text, ending with a newline."""
    return _spread(found, 0) + "\n"


def _spread(value: object, depth: int) -> str:
    """JSON with one line for each piece, verdict and the like, deeper parts inside the line."""
    if depth > DEEPEST or not isinstance(value, dict | list) or not value:
        return json.dumps(value, ensure_ascii=False, allow_nan=False)
    pad = " " * (depth + 1)
    if isinstance(value, list):
        inside = [pad + _spread(each, depth + 1) for each in value]
    else:
        inside = [f"{pad}{json.dumps(k)}: {_spread(each, depth + 1)}" for k, each in value.items()]
    ends = "[]" if isinstance(value, list) else "{}"
    return ends[0] + "\n" + ",\n".join(inside) + "\n" + pad[1:] + ends[1]
