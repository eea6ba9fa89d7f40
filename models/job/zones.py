"""The zones: each with its shape, product, bond, directions and rules, the field last."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from models.job.bonds import check_bond, read_bond, read_marks
from models.job.data import Bond, Border, Direction, Fill, Laying, Product, Rest, Rules, Shape
from models.job.directions import read_directions, usual_direction
from models.job.errors import JobError
from models.job.item import Item
from models.job.measures import Measures
from models.job.mirrors import check_mirror, mirrored
from models.job.names import look_up
from models.job.premises import Premises
from models.job.rule_checks import Basis
from models.job.rules import handed_on, read_rules
from models.job.zone_shapes import read_shape


@dataclass(frozen=True, slots=True)
class Ground:
    """What a zone refers to: the room, the products by name, and the job's rules."""

    premises: Premises
    products: Mapping[str, Product]
    rules: Item | None
    measures: Measures


@dataclass(frozen=True, slots=True)
class Zones:
    """Every zone, the field last, and notes on what was assumed."""

    layings: tuple[Laying, ...]
    notes: tuple[str, ...]


def read_zones(root: Item, ground: Ground) -> Zones:
    """The zones of a job; JobError for one that cannot be."""
    field, notes = _read_field(root.group["field"], ground)
    items = root.list_of("zones")
    read: dict[str, Laying] = {}
    for item in items:
        if "mirror" not in item.group:
            laying, more = _read_zone(item, field, ground)
            read[laying.name] = laying
            notes += tuple(f"zone '{laying.name}': {note}" for note in more)
    for item in items:
        if "mirror" in item.group:
            name = item.group["name"].text
            check_mirror(item, {**read, field.name: field}, items)
            read[name] = mirrored(item, {**read, field.name: field}, ground.premises.axes)
    ordered = tuple(read[item.group["name"].text] for item in items)
    _check_fills(items, ordered)
    layings = (*ordered, field)
    _check_area_names((*items, root.group["field"]), layings)
    return Zones(layings, notes)


def _read_field(item: Item, ground: Ground) -> tuple[Laying, tuple[str, ...]]:
    """The field with the job's rules, and the notes on it."""
    product = _product_of(item, ground.products)
    bond = read_bond(item.group["bond"])
    check_bond(item.group["bond"], bond, product, ground.measures)
    room, axes = ground.premises.room, ground.premises.axes
    directions, notes = read_directions(item, room, axes)
    if not directions:
        directions, notes = usual_direction(room, bond)
    rules = read_rules(ground.rules, Basis(product, bond, directions), axes, ground.measures)
    name = item.find("name")
    return Laying(
        "field" if name is None else name.text,
        product.name,
        bond,
        directions,
        rules,
        Rest(ground.measures.point(item.group["part_at"]) if "part_at" in item.group else None),
        read_marks(item, bond, product),
    ), notes


def _product_of(field: Item, products: Mapping[str, Product]) -> Product:
    """The product the field is laid in; the only one when none is named."""
    item = field.find("product")
    if item is not None:
        return look_up(item, products, "product")
    if len(products) > 1:
        raise field.error("does not say which product is laid", f"add 'product: {min(products)}'")
    return next(iter(products.values()))


def _read_zone(item: Item, field: Laying, ground: Ground) -> tuple[Laying, tuple[str, ...]]:
    """A zone that is no mirror; what it does not say it takes from the field."""
    keys, measures = item.group, ground.measures
    named = item.find("product")
    product = (
        look_up(named, ground.products, "product") if named else ground.products[field.product]
    )
    bond = read_bond(keys["bond"]) if "bond" in keys else field.bond
    check_bond(keys.get("bond") or named or item, bond, product, measures)
    shape, notes = read_shape(item, ground.premises, product, measures)
    directions, more = _directions(item, shape, field, ground)
    rules, left = _rules(item, Basis(product, bond, directions), field.bond, ground)
    laying = Laying(
        keys["name"].text,
        product.name,
        bond,
        directions,
        rules,
        shape,
        read_marks(item, bond, product),
        measures.gap_in(item, "trim"),
    )
    return laying, (*notes, *more, *left)


def _directions(
    item: Item, shape: Shape, field: Laying, ground: Ground
) -> tuple[tuple[Direction, ...], tuple[str, ...]]:
    """A zone's own directions, or the field's; none in a border, whose sides give them."""
    premises = ground.premises
    directions, notes = read_directions(item, premises.room, premises.axes)
    if directions or isinstance(shape, Border):
        return directions, notes
    return field.directions, ()


def _rules(item: Item, basis: Basis, field: Bond, ground: Ground) -> tuple[Rules, tuple[str, ...]]:
    """A zone's own rules, or the job's as far as they mean something in it."""
    axes, measures = ground.premises.axes, ground.measures
    own = item.find("rules")
    if own is not None:
        return read_rules(own, basis, axes, measures), ()
    taken, left = handed_on(ground.rules, basis, field)
    words = f"not asked of it, for they mean nothing in its bond: the job's {', '.join(left)}"
    try:
        return read_rules(taken, basis, axes, measures), (words,) if left else ()
    except JobError as error:
        raise item.error(
            f"takes the job's rules, and {error.item}: {error.problem}",
            "give the zone 'rules' of its own",
        ) from error


def _check_fills(items: tuple[Item, ...], layings: tuple[Laying, ...]) -> None:
    """Refuse the second zone that fills a feature."""
    filled: dict[str, str] = {}
    for item, laying in zip(items, layings, strict=True):
        if isinstance(laying.shape, Fill):
            feature = laying.shape.feature
            if feature in filled:
                raise item.error(
                    f"fills feature '{feature}', which zone '{filled[feature]}' fills already",
                    "keep one of them",
                )
            filled[feature] = laying.name


def _check_area_names(items: tuple[Item, ...], layings: tuple[Laying, ...]) -> None:
    """Refuse a zone called as the areas of another may be: its name, comma, and more."""
    for item, laying in zip(items, layings, strict=True):
        for other in layings:
            if laying.name.startswith(f"{other.name}, "):
                raise item.error(
                    f"'{laying.name}' is what an area of zone '{other.name}' may be called",
                    "give it a name that does not begin with another zone's and a comma",
                )
