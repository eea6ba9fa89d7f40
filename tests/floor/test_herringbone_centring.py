"""Herringbones on an axis: their lines of points and units' middles, and symmetry about them."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import pytest
import shapely
from shapely.affinity import rotate, scale

from models.floor.herringbone import Corner
from models.floor.herringbone_centring import held_corners, herringbone_off_axis, hold_of
from models.floor.pieces import Cut
from models.floor.zone import Zone
from models.job.data import Axis, Centred, CentreOn, Kind
from tests.floor.herringbones import LENGTH, ODD, PITCH, WIDTH, lay, slanted_zone, zone_for
from tests.floor.rooms import box, job_of

HALL = box(0, -300_000, 900_000, 300_000)
"""A room whose middle is the point 450000, 0."""
ALONG, SQUARE = Axis("along", (450_000, 0), (1, 0)), Axis("square", (450_000, 0), (0, 1))


def in_job(zone: Zone, corner: Corner) -> list[tuple[Cut, shapely.Polygon]]:
    """The pieces with their outlines in the job's axes."""
    return [
        (cut, shapely.Polygon([zone.frame.to_job(point) for point in cut.ring]))
        for cut in lay(zone, corner)
    ]


def meet(ones: list[tuple[Cut, shapely.Polygon]], others: list[tuple[Cut, shapely.Polygon]]) -> int:
    """How many pieces there are, once each of the ones is found among the others."""
    tree = shapely.STRtree([shapely.centroid(shape) for _, shape in others])
    assert len(ones) == len(others)
    for cut, shape in ones:
        twin, same = others[int(tree.nearest(shape.centroid))]
        assert shape.hausdorff_distance(same) < 3  # ticks: corners are whole in the frame
        for size, other in zip(sizes_in_order(cut), sizes_in_order(twin), strict=True):
            assert size == pytest.approx(other, abs=3)
    return len(ones)


def sizes_in_order(cut: Cut) -> tuple[int, int, int]:
    return cut.sizes.along or 0, cut.sizes.across or 0, cut.sizes.slant or 0


@pytest.mark.parametrize("double", [False, True])
def test_a_line_of_points_is_an_axis_of_glide_reflection(double: bool) -> None:
    # Seen in a mirror along its line of points the pattern is itself, half a step further on.
    zone = slanted_zone(HALL, double)
    hold = hold_of(zone, ALONG, CentreOn.JOINT, PITCH, double)
    assert hold is not None
    corner = (7_000, 7_000 + round(hold.at[0]))
    half = WIDTH if double else WIDTH // 2
    onward = (corner[0] + half, corner[1] + half)
    mirrored = [(cut, scale(shape, 1, -1, origin=(0, 0))) for cut, shape in in_job(zone, corner)]
    assert meet(mirrored, in_job(zone, onward)) > 300
    # So what is cut at the left wall from one corner is cut at the right from the other.
    left = sorted(cut.sizes.slant or 0 for cut, shape in mirrored if shape.bounds[3] < -9)
    right = sorted(c.sizes.slant or 0 for c, s in in_job(zone, onward) if s.bounds[3] < -9)
    assert left == pytest.approx(right, abs=3)


