"""The planks and tiles."""

from __future__ import annotations

from models.job.data import Product
from models.job.item import Item
from models.job.measures import Measures

_NO = ("no", "false")


def read_product(item: Item, measures: Measures) -> Product:
    """A product; JobError for sizes that leave nothing of a unit."""
    keys = item.group
    product = Product(
        name=keys["name"].text,
        length=measures.size(keys["length"]),
        width=measures.size(keys["width"]),
        joint=measures.gap_in(item, "joint"),
        kerf=measures.gap_in(item, "kerf"),
        per_carton=int(keys["per_carton"].text) if "per_carton" in keys else 1,
        directional="directional" not in keys or keys["directional"].text not in _NO,
        tolerance=measures.gap_in(item, "tolerance"),
    )
    least = min(product.length, product.width)
    for key in ("joint", "kerf", "tolerance"):
        if measures.gap_in(item, key) >= least:
            raise keys[key].error(
                f"is not less than the unit's smaller side, {measures.show(least)}",
                "check the number and its unit",
            )
    return product


def product_notes(product: Product) -> tuple[str, ...]:
    """What the user should know about a product."""
    if product.width <= product.length:
        return ()
    return (
        f"product '{product.name}' is wider than long: rows run along its short side, as given",
    )
