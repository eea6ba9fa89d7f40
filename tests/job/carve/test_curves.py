import math

import pytest

from models.job.carve.curves import curve, meeting, set_off


def test_a_curve_is_set_off_to_its_left_with_its_corners_mitred() -> None:
    off = set_off(((0, 0), (900, 0), (900, 500), (1_400, 500)), 100)
    assert off is not None
    assert off.corners == ((0, 100), (800, 100), (800, 600), (1_400, 600))
    assert off.reaches == (0, 800, 1_300, 1_900)


def test_sides_that_shrink_to_nothing_are_dropped() -> None:
    off = set_off(((0, 0), (400, 0), (410, 10), (420, 0), (900, 0)), 0)
    assert off is not None
    assert len(off.corners) == 5
    off = set_off(((0, 0), (400, 0), (450, 50), (450, 900)), 200)
    assert off is not None
    assert off.corners == ((0, 200), (250, 200), (250, 900))


def test_a_curve_too_narrow_to_be_set_off_has_none() -> None:
    assert set_off(((0, 0), (90, 0), (90, 500)), 100) is None
    assert set_off(((0, 0), (900, 0), (900, 150), (0, 150)), 100) is None


def test_curves_meet_nearest_to_where_one_ends_and_the_other_starts() -> None:
    line = curve(((0, 100), (900, 100)))
    back = curve(((800, 0), (800, 200), (300, 200), (300, 0)))
    found = meeting(line, back)
    assert found is not None
    assert (found.spot, found.one, found.two) == ((800, 100), 800, 100)


def test_curves_meet_beyond_their_ends() -> None:
    found = meeting(curve(((0, 0), (900, 0))), curve(((1_000, -100), (1_000, -900))))
    assert found is not None
    assert (found.spot, found.one, found.two) == ((1_000, 0), 1_000, -100)


def test_curves_side_by_side_do_not_meet() -> None:
    assert meeting(curve(((0, 0), (900, 0))), curve(((900, 50), (0, 50)))) is None


def test_corners_between_two_reaches_are_in_ticks() -> None:
    spots = [(900 * math.cos(i / 10), 900 * math.sin(i / 10)) for i in range(6)]
    whole = curve(spots)
    assert whole.length == pytest.approx(5 * 2 * 900 * math.sin(1 / 20))
    assert whole.between(0, whole.reaches[3]) == tuple((round(x), round(y)) for x, y in spots[1:3])
    assert whole.between(-900, 9_000) == tuple((round(x), round(y)) for x, y in spots[1:5])
