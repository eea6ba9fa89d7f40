"""Search of a herringbone: corners on axes, few units, large cuts, and its mirror image."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from shapely.geometry.polygon import orient

from models.floor.herringbone import herringbone_cuts, same_corner
from models.floor.herringbone_centring import herringbone_off_axis
from models.floor.zone import Zone
from models.job.angles import mirrored_point
from models.job.carve.area import Area
from models.job.carve.plan import plan_of
from models.job.data import Axis, Bond, BondKind, Centred, CentreOn, Job, Kind, Product, Rules
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds.corners import corners
from solver.search.bonds.herringbone import Weigher, search
from solver.search.bonds.herringbone_mirror import reflect_herringbone
from solver.search.bounds import cover_of
from solver.search.draft import draft, zone_stock
from solver.search.found import QUICK, Found, Searched
from solver.stock.herringbone import herringbone_parts
from solver.stock.pack import pack
from tests.search.floors import Corners, box, job_of, must, prefer, task_of, zone_in

SLAT = Product("slat", 300 * MM, 100 * MM)
FREE = replace(SLAT, directional=False)
SLANTED = Bond(BondKind.HERRINGBONE)
SQUARE = Bond(BondKind.HERRINGBONE, slant=90)
DOUBLE = Bond(BondKind.HERRINGBONE, slant=90, double=True)
ROOM = box(930, 710)
ELL: Corners = ((0, 0), (1000, 0), (1000, 400), (550, 400), (550, 830), (0, 830))
MIDDLE = Axis("middle", (0, 355 * MM), (1, 0))
ACROSS = Axis("across", (465 * MM, 0), (0, 1))


def searched(job: Job, stop_after: int | None = None, quick: bool = False) -> Searched:
    asked = iter(range(10**6))
    halt = lambda: stop_after is not None and next(asked) >= stop_after  # noqa: E731
    task = task_of(job)
    return search(replace(task, effort=QUICK) if quick else task, lambda _: None, halt)


def corner_of(found: Found) -> tuple[int, int]:
    return found.offsets[0], found.start_line


def weigher(job: Job) -> Weigher:
    zone = zone_in(job)
    return Weigher(zone, zone_stock(job, zone.laying))


def smallest(job: Job, found: Found) -> int:
    return weigher(job).weighed(corner_of(found)).smallest


@pytest.mark.parametrize("bond", [SLANTED, SQUARE, DOUBLE])
@pytest.mark.parametrize("room", [ROOM, ELL])
def test_what_is_found_holds_once_cut_to_pieces(bond: Bond, room: Corners) -> None:
    job = job_of(room, FREE, bond)
    zone, result = zone_in(job), searched(job)
    assert result.complete
    assert len({corner_of(found) for found in result.found}) == len(result.found)
    for found in result.found:
        cuts = herringbone_cuts(zone, corner_of(found), FREE.pitch, bond.double)
        assert len(pack(herringbone_parts(zone, cuts), zone_stock(job, zone.laying))) == found.units
        assert found.units >= result.at_least
        cut = draft(job, found)
        assert [one.cell for one in cut.cuts] == [one.cell for one in cuts]


@pytest.mark.parametrize(
    ("room", "bond", "product"),
    [(ROOM, SLANTED, SLAT), (ROOM, SQUARE, FREE), (ELL, SLANTED, FREE), (ELL, DOUBLE, SLAT)],
)
def test_no_place_of_a_close_grid_is_better(room: Corners, bond: Bond, product: Product) -> None:
    # Every 40 mm along and across the points, over one whole period of the pattern.
    job = job_of(room, product, bond)
    weigh, result = weigher(job), searched(job)
    width = 200 if bond.double else 100
    grid = [
        weigh.weighed(((total - rise) * MM // 2, (total + rise) * MM // 2))
        for total in range(0, 2 * width, 40)
        for rise in range(0, 600, 40)
    ]
    few = sorted(grid, key=lambda one: one.units)[:20]
    assert min(f.units for f in result.found) <= min(weigh.packed(one).units for one in few)
    best = max(smallest(job, found) for found in result.found)
    assert best >= max(one.smallest for one in grid) - MM


def test_a_floor_of_whole_modules_is_laid_without_a_cut() -> None:
    # Its outline goes round whole units; on the outline's lines nothing has to be cut.
    modules = [
        shapely.box(u + a, v + b, u + c, v + d)
        for i in range(4)
        for k in range(2)
        for u, v in [(i * 100 + k * 300, i * 100 - k * 300)]
        for a, b, c, d in ((0, 0, 300, 100), (300, -200, 400, 100))
    ]
    outline = shapely.union_all(modules)
    assert isinstance(outline, shapely.Polygon)
    room = [(round(x), round(y)) for x, y in orient(outline).exterior.coords[:-1]]
    result = searched(job_of(room, SLAT, SQUARE))
    assert min(found.units for found in result.found) == result.at_least == 16


@pytest.mark.parametrize("on", [CentreOn.JOINT, CentreOn.UNIT])
def test_an_axis_that_must_be_centred_on_holds_every_corner(on: CentreOn) -> None:
    rules = Rules(centred=(Centred(Kind.MUST, "middle", on),))
    job = job_of(ROOM, SLAT, SLANTED, rules, axes=[MIDDLE])
    zone, result = zone_in(job), searched(job)
    assert len(result.found) > 3
    for found in result.found:
        off = herringbone_off_axis(zone, MIDDLE, on, corner_of(found), SLAT.pitch, double=False)
        assert off in (0, 1)


def test_an_axis_that_is_preferred_holds_some_and_leaves_others_free() -> None:
    rules = Rules(centred=(Centred(Kind.PREFER, "middle", CentreOn.JOINT),))
    job = job_of(ROOM, SLAT, SLANTED, rules, axes=[MIDDLE])
    zone = zone_in(job)
    tried, every = corners(job, zone, 100)
    offs = [
        herringbone_off_axis(zone, MIDDLE, CentreOn.JOINT, corner, SLAT.pitch, double=False)
        for corner in tried
    ]
    held = sum(off in (0, 1) for off in offs)
    assert 10 <= held < len(tried) <= 100
    assert not every


def test_two_axes_leave_few_corners_and_the_bound_is_theirs() -> None:
    rules = Rules(
        centred=(
            Centred(Kind.MUST, "middle", CentreOn.UNIT),
            Centred(Kind.MUST, "across", CentreOn.JOINT),
        )
    )
    job = job_of(ROOM, SLAT, SQUARE, rules, axes=[MIDDLE, ACROSS])
    zone = zone_in(job)
    tried, every = corners(job, zone, 100)
    # A period is 6 widths long and one wide, and either axis holds one place in a width.
    assert (len(tried), every) == (6, True)
    result = searched(job)
    assert cover_of(job, zone).units < result.at_least <= min(f.units for f in result.found)


def test_axes_that_contradict_each_other_still_leave_a_floor() -> None:
    near = Axis("near", (0, 20 * MM), (1, 0))
    both = tuple(Centred(Kind.MUST, name, CentreOn.JOINT) for name in ("middle", "near"))
    result = searched(job_of(ROOM, SLAT, SLANTED, Rules(centred=both), axes=[MIDDLE, near]))
    assert result.found


def test_corners_that_give_one_pattern_are_tried_once() -> None:
    for bond in (SLANTED, SQUARE, DOUBLE):
        job = job_of(ELL, SLAT, bond)
        tried, _ = corners(job, zone_in(job), 150)
        assert 100 < len(tried) <= 150
        assert len({same_corner(at, SLAT.pitch, bond.double) for at in tried}) == len(tried)


def test_a_layout_that_keeps_the_rules_comes_first() -> None:
    job = job_of(ROOM, SLAT, SQUARE, Rules(smallest_cut=must(40), tape_tolerance=must(5)))
    first = searched(job).found[0]
    assert first.broken == 0
    assert smallest(job, first) >= 45 * MM
    wish = job_of(ROOM, SLAT, SQUARE, Rules(smallest_cut=prefer(290)))
    assert {found.broken for found in searched(wish).found} == {0}
    forced = job_of(ROOM, SLAT, SQUARE, Rules(smallest_cut=must(90), smallest_end=must(290)))
    assert {found.broken for found in searched(forced).found} == {2}


def test_a_search_that_is_stopped_keeps_what_it_has() -> None:
    job = job_of(ELL, SLAT, SQUARE)
    for part in (searched(job, stop_after=0), searched(job, stop_after=10)):
        assert part.found
        assert not part.complete
    assert searched(job, quick=True).complete


def test_the_same_job_gives_the_same_corners() -> None:
    job = job_of(ELL, SLAT, SLANTED)
    assert searched(job, quick=True) == searched(job, quick=True)


@pytest.mark.parametrize("bond", [SLANTED, SQUARE, DOUBLE])
def test_a_mirror_image_is_laid_piece_for_piece(bond: Bond) -> None:
    axis = Axis("hedge", (1200 * MM, 0), (1, 3))
    job = job_of(ELL, SLAT, bond)
    (area,) = plan_of(job).areas
    twin = _mirrored(area, axis)
    found = searched(job, quick=True).found[0]
    other = reflect_herringbone(found, twin, axis, SLAT.pitch)
    ones, others = draft(job, found), draft(job, other)
    here, there = _outlines(ones.zone, found), _outlines(other.zone, other)
    assert len(here) == len(there)
    tree = shapely.STRtree([shape.centroid for shape in there])
    for shape in here:
        seen = shapely.Polygon([_seen(point, axis) for point in shape.exterior.coords])
        nearest = there[int(tree.nearest(seen.centroid))]
        assert nearest.hausdorff_distance(seen) < 6  # both frames start on whole ticks
    stock = zone_stock(job, ones.zone.laying)
    units = len(pack([*ones.parts, *others.parts], stock))
    two = replace(weigher(job), copies=2)
    assert two.packed(two.weighed(corner_of(found))).units == units


def _mirrored(area: Area, axis: Axis) -> Area:
    sides = tuple(
        replace(s, start=mirrored_point(s.end, axis), end=mirrored_point(s.start, axis))
        for s in reversed(area.sides)
    )
    outer = tuple(mirrored_point(point, axis) for point in reversed(area.outer))
    return replace(area, name="twin", outer=outer, sides=sides)


def _outlines(zone: Zone, found: Found) -> list[shapely.Polygon]:
    double = zone.laying.bond.double
    cuts = herringbone_cuts(zone, corner_of(found), SLAT.pitch, double)
    return [shapely.Polygon([zone.frame.to_job(point) for point in cut.ring]) for cut in cuts]


def _seen(point: tuple[float, ...], axis: Axis) -> tuple[float, float]:
    """A point seen in a mirror, exactly."""
    (ax, ay), (dx, dy) = axis.point, axis.direction
    x, y = point[0] - ax, point[1] - ay
    along = 2 * (x * dx + y * dy) / (dx * dx + dy * dy)
    return ax + along * dx - x, ay + along * dy - y
