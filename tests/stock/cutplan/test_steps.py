"""Arrangements of single units, by hand: which cuts, in which order, and what is kept."""

from __future__ import annotations

from models.job.data import Product
from solver.stock.cutplan.arrange import Saw, arranged
from solver.stock.cutplan.pattern import pattern_of
from solver.stock.cutplan.trims import Leaf, Split, Trim, members_of
from solver.stock.cutplan.wanted import Taper, Want, turns_of
from solver.stock.parts import Sits

UNIT = (1000, 100)
PLANK = Product("plank", *UNIT, kerf=4)
TURNING = Product("plank", *UNIT, kerf=4, directional=False)
SQUARE = Product("tile", 100, 100, directional=False)


def want(
    size: tuple[int, int],
    along: Sits = Sits.FREE,
    across: Sits = Sits.FULL,
    taper: Taper | None = None,
    shaped: bool = False,
) -> Want:
    return Want(size, (along, across), taper, shaped)


def tree(*wants: Want, product: Product = PLANK, scrap: int = 0) -> Leaf | Split | None:
    size = (product.length, product.width)
    return arranged([turns_of(each, product) for each in wants], Saw(size, product.kerf, scrap))


def test_a_piece_alone_is_one_cut_from_its_factory_end() -> None:
    found = tree(want((400, 100), Sits.HIGH))
    assert isinstance(found, Leaf)
    assert found.trims == (Trim(0, False, (400, 400)),)


def test_a_corner_piece_is_a_cross_cut_and_a_rip() -> None:
    found = tree(want((400, 60), Sits.LOW, Sits.HIGH))
    assert isinstance(found, Leaf)
    assert found.trims == (Trim(0, True, (400, 400)), Trim(1, False, (60, 60)))


def test_the_piece_laid_first_is_freed_by_the_first_cut() -> None:
    found = tree(want((300, 100), Sits.HIGH), want((600, 100), Sits.LOW))
    assert isinstance(found, Split)
    assert found.trim == Trim(0, False, (300, 300))
    assert members_of(found.high) == (0,)
    # The other is cut from its own factory end, out of what is kept.
    assert isinstance(found.low, Leaf)
    assert found.low.region.size == (696, 100)
    assert found.low.trims == (Trim(0, True, (600, 600)),)


def test_a_rest_that_is_just_as_long_needs_no_second_cut() -> None:
    found = tree(want((396, 100), Sits.LOW), want((600, 100), Sits.HIGH))
    assert isinstance(found, Split)
    assert isinstance(found.high, Leaf)
    assert found.high.trims == ()


def test_a_kerf_too_many_does_not_fit() -> None:
    assert tree(want((397, 100), Sits.LOW), want((600, 100), Sits.HIGH)) is None


def test_two_of_one_end_need_a_unit_that_may_be_turned() -> None:
    pair = (want((300, 100), Sits.LOW), want((500, 100), Sits.LOW))
    assert tree(*pair) is None
    assert tree(*pair, product=TURNING) is not None


def test_parallel_slanted_ends_are_parted_by_one_cut() -> None:
    one = want((560, 100), Sits.LOW, taper=Taper(0, True, (560, 460)))
    two = want((520, 100), Sits.HIGH, taper=Taper(0, False, (420, 520)))
    found = tree(one, two)
    assert isinstance(found, Split)
    assert found.trim == Trim(0, True, (560, 460))
    # 560 + 420 and 460 + 520: 980 of 1000, and a slanted kerf takes 6.
    assert isinstance(found.high, Leaf)
    assert found.high.trims == (Trim(0, False, (420, 520)),)
    assert tree(one, want((536, 100), Sits.HIGH, taper=Taper(0, False, (436, 536)))) is None


def test_slanted_ends_that_lean_the_other_way_do_not_nest() -> None:
    one = want((560, 100), Sits.LOW, taper=Taper(0, True, (560, 460)))
    assert tree(one, want((530, 100), Sits.HIGH, taper=Taper(0, False, (530, 430)))) is None


def test_an_offcut_below_scrap_is_not_kept_if_there_is_another_way() -> None:
    # Laid first, the long piece leaves 96: too little to keep when scrap is 150. Cut the other
    # way round the same cut is made, and the short one is put by: nothing else can be done.
    free = [want((560, 100)), want((300, 100)), want((90, 100))]
    found = tree(*free, scrap=150)
    assert isinstance(found, Split)
    kept = found.low if members_of(found.high) == (0,) else found.high
    assert kept.region.size[0] >= 150


def test_square_units_may_be_turned_a_quarter() -> None:
    pair = (want((40, 100), Sits.LOW), want((100, 50), Sits.FULL, Sits.LOW))
    found = tree(*pair, product=SQUARE)
    assert found is not None
    assert members_of(found) == (0, 1)


def test_half_and_quarter_turns_bring_a_piece_back() -> None:
    slanted = want((60, 100), Sits.LOW, Sits.HIGH, Taper(0, True, (60, 20)))
    assert slanted.half_turned.half_turned == slanted
    assert slanted.quarter_turned.quarter_turned == slanted.half_turned
    assert slanted.half_turned.taper == Taper(0, False, (20, 60))
    assert slanted.half_turned.sits == (Sits.HIGH, Sits.LOW)


def test_a_pattern_shows_where_the_pieces_lie() -> None:
    found = tree(want((300, 100), Sits.HIGH), want((600, 40), Sits.LOW, Sits.LOW))
    assert found is not None
    pattern = pattern_of(found)
    assert pattern.rings == (
        ((700, 0), (1000, 0), (1000, 100), (700, 100)),
        ((0, 0), (600, 0), (600, 40), (0, 40)),
    )
    assert pattern.cuts == (((700, 0), (700, 100)), ((600, 0), (600, 100)), ((0, 40), (600, 40)))
