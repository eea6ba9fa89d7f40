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


ZONES = """\
job: Gallery
system: feet-inches
bare_numbers: in
currency: "$"
breakage: 2 %
spare: 1 carton per 50
room:
  corners: [[20', 12'], [0, 12'], [0, 0], [20', 0], {arc_through: [22', 6']}]
  walls: [north wall, west wall, sea wall, bow window]
axes: [{name: long axis, through: [[0, 6'], [20', 6']]}]
features: [{name: star, axis: long axis, along: {from: 5', to: 7'}, diameter: 24}]
products:
  - {name: tile, length: 12, width: 12}
  - name: plank
    width: 6
    lengths: [{length: 24, per_carton: 4}, {length: 48, per_carton: 6}]
    scrap: 6
    shop_cuts: yes
    price: 48.50
zones:
  - name: edge
    border: {width: {from: 1 unit, to: 2 units}, along: [west wall], corners: mitred}
    product: tile
    bond: straight
  - {name: inlay, fill: star, product: tile, bond: herringbone, rules: {smallest_cut: {must: 1}}}
  - name: low mat
    corners: [[10', 1'], [13', 1'], [13', 3'], [10', 3']]
    product: tile
    bond: straight
    marks: quarter-turned
    trim: 1/2
  - {name: high mat, mirror: {zone: low mat, axis: long axis}}
  - {name: sill, corners: [[10', 4'], [16', 4'], [16', 5'], [10', 5']]}
field: {product: plank, bond: staggered, directions: [{along: sea wall}]}
links: [{zones: [field, sill], share: row lines}]
rules: {joint_offset: {must: 5}, balanced_cuts: off}
"""


@pytest.fixture
def zones(run: Run, tmp_path: Path) -> str:
    """What check prints of a job with every kind of thing a whole floor may hold."""
    job = tmp_path / "job.yaml"
    job.write_text(ZONES)
    ended = run("check", job)
    assert (ended.code, ended.err) == (Exit.DONE, "")
    return ended.out


def test_an_arc_wall_is_one_wall(zones: str) -> None:
    # chord 12 ft, rise 2 ft: radius 10 ft, 2 asin(0.6) of it, 12 ft 10.4 in, by hand
    assert ", 4 walls\n" in zones
    assert "bow window: 12' 10-7/16\" round its arc, worked as" in zones
    assert zones.count("bow window: ") == 1


def test_what_is_left_to_choose_is_told(zones: str) -> None:
    assert "star: round, 2' 0\" across, centre 5' 0\" to 7' 0\" (to be chosen), on long" in zones
    assert "border along west wall, 1' 0\" to 2' 0\" (to be chosen) wide, mitred corners" in zones


def test_each_zone_tells_where_it_is_and_how_it_is_laid(zones: str) -> None:
    laid = zones.partition("Laid\n")[2].partition("Linked\n")
    assert [line for line in laid[0].splitlines() if not line.startswith("    ")] == [
        "  edge: tile in straight bond",
        "  inlay: tile in herringbone, units at 45 degrees to the line of points",
        "  low mat: tile in straight bond",
        "  high mat: tile in straight bond",
        "  sill: plank in staggered bond",
        "  field: plank in staggered bond",
        "  spare cartons: 1 for every 50 or fraction",
        "  for breakage: 2.0 % of the units laid",
        "",
    ]
    assert "    the reflection of low mat about long axis\n    rows along sea wall, ref" in laid[0]
    assert '    every second unit turned a quarter\n    1/2" of trim round it\n' in laid[0]
    assert "    rows along each of its sides\n" in laid[0]
    assert laid[2].startswith("  sill goes on from field, sharing row lines\n")


def test_a_product_of_mixed_lengths_tells_them(zones: str) -> None:
    assert '  plank: 4\' 0" and 2\' 0" x 6", 10 a carton (6 and 4), keeps its direc' in zones
    assert 'offcuts under 6" are scrap, cut edges may lie at joints, $48.50 a carton' in zones


def test_zones_with_the_same_rules_share_their_list(zones: str) -> None:
    headings = [line for line in zones.splitlines() if "where each limit comes from" in line]
    assert headings == [
        "Rules of edge, low mat and high mat, and where each limit comes from",
        "Rules of inlay, and where each limit comes from",
        "Rules of sill and field, and where each limit comes from",
    ]
    off = zones.partition("Rules of edge, low mat and high mat not asked for\n")[2]
    assert off.startswith("  end joints apart, next row (means nothing in this bond)\n")
    last = len(ZONES.splitlines())
    assert f"  balanced opposite cuts (line {last})\n" in off.partition("\n\n")[0]
    inlay = zones.partition("Rules of inlay, and")[2].partition("Rules of inlay not")
    assert 'must    smallest cut: 1" (line 25)' in inlay[0]
    assert "  end joints apart, next row (default)\n" in inlay[2]


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
