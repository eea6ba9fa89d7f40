"""A job file, read and checked, step by step.

file -> text (source) -> items with lines (tree) -> known keys and types (schema) ->
room, fittings, features, products, field, rules -> everything fits (checks) -> Job.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from models.job.checks import Placed, check_amount, check_plan
from models.job.data import Axis, Column, Door, Feature, Job, Laying, Product
from models.job.features import feature_notes, read_feature
from models.job.field import read_bond, read_directions, read_product_of
from models.job.fittings import read_axis, read_column, read_door
from models.job.item import Item
from models.job.measures import Measures, read_measures
from models.job.names import check_unique
from models.job.products import product_notes, read_product
from models.job.room import Room, read_room
from models.job.rules import Basis, read_rules
from models.job.schema import validate
from models.job.source import read_source
from models.job.tree import parse_tree
from models.lengths import TICKS_PER_INCH, TICKS_PER_MM

_TAPE_STEPS = (TICKS_PER_MM // 10, TICKS_PER_INCH)
_SPARE = re.compile(r"(?P<number>[\d.]+) *(?P<unit>%|units?)", re.ASCII)
_MOST_SPARE_PERCENT = 100


@dataclass(frozen=True, slots=True)
class Plan:
    """The room and everything in it."""

    room: Room
    columns: tuple[Column, ...]
    doors: tuple[Door, ...]
    axes: dict[str, Axis]
    features: tuple[Feature, ...]


def read_job(path: Path) -> Job:
    """The job in a file, checked: everything in it can be laid out.

    Raises models.job.errors.JobError for anything else: one line naming the file, the
    line, the entry, what is wrong and what would be right.
    """
    return read_text(read_source(path), str(path))


def read_text(text: str, file: str) -> Job:
    """The job in a text; ``file`` is what errors call it. Raises JobError."""
    root = parse_tree(text, file)
    validate(root)
    measures = read_measures(root)
    _check_names(root)
    plan = _read_plan(root, measures)
    products = tuple(read_product(item, measures) for item in root.list_of("products"))
    field, notes = _read_field(root, plan, products, measures)
    _check_fit(root, plan, next(p for p in products if p.name == field.product))
    percent, units = _read_spare(root)
    return Job(
        name=root.group["job"].text,
        system=measures.system,
        tape_step=_read_tape_step(root, measures),
        room=plan.room.ring,
        walls=plan.room.walls,
        columns=plan.columns,
        doors=plan.doors,
        axes=tuple(plan.axes.values()),
        features=plan.features,
        products=products,
        zones=(field,),
        spare_percent=percent,
        spare_units=units,
        closure=plan.room.closure,
        notes=_notes(plan, products, measures) + notes,
    )


def _read_plan(root: Item, measures: Measures) -> Plan:
    """The room and what stands in it, each thing after what it refers to."""
    room = read_room(root.group["room"], measures)
    columns = tuple(read_column(item, measures) for item in root.list_of("columns"))
    doors = {
        door.name: door
        for door in (read_door(item, room, measures) for item in root.list_of("doors"))
    }
    axes = {
        axis.name: axis
        for axis in (read_axis(item, room, doors, measures) for item in root.list_of("axes"))
    }
    features = tuple(read_feature(item, axes, measures) for item in root.list_of("features"))
    _check_wall_names(root, room)
    return Plan(room, columns, tuple(doors.values()), axes, features)


def _read_field(
    root: Item, plan: Plan, products: Sequence[Product], measures: Measures
) -> tuple[Laying, tuple[str, ...]]:
    """The field with its rules, and the notes on it."""
    item = root.group["field"]
    product = read_product_of(item, {product.name: product for product in products})
    bond = read_bond(item.group["bond"])
    directions, notes = read_directions(item, plan.room, plan.axes)
    basis = Basis(product, bond, directions)
    rules = read_rules(root.find("rules"), basis, plan.axes, measures)
    name = item.find("name")
    return Laying(
        "field" if name is None else name.text, product.name, bond, directions, rules
    ), notes


def _check_fit(root: Item, plan: Plan, product: Product) -> None:
    """Everything stands in the room, apart, and leaves one floor of a sensible size."""
    room_item = root.group["room"]
    columns = [
        Placed(f"column '{column.name}'", column.outline, item)
        for column, item in zip(plan.columns, root.list_of("columns"), strict=True)
    ]
    features = [
        Placed(f"feature '{feature.name}'", feature.outline, item)
        for feature, item in zip(plan.features, root.list_of("features"), strict=True)
    ]
    check_plan(plan.room.ring, room_item, columns, features)
    check_amount(plan.room.ring, room_item, product)


def _check_names(root: Item) -> None:
    """Names of products apart, and of everything in the room apart."""
    check_unique(_named(root, "products"))
    in_room = [
        pair for key in ("columns", "doors", "axes", "features") for pair in _named(root, key)
    ]
    check_unique(in_room)


def _check_wall_names(root: Item, room: Room) -> None:
    """Wall names apart from each other and from everything in the room."""
    walls = [(side.name, side.item) for side in room.sides]
    keys = ("columns", "doors", "axes", "features")
    check_unique(walls + [pair for key in keys for pair in _named(root, key)])


def _named(root: Item, key: str) -> list[tuple[str, Item]]:
    """The names in a list and where they stand."""
    names = (item.group["name"] for item in root.list_of(key))
    return [(name.text, name) for name in names]


def _read_tape_step(root: Item, measures: Measures) -> int:
    """The smallest step marked on site, within reason."""
    item = root.find("tape_step")
    if item is None:
        return measures.pick("1/16 in", "1 mm")
    step = measures.size(item)
    if not _TAPE_STEPS[0] <= step <= _TAPE_STEPS[1]:
        raise item.error(
            f"{measures.show(step)} is no step a tape is marked in", "write 0.1 mm to 1 in"
        )
    return step


def _read_spare(root: Item) -> tuple[Fraction, int]:
    """Spare stock as a percentage and as units; one of them is 0."""
    item = root.find("spare")
    match = None if item is None else _SPARE.fullmatch(item.text)
    if item is None or match is None:
        return Fraction(0), 0
    if match["unit"] != "%":
        return Fraction(0), int(match["number"])
    percent = Fraction(match["number"])
    if percent > _MOST_SPARE_PERCENT:
        raise item.error("is over 100 %", "write a percentage of the units laid, or '20 units'")
    return percent, 0


def _notes(plan: Plan, products: Sequence[Product], measures: Measures) -> tuple[str, ...]:
    """What was changed or assumed about the room, the features and the products."""
    notes = list(plan.room.notes)
    for feature in plan.features:
        notes.extend(feature_notes(feature, plan.axes, measures))
    for product in products:
        notes.extend(product_notes(product))
    return tuple(notes)
