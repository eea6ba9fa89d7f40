from fractions import Fraction

import pytest

from models.job.errors import JobError
from tests.job.sample import read


@pytest.mark.parametrize(
    ("spare", "percent", "units", "carton_per"),
    [
        ("5 %", 5, 0, 0),
        ("5%", 5, 0, 0),
        ("7.5 %", Fraction(15, 2), 0, 0),
        ("20 units", 0, 20, 0),
        ("1 unit", 0, 1, 0),
        ("0 units", 0, 0, 0),
        ("1 carton per 50", 0, 0, 50),
    ],
)
def test_spare_stock(spare: str, percent: Fraction | int, units: int, carton_per: int) -> None:
    job = read(spare=spare)
    found = job.spare_percent, job.spare_units, job.spare_carton_per
    assert found == (percent, units, carton_per)


def test_breakage_and_currency() -> None:
    job = read(breakage="2.5 %", currency='"$"')
    assert (job.breakage_percent, job.currency) == (Fraction(5, 2), "$")
    assert (read().breakage_percent, read().currency) == (Fraction(0), "")


@pytest.mark.parametrize(
    ("sections", "message"),
    [
        ({"spare": "101 %"}, "spare: is over 100 %; write a percentage of the units laid, or '20"),
        ({"spare": "1 carton per 0"}, "spare: '1 carton per 0' will not do; write 5 % or 20 units"),
        ({"spare": "2 cartons per 50"}, "write 5 % or 20 units or 1 carton per 50"),
        ({"breakage": "101 %"}, "breakage: is over 100 %; write a percentage of the units laid"),
        (
            {"breakage": "3 units"},
            "breakage: '3 units' will not do; write a percentage such as 2 %",
        ),
        ({"currency": "lighthouse"}, "currency: 'lighthouse' will not do; write a sign or a word"),
    ],
)
def test_supply_that_cannot_be(sections: dict[str, str | None], message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(**sections)
