"""Whatever stands in a job file, it is read or refused in one line: never a traceback."""

import copy
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from models.job.errors import JobError
from models.job.reader import read_text
from models.job.template import template

CORNERS: list[list[Any]] = [["0", "0"], ["4 m", "0"], ["4 m", "3 m"], ["0", "3 m"]]
JOB: dict[str, Any] = {
    "job": "Lamp room",
    "system": "millimetres",
    "bare_numbers": "mm",
    "tape_step": "1 mm",
    "spare": "5 %",
    "room": {
        "walk": {
            "start": ["0", "0"],
            "legs": [
                {"wall": "s", "length": "4 m", "go": "east"},
                {"wall": "e", "length": "3 m", "turn": "left"},
                {"wall": "n", "length": "4 m", "go": 180},
                {"wall": "w", "length": "close", "turn": "left 90"},
            ],
        },
        "prominent": ["s"],
        "hidden": ["n"],
    },
    "columns": [
        {"name": "a", "corner": ["100", "100"], "size": ["90", "90"]},
        {"name": "b", "centre": ["3 m", "2 m"], "diameter": "90"},
        {"name": "c", "corners": [["300", "100"], ["400", "100"], ["400", "200"]]},
    ],
    "doors": [{"name": "d", "wall": "s", "from_start": "1 m", "width": "900"}],
    "axes": [
        {"name": "x", "between": "d"},
        {"name": "y", "square_to": "w", "at": "1 m"},
        {"name": "z", "through": [["0", "0"], ["0", "1 m"]]},
    ],
    "features": [
        {"name": "f", "axis": "x", "along": "1 m", "rectangle": ["200", "200"]},
        {"name": "g", "axis": "x", "centre": ["1 m", "2 m"], "diameter": "90", "tolerance": "2"},
    ],
    "products": [
        {
            "name": "p",
            "length": "900",
            "width": "150",
            "joint": "1",
            "kerf": "2",
            "per_carton": 9,
            "directional": "no",
            "tolerance": "0",
        }
    ],
    "field": {"name": "q", "product": "p", "bond": "staggered", "directions": [{"along": "s"}]},
    "rules": {
        "smallest_cut": {"must": "50"},
        "no_stair": {"prefer": 3},
        "half_unit_edges": "prefer",
        "centred": [{"prefer": "y", "on": "joint"}],
    },
}
BAD: list[Any] = [
    None,
    "",
    " ",
    "nan",
    ".inf",
    "-1",
    -1,
    0,
    0.5,
    "1e999999",
    "9" * 50,
    "9" * 5000,
    "10001 m",
    True,
    [],
    {},
    [[]],
    [{}],
    [["0", "0"], ["0", "0"]],
    {"must": "1"},
    "close",
    "s",
    "\u00bd",
    "a\nb",
    "9" * 14,
    180.25,
]


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The path to every value below a value."""
    if isinstance(value, dict):
        pairs = list(value.items())
    elif isinstance(value, list):
        pairs = list(enumerate(value))
    else:
        pairs = []
    below = [place for key, part in pairs for place in places(part, (*path, key))]
    return below + ([path] if path else [])


def put(path: tuple[Any, ...], value: Any) -> str:
    """The job with one value replaced, as text."""
    changed = copy.deepcopy(JOB)
    part = changed
    for key in path[:-1]:
        part = part[key]
    part[path[-1]] = value
    return yaml.safe_dump(changed, sort_keys=False, allow_unicode=True)


def read_or_refuse(text: str) -> None:
    """Read a text; a refusal must be one line of problem and remedy at a line of the file."""
    try:
        read_text(text, "bad.yaml")
    except JobError as error:
        assert "\n" not in str(error)  # noqa: PT017 - the refusal's form is what is tested
        assert error.problem  # noqa: PT017
        assert error.remedy  # noqa: PT017
        assert error.line is not None  # noqa: PT017
        assert 1 <= error.line <= text.count("\n") + 1  # noqa: PT017


def test_the_job_itself_is_read() -> None:
    job = read_text(yaml.safe_dump(JOB, sort_keys=False), "bad.yaml")
    assert len(job.columns) == len(job.axes) == 3


@pytest.mark.parametrize(
    ("turn", "path"), list(enumerate(places(JOB))), ids=[".".join(map(str, p)) for p in places(JOB)]
)
def test_any_value_replaced_by_bad_ones(turn: int, path: tuple[Any, ...]) -> None:
    # A sixth of the bad values at each place, a different sixth at the next: quick, and
    # each kind of place still meets them all.
    for value in BAD[turn % 6 :: 6]:
        read_or_refuse(put(path, value))


@settings(max_examples=30, deadline=None)
@given(st.data())
def test_a_template_with_characters_lost_or_added(data: st.DataObject) -> None:
    text = template()
    start = data.draw(st.integers(0, len(text) - 1))
    length = data.draw(st.integers(0, 12))
    added = data.draw(st.text(alphabet=" \n:-#[]{},'\"09ax.&*!%", max_size=4))
    read_or_refuse(text[:start] + added + text[start + length :])
