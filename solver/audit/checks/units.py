"""Units: the pieces said to come from one really fit in it, and there are as many as said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.audit.document.claims import Claims, LayoutClaim
from solver.audit.findings import Finding
from solver.audit.measured.fitting import Stock, fits
from solver.audit.measured.laid import Laid
from solver.audit.measured.parts import HeldEnds, Part, held_ends, part_of
from solver.audit.measured.stock import Place, shared, stock_size
from solver.audit.tolerances import TOUCH


def shared_units(layout: LayoutClaim, zones: Sequence[Laid]) -> Iterator[Finding]:
    """The pieces of every unit that serves more than one piece fit in it together."""
    ends = [held_ends(laid) for laid in zones]
    for unit, places in shared(zones).items():
        products = {zones[zone].product.name for zone, _ in places}
        labels = [zones[zone].label(place) for zone, place in places]
        where, claimed = f"unit {unit}", f"{' and '.join(labels)} from one unit"
        if len(products) > 1:
            found = f"pieces of different products, {', '.join(sorted(products))}"
            yield Finding(layout.rank, "units", where, claimed, found)
        elif len(lengths := _lengths(zones, places)) > 1:
            found = f"pieces of units {' and '.join(f'{one:.3f}' for one in lengths)} mm long"
            yield Finding(layout.rank, "units", where, claimed, found)
        elif not _fit(zones, ends, places):
            kerf = zones[places[0][0]].product.kerf
            found = f"{_sizes(zones, places)} that do not fit in it {kerf:.3f} mm apart"
            yield Finding(layout.rank, "units", where, claimed, found)


def _lengths(zones: Sequence[Laid], places: Sequence[Place]) -> list[float]:
    """The different unit lengths pieces are said to come from."""
    found = {round(float(zones[zone].pieces.unit_length[place]), 3) for zone, place in places}
    return sorted(found)


def _fit(zones: Sequence[Laid], ends: Sequence[HeldEnds], places: Sequence[Place]) -> bool:
    product = zones[places[0][0]].product
    parts = [part_of(zones[zone], ends[zone], place) for zone, place in places]
    length, width = stock_size(zones, places[0])
    stock = Stock(length, width, product.kerf, product.directional)
    return (len(parts) == 2 and _side_by_side(parts, stock)) or fits(parts, stock)


def _side_by_side(parts: Sequence[Part], stock: Stock) -> bool:
    """Whether two pieces plainly fit one at each end of a unit: the common case, by boxes."""
    pitches = stock.length, stock.width
    for axis, pitch in enumerate(pitches):
        other = 1 - axis
        across = max(part.size[other] for part in parts)
        along = sum(part.size[axis] for part in parts) + stock.kerf
        if along > pitch + TOUCH or across > pitches[other] + TOUCH:
            continue
        held = [part.held[2 * axis : 2 * axis + 2] for part in parts]
        # One end held each: opposite ends, or one of them turned half round.
        if any(low and high for low, high in held):
            continue
        both_low = held[0][0] and held[1][0]
        both_high = held[0][1] and held[1][1]
        if not stock.directional or not (both_low or both_high):
            return True
    return False


def _sizes(zones: Sequence[Laid], places: Sequence[Place]) -> str:
    """The extents of pieces, in words."""
    texts = []
    for zone, place in places:
        left, low, right, high = zones[zone].bounds[place]
        texts.append(f"{right - left:.3f} x {high - low:.3f} mm")
    return " and ".join(texts)


def unit_counts(claims: Claims, layout: LayoutClaim) -> Iterator[Finding]:
    """As many different units as claimed, for each zone and each product."""
    for zone in layout.zones:
        where, count = f"zone {zone.zone}", len(set(_units(layout, {zone.zone})))
        yield from _count(layout.rank, where, zone.units, count)
        yield from _bound(layout.rank, where, zone.units, zone.units_at_least, zone.proved)
    for line in layout.order:
        names = {name for name, zone in claims.zones.items() if zone.product == line.product}
        where = f"product {line.product}"
        yield from _count(layout.rank, where, line.units, len(set(_units(layout, names))))
        yield from _bound(layout.rank, where, line.units, line.units_at_least, line.proved)
        yield from _bounds_agree(layout, names, where, line.units_at_least)
    figures = layout.figures
    yield from _count(layout.rank, "figures", figures.units, len(set(layout.pieces.unit)))
    total = sum(line.units_at_least for line in layout.order)
    if figures.units_at_least != total:
        claimed, found = f"at least {figures.units_at_least} units", f"{total} in the order"
        yield Finding(layout.rank, "units", "figures", claimed, found)


def _units(layout: LayoutClaim, zones: set[str]) -> Iterator[str]:
    """The units named in some zones."""
    named = zip(layout.pieces.unit, layout.pieces.zone, strict=True)
    return (unit for unit, zone in named if zone in zones)


def _count(rank: int, where: str, claimed: int, found: int) -> Iterator[Finding]:
    if claimed != found:
        yield Finding(rank, "units", where, f"{claimed} units", f"{found} different units")


def _bound(rank: int, where: str, units: int, at_least: int, proved: bool) -> Iterator[Finding]:
    """The least possible number is one a layout can have, and a proof means it is reached."""
    if not 1 <= at_least <= units:
        claimed = f"{units} units, at least {at_least} needed"
        yield Finding(rank, "units", where, claimed, "a least number that cannot be")
    if proved != (units == at_least):
        claimed = "proved least" if proved else "not proved least"
        yield Finding(rank, "units", where, claimed, f"{units} units, at least {at_least}")


def _bounds_agree(
    layout: LayoutClaim, names: set[str], where: str, at_least: int
) -> Iterator[Finding]:
    """A product laid in one zone only needs as many units in the order as in the zone."""
    zones = [zone for zone in layout.zones if zone.zone in names]
    if len(zones) == 1 and zones[0].units_at_least != at_least:
        found = f"at least {zones[0].units_at_least} in zone {zones[0].zone}"
        yield Finding(layout.rank, "units", where, f"at least {at_least} units", found)
