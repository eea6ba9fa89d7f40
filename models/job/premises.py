"""The room and everything that stands in it, each thing after what it refers to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from models.job.data import Axis, Column, Door, Feature
from models.job.features import feature_notes, read_feature
from models.job.fittings import read_axis, read_column, read_door
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import check_unique
from models.job.room import Room, read_room

_THINGS = ("columns", "doors", "axes", "features", "zones")


@dataclass(frozen=True, slots=True)
class Premises:
    """The room and what stands in it; axes and features by name, in the order given."""

    room: Room
    columns: tuple[Column, ...]
    doors: tuple[Door, ...]
    axes: Mapping[str, Axis]
    features: Mapping[str, Feature]


def read_premises(root: Item, measures: Measures) -> Premises:
    """The room and what stands in it; every name in it must be of one thing."""
    check_unique(_names(root))
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
    features = {
        feature.name: feature
        for feature in (read_feature(item, axes, measures) for item in root.list_of("features"))
    }
    check_unique([*room.named, *_names(root)])
    return Premises(room, columns, tuple(doors.values()), axes, features)


def premises_notes(premises: Premises, measures: Measures) -> tuple[str, ...]:
    """What was changed or assumed about the room and the features."""
    notes = list(premises.room.notes)
    for feature in premises.features.values():
        notes.extend(feature_notes(feature, premises.axes, measures))
    return tuple(notes)


def _names(root: Item) -> list[tuple[str, Item]]:
    """The names of all things in the room but its walls, and where they stand.

    The field's name counts only beside other zones: alone it is never looked up.
    """
    items = [item.group["name"] for key in _THINGS for item in root.list_of(key)]
    names = [(item.text, item) for item in items]
    if root.list_of("zones"):
        field = root.group["field"]
        name = field.find("name")
        names.append(("field", field) if name is None else (name.text, name))
    return names
