from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon, box

from solver.audit.measured.cuts import Outline, circle, measure
from solver.audit.measured.edges import edges_of
from tests.audit.conftest import Fresh
from tests.audit.said import finds, finds_only, pieces


def outline(shape: Polygon, cut: Sequence[tuple[tuple[float, float], ...]]) -> Outline:
    """A polygon with the sides between these points cut."""
    edges = edges_of(np.array([shape]))
    wanted = {frozenset(ends) for ends in cut}
    sides = zip(edges.start.tolist(), edges.end.tolist(), strict=True)
    flags = [frozenset((tuple(a), tuple(b))) in wanted for a, b in sides]
    assert sum(flags) == len(cut)
    return Outline(edges.start, edges.end, np.array(flags), shape)


PITCH = (1200.0, 150.0)


def test_a_tapered_rip_counts_at_its_narrow_end() -> None:
    shape = Polygon([(0, 40), (1200, 55), (1200, 150), (0, 150)])
    sizes = measure(outline(shape, [((0, 40), (1200, 55))]), PITCH)
    assert (sizes.along, sizes.across, sizes.slant) == (math.inf, 95, math.inf)


def test_a_corner_off_square_counts_both_ways_without_its_tip() -> None:
    shape = Polygon([(380, 40), (1200, 55), (1200, 150), (376, 150)])
    cuts = [((380.0, 40.0), (1200.0, 55.0)), ((376.0, 150.0), (380.0, 40.0))]
    sizes = measure(outline(shape, cuts), PITCH)
    assert (sizes.along, sizes.across) == (820, 95)


def test_a_wedge_cut_to_a_point_is_nothing_wide() -> None:
    shape = Polygon([(0, 0), (700, 0), (0, 60)])
    sizes = measure(outline(shape, [((700, 0), (0, 60)), ((0, 60), (0, 0))]), PITCH)
    assert sizes.across == 0


def test_a_slanted_cut_counts_as_its_largest_circle() -> None:
    # The incircle of a right triangle has the diameter a + b - c (Euclid IV.4).
    shape = Polygon([(0, 0), (120, 0), (0, 90)])
    sizes = measure(outline(shape, [((120, 0), (0, 90))]), PITCH)
    assert sizes.slant == pytest.approx(120 + 90 - 150, abs=1e-6)
    assert (sizes.along, sizes.across, sizes.neck) == (math.inf, math.inf, math.inf)


def test_a_notch_leaves_a_neck() -> None:
    shape = Polygon([(0, 0), (1200, 0), (1200, 150), (800, 150), (800, 110), (500, 110), (500, 150),
                     (0, 150)])  # fmt: skip
    cuts = [((800.0, 150.0), (800.0, 110.0)), ((800.0, 110.0), (500.0, 110.0)),
            ((500.0, 110.0), (500.0, 150.0))]  # fmt: skip
    sizes = measure(outline(shape, cuts), PITCH)
    assert sizes.neck == pytest.approx(110)
    assert (sizes.along, sizes.across, sizes.slant) == (math.inf, math.inf, math.inf)


def test_a_column_inside_a_piece_leaves_necks_on_four_sides() -> None:
    hole = [(500, 30), (600, 30), (600, 100), (500, 100)]
    shape = Polygon([(0, 0), (1200, 0), (1200, 150), (0, 150)], [hole])
    cuts = [(hole[i], hole[(i + 1) % 4]) for i in range(4)]
    assert measure(outline(shape, cuts), PITCH).neck == pytest.approx(30)


def test_fifteen_degrees_divide_cross_cuts_from_slanted_ones() -> None:
    for degrees, is_cross in ((14.9, True), (15.1, False)):
        run = 150 * math.tan(math.radians(degrees))
        shape = Polygon([(0, 0), (700, 0), (700 + run, 150), (0, 150)])
        sizes = measure(outline(shape, [((700, 0), (700 + run, 150))]), PITCH)
        assert (sizes.along == 700) == is_cross
        assert math.isinf(sizes.slant) == is_cross


