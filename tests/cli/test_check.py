"""``startrow check``: what was read, in the job's own units, and where limits come from."""

from __future__ import annotations

from pathlib import Path

import pytest

from models.job.template import template
from scenarios.catalogue import SCENARIOS
from solver.cli.exits import Exit
from tests.cli.conftest import Run


def check(run: Run, name: str) -> list[str]:
    ended = run("check", SCENARIOS[name].path)
    assert (ended.code, ended.err) == (Exit.DONE, "")
    return [line.strip() for line in ended.out.splitlines()]


@pytest.mark.parametrize("name", SCENARIOS)
def test_every_shipped_job_can_be_checked(run: Run, name: str) -> None:
    assert check(run, name)[0].startswith("Tern House")


def test_the_area_is_the_room_less_its_features(run: Run) -> None:
    # 6.2 x 4.13 - 0.9 x 0.6 = 25.066, by hand
    assert "25.07 m2 to lay, columns and features taken out" in check(run, "net-loft")


WALKED = """\
job: Galley
system: millimetres
bare_numbers: mm
room:
  walk:
    legs:
      - {length: 4000, go: east}
      - {length: 3000, turn: left}
      - {length: 4000, turn: left}
      - {length: 2996, turn: left}
products: [{name: Shingle tile 300, length: 300, width: 300}]
field: {bond: straight}
"""


def test_a_walked_room_tells_its_closing_error(run: Run, tmp_path: Path) -> None:
    # 4 mm short on the last wall, 13996 mm walked: 13996 / 4 = 3499, by hand
    job = tmp_path / "job.yaml"
    job.write_text(WALKED)
    out = run("check", job).out
    assert "  closing error 4 mm (0 mm in x, 4 mm in y) over 13996 mm walked, 1 in 3,499\n" in out
    assert "the walk missed its start by 4 mm" in out


def test_a_room_by_corners_has_no_closing_error(run: Run) -> None:
    assert not any("closing error" in line for line in check(run, "reading-room"))


def test_what_is_in_the_room_is_listed(run: Run) -> None:
    lines = check(run, "reading-room")
    assert "window wall: 18' 4-1/2\", prominent" in lines
    assert "shelf wall: 13' 3-1/4\", hidden" in lines
    assert "passage door: 2' 8\" wide in passage wall, 2' 6\" from its start" in lines
    assert "Columns" not in lines
    loft = check(run, "net-loft")
    assert "hoist axis: through (6200 mm, 2020 mm), at 180 degrees" in loft
    assert (
        "hoist hatch: 900 mm x 600 mm, centre (4700 mm, 2020 mm), on hoist axis within 1 mm" in loft
    )


RULES = """\
job: Lamp room
system: feet-inches
room: {corners: [[0 in, 0 in], [120 in, 0 in], [120 in, 90 in], [0 in, 90 in]]}
products: [{name: Driftwood plank 48 x 6, length: 48 in, width: 6 in}]
axes: [{name: lamp axis, through: [[60 in, 0 in], [60 in, 90 in]]}]
field: {bond: staggered, directions: [{along: lamp axis}]}
rules:
  smallest_cut: {must: 1-1/2 in}
  joint_offset: prefer
  reuse_within: {prefer: 5}
  no_stair: off
  centred: [{must: lamp axis, on: joint}]
"""


def test_each_limit_tells_where_it_comes_from(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(RULES)
    out = run("check", job).out
    assert 'must    smallest cut: 1-1/2" (line 8)' in out
    assert (
        'prefer  end joints apart, next row: 6" (line 9; default: common practice, no source)'
        in out
    )
    assert "prefer  offcuts reused within rows: 5 rows (line 10)" in out
    assert 'must    smallest end piece: 8" (default: common practice, no source)' in out
    assert "must    centred on axis: lamp axis, a joint on it (line 12)" in out
    off = out.partition("Rules not asked for\n")[2].splitlines()
    assert off[0] == "  no repeating stair (line 11)"


def test_the_template_can_be_checked(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(template())
    assert run("check", job).code == Exit.DONE


def test_a_mistyped_key_is_bad_input_with_its_line(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(RULES.replace("smallest_cut", "smalest_cut"))
    ended = run("check", job)
    assert ended.code == Exit.BAD_INPUT
    assert ended.out == ""
    assert ended.err == (
        f"startrow: {job}:8: rules: unknown key 'smalest_cut'; did you mean 'smallest_cut'?\n"
    )


def test_a_missing_file_is_bad_input(run: Run, tmp_path: Path) -> None:
    ended = run("check", tmp_path / "none.yaml")
    assert ended.code == Exit.BAD_INPUT
    assert "there is no such file" in ended.err
