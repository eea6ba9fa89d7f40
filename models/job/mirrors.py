"""Zones that are the reflection of another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from models.job.angles import mirrored_vector
from models.job.data import Axis, BondKind, Direction, Laying, Mirror, Rest
from models.job.item import Item
from models.job.names import look_up

_NOT_ITS_OWN = ("product", "bond", "directions", "rules", "marks", "trim")


def check_mirror(item: Item, layings: Mapping[str, Laying], items: Sequence[Item]) -> None:
    """Refuse a mirror of what has no shape of its own, or with something of its own."""
    zone = item.group["mirror"].group["zone"]
    for key in _NOT_ITS_OWN:
        if key in item.group:
            raise item.group[key].error(
                f"a mirror takes its {key} from '{zone.text}'", f"leave '{key}' out"
            )
    mirrors = [each.group["name"].text for each in items if "mirror" in each.group]
    if zone.text in mirrors:
        raise zone.error(
            f"'{zone.text}' is a mirror itself", "name the zone it reflects, and another axis"
        )
    original = look_up(zone, layings, "zone")
    if original.shape == Rest():
        raise zone.error(
            "the field takes all that is left, so it has no shape to reflect",
            "add 'part_at' to the field, with a point in the part it takes",
        )
    if original.bond.kind is BondKind.HERRINGBONE:
        raise zone.error(
            "is laid in herringbone, which seen in a mirror turns the other way",
            "give this zone a bond of its own, centred on an axis",
        )


def mirrored(item: Item, layings: Mapping[str, Laying], axes: Mapping[str, Axis]) -> Laying:
    """The zone as its original is laid, its directions reflected about the axis."""
    mirror = item.group["mirror"].group
    axis = look_up(mirror["axis"], axes, "axis")
    original = layings[mirror["zone"].text]
    directions = tuple(
        Direction(f"{one.label}, reflected", mirrored_vector(one.vector, axis.direction))
        for one in original.directions
    )
    # What the original is centred on says nothing of where its reflection lies.
    return replace(
        original,
        name=item.group["name"].text,
        directions=directions,
        rules=replace(original.rules, centred=()),
        shape=Mirror(original.name, axis.name),
    )
