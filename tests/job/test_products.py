from fractions import Fraction

import pytest

from models.job.data import Job, Product
from models.job.errors import JobError
from models.job.products import shortest
from tests.job.sample import MM, read


def job(words: str) -> Job:
    return read(products=f"[{{name: tile, {words}}}]")


def product(words: str) -> Product:
    return job(words).products[0]


def test_what_is_not_said_takes_its_default() -> None:
    assert product("length: 900, width: 150") == Product("tile", 900 * MM, 150 * MM)


def test_everything_said_is_read() -> None:
    found = product(
        "length: 60 cm, width: 150.5, joint: 2, kerf: 1/8 in, per_carton: 8, "
        "directional: no, tolerance: 0.5"
    )
    assert found == Product("tile", 600 * MM, 48160, 2 * MM, 1016, 8, False, 160)
    assert found.pitch == (602 * MM, 48800)


@pytest.mark.parametrize(
    ("word", "directional"), [("yes", True), ("true", True), ("no", False), ("false", False)]
)
def test_directional_is_yes_or_no(word: str, directional: bool) -> None:
    assert product(f"length: 9, width: 9, directional: {word}").directional is directional


def test_wider_than_long_is_noted() -> None:
    notes = " ".join(job("length: 150, width: 900").notes)
    assert "product 'tile' is wider than long: rows run along its short side, as given" in notes


MIX = (
    "{length: 24 in, per_carton: 4}, {length: 1200, per_carton: 2}, {length: 36 in, per_carton: 3}"
)


def test_mixed_lengths_are_kept_longest_first() -> None:
    found = product(f"width: 150, lengths: [{MIX}], joint: 2")
    assert found.mix == ((1200 * MM, 2), (36 * 8128, 3), (24 * 8128, 4))
    assert (found.length, found.per_carton) == (1200 * MM, 9)
    assert found.pitch == (1202 * MM, 152 * MM)
    assert shortest(found) == 24 * 8128
    assert shortest(product("length: 9, width: 9")) == 9 * MM


def test_scrap_shop_cuts_and_price() -> None:
    found = product("length: 900, width: 150, scrap: 6 in, shop_cuts: yes, price: 48.50")
    assert (found.scrap, found.shop_cuts, found.price) == (6 * 8128, True, Fraction(97, 2))
    assert product("length: 900, width: 150, shop_cuts: no, price: 12").price == 12


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("length: 0, width: 9", r"galley\.yaml:5: products 'tile', length: '0' is not above 0"),
        ("length: 9, width: -9", "products 'tile', width: '-9' is not above 0"),
        ("length: 900, width: 150, kerf: 150", "kerf: is not less than .* smaller side, 150 mm"),
        ("length: 900, width: 150, joint: 2 m", "joint: is not less than .* smaller side, 150 mm"),
        ("length: 900, width: 150, tolerance: 150", "tolerance: is not less than the unit's"),
        ("length: 900, width: 150, kerf: -3", "kerf: '-3' is below 0; write 0 or a length above"),
        ("length: 900, width: 150 yd", "width: '150 yd' is not a length; write a length such as"),
        ("width: 150", "products 'tile': these keys do not make one whole: name, width; write eit"),
        (f"length: 900, width: 150, lengths: [{MIX}]", "do not make one whole: name, length, wid"),
        (f"width: 150, per_carton: 4, lengths: [{MIX}]", "or 'lengths' with a 'per_carton' in eac"),
        ("width: 9, lengths: [{length: 90, per_carton: 1}]", "lengths: has 1 entry; write 2 to 12"),
        ("width: 9, lengths: [{length: 90}, {length: 80}]", "1: the key 'per_carton' is missing"),
        (
            "width: 9, lengths: [{length: 90, per_carton: 1}, {length: 9 cm, per_carton: 2}]",
            "products 'tile', lengths 2: 90 mm is given twice; write each length once, with its c",
        ),
        (
            "width: 9, kerf: 5, lengths: [{length: 9, per_carton: 1}, {length: 4, per_carton: 1}]",
            "kerf: is not less than the unit's smaller side, 4 mm",
        ),
        ("length: 900, width: 150, scrap: 900", "scrap: is not less than a whole unit, 900 mm"),
        ("length: 900, width: 150, price: -1", "price: '-1' will not do; write a price such as"),
        ("length: 900, width: 150, price: dear", "price: 'dear' will not do; write a price such"),
        ("length: 900, width: 150, shop_cuts: some", "shop_cuts: 'some' will not do; write yes or"),
        ("length: 900, width: 150, directional: perhaps", "'perhaps' will not do; write yes or no"),
    ],
)
def test_products_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        job(words)