@settings(max_examples=60, deadline=None)
@given(
    corners=st.lists(
        st.tuples(st.integers(0, 400), st.integers(0, 200)), min_size=3, max_size=8, unique=True
    ),
    degrees=st.floats(0, 360),
)
def test_the_circle_in_a_convex_piece_against_shapely(
    corners: list[tuple[int, int]], degrees: float
) -> None:
    hull = shapely.MultiPoint(corners).convex_hull
    if not isinstance(hull, Polygon) or hull.area < 100:
        return
    found = 2 * shapely.maximum_inscribed_circle(hull, tolerance=0.001).length
    turned = affinity.rotate(hull, degrees)
    assert isinstance(turned, Polygon)
    assert circle(turned) == pytest.approx(found, abs=0.01)


def test_the_circle_in_a_notched_piece() -> None:
    notched = box(0, 0, 300, 300).difference(box(150, 150, 300, 300))
    assert isinstance(notched, Polygon)
    # It touches two outer sides and the notch's corner: r sqrt(2) + r = 150 sqrt(2).
    radius = 150 * math.sqrt(2) / (1 + math.sqrt(2))
    assert circle(notched) == pytest.approx(2 * radius, abs=0.02)


@pytest.mark.parametrize("key", ["along", "across"])
def test_a_wrong_size(fresh: Fresh, key: str) -> None:
    broken = fresh("off square")
    piece = next(p for p in pieces(broken) if p["sizes"][key])
    piece["sizes"][key] += 0.2
    finds_only(broken, rf"cut sizes: piece {piece['id']} \(row \d+\), {key}: claimed .* mm, found")


def test_a_size_within_the_tolerance_passes(fresh: Fresh) -> None:
    close = fresh("off square")
    piece = next(p for p in pieces(close) if p["sizes"]["along"])
    piece["sizes"]["along"] += 0.03
    with pytest.raises(AssertionError):
        finds(close, "cut sizes")


def test_a_wrong_slant_and_neck(fresh: Fresh) -> None:
    broken = fresh("slanted")
    piece = next(p for p in pieces(broken) if p["sizes"]["slant"])
    piece["sizes"]["slant"] = None
    finds_only(broken, rf"piece {piece['id']} .*, slant: claimed no cut, found \d+")
    broken = fresh("column")
    piece = next(p for p in pieces(broken) if p["sizes"]["neck"])
    piece["sizes"]["neck"] -= 1
    finds_only(broken, rf"cut sizes: piece {piece['id']} .*, neck: claimed")


def test_a_size_claimed_for_a_whole_unit(fresh: Fresh) -> None:
    broken = fresh("plank")
    piece = next(p for p in pieces(broken) if not p["cut"])
    piece["sizes"]["along"] = 700.0
    finds_only(broken, rf"piece {piece['id']} .*, along: claimed 700.000 mm, found no cut")


def test_what_cuts_touch(fresh: Fresh) -> None:
    broken = fresh("column")
    beside = next(p for p in pieces(broken) if "Compass inset" in p["touches"])
    beside["touches"] = ["a wall of no name"]
    finds_only(
        broken, rf"what cuts touch: piece {beside['id']} .*found a cut edge at Compass inset"
    )
    broken = fresh("column")
    edge = next(p for p in pieces(broken) if p["touches"])
    edge["touches"] = []
    finds_only(
        broken, rf"piece {edge['id']} .*claimed nothing, found cut edges at 1 different things"
    )
    edge["touches"] = [f"wall {n}" for n in range(7)]
    finds_only(broken, rf"piece {edge['id']} .*found no more than \d edges of the zone")
    broken = fresh("column")
    inner = next(p for p in pieces(broken) if not p["cut"] and not p["touches"])
    inner["touches"] = ["north wall"]
    finds_only(broken, rf"piece {inner['id']} .*claimed north wall, found no more than 0 edges")


def test_the_circle_in_a_strip_with_a_bent_end_is_exact() -> None:
    """A long strip holds its circle in many places: a search by halving stops short of it."""
    bend = [(1000 + 70 * k - k * k, 147 - 0.9 * k * k) for k in range(10)]
    strip = shapely.MultiPoint([(0, 0), (1600, 0), *bend, (0, 147)]).convex_hull
    assert isinstance(strip, Polygon)
    assert len(strip.exterior.coords) - 1 > 12
    assert circle(strip) == pytest.approx(147, abs=1e-6)
