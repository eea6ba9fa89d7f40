"""A mirrored zone is the exact reflection of the other, run for run and piece for piece."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from models.floor.runs import runs_of, slabs
from models.floor.zone import zone_of
from models.job.angles import mirrored_point, mirrored_vector
from models.job.data import Axis, Bond, BondKind, Job, Point
from models.lengths import TICKS_PER_MM as MM
from solver.search.draft import Draft, draft
from solver.search.found import Found
from solver.search.mirror import reflect
from tests.floor.rooms import area_in
from tests.search.floors import ALONG_X, PLANK, STAGGERED, STRAIGHT, TILE, box
from tests.search.zoned import bundles_of, image, part, zoned

UPRIGHT = Axis("middle", (2000 * MM, 0), (0, 1))
OBLIQUE = Axis("slant", (2000 * MM, 800 * MM), (2, 1))
QUARTER = Bond(BondKind.STEPPED, Fraction(1, 4))

ELL = ((2200, 300), (3400, 300), (3400, 700), (2900, 700), (2900, 900), (2200, 900))
"""An L right of the upright axis, with floor all round it."""

LOW = ((2300, 100), (3500, 100), (3500, 600), (2300, 600))
"""A box below the oblique axis; its image lies above, turned."""


def two(axis: Axis, bond: Bond) -> Job:
    shape = ELL if axis == UPRIGHT else LOW
    zone = part("one", shape, PLANK, bond)
    zones = [zone, image("other", zone, axis.name)]
    return zoned(box(4000, 3000), zones, PLANK, bond, axes=[axis])


def pair(axis: Axis, bond: Bond, line: int, shift: int) -> tuple[Draft, Draft]:
    """A layout of one zone by a line and a shift of its joints from run to run, and its image."""
    job = two(axis, bond)
    zone = zone_of(area_in(job, "one"), ALONG_X)
    runs = runs_of(zone, slabs(zone), PLANK.pitch[1], line)
    offsets = tuple(shift * i % PLANK.pitch[0] for i in range(len(runs)))
    found = Found(zone, line, runs, offsets, 0, 0)
    image_ = reflect(found, area_in(job, "other"), axis, PLANK.pitch[1])
    return draft(job, found), draft(job, image_)


def rings(one: Draft) -> list[tuple[tuple[float, float], ...]]:
    return [tuple(one.zone.frame.to_job(p) for p in cut.ring) for cut in one.cuts]


def reflected(point: tuple[float, float], axis: Axis) -> tuple[float, float]:
    """A point's image by its foot on the axis, in floats."""
    (px, py), (dx, dy) = axis.point, axis.direction
    share = ((point[0] - px) * dx + (point[1] - py) * dy) / (dx * dx + dy * dy)
    return 2 * (px + share * dx) - point[0], 2 * (py + share * dy) - point[1]


@pytest.mark.parametrize("axis", [UPRIGHT, OBLIQUE], ids=["upright", "oblique"])
@given(line=st.integers(0, 200 * MM - 1), shift=st.integers(0, 1200 * MM))
@settings(max_examples=15, deadline=None, derandomize=True)
def test_every_piece_lies_where_the_mirror_shows_it(axis: Axis, line: int, shift: int) -> None:
    one, other = pair(axis, STAGGERED, line, shift)
    shown = [tuple(reflected(p, axis) for p in ring) for ring in rings(one)]
    real = rings(other)
    assert len(real) == len(shown)
    for ring in shown:
        # Within the half tick by which the frame's own corner is rounded.
        assert any(
            len(ring) == len(found)
            and all(min(abs(x - a) + abs(y - b) for a, b in found) <= 2 for x, y in ring)
            for found in real
        )


