from models.job.rings import corners_of, from_first, in_line
from tests.job.carve.rooms import box


def test_corners_on_a_straight_side_do_not_count() -> None:
    ring = ((0, 0), (500, 0), (900, 0), (900, 900), (0, 900), (0, 3))
    assert corners_of(ring) == box(0, 0, 900, 900)


def test_a_ring_starts_at_the_first_corner_known_or_else_the_lowest() -> None:
    ring = ((0, 900), (0, 3), (0, 0), (500, 0), (900, 0), (900, 900))
    assert from_first(ring, {(500, 0): 0, (900, 900): 1})[0] == (900, 900)
    assert from_first(ring, {})[0] == (0, 0)


def test_doubled_corners_and_spikes_do_not_count() -> None:
    ring = ((0, 0), (0, 0), (900, 0), (900, 900), (900, 950), (900, 900), (0, 900), (0, 900))
    assert corners_of(ring) == box(0, 0, 900, 900)


def test_three_points_in_line_may_fold_back() -> None:
    assert in_line((0, 0), (900, 301), (-900, -301))
    assert not in_line((0, 0), (900, 301), (1_800, 601))
