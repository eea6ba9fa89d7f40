"""Zones searched by themselves, in mirrors, and on shared lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.floor.runs import runs_of, slabs
from models.job.carve.plan import plan_of
from models.job.data import Axis, Bond, Job, Link, Product, Rules, Share
from models.job.reader import read_job
from models.lengths import TICKS_PER_MM as MM
from scenarios.catalogue import SCENARIOS
from solver.search import solve
from solver.search.draft import draft
from solver.search.links import lines_apart
from solver.search.zones import Known, Watch, search_zones
from tests.search.floors import (
    ALONG_X,
    ALONG_Y,
    PLANK,
    STAGGERED,
    STRAIGHT,
    TILE,
    box,
    must,
)
from tests.search.zoned import QUIET, bundles_of, image, part, zoned

AXIS = Axis("middle", (2000 * MM, 0), (0, 1))
EAST = ((2900, 0), (4000, 0), (4000, 950), (2900, 950))
WEST = ((0, 0), (1100, 0), (1100, 950), (0, 950))
RULES = Rules(smallest_end=must(150), joint_offset=must(100))


def mirrored(bond: Bond = STAGGERED, product: Product = PLANK) -> Job:
    rules = RULES if bond is STAGGERED else Rules()
    east = part("east", EAST, product, bond, rules)
    zones = [east, image("west", east, "middle")]
    return zoned(box(4000, 950), zones, product, bond, rules, axes=[AXIS])


@pytest.mark.parametrize(
    ("bond", "product"), [(STAGGERED, PLANK), (STRAIGHT, TILE)], ids=["planks", "tiles"]
)
def test_a_mirrored_pair_is_one_bundle_and_each_layout_its_own_image(
    bond: Bond, product: Product
) -> None:
    plan, bundles = bundles_of(mirrored(bond, product))
    pair = next(b for b in bundles if len(b.areas) == 2)
    assert [plan.areas[n].name for n in pair.areas] == ["east", "west"]
    assert [b.areas for b in bundles if b is not pair] == [(2,)]
    for east, west in pair.found:
        assert sorted((r.start, r.end, -r.top) for r in east.runs) == sorted(
            (r.start, r.end, r.bottom) for r in west.runs
        )
        assert west.zone.name == "west"
        assert sorted(east.offsets) == sorted(west.offsets)
        # The runs that mirroring gives are those the line gives in the mirrored zone.
        again = runs_of(west.zone, slabs(west.zone), product.pitch[1], west.start_line)
        assert again == west.runs


@pytest.mark.parametrize(
    ("bond", "product"), [(STAGGERED, PLANK), (STRAIGHT, TILE)], ids=["planks", "tiles"]
)
def test_the_units_of_a_mirrored_pair_are_counted_twice(bond: Bond, product: Product) -> None:
    _, bundles = bundles_of(mirrored(bond, product))
    (pair,) = (b for b in bundles if len(b.areas) == 2)
    alone = replace(mirrored(bond, product), axes=())
    alone = replace(alone, zones=(alone.zones[0], alone.zones[-1]))
    _, single = bundles_of(alone)
    one = min(f[0].units for f in single[0].found)
    both = min(f[0].units for f in pair.found)
    assert one < both <= 2 * one
    assert pair.bounds[0].copied <= both
    assert pair.bounds[0].alone <= one
    assert pair.bounds[0] == pair.bounds[1]


def test_a_zone_tied_to_no_other_is_a_bundle_of_its_own() -> None:
    job = zoned(box(4000, 950), [part("west", WEST), part("east", EAST)])
    _, bundles = bundles_of(job)
    assert [b.areas for b in bundles] == [(0,), (1,), (2,)]
    assert all(len(layout) == 1 for b in bundles for layout in b.found)
    assert all(b.complete for b in bundles)


def linked(*links: Link, bond: Bond = STRAIGHT, product: Product = TILE) -> Job:
    """West end, east end and the field between, no two walls of which lie alike."""
    west = ((0, 0), (1110, 0), (1110, 950), (0, 950))
    east = ((2930, 130), (4000, 130), (4000, 770), (2930, 770))
    zones = [part("west", west, product, bond), part("east", east, product, bond)]
    room = ((0, 0), (2930, 0), *east, (2930, 950), (0, 950))
    return zoned(room, zones, product, bond, links=links)


@pytest.mark.parametrize("share", [(Share.ROW_LINES,), (Share.JOINTS,), tuple(Share)])
def test_linked_zones_lie_on_one_set_of_lines(share: tuple[Share, ...]) -> None:
    links = [Link("west", "floor", s) for s in share] + [Link("floor", "east", s) for s in share]
    plan, (bundle,) = bundles_of(linked(*links))
    assert bundle.areas == (0, 1, 2)
    assert bundle.found
    for layout in bundle.found:
        west, east, floor = (draft(plan.job, found) for found in layout)
        for kind in share:
            assert lines_apart(west, floor, kind) == 0
            assert lines_apart(floor, east, kind) == 0


def test_staggered_zones_share_their_row_lines() -> None:
    links = [Link("west", "floor", Share.ROW_LINES)]
    plan, bundles = bundles_of(linked(*links, bond=STAGGERED, product=PLANK))
    assert sorted(b.areas for b in bundles) == [(0, 2), (1,)]
    tied = next(b for b in bundles if b.areas == (0, 2))
    for layout in tied.found:
        west, floor = (draft(plan.job, found) for found in layout)
        assert lines_apart(west, floor, Share.ROW_LINES) == 0


def test_a_link_is_a_rule_that_a_layout_is_judged_by() -> None:
    links = [Link("west", "floor", Share.ROW_LINES)]
    for layout in solve(linked(*links)).layouts:
        (tied,) = (v for v in layout.verdicts if v.key == "linked")
        assert (tied.zone, tied.subject, tied.kept, tied.worst) == ("floor", "west", True, 0)


def test_linked_zones_take_the_direction_they_have_in_common() -> None:
    job = linked(Link("west", "floor", Share.ROW_LINES))
    field = replace(job.field, directions=(ALONG_Y, ALONG_X))
    west = replace(job.zones[0], directions=(ALONG_X, ALONG_Y))
    _, bundles = bundles_of(replace(job, zones=(west, job.zones[1], field)))
    tied = next(b for b in bundles if len(b.areas) == 2)
    ways = {tuple(f.zone.direction for f in layout) for layout in tied.found}
    assert ways <= {(ALONG_X, ALONG_X), (ALONG_Y, ALONG_Y)}


def test_areas_that_are_known_are_not_searched_again() -> None:
    plan, known = plan_of(mirrored()), Known()
    first = search_zones(plan, QUIET, known)
    said: list[str] = []
    assert search_zones(plan, Watch(said.append, lambda: False), known) == first
    assert said == []
    assert {(area.name, copies) for area, copies in known} == {("east", 2), ("floor", 1)}


def test_a_search_stopped_at_once_still_lays_every_zone() -> None:
    plan = plan_of(mirrored())
    bundles = search_zones(plan, Watch(lambda _: None, lambda: True))
    assert sorted(n for b in bundles for n in b.areas) == [0, 1, 2]
    assert all(b.found for b in bundles)
    assert not all(b.complete for b in bundles)


def test_linked_zones_are_started_from_one_chalk_line() -> None:
    solution = solve(read_job(SCENARIOS["twin-cabins"].path))
    for layout in solution.layouts:
        west, east = (
            next(zone for zone in layout.zones if zone.zone == name)
            for name in ("west cabin", "east cabin")
        )
        here = west.frame.to_job((0, west.start_v))
        there = east.frame.to_job((0, east.start_v))
        assert here[1] == there[1]
        # The door opening lies from 3 ft 2 in to 6 ft: the line is snapped through it.
        assert 38 * 25.4 * MM <= here[1] <= 72 * 25.4 * MM
