import pytest

from models.job.data import Job, Product
from models.job.errors import JobError
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
        ("length: 900, width: 150, directional: perhaps", "'perhaps' will not do; write yes or no"),
    ],
)
def test_products_that_cannot_be(words: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        job(words)