@pytest.mark.parametrize("axis", [UPRIGHT, OBLIQUE], ids=["upright", "oblique"])
@given(line=st.integers(0, 200 * MM - 1), shift=st.integers(0, 1200 * MM))
@settings(max_examples=15, deadline=None, derandomize=True)
def test_pieces_keep_their_whole_ticks_along_and_change_sides_across(
    axis: Axis, line: int, shift: int
) -> None:
    one, other = pair(axis, STAGGERED, line, shift)
    turned = [(left, -high, right, -low) for left, low, right, high in (c.box for c in one.cuts)]
    assert sorted(turned) == sorted(cut.box for cut in other.cuts)
    sizes = [sorted(str(cut.sizes) for cut in each.cuts) for each in (one, other)]
    assert sizes[0] == sizes[1]
    flipped = [(p.along, p.length, p.across.flipped, p.width) for p in one.parts]
    asked = [(p.along, p.length, p.across, p.width) for p in other.parts]
    assert sorted(flipped, key=str) == sorted(asked, key=str)


@pytest.mark.parametrize("bond", [STRAIGHT, QUARTER], ids=["straight", "stepped"])
def test_the_mirrored_bond_steps_the_other_way(bond: Bond) -> None:
    _, other = pair(UPRIGHT, bond, 60 * MM, 0)
    assert other.zone.laying.bond.kind is bond.kind
    assert (other.zone.laying.bond.step + bond.step) % 1 == 0


@pytest.mark.parametrize("axis", [UPRIGHT, OBLIQUE], ids=["upright", "oblique"])
def test_rows_are_counted_from_the_other_side(axis: Axis) -> None:
    one, other = pair(axis, STAGGERED, 60 * MM, 310 * MM)
    rows = max(run.row for run in one.runs)
    ends = {(rows + 1 - run.row, run.start, run.end) for run in one.runs}
    assert {(run.row, run.start, run.end) for run in other.runs} == ends
    assert [run.row for run in other.runs] == sorted(run.row for run in other.runs)
    assert {name for edges in other.touching for name in (e.name for e in edges)} == {"floor"}


points = st.tuples(st.integers(-9000, 9000), st.integers(-9000, 9000))


@given(point=points, through=points, direction=points)
@settings(max_examples=200, derandomize=True)
def test_a_point_and_its_image_are_as_far_from_the_axis_on_either_side(
    point: Point, through: Point, direction: Point
) -> None:
    assume(direction != (0, 0))
    axis = Axis("axis", through, direction)
    found = mirrored_point(point, axis)
    assert found == pytest.approx(reflected(point, axis), abs=0.5001)
    assert mirrored_vector(direction, axis.direction)[0] * direction[1] == (
        mirrored_vector(direction, axis.direction)[1] * direction[0]
    )


@given(vector=points, direction=points)
@settings(max_examples=200, derandomize=True)
def test_a_direction_seen_twice_in_a_mirror_is_itself(vector: Point, direction: Point) -> None:
    assume(direction != (0, 0))
    assume(vector != (0, 0))
    axis = Axis("axis", (0, 0), direction)
    x, y = mirrored_vector(mirrored_vector(vector, axis.direction), axis.direction)
    assert x * vector[1] == y * vector[0]
    assert x * vector[0] + y * vector[1] > 0


def test_tile_on_an_axis_is_its_own_image() -> None:
    zone = part("one", LOW, TILE, STRAIGHT)
    zones = [zone, image("other", zone, "middle")]
    job = zoned(box(4000, 2400), zones, TILE, STRAIGHT, axes=[UPRIGHT])
    assert area_in(job, "other").mirrors == "one"
    xs = {x / MM for x, _ in area_in(job, "other").outer}
    assert xs == {500, 1700}


def test_cells_of_several_lengths_lie_where_the_mirror_shows_them() -> None:
    mixed = replace(PLANK, mix=((1200 * MM, 2), (600 * MM, 3)), per_carton=5)
    zone = part("one", ELL, mixed, STAGGERED)
    zones = [zone, image("other", zone, "middle")]
    job = zoned(box(4000, 3000), zones, TILE, STRAIGHT, axes=[UPRIGHT], products=[mixed])
    _, bundles = bundles_of(job)
    pair = next(bundle for bundle in bundles if len(bundle.areas) == 2)
    for one, other in pair.found:
        turned = {
            (-run.top, run.start, cells) for run, cells in zip(one.runs, one.cells, strict=True)
        }
        assert turned == {
            (r.bottom, r.start, c) for r, c in zip(other.runs, other.cells, strict=True)
        }
