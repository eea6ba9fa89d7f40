"""The fewest units for a handful of parts: every way to share them out, within a limit.

The part hardest to place is given a unit, filled in every way that leaves no room for
another part; the rest is shared out in the same way. Filling a unit to the full is never
worse, since what comes from one unit still does when something is left out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from solver.stock.bound import NOISE, weights
from solver.stock.cutting import Cutter, Members, Spent
from solver.stock.parts import Part, Stock

WEIGHINGS = 4
"""Ways to weigh the parts that tell when too few units are left."""

Counts = tuple[int, ...]
"""How many parts of each kind."""


def fewer_units(
    parts: Sequence[Part], stock: Stock, units: int, work: int
) -> tuple[list[list[int]] | None, bool]:
    """A packing of the parts into less than so many units, as few as can be found.

    None when there is none, or none was found. Also whether all ways were tried: the
    packing, or ``units``, is then the least. ``parts`` as in ``Cutter``; ``work`` limits
    how much is tried.
    """
    kinds = sorted(set(parts), key=lambda p: (-p.length * p.width, repr(p)))
    number = {kind: i for i, kind in enumerate(kinds)}
    mine: list[list[int]] = [[] for _ in kinds]
    for i, part in enumerate(parts):
        mine[number[part]].append(i)
    search = _Search(kinds, tuple(map(len, mine)), stock, work)
    best: list[Members] | None = None
    try:
        while units > 1 and (found := search.share(units - 1)) is not None:
            best, units = found, len(found)
        proved = True
    except Spent:
        proved = False
    if best is None:
        return None, proved
    return [sorted(mine[kind].pop() for kind in members) for members in best], proved


class _Search:
    """Shares kinds of parts out among units; the largest kinds first."""

    def __init__(self, kinds: Sequence[Part], counts: Counts, stock: Stock, work: int) -> None:
        self.counts = counts
        self.cutter = Cutter(kinds, stock, work)
        self.weights = weights(kinds, counts, stock, WEIGHINGS).T
        self._failed: dict[Counts, int] = {}

    def share(self, units: int) -> list[Members] | None:
        """The parts shared out among at most so many units; None if that cannot be."""
        return self._share(self.counts, units)

    def _share(self, left: Counts, units: int) -> list[Members] | None:
        if not any(left):
            return []
        slack = units - np.array(left) @ self.weights
        if slack.min() < -NOISE or self._failed.get(left, 0) >= units:
            return None
        first = next(kind for kind, count in enumerate(left) if count)
        groups = sorted(self._full(first, left), key=self._emptiness)
        for group in groups:
            self._step()
            wasted = 1 - self.weights[list(group)].sum(axis=0)
            if (wasted > slack + NOISE).any():
                continue
            rest = self._share(_without(left, group), units - 1)
            if rest is not None:
                return [group, *rest]
        self._failed[left] = units
        return None

    def _emptiness(self, group: Members) -> tuple[float, Members]:
        return -float(self.weights[list(group)].sum(axis=0).max()), group

    def _full(self, first: int, left: Counts) -> Iterator[Members]:
        """Every group with a part of the first kind to which no part left can be added."""
        yield from self._grown((first,), first, range(first, len(left)), left)

    def _grown(
        self, group: Members, start: int, kinds: Iterable[int], left: Counts
    ) -> Iterator[Members]:
        """The group with more parts, of the kind ``start`` or later ones.

        ``kinds`` are those that may still fit: what does not fit now never will.
        """
        fitting = [
            kind for kind in kinds if left[kind] > group.count(kind) and self._with(group, kind)
        ]
        if not fitting:
            yield group
        for kind in fitting:
            if kind >= start:
                yield from self._grown((*group, kind), kind, fitting, left)

    def _with(self, group: Members, more: int) -> bool:
        self._step()
        return self.cutter.fits(tuple(sorted((*group, more))))

    def _step(self) -> None:
        self.cutter.work -= 1
        if self.cutter.work < 0:
            raise Spent


def _without(left: Counts, group: Members) -> Counts:
    taken = Counter(group)
    return tuple(count - taken[kind] for kind, count in enumerate(left))
