"""Lower bounds: the least units any layout could need, proved from geometry and the flow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from models.floor.combs import fewest_points, longest_comb, most_points, shortest_comb
from models.floor.reach import least_reach
from models.floor.zone import Zone
from models.job.data import BondKind, Job, Kind, Marks
from models.program.spans import Choice, Span
from solver.search.draft import zone_stock
from solver.search.engine import least_units
from solver.stock.parts import Stock


@dataclass(frozen=True, slots=True)
class Cover:
    """How much of its product's units a zone takes, whatever its start line, in units.

    ``area`` by area alone. ``most`` and ``least`` at the place in the unit that suits best
    and worst: the longest and the shortest comb of lines (or grid of points) in the zone.
    """

    area: float
    most: float
    least: float

    @property
    def units(self) -> int:
        """The least units of a zone by itself."""
        return max(1, whole_units(max(self.area, self.most)))


def whole_units(share: float) -> int:
    """Units that hold so many units' worth; rounding moves areas by far less than 1e-6."""
    return math.ceil(share - 1e-6)


def cover_of(job: Job, zone: Zone) -> Cover:
    """What bounds every start line and offset of one direction of a zone.

    A unit that may be turned half keeps only its centre in place: the shortest comb. Where
    it may be turned a quarter, or a cut edge may lie at a joint, no comb of lines holds.
    """
    stock, bond = zone_stock(job, zone.laying), zone.laying.bond
    pitch = (stock.length, stock.width)
    area = zone.polygon.area / (stock.length * stock.width)
    if stock.shop_cuts or bond.kind is BondKind.HERRINGBONE or job.product_of(zone.laying).mix:
        return Cover(area, 0.0, 0.0)
    turned = zone.laying.marks is Marks.QUARTER_TURNED
    if bond.kind is BondKind.STAGGERED:
        if stock.square or turned:
            return Cover(area, 0.0, 0.0)
        least = shortest_comb(zone, stock.width) / stock.length
        most = longest_comb(zone, stock.width) / stock.length if stock.directional else least
        return Cover(area, most, least)
    least = fewest_points(zone, pitch, bond.step) if zone.rectilinear else 0
    firm = stock.directional and not turned
    return Cover(area, most_points(zone, pitch, bond.step) if firm else least, least)


def firm_units(job: Job, zone: Zone) -> int:
    """The least units of a staggered zone if every end piece keeps the smallest cut.

    Only walls off square make it more than what any layout needs; 0 where it cannot tell.
    """
    stock, cut = zone_stock(job, zone.laying), zone.laying.rules.smallest_cut
    if zone.rectilinear or not stock.directional or stock.shop_cuts:
        return 0
    if cut is None or cut.kind is not Kind.MUST or zone.laying.marks is Marks.QUARTER_TURNED:
        return 0
    return whole_units(least_reach(zone, stock.width, cut.limit) / stock.length)


def together(covers: Sequence[Cover]) -> int:
    """The least units several zones of one product can share.

    What a unit covers of combs at one place in it is at most its length, over all zones
    together: so one zone counts at the place that suits it, the others at their worst.
    """
    least = sum(cover.least for cover in covers)
    best = max(cover.most - cover.least for cover in covers)
    return max(1, whole_units(max(sum(c.area for c in covers), least + best)))


def apart_across(spans: Sequence[Span], stock: Stock) -> list[Span]:
    """The spans, of greatest total length, of which no two pieces can share side by side.

    Rips of opposite sides share a unit's width when they and a kerf fit; two of one side
    never do unless units may be turned, when no rip is counted at all.
    """
    if stock.shop_cuts:
        return []  # pieces may lie anywhere in their units: only areas count
    full = [s for s in spans if s.width >= stock.width]
    ripped = [s for s in spans if s.width < stock.width]
    if not stock.directional or not ripped:
        return full
    best: list[Span] = []
    limits = {stock.width, *(s.width for s in ripped)}
    for limit in sorted(limits):
        kept = [s for s in spans if s.width >= stock.width or _apart(s, limit, stock)]
        if sum(s.length for s in kept) > sum(s.length for s in best):
            best = kept
    return best


def _apart(span: Span, limit: int, stock: Stock) -> bool:
    """Membership in a set of rips no two of which fit in a unit's width with a kerf."""
    low = span.width >= limit
    high = span.width + stock.kerf > stock.width - limit
    if span.side == 0:  # cut on both long sides: it may lie anywhere
        return low and high and 2 * span.width + stock.kerf > stock.width
    return low if span.side < 0 else high


def quick_bound(choice: Choice, stock: Stock) -> int:
    """A bound from total length alone."""
    kept = apart_across(choice.spans, stock)
    return math.ceil(sum(s.length for s in kept) / stock.length)


def flow_bound(choice: Choice, stock: Stock) -> int:
    """The stock flow's bound over all row offsets, neighbours left out."""
    kept = apart_across(choice.spans, stock)
    return max(quick_bound(choice, stock), least_units(choice, kept, stock.directional))
