"""Simple ways to lay the same job, for the benchmark to be measured against.

They share the floor's geometry with the search and nothing else: no bound, no pool, no
matching. Rows are laid low to high as on site, each started with what the row before left.
Zones are laid one by one, share nothing, and add up; lengths left open take their low end.
There is no such simple way to lay a herringbone or units of several lengths.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from models.floor.handrule import hand_rule
from models.floor.pieces import Cut, pieces_of
from models.floor.runs import Run, runs_of, slabs
from models.floor.zone import Zone, zone_of
from models.job.carve.area import Area
from models.job.carve.plan import plan_of
from models.job.data import BondKind, Job, Laying, Limit, Marks, Product

FRESH_CUTS = 12
"""Where no offcut fits, a fresh unit is tried whole and shortened by this part of itself."""


@dataclass(frozen=True, slots=True)
class Baseline:
    """A simple layout: units bought, smallest cut (ticks, None if nothing is cut).

    ``kept`` tells whether it keeps the job's limits on cuts, end pieces and end joints of
    neighbouring rows; its other rules are not looked at.
    """

    units: int
    smallest_cut: int | None
    kept: bool


def by_hand_rule(job: Job) -> Baseline | None:
    """The hand rule's start line; each row starts with the offcut of the row before.

    None, as for every way, when a zone is a herringbone or of several lengths.
    """
    return _by_zone(job, lambda area: _by_hand(job, area, reuse=True))


def fresh_units(job: Job) -> Baseline | None:
    """The same layout with a fresh unit for every cut piece."""
    return _by_zone(job, lambda area: _by_hand(job, area, reuse=False))


def by_scan(job: Job, stop: Callable[[], bool] = lambda: False) -> Baseline | None:
    """Every start line a tape step apart, in every direction, each laid as by hand.

    The best is the one with fewest units among those that keep the limits, if any do.
    """
    return _by_zone(job, lambda area: _scanned(job, area, stop))


def _by_zone(job: Job, lay: Callable[[Area], Baseline]) -> Baseline | None:
    """Every zone laid by itself, a mirrored one as the one it mirrors, and added up."""
    areas = {area.name: area for area in plan_of(job).areas}
    own = [areas[area.mirrors or area.name] for area in areas.values()]
    if not all(_simple(job, area.laying) for area in own):
        return None
    laid = [lay(area) for area in own]
    cuts = [one.smallest_cut for one in laid if one.smallest_cut is not None]
    return Baseline(
        sum(one.units for one in laid), min(cuts, default=None), all(one.kept for one in laid)
    )


def _simple(job: Job, laying: Laying) -> bool:
    return laying.bond.kind is not BondKind.HERRINGBONE and not job.product_of(laying).mix


def _by_hand(job: Job, area: Area, reuse: bool) -> Baseline:
    zone, product = zone_of(area, area.laying.directions[0]), job.product_of(area.laying)
    low, high = zone.heights
    return _lay(product, zone, low + _hand_joint(high - low, product.pitch[1]), reuse)


def _scanned(job: Job, area: Area, stop: Callable[[], bool]) -> Baseline:
    product, found = job.product_of(area.laying), []
    for direction in area.laying.directions:
        zone = zone_of(area, direction)
        for start in range(0, product.pitch[1], job.tape_step):
            found.append(_lay(product, zone, zone.heights[0] + start, reuse=True))
            if stop():
                break
    return min(found, key=lambda one: (not one.kept, one.units, -(one.smallest_cut or 0)))


def _hand_joint(width: int, unit: int) -> int:
    """How far above the low side the first line lies, by the hand rule."""
    return hand_rule(width, unit).picked.start if width >= unit else 0


def _lay(product: Product, zone: Zone, start: int, reuse: bool) -> Baseline:
    """Lay a zone from one start line and count its units."""
    pitch, laying = product.pitch, zone.laying
    runs = runs_of(zone, slabs(zone), pitch[1], start)
    bed = _Bed(product, laying, pitch[0])
    free = laying.bond.kind is BondKind.STAGGERED
    offsets = bed.free_offsets(runs) if free else bed.fixed_offsets(runs, zone)
    cuts = pieces_of(runs, offsets, pitch)
    sizes = [size for cut in cuts if (size := _size(cut)) is not None]
    # Where every second unit is turned, what one leaves does not fit the next row's start.
    reuse = reuse and laying.marks is Marks.ONE_WAY
    return Baseline(
        units=_count(runs, offsets, cuts, bed if reuse else None, pitch[1]),
        smallest_cut=min(sizes, default=None),
        kept=bed.keeps_cuts(cuts) and bed.keeps_joints(runs, offsets),
    )


def _size(cut: Cut) -> int | None:
    sizes = (cut.sizes.along, cut.sizes.across, cut.sizes.slant)
    return min((size for size in sizes if size is not None), default=None)


def _count(
    runs: Sequence[Run], offsets: Sequence[int], cuts: Sequence[Cut], bed: _Bed | None, width: int
) -> int:
    """A unit for each place, less each start piece that the last offcut is long enough for.

    ``bed`` None reuses nothing. What is left of a ripped row is not used again.
    """
    units = len({(cut.run, cut.order) for cut in cuts})
    if bed is None:
        return units
    offcut = 0
    for run, offset in zip(runs, offsets, strict=True):
        first = min((offset - run.start - 1) % bed.pitch + 1, run.length)
        reused = first <= offcut
        units -= reused
        if run.top - run.bottom < width:
            offcut = 0
        elif first == run.length:
            offcut = max(0, (offcut if reused else bed.pitch) - first - bed.kerf)
        else:
            offcut = max(bed.left_after(run, offset), 0 if reused else offcut)
    return units


@dataclass(frozen=True, slots=True)
class _Bed:
    """The limits of a zone along the row."""

    product: Product
    laying: Laying
    pitch: int

    @property
    def kerf(self) -> int:
        """What one cut eats, in ticks."""
        return self.product.kerf

    @property
    def need(self) -> int:
        """Least end piece, in ticks."""
        rules = self.laying.rules
        return max(_ticks(rules.smallest_cut), _ticks(rules.smallest_end))

    @property
    def apart(self) -> int:
        """Least distance of end joints of neighbouring rows, in ticks."""
        return _ticks(self.laying.rules.joint_offset)

    def left_after(self, run: Run, offset: int) -> int:
        """The offcut of a run's last unit, less the kerf; 0 when none worth keeping is left."""
        last = (run.end - offset - 1) % self.pitch + 1
        left = self.pitch - last - self.kerf
        return left if left >= max(1, self.product.scrap) else 0

    def free_offsets(self, runs: Sequence[Run]) -> list[int]:
        """Start each run with the last offcut where it keeps the limits, else with a new unit."""
        offsets: list[int] = []
        offcut = 0
        for place, run in enumerate(runs):
            below = _row_below(runs, place)
            fresh = [self.pitch - k * self.pitch // FRESH_CUTS for k in range(FRESH_CUTS)]
            firsts = [offcut, *fresh] if offcut else fresh
            good = (
                first
                for first in firsts
                if self._ends_long_enough(run, run.start + first)
                and all(self._apart(run, run.start + first, runs[i], offsets[i]) for i in below)
            )
            offsets.append(run.start + next(good, self.pitch))
            offcut = self.left_after(run, offsets[-1])
        return offsets

    def fixed_offsets(self, runs: Sequence[Run], zone: Zone) -> list[int]:
        """Straight or stepped: the hand rule along the row, then the bond's shift a row."""
        low, high = min(u for u, _ in zone.outer), max(u for u, _ in zone.outer)
        cross = low + _hand_joint(high - low, self.pitch)
        step = self.laying.bond.step * self.pitch
        return [cross + round(step * (run.row - 1)) % self.pitch for run in runs]

    def keeps_cuts(self, cuts: Sequence[Cut]) -> bool:
        """Whether every piece keeps the limits on cuts and end pieces."""
        rules = self.laying.rules
        least, end = _ticks(rules.smallest_cut), _ticks(rules.smallest_end)
        return all(
            (size is None or size >= least) and (cut.sizes.along is None or cut.sizes.along >= end)
            for cut in cuts
            for size in (_size(cut),)
        )

    def keeps_joints(self, runs: Sequence[Run], offsets: Sequence[int]) -> bool:
        """Whether end joints of neighbouring rows are far enough apart."""
        return all(
            self._apart(run, offset, runs[i], offsets[i])
            for place, (run, offset) in enumerate(zip(runs, offsets, strict=True))
            for i in _row_below(runs, place)
        )

    def _ends_long_enough(self, run: Run, joint: int) -> bool:
        first = (joint - run.start - 1) % self.pitch + 1
        last = (run.end - joint - 1) % self.pitch + 1
        return first >= run.length or min(first, last) >= min(self.need, self.pitch)

    def _apart(self, one: Run, joint: int, two: Run, other: int) -> bool:
        low, high = max(one.start, two.start) + 1, min(one.end, two.end) - 1
        mine = range(low + (joint - low) % self.pitch, high + 1, self.pitch)
        theirs = range(low + (other - low) % self.pitch, high + 1, self.pitch)
        near = (abs(a - b) for a in mine[:2] for b in theirs[:2])
        return min(near, default=self.apart) >= self.apart


def _row_below(runs: Sequence[Run], place: int) -> list[int]:
    """The runs of the row below the one at ``place``; runs are in order of row."""
    found = []
    for i in range(place - 1, -1, -1):
        if runs[i].row < runs[place].row - 1:
            break
        if runs[i].row < runs[place].row:
            found.append(i)
    return found


def _ticks(limit: Limit | None) -> int:
    return limit.limit if limit else 0
