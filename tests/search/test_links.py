"""Lines carried from zone to zone, and how far apart they are measured to lie."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from models.floor.runs import runs_of, slabs
from models.floor.zone import Zone, zone_of
from models.job.carve.plan import plan_of
from models.job.data import Bond, BondKind, Direction, Job, Link, Product, Share
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds.grid import row_offsets
from solver.search.draft import Draft, draft
from solver.search.found import QUICK, Found
from solver.search.links import carried, lines_apart
from solver.search.zones import Watch, search_zones
from tests.floor.rooms import area_in
from tests.search.floors import ALONG_X, PLANK, STRAIGHT, TILE, box
from tests.search.zoned import part, zoned

THIRD = Bond(BondKind.STEPPED, Fraction(1, 3))
WEST = ((0, 0), (1500, 0), (1500, 900), (0, 900))
"""The west end of a hall of 4000 by 1300; the field takes the rest, in an L round it."""


def hall(bond: Bond = STRAIGHT, product: Product = TILE) -> Job:
    return zoned(box(4000, 1300), [part("west", WEST, product, bond)], product, bond)


def found_in(job: Job, name: str, line: float, joint: float) -> Found:
    """A layout of a zone by a row line and a joint of the row above it, in mm in its frame."""
    area = area_in(job, name)
    zone, pitch = zone_of(area, ALONG_X), job.product_of(area.laying).pitch
    start, at = round(line * MM), round(joint * MM)
    runs = runs_of(zone, slabs(zone), pitch[1], start)
    offsets = row_offsets(runs, start, at, pitch, zone.laying.bond.step)
    return Found(zone, start, runs, offsets, 0, 0)


def in_room(zone: Zone, axis: int, value: int) -> float:
    """A line of a zone's frame as an x or y of the room, in mm; rows run along x."""
    point = (0, value) if axis else (value, 0)
    return zone.frame.to_job(point)[axis] / MM


@pytest.mark.parametrize("line", [0, 40, 299])
def test_row_lines_are_carried_to_the_same_place_in_the_room(line: int) -> None:
    job = hall()
    west, floor = found_in(job, "west", line, 0), zone_of(area_in(job), ALONG_X)
    only = carried(west, TILE, floor, Share.ROW_LINES)
    assert only.joints is None
    assert only.rows is not None
    here = in_room(floor, 1, only.rows[0])
    assert (here - in_room(west.zone, 1, west.start_line)) % 300 == 0


@pytest.mark.parametrize("bond", [STRAIGHT, THIRD], ids=["straight", "stepped"])
def test_joints_are_carried_as_those_of_the_row_at_the_start_line(bond: Bond) -> None:
    job = hall(bond, PLANK)
    # Lines at 650 begin far below: the runs' own joints are shifted, the start line's are not.
    west, floor = found_in(job, "west", 650, 500), zone_of(area_in(job), ALONG_X)
    only = carried(west, PLANK, floor, Share.JOINTS)
    assert only.rows is None
    assert only.joints is not None
    there = in_room(west.zone, 0, 500 * MM)
    assert (in_room(floor, 0, only.joints[0]) - there) % 1200 == pytest.approx(0)


def drafts(job: Job, west: tuple[float, float], floor: tuple[float, float]) -> list[Draft]:
    """Both zones by a row line and a joint, in mm in the room."""
    found = []
    for name, (line, joint) in (("west", west), ("floor", floor)):
        u, v = zone_of(area_in(job, name), ALONG_X).frame.to_frame((0, 0))
        found.append(draft(job, found_in(job, name, line + v / MM, joint + u / MM)))
    return found


@pytest.mark.parametrize(
    ("line", "joint", "apart"),
    [
        (50, 20, (0, 0)),
        (350, 320, (0, 0)),
        (60, 20, (10, 0)),
        (40, 310, (10, 10)),
        (200, 170, (150, 150)),
    ],
)
def test_lines_are_as_far_apart_as_they_lie_in_the_room(
    line: int, joint: int, apart: tuple[int, int]
) -> None:
    west, floor = drafts(hall(), (50, 20), (line, joint))
    for one, two in ((west, floor), (floor, west)):
        assert lines_apart(one, two, Share.ROW_LINES) == apart[0] * MM
        assert lines_apart(one, two, Share.JOINTS) == apart[1] * MM


def test_lines_of_zones_a_little_off_square_are_carried_to_the_nearest_tick() -> None:
    # Both zones run along a wall that rises by 1 in 40.
    slant = Direction("along the slant", (40, 1))
    room = ((0, 0), (4000, 100), (4000, 1400), (0, 1300))
    west = ((0, 0), (1500, 37.5), (1500, 937.5), (0, 900))
    zone = part("west", west, directions=(slant,))
    job = zoned(room, [zone], links=[Link("west", "floor", Share.ROW_LINES)])
    job = replace(job, zones=(zone, replace(job.field, directions=(slant,))))
    plan = plan_of(job)
    (bundle,) = search_zones(plan, Watch(lambda _: None, lambda: False, QUICK))
    for layout in bundle.found:
        one, two = (draft(plan.job, found) for found in layout)
        # Lines are off by rounding alone.
        assert lines_apart(one, two, Share.ROW_LINES) <= 2
