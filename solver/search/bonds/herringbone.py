"""Search of one direction of a herringbone: one corner holds the whole pattern.

Corners worth weighing are cut to pieces; those whose bound hopes for few units, and those
with the largest cuts, are packed. The best few of either kind are moved a little, this way
and that, as long as they get better.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.floor.herringbone import Corner, cut_pieces, same_corner
from models.floor.pieces import Cut
from models.floor.sizes import SAME
from models.floor.zone import Zone
from models.job.data import Job, Kind, Point
from solver.search.bonds.corners import corners, ways_to_move
from solver.search.bounds import cover_of, together
from solver.search.draft import zone_stock
from solver.search.found import Found, Say, Searched, Stop, Task
from solver.stock.bound import least_units
from solver.stock.herringbone import herringbone_parts
from solver.stock.pack import pack
from solver.stock.parts import Part, Stock, mirrored_parts

FINISHED = 16
"""Corners kept: half of them for few units, half for large cuts."""
PACKED = 24
"""Corners packed whose bound hopes for the fewest units."""
EFFORT = 20_000
"""Units looked at in all the corners of one direction together."""
FEWEST, MOST = 40, 150
"""Corners weighed at least and at most, whatever the size of the floor."""
MOVED = 2
"""Corners moved afterwards for fewer units, and as many for larger cuts."""
HALVINGS = 4
"""How often the length of a move is halved, from half a unit's width."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """One corner: must rules on cuts it breaks, units or a bound on them, its smallest cut."""

    corner: Corner
    broken: int
    units: int
    smallest: int


Key = tuple[int, int, int, Corner]
"""What is kept low."""


def _by_units(one: Weighed) -> Key:
    return one.broken, one.units, -one.smallest, one.corner


def _by_cut(one: Weighed) -> Key:
    return one.broken, -one.smallest, one.units, one.corner


def search(task: Task, say: Say, stop: Stop) -> Searched:
    """The best corners of one direction, and a bound over all of them."""
    job, zone, copies = task.job, task.zone, task.copies
    stock = zone_stock(job, zone.laying)
    area = zone.polygon.area / (stock.length * stock.width)
    most = min(max(round(EFFORT / area), FEWEST), MOST, task.effort.pairs or MOST)
    tried, every = corners(job, zone, most)
    weigher = Weigher(zone, stock, copies)
    found: dict[Corner, Weighed] = {}
    for number, corner in enumerate(tried):
        if number % 20 == 0:
            say(f"{zone.name}, {zone.direction.label}: places {number} of {len(tried)}")
            if found and stop():
                break
        found[corner] = weigher.weighed(corner)
    complete = len(found) == len(tried)
    packed = {one.corner: weigher.packed(one) for one in _promising(list(found.values()))}
    moves = _moves(job, zone) if complete and not every and task.effort.deep else ()
    complete &= _moved(packed, moves, weigher, stop)
    at_least = together([cover_of(job, zone)] * copies)
    if complete and every and zone.rectilinear:
        at_least = max(at_least, min(one.units for one in found.values()))
    best = _varied(list(packed.values()))
    return Searched(tuple(_found(zone, one) for one in best), at_least, complete)


def _found(zone: Zone, one: Weighed) -> Found:
    return Found(zone, one.corner[1], (), (one.corner[0],), one.units, one.broken)


@dataclass(frozen=True, slots=True)
class Weigher:
    """What corners of one zone are weighed with; ``copies`` as in ``Task``."""

    zone: Zone
    stock: Stock
    copies: int = 1

    def weighed(self, corner: Corner) -> Weighed:
        """The zone cut to pieces from one corner; units are the least these could need."""
        cuts, whole, parts = parts_at(self.zone, self.stock, corner, self.copies)
        broken, smallest = _judged(self.zone, cuts, max(self.stock.length, self.stock.width))
        return Weighed(corner, broken, whole + least_units(parts, self.stock), smallest)

    def packed(self, one: Weighed) -> Weighed:
        """The same with the units its pieces are packed into."""
        _, whole, parts = parts_at(self.zone, self.stock, one.corner, self.copies)
        return replace(one, units=whole + len(pack(parts, self.stock)))

    def same(self, corner: Corner) -> Corner:
        """The one corner that stands for all that give the same pattern."""
        pitch = (self.stock.length, self.stock.width)
        return same_corner(corner, pitch, self.zone.laying.bond.double)


