from typing import Any

import pytest
from jsonschema import Draft202012Validator

from models.job.errors import JobError, nearest, shown, suggestion
from models.job.schema import load_schema
from tests.job.sample import read


def test_the_schema_is_itself_valid() -> None:
    Draft202012Validator.check_schema(load_schema())


def test_every_key_has_a_description_for_editors() -> None:
    for name, schema in _objects():
        for key, value in schema.get("properties", {}).items():
            referred = value.get("$ref", "").removeprefix("#/$defs/")
            described = value.get("description") or load_schema()["$defs"][referred].get(
                "description"
            )
            assert described, f"{name}: {key}"


def test_no_group_takes_keys_it_does_not_list() -> None:
    for name, schema in _objects():
        assert schema["additionalProperties"] is False, name


@pytest.mark.parametrize(
    ("sections", "message"),
    [
        # unknown keys, with the nearest known one
        ({"rooms": "1"}, "unknown key 'rooms'; did you mean 'room'"),
        ({"Job": "1"}, "unknown key 'Job'; did you mean 'job'"),
        ({"zzz": "1"}, "unknown key 'zzz'; known here: job, system, bare_numbers"),
        ({"field": "{bnod: straight}"}, r":6: field: unknown key 'bnod'; did you mean 'bond'"),
        ({"rules": "{smalest_cut: off}"}, "did you mean 'smallest_cut'"),
        ({"rules": "{smallest_cut: {most: 2}}"}, "unknown key 'most'; did you mean 'must'"),
        ({"field": "{bond: {step: 1/3}}"}, "unknown key 'step'; did you mean 'stepped'"),
        ({"<<": "{job: b}"}, "unknown key '<<'"),
        # missing keys
        ({"job": None}, r"galley\.yaml:1: the key 'job' is missing; add 'job: \.\.\.'"),
        ({"products": "[{name: plank, length: 900}]"}, "products 'plank': the key 'width' is miss"),
        ({"field": "{name: f}"}, "field: the key 'bond' is missing"),
        (
            {"field": "{bond: {}}"},
            "bond: these keys do not make one whole: none; write {stepped: 1/3} or {her",
        ),
        # nothing after the colon
        ({"rules": ""}, "rules: has no value; write one, or delete the line"),
        ({"room": "~"}, "room: has no value; write either 'corners'"),
        # wrong kinds of value
        ({"room": "[1, 2]"}, "room: is a list; write either 'corners'"),
        ({"products": "plank"}, "products: 'plank' will not do; write a list"),
        ({"products": "[plank]"}, "products 1: 'plank' will not do; write either 'length'"),
        ({"job": "[a]"}, "job: is a list; write a name of at most 60 characters"),
        ({"job": "x" * 61}, r"job: 'x{37}\.\.\.' will not do; write a name"),
        ({"job": '""'}, "job: is blank; write a name"),
        ({"tape_step": "{a: 1}"}, "tape_step: is a group of keys; write a length such as"),
        ({"products": "[]"}, "products: has 0 entries; write at least 1"),
        (
            {"products": "[{name: p, length: 9, width: 9, per_carton: 0}]"},
            "products 'p', per_carton: '0' will not do; write at least 1",
        ),
        (
            {"products": "[{name: p, length: 9, width: 9, per_carton: 2.5}]"},
            "per_carton: '2.5' will not do; write a whole number",
        ),
        (
            {"products": "[{name: p, length: 9, width: 9, per_carton: '8'}]"},
            "per_carton: '8' will not do; write a whole number",
        ),
        # wrong choices
        ({"system": "inches"}, "system: 'inches' will not do; .*feet-inches"),
        ({"system": "metric"}, "write one of feet-inches, millimetres"),
        ({"bare_numbers": "yd"}, "bare_numbers: 'yd' will not do; write one of in, ft, mm, cm, m"),
        ({"field": "{bond: stagered}"}, "field, bond: 'stagered' will not do; did you mean 'stag"),
        (
            {"field": "{bond: brick}"},
            "write staggered, straight, herringbone, double herringbone, {stepped",
        ),
        ({"rules": "{smallest_cut: mist}"}, "did you mean 'must'"),
        ({"rules": "{smallest_cut: 2}"}, "write must, prefer, off, {must: a length}"),
        ({"rules": "{no_stair: {prefer: 2.5}}"}, "write a whole number of rows"),
        ({"rules": "{smallest_cut: {must: 2, prefer: 3}}"}, "do not make one whole: must, prefer"),
        ({"rules": "{smallest_cut: {}}"}, "do not make one whole: none; write {must: a length}"),
        ({"spare": "20"}, "spare: '20' will not do; write 5 % or 20 units"),
        ({"spare": "-5 %"}, "write 5 % or 20 units"),
        # keys that exclude each other
        ({"room": "{walls: [a]}"}, "room: these keys do not make one whole: walls; write either"),
        (
            {"columns": "[{name: c, corner: [1, 1], diameter: 2}]"},
            "columns 'c': these keys do not make one whole: name, corner, diameter; write 'cor",
        ),
        ({"axes": "[{name: a}]"}, "axes 'a': these keys do not make one whole: name; write 'thr"),
        ({"features": "[{name: f, axis: a, along: 1}]"}, "write one place .* and one shape"),
        ({"field": "{bond: straight, directions: [{}]}"}, "write {along: a wall or an axis}"),
        ({"rules": "{centred: [{on: joint}]}"}, "write {must: axis, on: joint}"),
        # points
        ({"room": "{corners: [[0, 0], [1, 0]]}"}, "room, corners: has 2 entries; write 3 to 2000"),
        ({"room": "{corners: [[0, 0], [1, 0], [1]]}"}, "room, corners 3: has 1 entry; write a p"),
        ({"room": "{corners: [[0, 0], 1, [1, 1]]}"}, "room, corners 2: '1' will not do; write a p"),
        ({"room": "{corners: [" + "[0, 0], " * 2001 + "]}"}, "has 2001 entries; write 3 to 2000"),
    ],
)
def test_failures_in_plain_words(sections: dict[str, str | None], message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(**sections)


def test_the_first_failure_down_the_file_is_the_one_shown() -> None:
    with pytest.raises(JobError, match=r"galley\.yaml:3: bare_numbers"):
        read(bare_numbers="yd", field="{bond: brick}")


def test_nearest_and_suggestion() -> None:
    assert nearest("Corridr", ["corridor", "hall"]) == "corridor"
    assert nearest("zzz", ["corridor"]) is None
    assert suggestion("zzz", []) == "there are none in this job"
    assert shown("x" * 50) == f"'{'x' * 37}...'"


def _objects() -> list[tuple[str, dict[str, Any]]]:
    """Every group of keys in the schema, by the name of its definition."""
    whole = {"job file": load_schema(), **load_schema()["$defs"]}
    return [(name, group) for name, group in whole.items() if group.get("type") == "object"]
