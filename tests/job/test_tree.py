import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.errors import JobError
from models.job.item import Item
from models.job.reader import read_text
from models.job.tree import parse_tree


def tree(text: str) -> Item:
    return parse_tree(text, "a.yaml")


def test_texts_stay_as_written() -> None:
    values = ["12.50", "12:30", "1_000", "007", "yes", "off", "2024-01-02", "1e3", "12' 6-3/4\""]
    root = tree("list:\n" + "".join(f"  - {value}\n" for value in values))
    assert [item.text for item in root.list_of("list")] == values


def test_every_item_knows_its_line_and_name() -> None:
    root = tree(
        "job: a\nroom:\n  corners:\n    - [0, 0]\n\ncolumns:\n  - {size: 1,\n     name: pier}\n"
    )
    corners = root.group["room"].group["corners"]
    assert (corners.line, corners.label) == (3, "room, corners")
    assert (corners.entries[0].line, corners.entries[0].label) == (4, "room, corners 1")
    pier = root.list_of("columns")[0]
    assert (pier.line, pier.label) == (7, "columns 'pier'")
    assert (pier.group["name"].line, pier.group["name"].label) == (8, "columns 'pier', name")


def test_an_item_asked_for_what_it_is_not_is_a_programming_error() -> None:
    root = tree("a: 1\nb: [1]\n")
    with pytest.raises(TypeError, match="b is not a single value"):
        _ = root.group["b"].text
    with pytest.raises(TypeError, match="a is not a list"):
        _ = root.group["a"].entries
    with pytest.raises(TypeError, match="b is not a group of keys"):
        root.group["b"].find("c")


def test_odd_spaces_from_a_document_count_as_spaces() -> None:
    assert tree("a: 12\u00a0mm\n").group["a"].text == "12 mm"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("# only a note\n", r"a\.yaml:1: holds no keys; write 'key: value' lines"),
        ("---\n", "holds no keys"),
        ("just words\n", "a.yaml:1: holds no keys"),
        ("- a\n- b\n", "a.yaml:1: holds no keys"),
        ("a: 1\n---\nb: 2\n", r"a\.yaml:2: holds a second document; one job a file"),
        ("a: &x 1\n", r"a\.yaml:1: uses an anchor or alias"),
        ("a: 1\nb: *x\n", r"a\.yaml:2: uses an anchor or alias"),
        ("a: !thing 1\n", r"uses a tag \('!thing'\)"),
        ("a: !!python/object/apply:os.getcwd []\n", "uses a tag"),
        ("a: 1\nb: 2\na: 3\n", r"a\.yaml:3: key 'a' is given twice \(first on line 1\)"),
        ("a:\n  b: 1\n  b: 2\n", "a.yaml:3: a: key 'b' is given twice"),
        ("? [1, 2]\n: 3\n", "a key is not a single word"),
        ("a: [1, 2\nb: 3\n", r"a\.yaml:2: is not YAML"),
        ("a: 1\n\tb: 2\n", r"a\.yaml:2: is not YAML: .*; indent with spaces, not tabs"),
        ("a: 1\n  b: 2\n", r"a\.yaml:2: is not YAML: mapping values are not allowed here"),
        ("a: 'open\n", "is not YAML: found unexpected end of stream"),
        ("a: '12' 6\"'\n", "is not YAML: .*needs none round it"),
        ("a: 1\nb: \x07\n", r"a\.yaml:2: holds a character YAML does not allow"),
        ('a: "\\UFFFFFFFF"\n', "holds an impossible number or escape"),
        ('a: "\\uD800"\n', "a: holds a line break or an unprintable character"),
        ("a: |\n  one\n  two\n", "a: holds a line break or an unprintable character"),
        ('- {name: "a\\nb"}\n', "holds no keys"),
        ('c: [{name: "a\\nb"}]\n', r"a\.yaml:1: c 1, name: holds a line break"),
        ("a: " + "[" * 30 + "]" * 30, "is nested over 12 deep"),
        ("a: " + "[" * 400_000, "is nested over 12 deep"),
        ("a: " + "{b: " * 30, "is nested over 12 deep"),
        ("a: [" + "1, " * 30_000 + "1]", "holds over 20000 values"),
        ("%YAML 3.0\n---\na: 1\n", "is not YAML: found incompatible YAML document"),
    ],
)
def test_what_a_job_file_may_not_hold(text: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        tree(text)


def test_a_bomb_of_aliases_is_refused_at_its_first_anchor() -> None:
    lines = ["a0: &a0 [1, 1]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 30)]
    with pytest.raises(JobError, match="uses an anchor or alias"):
        tree("\n".join(lines))


@given(st.text(alphabet="ab:[]{}-,'\"#&*!|>%@\\ \n\t0.\x00\u2028\xe5", max_size=60))
def test_any_text_is_read_or_refused_in_one_line(text: str) -> None:
    try:
        read_text(text, "a.yaml")
    except JobError as error:
        assert "\n" not in str(error)  # noqa: PT017 - the refusal's form is what is tested
        assert error.remedy  # noqa: PT017
