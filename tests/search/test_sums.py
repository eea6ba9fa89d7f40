"""Bounds over a whole floor: no way to lay and cut two zones takes less than they say."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import pytest

from models.floor.runs import rows_count, runs_of, slabs
from models.floor.zone import zone_of
from models.job.carve.area import Area
from models.job.carve.plan import plan_of
from models.job.data import Axis, Bond, BondKind, Job, Product
from models.lengths import TICKS_PER_MM as MM
from solver.search import solve
from solver.search.bounds import cover_of, together
from solver.search.draft import draft, zone_stock
from solver.search.floordraft import pack_floor
from solver.search.found import Found
from solver.search.sums import bounds_of
from solver.stock.parts import Part, Stock
from tests.search.floors import ALONG_X, STAGGERED, STRAIGHT, TILE, box
from tests.search.zoned import bundles_of, image, part, zoned
from tests.stock.sheet import least

STEP = 100 * MM
"""Floors, units and tape in steps of 100 mm: so many positions can all be tried."""

SLAT = Product("slat", 4 * STEP, 3 * STEP)
SAWN = replace(SLAT, kerf=STEP)
TURNED = replace(SLAT, directional=False)

Sizes = tuple[tuple[int, int], tuple[int, int]]
"""Width and height of the west end and of the field, in steps."""


def floor(sizes: Sizes, product_: Product, bond: Bond) -> Job:
    (w, h), (wide, high) = (tuple(100 * side for side in size) for size in sizes)
    corners = [(0, 0), (w + wide, 0), (w + wide, high), (w, high), (w, h), (0, h)]
    room = corners if h != high else box(w + wide, h)
    west = part("west", box(w, h), product_, bond)
    return replace(zoned(room, [west], product_, bond), tape_step=STEP)


def offsets_of(runs: int, bond: Bond) -> Iterator[tuple[int, ...]]:
    """Every choice of a joint for each run: all alike in a straight bond."""
    if bond.kind is BondKind.STRAIGHT:
        return ((joint,) * runs for joint in range(4))
    return product(range(4), repeat=runs)


def ways(job: Job, area: Area) -> set[tuple[Part, ...]]:
    """What every line and joint of a zone asks of stock, in steps."""
    zone, pitch = zone_of(area, ALONG_X), job.product_of(area.laying).pitch
    found = set()
    for line in range(3):
        runs = runs_of(zone, slabs(zone), pitch[1], line * STEP)
        assert len(runs) == rows_count(zone, pitch[1], line * STEP)[1]
        for joints in offsets_of(len(runs), area.laying.bond):
            offsets = tuple(joint * STEP for joint in joints)
            cut = draft(job, Found(zone, line * STEP, runs, offsets, 0, 0))
            small = [_small(p) for p in cut.parts]
            found.add(tuple(sorted(small, key=str)))
    return found


def _small(one: Part) -> Part:
    return replace(one, cut=0, row=0, length=one.length // STEP, width=one.width // STEP)


def fewest(job: Job) -> int:
    """The fewest units over every line, joint and way to share out the pieces."""
    areas = plan_of(job).areas
    stock = zone_stock(job, job.field)
    sheet = Stock(4, 3, stock.kerf // STEP, stock.directional)
    best = 10**6
    for one, two in product(*(ways(job, area) for area in areas)):
        parts = [*one, *two]
        cut = [p for p in parts if not p.whole]
        area = sum(p.length * p.width for p in cut)
        whole = len(parts) - len(cut)
        if whole + -(-area // 12) < best:
            best = min(best, whole + least(cut, sheet))
    return best


STRAIGHT_FLOORS: list[Sizes] = [
    ((2, 3), (2, 3)),
    ((5, 3), (3, 3)),
    ((3, 2), (5, 4)),
    ((6, 3), (6, 3)),
    ((2, 2), (3, 5)),
]
STAGGERED_FLOORS: list[Sizes] = [((2, 3), (2, 3)), ((5, 3), (6, 3)), ((3, 2), (5, 3))]

CASES = [(sizes, p, STRAIGHT) for sizes in STRAIGHT_FLOORS for p in (SLAT, SAWN, TURNED)]
CASES += [(sizes, p, STAGGERED) for sizes in STAGGERED_FLOORS for p in (SLAT, SAWN, TURNED)]


@pytest.mark.parametrize(("sizes", "product_", "bond"), CASES)
def test_no_way_to_lay_two_zones_takes_less_than_their_bounds(
    sizes: Sizes, product_: Product, bond: Bond
) -> None:
    job = floor(sizes, product_, bond)
    plan, bundles = bundles_of(job)
    exact = fewest(job)
    covers = [cover_of(job, zone_of(area, ALONG_X)) for area in plan.areas]
    assert together(covers) <= exact
    bounds = bounds_of(plan, bundles)
    assert together(covers) <= bounds.products["slat"] <= exact
    # No zone by itself is said to need more than both together.
    assert max(bounds.zones) <= exact


@pytest.mark.parametrize(("sizes", "product_", "bond"), CASES)
def test_the_search_finds_the_fewest_units_there_can_be(
    sizes: Sizes, product_: Product, bond: Bond
) -> None:
    job = floor(sizes, product_, bond)
    layouts = solve(job).layouts
    assert min(layout.figures.units for layout in layouts) == fewest(job)
    for layout in layouts:
        (need,) = layout.figures.needs
        assert need.units_at_least <= need.units == layout.figures.units
        assert all(zone.units_at_least <= zone.units for zone in layout.zones)


def test_zones_share_the_unit_that_each_would_halve() -> None:
    # Two halves of a slat, west and east: one unit holds both, and no bound says two.
    job = floor(((2, 3), (2, 3)), SLAT, STAGGERED)
    plan, bundles = bundles_of(job)
    bounds = bounds_of(plan, bundles)
    assert bounds.zones == (1, 1)
    assert bounds.products == {"slat": 1}
    drafts = [draft(job, bundle.found[0][0]) for bundle in bundles]
    assert len(pack_floor(plan, drafts).units) in (1, 2)


def test_each_product_has_a_bound_of_its_own() -> None:
    job = zoned(box(900, 600), [part("west", box(300, 600), TILE, STRAIGHT)], SLAT, STAGGERED,
                products=[TILE])  # fmt: skip
    plan, bundles = bundles_of(job)
    assert bounds_of(plan, bundles).products == {"tile": 2, "slat": 3}


def test_a_mirrored_pair_is_bounded_as_one() -> None:
    axis = Axis("middle", (600 * MM, 0), (0, 1))
    east = ((1000, 0), (1200, 0), (1200, 300), (1000, 300))
    zone = part("east", east, SLAT)
    zones = [zone, image("west", zone, "middle")]
    job = zoned(box(1200, 300), zones, SLAT, axes=[axis])
    plan, bundles = bundles_of(job)
    bounds = bounds_of(plan, bundles)
    # 12 steps of row are three slats, whatever they are cut into.
    assert bounds.products == {"slat": 3}
    assert bounds.zones == (1, 1, 2)
