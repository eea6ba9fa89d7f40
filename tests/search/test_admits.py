"""The bound over all that a job leaves open: no value chosen needs less."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from models.job.data import Axis, Border, Column, Extent, Feature, Job, Product
from models.lengths import TICKS_PER_MM as MM
from solver.search import solve
from solver.search.admits import bounds_over, told_of_all
from solver.search.choices import open_lengths
from tests.search.floors import PLANK, STAGGERED, STRAIGHT, TILE, box, job_of, ring
from tests.search.zoned import border, fixed, part, zoned

STRIP = Product("strip", 400 * MM, 100 * MM)
STEP = 25 * MM


def wide(low: int, high: int, step: int = 0) -> Job:
    """A hall of tile with a border of strips all round."""
    job = zoned(box(1500, 1310), [border(low, high, step, STRIP)], TILE, STRAIGHT, products=[STRIP])
    return replace(job, tape_step=STEP)


def one_product(low: int, high: int) -> Job:
    """A hall of planks with a border of the same planks, from one stock."""
    job = zoned(box(1900, 1300), [border(low, high)], PLANK, STAGGERED)
    return replace(job, tape_step=STEP)


def sliding(low: int, high: int, surround: bool = False) -> Job:
    """A hall of tile with an inset that slides, perhaps in a border of strips."""
    axis = Axis("middle", (0, 600 * MM), (1, 0))
    outline = ring(((-150, 450), (150, 450), (150, 750), (-150, 750)))
    extent = Extent(low * MM, high * MM)
    inset = Feature("inset", "middle", (0, 600 * MM), outline, MM, slide=extent)
    form = Border(Extent(100 * MM, 100 * MM), feature="inset")
    zones = [replace(part("surround", form, STRIP), directions=())] if surround else []
    job = zoned(
        box(1700, 1200), zones, TILE, STRAIGHT, axes=[axis], features=[inset], products=[STRIP]
    )
    return replace(job, tape_step=STEP)


def parted(low: int, high: int) -> Job:
    """A hall with a border that a column parts where it is narrow."""
    column = Column("pier", ring(((500, 0), (700, 0), (700, 150), (500, 150))))
    return replace(wide(low, high), columns=(column,))


JOBS = {
    "width": wide(100, 300),
    "width in units": wide(100, 300, step=100),
    "width of a border a column parts": parted(100, 200),
    "one product": one_product(150, 300),
    "place": sliding(400, 800),
    "place with a border round it": sliding(500, 700, surround=True),
}


@pytest.mark.parametrize("name", JOBS)
def test_no_value_needs_fewer_units_than_the_bound_over_all(name: str) -> None:
    job = JOBS[name]
    lengths = open_lengths(job)
    bound = bounds_over(job, lengths)
    ranges = [range(x.extent.low, x.extent.high + 1, x.extent.step or 2 * STEP) for x in lengths]
    for values in product(*ranges):
        given = dict(zip((x.name for x in lengths), values, strict=True))
        for layout in solve(fixed(job, given)).layouts:
            for need in layout.figures.needs:
                assert 0 < bound[need.product] <= need.units


def test_two_open_lengths_are_bounded_together() -> None:
    slide = sliding(500, 700)
    frame = Border(Extent(100 * MM, 200 * MM), feature="inset")
    zone = replace(part("surround", frame, STRIP), directions=())
    job = replace(slide, zones=(zone, slide.field))
    lengths = open_lengths(job)
    bound = bounds_over(job, lengths)
    for width, place in product((100, 150, 200), (500, 600, 700)):
        given = {"surround": width * MM, "inset": place * MM}
        for layout in solve(fixed(job, given)).layouts:
            for need in layout.figures.needs:
                assert bound[need.product] <= need.units


def test_the_bound_over_a_range_is_no_more_than_over_a_part_of_it() -> None:
    most = bounds_over(wide(100, 300), open_lengths(wide(100, 300)))
    for low, high in ((100, 200), (200, 300), (150, 175)):
        some = bounds_over(wide(low, high), open_lengths(wide(low, high)))
        assert all(most[name] <= some[name] for name in most)


def test_areas_are_counted_where_no_comb_is() -> None:
    # At 300 the field is least: 900 by 710 is 7.1 tiles; the strips are least at 100.
    bound = bounds_over(wide(100, 300), open_lengths(wide(100, 300)))
    assert bound["tile"] <= 8
    assert bound["tile"] >= 7
    assert bound["strip"] >= 12


def test_the_note_names_what_is_open_and_what_all_of_it_needs() -> None:
    (note,) = told_of_all(wide(100, 300))
    bound = bounds_over(wide(100, 300), open_lengths(wide(100, 300)))
    assert note == (
        "bounds on units are for border as chosen; over all that is admitted, at least "
        f"{bound['strip']} of strip, {bound['tile']} of tile"
    )
    assert told_of_all(job_of(box(1500, 1310))) == ()
