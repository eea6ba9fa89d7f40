from dataclasses import FrozenInstanceError, replace

import pytest

from models.floor.frame import Frame
from models.floor.layout import Piece, ZoneLayout
from models.job.data import Bond, BondKind, Direction, Laying, Rules
from tests.floor.rooms import box

PIECE = Piece(
    id="R1-1",
    row=1,
    cell=0,
    corner=(0, 0),
    outline=box(0, 0, 100, 20),
    holes=(),
    cut=True,
    size_along=100,
    size_across=20,
    size_slant=15,
    neck=3,
    touches=("w1",),
    unit="U1",
)

LAID = ZoneLayout(
    zone="floor",
    laying=Laying(
        "floor",
        "Driftwood plank",
        Bond(BondKind.STAGGERED),
        (Direction("along w1", (1, 0)),),
        Rules(),
    ),
    frame=Frame((0, 0), (1, 0)),
    direction=Direction("along w1", (1, 0)),
    outer=box(0, 0, 100, 20),
    holes=(),
    start_v=0,
    cross_u=0,
    start_row=1,
    rows=(),
    pieces=(PIECE,),
    units=7,
    units_at_least=7,
)


def test_the_cut_size_is_the_least_size_and_leaves_the_neck_apart() -> None:
    assert PIECE.size == 15
    assert replace(PIECE, size_slant=None).size == 20
    assert replace(PIECE, size_slant=None, size_across=None).size == 100


def test_a_piece_that_is_only_notched_has_no_cut_size() -> None:
    assert replace(PIECE, size_along=None, size_across=None, size_slant=None).size is None


def test_a_size_of_nothing_is_a_size() -> None:
    assert replace(PIECE, size_across=0).size == 0


def test_a_layout_that_meets_its_bound_is_proved() -> None:
    assert LAID.proved
    assert not replace(LAID, units=8).proved


def test_a_layout_is_frozen() -> None:
    with pytest.raises(FrozenInstanceError, match="units"):
        LAID.units = 3  # type: ignore[misc]
