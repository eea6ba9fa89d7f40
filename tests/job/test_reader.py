import re
from dataclasses import replace

import pytest

from models.job.data import Job
from models.job.errors import JobError
from models.job.reader import read_text
from models.job.schema import load_schema
from models.job.template import template
from models.lengths import System, parse
from tests.job.sample import MM, read, text


def test_the_smallest_job() -> None:
    job = read()
    assert (job.name, job.system, job.tape_step) == ("Galley", System.METRIC, MM)
    assert [*job.columns, *job.doors, *job.axes, *job.features] == []
    assert job.spare_percent == 0
    assert job.spare_units == 0


def test_the_same_text_gives_the_same_job() -> None:
    assert read() == read()
    assert hash(read()) == hash(read())


def test_everything_after_the_room_can_come_in_any_order() -> None:
    lines = text().splitlines()
    assert read_text("\n".join(reversed(lines)), "galley.yaml") == read()


def test_the_tape_step() -> None:
    assert read(tape_step="0.5").tape_step == MM // 2
    assert read(system="feet-inches").tape_step == parse("1/16 in")
    for step in ("0.05", "2 in"):
        with pytest.raises(
            JobError, match=r"tape_step: .* is no step a tape is marked in; write 0.1"
        ):
            read(tape_step=step)


def test_an_error_is_one_line_of_file_line_entry_problem_and_remedy() -> None:
    with pytest.raises(JobError) as caught:
        read(products="[{name: plank, length: 900, width: 0}]")
    error = caught.value
    assert (error.file, error.line, error.item) == ("galley.yaml", 5, "products 'plank', width")
    assert str(error) == (
        "galley.yaml:5: products 'plank', width: '0' is not above 0; write a length above 0"
    )


def test_moving_the_room_moves_everything_and_changes_nothing_else() -> None:
    def job(x: int, y: int) -> Job:
        return read(
            room=f"{{corners: [[{x}, {y}], [{x + 4000}, {y}], [{x + 4000}, {y + 3000}]]}}",
            columns=f"[{{name: c, centre: [{x + 3000}, {y + 1000}], diameter: 100}}]",
            axes="[{name: a, square_to: wall 1, at: 1000}]",
            features="[{name: f, axis: a, along: 300, diameter: 100}]",
        )

    here, there = job(0, 0), job(700, -300)
    move = (700 * MM, -300 * MM)
    assert [(x + move[0], y + move[1]) for x, y in here.room] == list(there.room)
    before = [thing.outline for thing in here.columns] + [f.outline for f in here.features]
    after = [thing.outline for thing in there.columns] + [f.outline for f in there.features]
    moved = [tuple((x + move[0], y + move[1]) for x, y in outline) for outline in before]
    assert moved == after
    assert here.field == there.field
    assert here.notes == there.notes


def test_the_template_is_a_job_with_every_rule_at_its_usual_limit() -> None:
    job = read_text(template(), "template.yaml")
    plain = read_text(re.sub(r"(?ms)^rules:.*", "", template()), "template.yaml")
    assert job == replace(plain, name=job.name)
    assert job.notes == ()


def test_the_template_shows_every_key_of_a_job_file() -> None:
    keys = set(re.findall(r"\b([a-z_]+):", template()))
    schema = load_schema()
    wanted = set(schema["properties"])
    for definition in schema["$defs"].values():
        wanted |= set(definition.get("properties", {}))
    assert wanted - keys == set()


@pytest.mark.parametrize("key", ["hidden", "columns", "features", "zones", "centred", "walk"])
def test_what_the_template_comments_out_works_when_uncommented(key: str) -> None:
    job = read_text(_uncommented(template(), key), "template.yaml")
    plain = read_text(template(), "template.yaml")
    assert job.room == plain.room
    assert job != plain


def test_single_commented_lines_of_the_template_work_too() -> None:
    live = re.sub(r"(?m)^( +)# - (\{name: (?:bench|long) axis|angle)", r"\1- \2", template())
    job = read_text(live, "template.yaml")
    assert [axis.name for axis in job.axes] == ["entry axis", "bench axis", "long axis"]
    assert len(job.field.directions) == 2


def _uncommented(whole: str, key: str) -> str:
    """The template with the block under one commented key made live."""
    lines = whole.splitlines()
    start = next(i for i, line in enumerate(lines) if re.match(rf" *# {key}:", line))
    indent = lines[start].index("#")
    end = start
    while end < len(lines) and lines[end].startswith(" " * indent + "# "):
        lines[end] = lines[end].replace("# ", "", 1)
        end += 1
    if key == "walk":
        lines = [line for line in lines if not re.match(r"  (corners|walls):", line)]
    return "\n".join(lines) + "\n"
