import pytest
from shapely import Polygon

from models.job.carve.mesh import is_slip, mesh_of
from models.job.carve.snap import drawn_to
from tests.job.carve.rooms import ROOM, box


def test_a_corner_a_hair_off_another_is_put_onto_it() -> None:
    (ring,) = drawn_to([((3, -4), (900, 0), (900, 900))], [ROOM])
    assert ring == ((0, 0), (900, 0), (900, 900))


def test_a_corner_a_hair_off_a_side_is_put_onto_it() -> None:
    assert drawn_to([((900, 6), (1_900, -6), (1_900, 900))], [ROOM]) == (
        ((900, 0), (1_900, 0), (1_900, 900)),
    )


def test_a_corner_further_off_stays() -> None:
    ring = ((900, 7), (1_900, 0), (1_900, 900))
    assert drawn_to([ring], [ROOM]) == (ring,)


def test_a_corner_that_lies_on_a_side_becomes_its_corner() -> None:
    there = box(500, -900, 700, 2)
    assert drawn_to([box(0, 0, 1_000, 1_000)], [there]) == (
        ((0, 0), (500, 2), (700, 2), (1_000, 0), (1_000, 1_000), (0, 1_000)),
    )


def test_rings_that_share_a_corner_go_on_sharing_it() -> None:
    one, other = drawn_to([box(2, 3, 500, 500), box(-500, -500, 2, 3)], [ROOM])
    assert one[0] == other[2] == (0, 0)


def test_a_ring_thinner_than_a_hair_folds_flat() -> None:
    (ring,) = drawn_to([box(500, 0, 900, 5)], [ROOM])
    assert set(ring) == {(500, 0), (900, 0)}
    assert len(ring) == 2


@pytest.mark.parametrize(
    ("shape", "slip"),
    [
        (box(0, 0, 100_000, 6), True),
        (box(0, 0, 100_000, 7), False),
        (box(0, 0, 5, 5), True),
        (((0, 0), (100_000, 0), (100_000, 6)), True),
        (((0, 0), (100_000, 0), (100_000, 7)), False),
    ],
)
def test_what_is_thinner_than_a_hair_is_a_slip(
    shape: tuple[tuple[int, int], ...], slip: bool
) -> None:
    assert is_slip(Polygon(shape)) is slip


def test_a_corner_on_a_slanting_line_is_a_corner_of_both_faces() -> None:
    mesh = mesh_of(
        [
            ((0, 0), (900, 0), (1_000, 301)),
            ((0, 0), (1_000, 301), (0, 900)),
            ((500, 151), (900, 100), (900, 200)),
        ]
    )
    across = {step[::-1] for steps in mesh.steps for step in steps} & set(mesh.left_of)
    assert any((500, 151) in step for step in across)
    assert all(x == round(x) for face in mesh.faces for xy in face.exterior.coords for x in xy)
