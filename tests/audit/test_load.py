from __future__ import annotations

import json
import re
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.audit import AuditInputError, audit, load
from tests.audit.conftest import Fresh, copy_of
from tests.audit.scene import Document


def test_a_saved_document_is_loaded(fresh: Fresh, tmp_path: Path) -> None:
    path = tmp_path / "layouts.json"
    path.write_text(json.dumps(fresh("column")), encoding="utf-8")
    assert audit(load(path)).clean


@pytest.mark.parametrize(
    ("content", "pattern"),
    [
        (b"{", r"layouts.json:1: is not JSON: Expecting property name"),
        (b"\xff\xfe{}", r"layouts.json: is not text in UTF-8"),
        (b"[1, 2]", r"layouts.json: is not a layouts document; it must be a table"),
        (b"{}", r"layouts.json: document: has no 'contract'; add it"),
        (b'{"contract": 2}', r"contract: 2 is not contract 1, the one this program reads"),
        (b'{"contract": "1"}', r"contract: '1' is not a whole number"),
        (b"[" * 100_000, r"layouts.json: is nested too deeply"),
        (b'{"contract": ' + b"9" * 5000 + b"}", r"layouts.json: has a number of too many digits"),
    ],
)
def test_a_file_that_is_no_document(content: bytes, pattern: str, tmp_path: Path) -> None:
    path = tmp_path / "layouts.json"
    path.write_bytes(content)
    with pytest.raises(AuditInputError, match=pattern):
        load(path)


def test_a_path_that_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(AuditInputError, match=r"is a folder; name the layouts.json in it"):
        load(tmp_path)
    with pytest.raises(AuditInputError, match=r"nothing.json: there is no such file"):
        load(tmp_path / "nothing.json")


def into(found: Document, path: str) -> tuple[Document, str | int]:
    """The table or list a path ends in, and its last step."""
    steps: list[str | int] = [
        int(step) if step.isdigit() else step for step in re.findall(r"[^.\[\]]+", path)
    ]
    for step in steps[:-1]:
        found = found[step]  # type: ignore[index]
    return found, steps[-1]


PATHS = [
    "contract", "zones", "zones[0].polygon.outer", "zones[0].bond", "products[0].kerf",
    "products[0].directional", "layouts", "layouts[0].rank", "layouts[0].zones[0].angle_deg",
    "layouts[0].zones[0].start_line", "layouts[0].zones[0].rows[1].runs[0].offset",
    "layouts[0].pieces", "layouts[0].pieces[7].outer", "layouts[0].pieces[7].outer[2][1]",
    "layouts[0].pieces[7].holes", "layouts[0].pieces[7].corner", "layouts[0].pieces[7].row",
    "layouts[0].pieces[7].cut", "layouts[0].pieces[7].unit", "layouts[0].pieces[7].sizes.slant",
    "layouts[0].pieces[7].touches", "layouts[0].order[0].cartons", "layouts[0].rules[0].limit",
    "layouts[0].rules[0].key", "layouts[0].figures.smallest_cut", "features",
]  # fmt: skip


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("value", [{"a": 1}, float("nan"), "x", True, -1e300, 10**400])
def test_a_wrong_value_is_named_by_its_place(path: str, value: object) -> None:
    broken = copy_of("tile")
    table, key = into(broken, path)
    if isinstance(table[key], bool) and isinstance(value, bool):  # type: ignore[index]
        return
    if isinstance(table[key], str) and isinstance(value, str) and key == "unit":  # type: ignore[index]
        return
    table[key] = value  # type: ignore[index]
    with pytest.raises(AuditInputError, match="^" + re.escape(path)) as caught:
        audit(broken)
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize("path", [p for p in PATHS if not p.endswith("]")])
def test_a_missing_key_is_named_by_its_place(path: str) -> None:
    broken = copy_of("tile")
    table, key = into(broken, path)
    del table[key]  # type: ignore[arg-type]
    parent = path.rpartition(".")[0] or "document"
    pattern = "^" + re.escape(f"{parent}: has no '{key}'; add it")
    with pytest.raises(AuditInputError, match=pattern):
        audit(broken)


@pytest.mark.parametrize(
    ("change", "pattern"),
    [
        (lambda d: d["zones"][0].update(bond="stepped"), r"zones\[0\].bond: 'stepped' is not a"),
        (lambda d: d["zones"][0].update(bond="stepped 1/0"), r"zones\[0\].bond: 'stepped 1/0' is"),
        (lambda d: d["zones"][0].update(product="Nothing"), r"zones\[0\].product: 'Nothing' is"),
        (lambda d: d["zones"].append(d["zones"][0]), r"zones\[1\].name: 'Reading room' is not a"),
        (lambda d: d["products"][0].update(length=0), r"products\[0\].length: 0 is not a number"),
        (lambda d: d["products"][0].update(per_carton=0), r"products\[0\].per_carton: 0 is not 1"),
        (lambda d: d["products"][0].update(kerf=-1), r"products\[0\].kerf: -1 is not a number of"),
        (lambda d: d["layouts"].clear(), r"layouts: a list of 0 is not a list with at least one"),
        (lambda d: d["layouts"][0]["pieces"][2].update(zone="Attic"), r"pieces\[2\].zone: 'Attic'"),
        (lambda d: d["layouts"][0]["pieces"][2]["outer"].__setitem__(slice(2, None), []),
         r"layouts\[0\].pieces\[2\].outer: a list of 2 is not an outline of three points or more"),
        (lambda d: d["layouts"][0]["pieces"][2].update(outer=[[0, 0], [1, 1], [0, 0]]),
         r"layouts\[0\].pieces\[2\].outer: a list of 3 is not an outline of three points or more"),
        (lambda d: d["layouts"][0]["zones"].append(d["layouts"][0]["zones"][0]),
         r"layouts\[0\].zones: a list of 2 is not a list that names each zone once"),
        (lambda d: d["layouts"][0]["rules"][0].update(kind="may"), r"rules\[0\].kind: 'may' is"),
    ],
)  # fmt: skip
def test_a_document_that_cannot_be(change: Callable[[Document], None], pattern: str) -> None:
    broken = copy_of("tile")
    change(broken)
    with pytest.raises(AuditInputError, match=pattern):
        audit(broken)


def test_rings_may_be_closed_and_run_either_way(fresh: Fresh) -> None:
    same = fresh("column")
    for piece in same["layouts"][0]["pieces"]:
        piece["outer"] = [*piece["outer"][::-1], piece["outer"][-1]]
    assert audit(same).clean


def leaves(value: object, path: str = "") -> list[str]:
    """The paths of all values of a document."""
    if isinstance(value, dict):
        inner = [(f"{path}.{key}" if path else key, one) for key, one in value.items()]
    elif isinstance(value, list):
        inner = [(f"{path}[{i}]", one) for i, one in enumerate(value[:8])]
    else:
        inner = []
    return [path for path in [path] if path] + [p for at, one in inner for p in leaves(one, at)]


JUNK = st.one_of(
    st.none(), st.booleans(), st.integers(-5, 5), st.floats(), st.text(max_size=3),
    st.lists(st.integers(0, 2), max_size=3), st.just({}), st.just([[0, 0], [0, 0], [0, 0]]),
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_no_wrong_value_ends_in_a_traceback(data: st.DataObject) -> None:
    broken = copy_of("tile")
    path = data.draw(st.sampled_from(leaves(broken)))
    table, key = into(broken, path)
    table[key] = data.draw(JUNK)  # type: ignore[index]
    # Anything but this one error fails the test.
    with suppress(AuditInputError):
        assert all(str(finding) for finding in audit(broken).findings)
