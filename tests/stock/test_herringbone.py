"""What pieces of a herringbone ask of stock, upright units as they lie themselves."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from models.floor.herringbone import Corner, mirrored_corner
from models.floor.pieces import Cut
from models.floor.zone import Zone
from models.job.data import Ring
from solver.stock.herringbone import herringbone_parts
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, Stock
from tests.floor.herringbones import LENGTH, PITCH, WIDTH, lay, slanted_zone, zone_for
from tests.floor.rooms import box

FULL, LOW, HIGH, FREE = Sits.FULL, Sits.LOW, Sits.HIGH, Sits.FREE


def at(zone: Zone, cell: tuple[int, int], corner: Corner = (0, 0)) -> Part:
    """The part of the piece whose cell starts there."""
    cuts = lay(zone, corner)
    parts = herringbone_parts(zone, cuts)
    return next(p for p, c in zip(parts, cuts, strict=True) if c.cell[:2] == cell)


def asked(part: Part) -> tuple[Sits, int, Sits, int, int | None]:
    return part.along, part.length, part.across, part.width, part.lean


def test_whole_units_take_a_unit_either_way() -> None:
    zone = zone_for(box(-200_000, -200_000, 200_000, 200_000))
    whole = (FULL, LENGTH, FULL, WIDTH, 0)
    assert asked(at(zone, (0, 0))) == asked(at(zone, (80_000, -60_000))) == whole


@pytest.mark.parametrize(
    ("room", "flat", "upright"),
    [
        # The flat unit lies from 0, 0 to 80000, 20000; the upright one from 20000, -120000 to
        # 40000, -40000, with its low end down and its low side to the right.
        (
            (-200_000, -200_000, 30_000, 200_000),
            (LOW, 30_000, FULL, WIDTH),
            (FULL, LENGTH, HIGH, 10_000),
        ),
        (
            (30_000, -200_000, 200_000, 200_000),
            (HIGH, 50_000, FULL, WIDTH),
            (FULL, LENGTH, LOW, 10_000),
        ),
        ((-200_000, -200_000, 200_000, 5_000), (FULL, LENGTH, LOW, 5_000), None),
        ((-200_000, 5_000, 200_000, 200_000), (FULL, LENGTH, HIGH, 15_000), None),
        ((-200_000, -200_000, 200_000, -70_000), None, (LOW, 50_000, FULL, WIDTH)),
        ((-200_000, -70_000, 200_000, 200_000), None, (HIGH, 30_000, FULL, WIDTH)),
    ],
)
def test_a_piece_lies_at_the_end_of_its_unit_that_is_a_joint(
    room: tuple[int, int, int, int],
    flat: tuple[Sits, int, Sits, int] | None,
    upright: tuple[Sits, int, Sits, int] | None,
) -> None:
    zone = zone_for(box(*room))
    for cell, expected in (((0, 0), flat), ((20_000, -120_000), upright)):
        if expected:
            assert asked(at(zone, cell)) == (*expected, 0)


def test_a_side_along_a_wall_is_no_joint() -> None:
    # The wall at 0 is where the unit begins, so that its cut piece may lie anywhere.
    assert asked(at(zone_for(box(0, -200_000, 30_000, 200_000)), (0, 0)))[:2] == (FREE, 30_000)
    # Where the wall goes back beside it, some of that side is a joint again.
    stepped = ((0, -200_000), (30_000, -200_000), (30_000, 200_000), (-50_000, 200_000),
               (-50_000, 8_000), (0, 8_000))  # fmt: skip
    assert asked(at(zone_for(stepped), (0, 0)))[:2] == (LOW, 30_000)


def test_ends_cut_at_45_degrees_lean_by_the_width() -> None:
    zone = slanted_zone(box(0, -300_000, 900_000, 300_000), double=False)
    cuts = lay(zone, (3_000, 31_000))
    parts = herringbone_parts(zone, cuts)
    leans = {(c.quarter, p.lean) for p, c in zip(parts, cuts, strict=True) if p.lean}
    # A wall that runs up and to the right leans one way in a flat unit, the other way in an
    # upright one; every kind of unit meets walls of both kinds.
    assert leans == {(False, WIDTH), (False, -WIDTH), (True, WIDTH), (True, -WIDTH)}
    right = zone_for(((-300_000, -300_000), (300_000, -300_000), (300_000, 300_000)))
    found = set()
    for v in range(0, 2 * LENGTH, 10_000):
        cuts = lay(right, (3_000, v))
        parts = herringbone_parts(right, cuts)
        found |= {(c.quarter, p.along, p.lean) for p, c in zip(parts, cuts, strict=True) if p.lean}
    assert found == {(False, HIGH, WIDTH), (True, LOW, -WIDTH)}


ELL = ((0, 0), (310_000, 0), (310_000, 90_000), (150_000, 90_000), (150_000, 260_000), (0, 260_000))
CLIPPED = ((0, 0), (300_000, 0), (300_000, 100_000), (100_000, 300_000), (0, 300_000))
ASKEW = ((0, 0), (310_000, 40_000), (250_000, 250_000))

rooms = st.sampled_from([box(0, 0, 300_000, 210_000), ELL, CLIPPED, ASKEW])
places = st.tuples(st.integers(-90_000, 90_000), st.integers(-90_000, 90_000))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(rooms, places, st.booleans())
def test_turned_over_arrows_stay_and_sides_change(room: Ring, corner: Corner, double: bool) -> None:
    # With u and v exchanged flat units stand upright: their arrows go with them, but what was
    # to the left of an arrow is to the right.
    turned = tuple((v, u) for u, v in reversed(room))
    ones, others = zone_for(room, double=double), zone_for(turned, double=double)
    there = mirrored_corner(corner, PITCH, double)
    plain = Counter(
        replace(p, cut=0, row=0, across=p.across.flipped, lean=None if p.lean is None else -p.lean)
        for p in herringbone_parts(ones, lay(ones, corner))
    )
    assert plain == Counter(
        replace(p, cut=0, row=0) for p in herringbone_parts(others, lay(others, there))
    )


def in_unit(cut: Cut) -> Polygon:
    """A piece where it lies in its own unit, whose low corner is 0, 0."""
    left, low, right, _ = cut.cell
    ring = [(v - low, right - u) if cut.quarter else (u - left, v - low) for u, v in cut.ring]
    return Polygon(ring)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(rooms, places, st.booleans(), st.sampled_from([0, 900]))
def test_pieces_of_one_unit_lie_apart_where_their_joints_put_them(
    room: Ring, corner: Corner, slanted: bool, kerf: int
) -> None:
    zone = slanted_zone(room, double=False) if slanted else zone_for(room)
    cuts = lay(zone, corner)
    parts = herringbone_parts(zone, cuts)
    units = pack(parts, Stock(*PITCH, kerf, directional=True))
    assert sorted(i for members in units for i in members) == list(range(len(cuts)))
    for members in units:
        held = [i for i in members if FREE not in (parts[i].along, parts[i].across)]
        for one, two in combinations(held, 2):
            assert in_unit(cuts[one]).distance(in_unit(cuts[two])) >= kerf - 3
            assert in_unit(cuts[one]).intersection(in_unit(cuts[two])).area < 3 * LENGTH
