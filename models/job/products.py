"""The planks and tiles."""

from __future__ import annotations

from fractions import Fraction

from models.job.data import Product
from models.job.item import Item
from models.job.measures import Measures

_NO = ("no", "false")

Mix = tuple[tuple[int, int], ...]
"""Each length in a carton of mixed lengths and how many of it, longest first."""


def read_product(item: Item, measures: Measures) -> Product:
    """A product; JobError for sizes that leave nothing of a unit."""
    keys = item.group
    mix = _read_mix(item, measures)
    product = Product(
        name=keys["name"].text,
        length=mix[0][0] if mix else measures.size(keys["length"]),
        width=measures.size(keys["width"]),
        joint=measures.gap_in(item, "joint"),
        kerf=measures.gap_in(item, "kerf"),
        per_carton=sum(count for _, count in mix) if mix else _count(item),
        directional=read_yes(item, "directional", otherwise=True),
        tolerance=measures.gap_in(item, "tolerance"),
        mix=mix,
        scrap=measures.gap_in(item, "scrap"),
        shop_cuts=read_yes(item, "shop_cuts", otherwise=False),
        price=Fraction(keys["price"].text) if "price" in keys else None,
    )
    least = min(shortest(product), product.width)
    for key in ("joint", "kerf", "tolerance"):
        _check_below(item, key, least, "the unit's smaller side", measures)
    _check_below(item, "scrap", product.length, "a whole unit", measures)
    return product


def shortest(product: Product) -> int:
    """The length of its shortest unit."""
    return product.mix[-1][0] if product.mix else product.length


def read_yes(item: Item, key: str, *, otherwise: bool) -> bool:
    """A yes or no under an optional key."""
    found = item.find(key)
    return otherwise if found is None else found.text not in _NO


def product_notes(product: Product) -> tuple[str, ...]:
    """What the user should know about a product."""
    if product.width <= product.length:
        return ()
    return (
        f"product '{product.name}' is wider than long: rows run along its short side, as given",
    )


def _count(item: Item) -> int:
    """Units in a carton."""
    found = item.find("per_carton")
    return 1 if found is None else int(found.text)


def _read_mix(item: Item, measures: Measures) -> Mix:
    """The lengths in a carton; none for a product of one length."""
    mix: dict[int, int] = {}
    for entry in item.list_of("lengths"):
        length = measures.size(entry.group["length"])
        if length in mix:
            raise entry.error(
                f"{measures.show(length)} is given twice", "write each length once, with its count"
            )
        mix[length] = _count(entry)
    return tuple(sorted(mix.items(), reverse=True))


def _check_below(item: Item, key: str, limit: int, words: str, measures: Measures) -> None:
    """Refuse a length that is not less than a size of the unit."""
    if measures.gap_in(item, key) >= limit:
        raise item.group[key].error(
            f"is not less than {words}, {measures.show(limit)}",
            "check the number and its unit",
        )
