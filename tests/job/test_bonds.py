from fractions import Fraction

import pytest

from models.job.data import Bond, BondKind
from models.job.errors import JobError
from tests.job.sample import read

HERRINGBONE = BondKind.HERRINGBONE
MIXED = (
    "[{name: mix, width: 150,"
    " lengths: [{length: 600, per_carton: 2}, {length: 900, per_carton: 1}]}]"
)


@pytest.mark.parametrize(
    ("words", "bond"),
    [
        ("staggered", Bond(BondKind.STAGGERED)),
        ("straight", Bond(BondKind.STRAIGHT)),
        ("{stepped: 1/3}", Bond(BondKind.STEPPED, Fraction(1, 3))),
        ("{stepped: 0.25}", Bond(BondKind.STEPPED, Fraction(1, 4))),
        ("herringbone", Bond(HERRINGBONE)),
        ("double herringbone", Bond(HERRINGBONE, double=True)),
        ("{herringbone: 45}", Bond(HERRINGBONE, slant=45)),
        ("{herringbone: 90, double: yes}", Bond(HERRINGBONE, slant=90, double=True)),
        ("{herringbone: 45.0, double: no}", Bond(HERRINGBONE)),
    ],
)
def test_bonds(words: str, bond: Bond) -> None:
    assert read(field=f"{{bond: {words}}}").field.bond == bond


@pytest.mark.parametrize(
    ("bond", "message"),
    [
        ("{stepped: 0}", "field, bond, stepped: 0 is not between 0 and 1; write a fraction"),
        ("{stepped: 1}", "1 is not between 0 and 1"),
        ("{stepped: 4/3}", "4/3 is not between 0 and 1"),
        ("{stepped: -1/3}", "-1/3 is not between 0 and 1"),
        ("{stepped: 1/0}", "'1/0' is not a fraction; write a fraction such as 1/3"),
        ("{stepped: third}", "'third' is not a fraction"),
        ("{stepped: nan}", "'nan' is not a fraction"),
        ("{stepped: 1e9999999}", "'1e9999999' is not a fraction"),
        ("{stepped: 0." + "3" * 5000 + "}", r"\.\.\.' is not a fraction"),
        ("{herringbone: 60}", "field, bond, herringbone: '60' will not do; write one of 45, 90"),
        ("{double: yes}", "bond: these keys do not make one whole: double; write {stepped: 1/3}"),
        ("{stepped: 1/3, double: yes}", "do not make one whole: stepped, double"),
        ("{herringbone: 45, double: twice}", "double: 'twice' will not do; write yes or no"),
        ("herringbones", "'herringbones' will not do; did you mean 'herringbone'"),
    ],
)
def test_bonds_that_cannot_be(bond: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(field=f"{{bond: {bond}}}")


@pytest.mark.parametrize(
    ("size", "bond", "message"),
    [
        (
            "length: 100, width: 150",
            "herringbone",
            r"field, bond: a unit of 'p' is wider \(150 mm\) than long \(100 mm\); choose another",
        ),
        (
            "length: 290, width: 150",
            "double herringbone",
            r"a pair of 'p' is wider \(300 mm\) than long \(290 mm\)",
        ),
    ],
)
def test_a_herringbone_of_units_wider_than_long(size: str, bond: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(products=f"[{{name: p, {size}}}]", field=f"{{bond: {bond}}}")


def test_square_units_and_pairs_make_a_herringbone() -> None:
    square = read(products="[{name: p, length: 150, width: 150}]", field="{bond: herringbone}")
    pair = read(products="[{name: p, length: 300, width: 150}]", field="{bond: double herringbone}")
    assert square.field.bond.kind is pair.field.bond.kind is HERRINGBONE


@pytest.mark.parametrize("bond", ["straight", "stepped", "herringbone"])
def test_mixed_lengths_are_staggered(bond: str) -> None:
    words = "{stepped: 1/2}" if bond == "stepped" else bond
    with pytest.raises(
        JobError,
        match=f"bond: 'mix' comes in several lengths, which no {bond} bond can take; write 'bond: "
        "staggered'",
    ):
        read(products=MIXED, field=f"{{bond: {words}}}")
    assert read(products=MIXED).field.product == "mix"


@pytest.mark.parametrize(
    ("product", "bond", "message"),
    [
        ("length: 300, width: 150", "straight", "field, marks: 'p' is not square, and only square"),
        ("length: 150, width: 150", "herringbone", "the units of a herringbone lie both ways alre"),
    ],
)
def test_marks_that_cannot_be_turned(product: str, bond: str, message: str) -> None:
    with pytest.raises(JobError, match=message):
        read(
            products=f"[{{name: p, {product}}}]",
            field=f"{{bond: {bond}, marks: quarter-turned}}",
        )


def test_a_product_a_zone_cannot_lay_in_the_fields_bond_is_told_at_the_product() -> None:
    products = MIXED[:-1] + ", {name: tile, length: 300, width: 300}]"
    with pytest.raises(JobError, match="zones 'z', product: 'mix' comes in several lengths"):
        read(
            products=products,
            field="{product: tile, bond: straight}",
            zones="[{name: z, product: mix, border: {width: 300, along: [s]}}]",
        )
