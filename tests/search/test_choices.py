"""The values of an open length worth trying: where the floor beside it comes to whole units."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.job.data import Axis, Direction, Extent, Feature, Job, Product
from models.lengths import TICKS_PER_MM as MM
from solver.search.choices import EVEN_VALUES, MOST_VALUES, Open, open_lengths, values_of
from tests.search.floors import ALONG_Y, STRAIGHT, TILE, Corners, box, ring
from tests.search.zoned import border, zoned

STRIP = Product("strip", 450 * MM, 50 * MM)
AXIS = Axis("middle", (0, 600 * MM), (1, 0))


def bordered(room: Corners, low: int, high: int, step: int = 0) -> Job:
    """A room of tile 300 with a border of strips 50 wide, its width left open."""
    return zoned(room, [border(low, high, step, STRIP)], TILE, STRAIGHT, products=[STRIP])


def values_mm(job: Job, place: int = 0, **others: int) -> list[float]:
    given = {name: value * MM for name, value in others.items()}
    return [value / MM for value in values_of(job, open_lengths(job)[place], given)]


def test_widths_that_leave_the_field_whole_units_are_tried() -> None:
    # 3000 less two widths is whole tiles at 150, 300, 450; 2170 less two at 185 and 335.
    found = values_mm(bordered(box(3000, 2170), 140, 460))
    assert {150, 300, 450, 185, 335} <= set(found)


def test_widths_of_whole_strips_are_tried() -> None:
    # In a room of no even size the border's own strips of 50 are the only reason for 100 to 200.
    found = values_mm(bordered(box(3011, 2171), 90, 210))
    assert {100, 150, 200} <= set(found)


def test_both_ends_and_some_between_are_tried_on_the_tape_step() -> None:
    found = values_mm(bordered(box(3011, 2171), 61, 94))
    assert (found[0], found[-1]) == (61, 94)
    assert len(found) >= EVEN_VALUES
    assert all(value == int(value) for value in found)
    assert found == sorted(set(found))


def test_no_more_are_tried_than_are_worth_it() -> None:
    found = values_mm(bordered(box(5000, 4000), 50, 1400))
    assert len(found) <= MOST_VALUES + EVEN_VALUES + 2


def test_a_width_in_units_is_tried_unit_by_unit() -> None:
    job = bordered(box(3000, 2170), 100, 350, step=50)
    assert values_mm(job) == [100, 150, 200, 250, 300, 350]


def test_a_joint_counts_in_a_whole_unit() -> None:
    # Tile of 300 with joints of 3: 3000 less two widths is 7 pitches at 439.5, 8 at 288.
    tile = replace(TILE, joint=3 * MM)
    job = zoned(box(3000, 1970), [border(250, 460, 0, STRIP)], tile, STRAIGHT, products=[STRIP])
    assert {288, 439.5} <= set(values_mm(job))


INSET = ring(((-200, 400), (200, 400), (200, 800), (-200, 800)))


def sliding(low: int, high: int, direction: Direction | None = None) -> Job:
    """A room with an inset 400 square free to slide along its middle."""
    extent = Extent(low * MM, high * MM)
    feature = Feature("inset", "middle", (0, 600 * MM), INSET, MM, slide=extent)
    job = zoned(box(3000, 1200), [], TILE, STRAIGHT, axes=[AXIS], features=[feature])
    way = direction or job.field.directions[0]
    return replace(job, zones=(replace(job.field, directions=(way,)),))


@pytest.mark.parametrize("direction", [None, ALONG_Y], ids=["along", "across"])
def test_places_at_which_an_inset_starts_or_ends_on_a_joint_are_tried(
    direction: Direction | None,
) -> None:
    # From the left wall: its edges lie at the place less or plus 200; 3000 is ten tiles.
    found = values_mm(sliding(1000, 1500, direction))
    assert {1000, 1100, 1300, 1400} <= set(found)


def test_lengths_given_are_not_open() -> None:
    assert open_lengths(bordered(box(3000, 2170), 150, 150)) == ()
    assert open_lengths(sliding(1200, 1200)) == ()


def test_borders_come_before_features_in_the_jobs_order() -> None:
    slide = sliding(1000, 1500)
    job = replace(
        slide,
        zones=(border(150, 300, 0, STRIP), *slide.zones),
        products=(*slide.products, STRIP),
    )
    assert open_lengths(job) == (
        Open("border", Extent(150 * MM, 300 * MM)),
        Open("inset", Extent(1000 * MM, 1500 * MM)),
    )


def test_places_are_those_that_fit_with_the_border_as_it_stands() -> None:
    slide = sliding(1000, 1500)
    job = replace(
        slide,
        zones=(border(150, 300, 0, STRIP), *slide.zones),
        products=(*slide.products, STRIP),
    )
    # The field now starts at the border: 250 + 200 + k times 300.
    assert {1050, 1350} <= set(values_mm(job, 1, border=250))
    assert {1150, 1450} <= set(values_mm(job, 1, border=250))
