"""Bonds and marks, and which products they suit."""

from __future__ import annotations

from fractions import Fraction

from models.job.data import Bond, BondKind, Marks, Product
from models.job.item import Item
from models.job.measures import Measures, read_fraction
from models.job.products import read_yes

_DOUBLE = "double herringbone"


def read_bond(item: Item) -> Bond:
    """Staggered, straight, stepped by a fraction of the unit, or a herringbone."""
    if isinstance(item.value, str):
        if item.text == _DOUBLE:
            return Bond(BondKind.HERRINGBONE, double=True)
        return Bond(BondKind(item.text))
    slant = item.find("herringbone")
    if slant is not None:
        double = read_yes(item, "double", otherwise=False)
        return Bond(BondKind.HERRINGBONE, slant=int(Fraction(slant.text)), double=double)
    stepped = item.group["stepped"]
    step = read_fraction(stepped)
    if not 0 < step < 1:
        raise stepped.error(
            f"{step} is not between 0 and 1", "write a fraction such as 1/3, or 'bond: straight'"
        )
    return Bond(BondKind.STEPPED, step)


def check_bond(item: Item, bond: Bond, product: Product, measures: Measures) -> None:
    """Refuse a bond its product cannot be laid in; ``item`` is where the bond is given."""
    if product.mix and bond.kind is not BondKind.STAGGERED:
        raise item.error(
            f"'{product.name}' comes in several lengths, which no {bond.kind.value} bond can take",
            "write 'bond: staggered'",
        )
    if bond.kind is BondKind.HERRINGBONE:
        _check_herringbone(item, bond, product, measures)


def _check_herringbone(item: Item, bond: Bond, product: Product, measures: Measures) -> None:
    """Refuse units (or pairs of them) wider than long."""
    length, width = product.pitch
    across, words = (2 * width, "a pair") if bond.double else (width, "a unit")
    if across > length:
        raise item.error(
            f"{words} of '{product.name}' is wider ({measures.show(across)}) than long "
            f"({measures.show(length)})",
            "choose another bond, or swap the product's 'length' and 'width'",
        )


def read_marks(item: Item, bond: Bond, product: Product) -> Marks:
    """How the marks of a zone's units lie; JobError where they cannot be turned."""
    found = item.find("marks")
    marks = Marks.ONE_WAY if found is None else Marks(found.text)
    if found is not None and marks is Marks.QUARTER_TURNED:
        if bond.kind is BondKind.HERRINGBONE:
            raise found.error(
                "the units of a herringbone lie both ways already", "leave 'marks' out"
            )
        if product.length != product.width or product.mix:
            raise found.error(
                f"'{product.name}' is not square, and only square units can be quarter-turned",
                "leave 'marks' out, or lay a square unit",
            )
    return marks
