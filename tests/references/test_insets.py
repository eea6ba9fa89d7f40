"""Insets and mirrored fields against closed forms, worked out by hand.

An inset m units wide on an axis is met without a cut by a joint on the axis when m is even
and by a unit centred on it when m is odd: 2 x (axis - start) is then a whole number of
units. Derived, and the one-dimension rule of NAVEDTRA 14044 p. 7-23 (n whole units and a
remainder of nought).
"""

from __future__ import annotations

from collections import Counter

import pytest

from models.job.reader import read_text
from solver.audit import audit
from solver.search import solve
from solver.sheets.contract import document

INSET = """
job: Tern House landing
system: millimetres
bare_numbers: mm
room:
  corners: [[0, 0], [4130, 0], [4130, 3370], [0, 3370]]
axes:
  - {{name: middle, through: [[2065, 0], [2065, 3370]]}}
features:
  - {{name: star, axis: middle, along: 1685, rectangle: [{size}, {size}]}}
products:
  - {{name: plank, length: 1200, width: 180, kerf: 2}}
  - {{name: tile, length: 150, width: 150}}
zones:
  - name: star floor
    fill: star
    product: tile
    bond: straight
    rules: {{centred: [{{must: middle, on: {on}}}]}}
field: {{product: plank, bond: staggered}}
"""

HALL = """
job: Tern House passage
system: millimetres
bare_numbers: mm
room:
  corners: [[0, 0], [7400, 0], [7400, 2600], [0, 2600]]
  walls: [south wall, east wall, north wall, west wall]
axes:
  - {name: middle, through: [[3700, 0], [3700, 2600]]}
products:
  - {name: plank, length: 900, width: 150, kerf: 2}
  - {name: tile, length: 300, width: 300, kerf: 2}
zones:
  - name: walk
    band: {along: middle, width: 1200}
    product: tile
    bond: straight
  - name: west field
    mirror: {zone: east field, axis: middle}
field:
  name: east field
  part_at: [6000, 1300]
  product: plank
  bond: staggered
  directions: [{along: south wall}]
"""


def cuts_in_the_inset(units: int, on: str) -> int:
    """Cut tiles of an inset so many units wide and high, held on its axis."""
    job = read_text(INSET.format(size=150 * units, on=on), "inset.yaml")
    layout = solve(job).layouts[0]
    zone = next(zone for zone in layout.zones if zone.zone == "star floor")
    assert layout.figures.broken_must == 0
    return sum(piece.cut for piece in zone.pieces)


@pytest.mark.parametrize("units", [2, 4, 6])
def test_an_even_inset_on_a_joint_needs_no_cut(units: int) -> None:
    assert cuts_in_the_inset(units, "joint") == 0


@pytest.mark.parametrize("units", [3, 5])
def test_an_odd_inset_on_a_unit_needs_no_cut(units: int) -> None:
    assert cuts_in_the_inset(units, "unit") == 0


@pytest.mark.parametrize(("units", "on"), [(4, "unit"), (3, "joint")])
def test_the_other_way_round_a_half_unit_is_cut_on_both_sides(units: int, on: str) -> None:
    assert cuts_in_the_inset(units, on) == 2 * units


def test_mirrored_fields_have_equal_piece_lists() -> None:
    solution = solve(read_text(HALL, "hall.yaml"))
    assert audit(document(solution)).clean
    for layout in solution.layouts:
        lists = [
            Counter((p.size_along, p.size_across, p.cut) for p in zone.pieces)
            for zone in layout.zones
            if zone.zone in ("east field", "west field")
        ]
        assert len(lists) == 2
        assert lists[0] == lists[1]


def test_what_a_band_leaves_adds_up_to_the_floor() -> None:
    """7.4 x 2.6 m: a walk 1.2 m wide across it and a field of 3.1 m on either side."""
    layout = solve(read_text(HALL, "hall.yaml")).layouts[0]
    needs = {need.product: need for need in layout.figures.needs}
    assert needs["tile"].laid_area_mm2 == pytest.approx(1200 * 2600)
    assert needs["plank"].laid_area_mm2 == pytest.approx(2 * 3100 * 2600)
    # Tiles: 4 x 8 whole and a row of 200 mm, which no two share; planks by area 119.4.
    assert needs["tile"].units == 36
    assert needs["tile"].proved
    assert needs["plank"].units_at_least >= 120
