"""A job read with something else laid in one of its zones, every other zone as it was."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from models.job.directions import label_of
from models.job.errors import suggestion
from models.job.item import Item

_HANDED_ON = ("product", "directions")
"""What a zone takes from the field when it does not say itself."""


@dataclass(frozen=True, slots=True)
class Override:
    """What is laid in a zone instead: a product by name, one of its directions by label.

    ``None`` leaves what the job says. ``zone`` is the name of a zone, or the field's.
    """

    zone: str
    product: str | None = None
    direction: str | None = None


def overridden(root: Item, override: Override) -> Item:
    """The items of a valid job with an override put in.

    Zones that took their product or directions from the field keep those. Raises JobError
    for a zone that mirrors another, and for a direction or zone there is not.
    """
    field = root.group["field"]
    zones = [_on_its_own(zone, field) for zone in root.list_of("zones")]
    by_name = {zone.group["name"].text: zone for zone in zones}
    name = field.find("name")
    by_name["field" if name is None else name.text] = field
    chosen = by_name.get(override.zone)
    if chosen is None:
        raise root.error(
            f"there is no zone called '{override.zone}'", suggestion(override.zone, by_name)
        )
    changed = _changed(chosen, override)
    keys = {**root.group, "field": changed if chosen is field else field}
    if zones:
        entries = tuple(changed if zone is chosen else zone for zone in zones)
        keys["zones"] = replace(root.group["zones"], value=entries)
    return root.with_group(keys)


def _on_its_own(zone: Item, field: Item) -> Item:
    """A zone that says itself what it took from the field."""
    if "mirror" in zone.group:
        return zone
    taken = {key: item for key in _HANDED_ON if (item := field.find(key)) is not None}
    if "border" in zone.group:
        taken.pop("directions", None)
    return zone.with_group({**taken, **zone.group})


def _changed(zone: Item, override: Override) -> Item:
    """The zone with another product, or one of its directions alone."""
    if "mirror" in zone.group:
        other = zone.group["mirror"].group["zone"].text
        raise zone.error(f"is the mirror image of '{other}'", f"name '{other}' instead")
    keys = dict(zone.group)
    if override.product is not None:
        written = Item(zone.file, zone.line, f"{zone.label}, product", "")
        keys["product"] = replace(keys.get("product", written), value=override.product)
    if override.direction is not None:
        keys["directions"] = _one_direction(zone, keys, override.direction)
    return zone.with_group(keys)


def _one_direction(zone: Item, keys: Mapping[str, Item], label: str) -> Item:
    """The list of directions with only one left in it."""
    entries = {label_of(entry): entry for entry in reversed(zone.list_of("directions"))}
    if label not in entries:
        raise zone.error(f"gives no direction '{label}'", suggestion(label, entries))
    return replace(keys["directions"], value=(entries[label],))