def test_half_a_turn_about_the_middle_of_a_unit_changes_nothing() -> None:
    # A unit's middle in the room's middle: what is cut at one wall is cut at the other.
    zone = slanted_zone(HALL, double=False)
    u, v = zone.frame.to_frame((450_000, 0))
    corner = (u - LENGTH // 2, v - WIDTH // 2)
    for axis in (ALONG, SQUARE):
        assert herringbone_off_axis(zone, axis, CentreOn.UNIT, corner, PITCH, double=False) in (
            0,
            1,
        )
    pieces = in_job(zone, corner)
    turned = [(cut, rotate(shape, 180, origin=(450_000, 0))) for cut, shape in pieces]
    assert meet(turned, pieces) > 300


def modules_in(cuts: list[Cut], double: bool) -> list[tuple[Cut, tuple[int, int, int, int]]]:
    """The whole flat and upright modules: single units, or the boxes of pairs side by side."""
    whole = [cut for cut in cuts if cut.whole]
    if not double:
        return [(cut, cut.cell) for cut in whole]
    found = []
    for one, two in product(whole, whole):
        (a, b, c, d), (e, f, g, h) = one.cell, two.cell
        if (one.quarter, e, f, g, h) == (False, a, d, c, d + WIDTH):
            found.append((one, (a, b, c, h)))
        if (one.quarter, e, f, g, h) == (True, c, b, c + WIDTH, d):
            found.append((one, (a, b, g, d)))
    return found


@pytest.mark.parametrize("double", [False, True])
@pytest.mark.parametrize("on", [CentreOn.JOINT, CentreOn.UNIT])
def test_what_is_held_lies_on_an_axis_along_the_points(on: CentreOn, double: bool) -> None:
    zone = slanted_zone(HALL, double)
    hold = hold_of(zone, ALONG, on, PITCH, double)
    assert hold is not None
    corner = (3_000, 3_000 + round(hold.at[0]))
    offs = []
    for cut, (left, low, right, high) in modules_in(lay(zone, corner), double):
        # A line of points halves the ends of units; between two lines lie units' middles.
        u, v = (left + right) / 2, (low + high) / 2
        ends = [(u, low), (u, high)] if cut.quarter else [(left, v), (right, v)]
        offs += [abs(job_y(zone, at)) for at in (ends if on is CentreOn.JOINT else [(u, v)])]
    assert min(offs) < 2
    spacing = LENGTH / math.sqrt(2)
    assert all((off + 2) % spacing < 4 for off in offs)
    assert herringbone_off_axis(zone, ALONG, on, corner, PITCH, double) == 0
    assert herringbone_off_axis(zone, ALONG, CentreOn.EITHER, corner, PITCH, double) == 0
    other = CentreOn.UNIT if on is CentreOn.JOINT else CentreOn.JOINT
    off = herringbone_off_axis(zone, ALONG, other, corner, PITCH, double)
    assert off == round(spacing / 2)


def job_y(zone: Zone, point: tuple[float, float]) -> float:
    """The y of a point of the frame in the job's axes."""
    twice = zone.frame.to_job((round(2 * point[0]), round(2 * point[1])))
    return (twice[1] + zone.frame.to_job((0, 0))[1]) / 2


@pytest.mark.parametrize("double", [False, True])
def test_units_are_centred_on_an_axis_square_to_the_points(double: bool) -> None:
    zone = slanted_zone(HALL, double)
    hold = hold_of(zone, SQUARE, CentreOn.EITHER, PITCH, double)
    assert hold is not None
    assert (hold.normal, len(hold.at)) == ((1, 1), 1)
    corner = (0, round(hold.at[0]))
    cells = [cut.cell for cut in lay(zone, corner)]
    xs = [zone.frame.to_job(((a + c) // 2, (b + d) // 2))[0] for a, b, c, d in cells]
    assert min(abs(x - 450_000) for x in xs) < 2
    # Every column has such a unit: a width along the points, the middles are there again.
    spacing = WIDTH * math.sqrt(2) / 2
    assert all(abs((x - 450_000 + 5) % spacing - 5) < 5 for x in xs)
    assert hold_of(zone, SQUARE, CentreOn.JOINT, PITCH, double) is None


@pytest.mark.parametrize("double", [False, True])
@pytest.mark.parametrize("vertical", [False, True])
def test_an_axis_along_the_units_meets_joints_where_a_unit_is_whole_widths_long(
    vertical: bool, double: bool
) -> None:
    zone = zone_for(HALL, 90, double)
    axis = Axis("axis", (12_345, 6_789), (0, 1) if vertical else (1, 0))
    place = 12_345 if vertical else 6_789
    for on, shift in ((CentreOn.JOINT, 0), (CentreOn.UNIT, WIDTH // 2)):
        hold = hold_of(zone, axis, on, PITCH, double)
        assert hold is not None
        (at,) = hold.at
        corner = (round(at), 0) if vertical else (0, round(at))
        # Widths lie across the axis in flat units, or in upright ones.
        lows = {c.cell[0 if vertical else 1] for c in lay(zone, corner) if c.quarter is vertical}
        assert place - shift in lows
        assert all((low - place + shift) % WIDTH == 0 for low in lows)
        assert hold_of(zone, axis, on, ODD, double) is None
        off = herringbone_off_axis(
            zone, axis, on, (corner[0] + 300, corner[1] - 300), PITCH, double
        )
        assert off == 300


def test_nothing_is_centred_on_an_oblique_axis() -> None:
    axis = Axis("axis", (0, 0), (3, 1))
    for zone in (slanted_zone(HALL, double=False), zone_for(HALL)):
        assert hold_of(zone, axis, CentreOn.EITHER, PITCH, double=False) is None
        assert herringbone_off_axis(zone, axis, CentreOn.UNIT, (0, 0), PITCH, double=False) is None


def test_axes_that_ask_for_the_same_hold_together_and_others_contradict() -> None:
    # Lines of points lie a unit's length over the square root of 2 apart.
    near = Axis("near", (0, 0), (1, 0))
    job = replace(job_of(HALL), axes=(near, replace(ALONG, point=(0, 20_000)), SQUARE))
    zone = slanted_zone(HALL, double=False)

    def held(*asked: tuple[Axis, CentreOn]) -> list[tuple[tuple[int, int], int]]:
        rules = [Centred(Kind.MUST, axis.name, on) for axis, on in asked]
        holds = held_corners(zone, job, rules, PITCH, double=False)
        return [(hold.normal, len(hold.at)) for hold in holds]

    assert held((near, CentreOn.EITHER)) == [((-1, 1), 2)]
    assert held((near, CentreOn.EITHER), (near, CentreOn.UNIT)) == [((-1, 1), 1)]
    assert held((near, CentreOn.JOINT), (ALONG, CentreOn.JOINT)) == [((-1, 1), 0)]
    assert held((near, CentreOn.JOINT), (SQUARE, CentreOn.UNIT)) == [((-1, 1), 1), ((1, 1), 1)]
    assert held((SQUARE, CentreOn.JOINT)) == []