def parts_at(
    zone: Zone, stock: Stock, corner: Corner, copies: int = 1
) -> tuple[list[Cut], int, list[Part]]:
    """The cut pieces of one zone; of all its copies the number of whole units, and the parts."""
    pitch = (stock.length, stock.width)
    whole, cuts = cut_pieces(zone, corner, pitch, zone.laying.bond.double)
    parts = herringbone_parts(zone, cuts)
    return cuts, whole * copies, parts + mirrored_parts(parts) * (copies - 1)


def _judged(zone: Zone, cuts: Sequence[Cut], uncut: int) -> tuple[int, int]:
    """How many must rules on cuts some piece falls short of, and the smallest cut of all."""
    rules = zone.laying.rules
    ends = [c.sizes.along for c in cuts if c.sizes.along is not None]
    sizes = [s for c in cuts for s in (c.sizes.across, c.sizes.slant) if s is not None] + ends
    margins = [
        (rule.kind, min(found) - rule.limit)
        for rule, found in ((rules.smallest_cut, sizes), (rules.smallest_end, ends))
        if rule is not None and found
    ]
    broken = sum(kind is Kind.MUST and margin < -SAME for kind, margin in margins)
    tape = rules.tape_tolerance
    if tape is not None and tape.kind is Kind.MUST:
        broken += any(margin < tape.limit - SAME for _, margin in margins)
    return broken, min(sizes, default=uncut)


def _moves(job: Job, zone: Zone) -> tuple[Point, ...]:
    """Moves worth trying one after another, in ticks, the long ones first."""
    width = job.product_of(zone.laying).pitch[1]
    return tuple(
        _stride(way, width >> halving, job.tape_step)
        for halving in range(1, HALVINGS + 1)
        for way in ways_to_move(job, zone)
    )


def _moved(
    packed: dict[Corner, Weighed], moves: Sequence[Point], weigher: Weigher, stop: Stop
) -> bool:
    """Add what the best corners become as they are moved; False when stopped."""
    for key in (_by_units, _by_cut):
        for best in sorted(packed.values(), key=key)[:MOVED]:
            for du, dv in moves:
                if stop():
                    return False
                corner = weigher.same((best.corner[0] + du, best.corner[1] + dv))
                if corner in packed:
                    continue
                one = weigher.weighed(corner)
                # A bound that is no better needs no packing.
                if key(one) < key(best):
                    one = packed[corner] = weigher.packed(one)
                    best = min(best, one, key=key)
    return True


def _stride(way: Point, about: int, step: int) -> Point:
    """A move of about so many ticks, a whole number of tape steps long."""
    size = math.hypot(*way)
    times = max(round(about / step), 1) * step / size
    return round(way[0] * times), round(way[1] * times)


def _promising(found: Sequence[Weighed]) -> list[Weighed]:
    """The corners worth packing: those that may need few units, and those with large cuts.

    Of corners alike in all that is weighed (a room and its mirror image) the first will do.
    """
    alike: dict[tuple[int, int, int], Weighed] = {}
    for one in sorted(found, key=_by_units):
        alike.setdefault(_by_units(one)[:3], one)
    first = list(alike.values())
    chosen = first[:PACKED] + sorted(first, key=_by_cut)[: FINISHED // 2]
    return list({one.corner: one for one in chosen}.values())


def _varied(found: Sequence[Weighed]) -> list[Weighed]:
    """The first ones by units, and the first ones by smallest cut."""
    first = sorted(found, key=_by_units)[: FINISHED // 2]
    first += sorted(found, key=_by_cut)[: FINISHED // 2]
    return list({one.corner: one for one in first}.values())
