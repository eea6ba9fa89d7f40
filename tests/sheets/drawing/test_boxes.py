from hypothesis import given
from hypothesis import strategies as st

from solver.sheets.drawing.boxes import Box, box_round

BOX = Box(10, 20, 50, 40)

coordinates = st.floats(-100, 100)


def test_touching_boxes_do_not_overlap() -> None:
    assert not BOX.overlaps(Box(50, 20, 60, 40))
    assert BOX.overlaps(Box(49.9, 20, 60, 40))
    assert not BOX.overlaps(Box(10, 40, 50, 60))


def test_within_allows_touching() -> None:
    assert BOX.within(BOX)
    assert not BOX.grown(0.1).within(BOX)


def test_size_and_middle() -> None:
    assert (BOX.width, BOX.height, BOX.middle) == (40, 20, (30, 30))
    assert box_round((30, 30), 40, 20) == BOX


def test_a_segment_meets_a_box_only_inside_it() -> None:
    assert BOX.meets(((0, 0), (60, 60)))
    assert BOX.meets(((30, 25), (31, 25)))
    assert not BOX.meets(((0, 20), (60, 20)))
    assert not BOX.meets(((0, 45), (60, 45)))
    assert not BOX.meets(((55, 0), (55, 60)))
    assert not BOX.meets(((60, 30), (90, 30)))


@given(coordinates, coordinates, coordinates, coordinates)
def test_a_segment_with_an_end_well_inside_meets(x: float, y: float, a: float, b: float) -> None:
    inside = (10.1 + (x + 100) / 200 * 39.8, 20.1 + (y + 100) / 200 * 19.8)
    if abs(a - inside[0]) + abs(b - inside[1]) > 1e-6:
        assert BOX.meets((inside, (a, b)))
        assert BOX.meets(((a, b), inside))
