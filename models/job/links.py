"""Links: two zones laid on one set of lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from models.job.angles import is_parallel
from models.job.data import Bond, BondKind, Laying, Link, Mirror, Product, Share
from models.job.item import Item
from models.job.names import look_up


def read_links(
    items: Sequence[Item], layings: Sequence[Laying], products: Mapping[str, Product]
) -> tuple[tuple[Link, ...], tuple[str, ...]]:
    """The links and notes on them; JobError for zones that can share no lines."""
    zones = {laying.name: laying for laying in layings}
    links: dict[tuple[frozenset[str], Share], Link] = {}
    notes = []
    for item in items:
        first, second = (look_up(name, zones, "zone") for name in item.group["zones"].entries)
        share = Share(item.group["share"].text)
        _check_pair(item, first, second)
        _check_bonds(item, share, first, second, products)
        key = frozenset((first.name, second.name)), share
        if key in links:
            raise item.error("these zones share these lines already", "keep one of the two links")
        links[key] = Link(first.name, second.name, share)
        widths = {products[zone.product].pitch[1] for zone in (first, second)}
        if share is Share.ROW_LINES and len(widths) > 1:
            notes.append(
                f"zones '{first.name}' and '{second.name}' have rows of different widths: "
                "they share one row line, where the second goes on from the first"
            )
    return tuple(links.values()), tuple(notes)


def _check_pair(item: Item, first: Laying, second: Laying) -> None:
    """Refuse a zone with itself, mirrors, herringbones and rows that run different ways."""
    if first.name == second.name:
        raise item.error("names one zone twice", "name two zones")
    for zone in (first, second):
        if isinstance(zone.shape, Mirror):
            raise item.error(
                f"'{zone.name}' is a mirror: its lines are those of '{zone.shape.zone}'",
                f"link '{zone.shape.zone}'",
            )
        if zone.bond.kind is BondKind.HERRINGBONE:
            raise item.error(
                f"'{zone.name}' is a herringbone, which has no row lines to share",
                "leave the link out",
            )
        if not zone.directions:
            raise item.error(
                f"the strips of border '{zone.name}' each lie along their own side",
                "leave the link out, or give the border 'directions'",
            )
    if not (_within(first, second) and _within(second, first)):
        raise item.error(
            f"the rows of '{first.name}' may run in other directions than those of '{second.name}'",
            "give both zones the same 'directions'",
        )


def _within(one: Laying, other: Laying) -> bool:
    """Whether every direction of one zone is one of the other's."""
    return all(
        any(is_parallel(mine.vector, yours.vector) for yours in other.directions)
        for mine in one.directions
    )


def _check_bonds(
    item: Item, share: Share, first: Laying, second: Laying, products: Mapping[str, Product]
) -> None:
    """Refuse to share joints where the bonds leave none in line."""
    if share is not Share.JOINTS:
        return
    for zone in (first, second):
        if zone.bond.kind is BondKind.STAGGERED:
            raise item.error(
                f"'{zone.name}' is staggered, and its end joints keep to no lines",
                "share row lines, or lay both straight or stepped",
            )
    pitches = {products[zone.product].pitch[0] for zone in (first, second)}
    if len(pitches) > 1 or not _same(first.bond, second.bond):
        raise item.error(
            f"the units of '{first.name}' and '{second.name}' differ in length or bond, so their "
            "end joints cannot stay in line",
            "share row lines, or lay both in one bond of units of one length",
        )


def _same(one: Bond, other: Bond) -> bool:
    return (one.kind, one.step) == (other.kind, other.step)
