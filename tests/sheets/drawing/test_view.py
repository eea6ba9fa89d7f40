import numpy as np
import pytest

from models.lengths import TICKS_PER_FOOT, System
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.view import best_scale, bounds, fitted
from tests.sheets.builders import plank_solution
from tests.sheets.jobs import inch, mm

ROOM = Box(0, 0, inch("20'"), inch("10'"))


def test_the_scale_is_one_a_ruler_knows() -> None:
    # 20 ft on 5.2 in: 1 in = 4 ft takes 5 in.
    scale, words = best_scale(ROOM, 5.2 * 72, 9 * 72, System.IMPERIAL)
    assert words == "1 in = 4 ft"
    assert scale * TICKS_PER_FOOT * 4 == pytest.approx(72)


def test_the_narrower_side_decides() -> None:
    assert best_scale(ROOM, 99 * 72, 1.05 * 72, System.IMPERIAL)[1] == "1 in = 10 ft"


def test_metric_scales_are_ratios() -> None:
    room = Box(0, 0, mm("5 m"), mm("3 m"))
    scale, words = best_scale(room, 5000 / 25.4 * 72 / 50 + 1, 999, System.METRIC)
    assert words == "1 : 50"
    assert scale * mm("50 mm") == pytest.approx(72 / 25.4)


def test_a_very_large_room_still_fits() -> None:
    scale, words = best_scale(Box(0, 0, mm("9000 m"), 1), 100, 100, System.METRIC)
    assert words == "to fit"
    assert scale * mm("9000 m") == pytest.approx(100)


def test_the_room_is_in_the_middle_of_its_place() -> None:
    view = fitted(ROOM, Box(100, 100, 500, 400), System.IMPERIAL)
    assert view.at(ROOM.middle) == pytest.approx((300, 250))


def test_rings_and_points_of_a_frame_fall_together() -> None:
    zone = plank_solution().layouts[2].zones[0]
    view = fitted(ROOM, Box(100, 100, 500, 400), System.IMPERIAL)
    rings = view.frame_rings(zone.frame, [piece.outline for piece in zone.pieces[:3]])
    for ring, piece in zip(rings, zone.pieces, strict=False):
        points = [view.frame_point(zone.frame, point) for point in piece.outline]
        assert ring == pytest.approx(np.array(points))
    assert view.frame_rings(zone.frame, []) == []


def test_bounds_of_a_ring() -> None:
    assert bounds(((3, 4), (9, -2), (5, 8))) == Box(3, -2, 9, 8)
