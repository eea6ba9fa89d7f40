import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.job.angles import is_parallel, mirrored_vector
from models.job.data import Direction, Job, Marks, Mirror, Rest
from models.job.errors import JobError
from tests.job.sample import metres, read

WEST = "name: west, corners: [[200, 500], [1200, 500], [1200, 1500], [200, 1500]]"


def job(mirror: str = "zone: west, axis: up", west: str = "", more: str = "") -> Job:
    return read(
        products="[{name: plank, length: 900, width: 150}, {name: tile, length: 300, width: 300}]",
        field="{product: plank, bond: staggered, directions: [{along: s}]}",
        axes="[{name: up, through: [[2000, 0], [2000, 3000]]}]",
        zones=f"[{{name: east, mirror: {{{mirror}}}{more}}}, {{{WEST}{west}}}]",
    )


def test_a_mirror_is_laid_as_the_zone_it_reflects() -> None:
    found = job(
        west=", product: tile, bond: straight, marks: quarter-turned, trim: 10,"
        " directions: [{angle: 30}], rules: {smallest_cut: {must: 70}}"
    )
    east, west, _ = found.zones
    assert (east.name, east.shape) == ("east", Mirror("west", "up"))
    assert (east.product, east.bond, east.rules) == (west.product, west.bond, west.rules)
    assert (east.marks, east.trim) == (Marks.QUARTER_TURNED, west.trim)
    assert east.directions[0].label == "at 30 degrees, reflected"
    assert math.degrees(math.atan2(*reversed(east.directions[0].vector))) == pytest.approx(150)


def test_what_the_original_is_centred_on_stays_with_it() -> None:
    found = job(west=", rules: {centred: [{must: up}]}, directions: [{along: up}]")
    assert found.zones[1].rules.centred != ()
    assert found.zones[0].rules.centred == ()
    assert found.zones[0].directions == (Direction("along up, reflected", (0, 1)),)


ways = st.tuples(st.integers(-(10**6), 10**6), st.integers(-(10**6), 10**6)).filter(any)


@given(ways, ways)
def test_a_direction_reflected_makes_the_same_angle_with_the_axis_on_the_other_side(
    vector: tuple[int, int], axis: tuple[int, int]
) -> None:
    once = mirrored_vector(vector, axis)
    angles = [math.atan2(y, x) for x, y in (vector, once, axis)]
    assert math.remainder(angles[0] + angles[1] - 2 * angles[2], math.tau) == pytest.approx(
        0, abs=1e-9
    )
    assert is_parallel(mirrored_vector(axis, axis), axis)


@pytest.mark.parametrize(
    ("mirror", "more", "message"),
    [
        ("zone: wist, axis: up", "", "zones 'east', mirror, zone: there is no zone called 'wist';"),
        (
            "zone: west, axis: ap",
            "",
            "mirror, axis: there is no axis called 'ap'; known here: up",
        ),
        (
            "zone: field, axis: up",
            "",
            "mirror, zone: the field takes all that is left, so it has no shape to reflect; add 'p",
        ),
        ("zone: east, axis: up", "", "mirror, zone: 'east' is a mirror itself; name the zone it"),
        (
            "zone: west, axis: up",
            ", product: tile",
            "zones 'east', product: a mirror takes its product from 'west'; leave 'product' out",
        ),
        ("zone: west, axis: up", ", trim: 9", "a mirror takes its trim from 'west'"),
        ("zone: west", "", "mirror: the key 'axis' is missing"),
    ],
)
def test_mirrors_that_cannot_be(mirror: str, more: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        job(mirror, more=more)


def test_the_field_can_be_reflected_when_it_has_a_part_of_its_own() -> None:
    found = read(
        field="{name: west, bond: staggered, part_at: [100, 1500]}",
        axes="[{name: up, through: [[2000, 0], [2000, 3000]]}]",
        zones="[{name: sill, band: {along: up, width: 400}, bond: straight},"
        " {name: east, mirror: {zone: west, axis: up}}]",
    )
    assert found.field.shape == Rest(metres((0.1, 1.5))[0])
    assert found.zones[1].shape == Mirror("west", "up")


def test_a_herringbone_turns_the_other_way_in_a_mirror() -> None:
    with pytest.raises(JobError, match="is laid in herringbone, which seen in a mirror turns the"):
        job(west=", bond: herringbone")


def test_a_reflection_over_what_is_taken() -> None:
    with pytest.raises(JobError, match="zones 'east': cannot mirror its zone: the reflection"):
        read(
            axes="[{name: up, through: [[1000, 0], [1000, 3000]]}]",
            zones=f"[{{{WEST}}}, {{name: east, mirror: {{zone: west, axis: up}}}}]",
        )
