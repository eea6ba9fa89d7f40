from dataclasses import replace
from fractions import Fraction

import pytest

from models.floor.layout import Verdict
from models.job.data import Bond, BondKind, Kind
from solver.sheets.words import (
    bond_words,
    broken_by,
    broken_rule,
    capital,
    counted,
    length,
    listed,
    percent,
    rule_name,
    span,
    the_wall,
)
from tests.sheets.jobs import inch, plank_job

JOB = plank_job()
VERDICT = Verdict(
    "smallest_cut", Kind.MUST, inch("2"), inch("1-1/4"), False, "row 9", "the compass is held"
)


def test_a_broken_rule_says_by_how_much_where_and_why() -> None:
    assert broken_rule(JOB, VERDICT) == (
        'smallest cut (must): 1-1/4", asked 2", row 9; the compass is held'
    )
    assert broken_by(JOB, VERDICT) == 'smallest cut (must): 1-1/4", asked 2"'


def test_rows_are_counted_not_measured() -> None:
    stair = replace(VERDICT, key="no_stair", kind=Kind.PREFER, limit=2, worst=5, because="")
    assert broken_rule(JOB, stair) == "no repeating stair (preferred): 5, asked 2, row 9"


def test_a_rule_about_an_axis_names_it() -> None:
    assert rule_name(replace(VERDICT, key="centred", subject="door axis")) == "centred on door axis"


@pytest.mark.parametrize(
    ("name", "words"), [("step", "wall step"), ("sea wall", "sea wall"), ("post", "post")]
)
def test_walls_of_one_word_are_called_walls(name: str, words: str) -> None:
    assert the_wall(JOB, name) == words


def test_small_words() -> None:
    assert counted(1, "unit") == "1 unit"
    assert counted(0, "unit") == "0 units"
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert percent(4.96) == "5.0 %"
    assert capital("rows") == "Rows"


def test_lengths_and_ranges() -> None:
    assert length(JOB, None, "whole") == "whole"
    assert span(JOB, inch("2"), inch("2")) == '2"'
    assert span(JOB, inch("2"), inch("2-1/2")) == '2" to 2-1/2"'
    assert span(JOB, inch("2"), inch("2") + 3) == '2"'


def test_bonds() -> None:
    assert bond_words(Bond(BondKind.STRAIGHT)) == "straight bond"
    assert bond_words(Bond(BondKind.STEPPED, Fraction(1, 3))) == "stepped bond, 1/3 of a unit"
