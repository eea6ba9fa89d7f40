"""Cartons of several lengths in fixed proportion: what counts of each length cost in cartons.

Cartons are sold whole, so a floor needs as many as the length it is shortest of. Wherever a
unit may be longer than needed, what is asked of the longest lengths together is what counts:
the needs are nested, and the most that any of them asks is also enough.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import accumulate

from models.job.data import Product

Mix = tuple[tuple[int, int], ...]
"""Each length with joint, in ticks, and how many of it a carton holds; longest first."""


def mix_of(product: Product) -> Mix:
    """The mix of a product's carton; of one length for a product that has no mix."""
    lengths = product.mix or ((product.length, product.per_carton),)
    return tuple((length + product.joint, count) for length, count in lengths)


def carton_length(mix: Mix) -> int:
    """All units of a carton laid end to end, in ticks."""
    return sum(length * count for length, count in mix)


def needs_by_length(lengths: Iterable[int], mix: Mix) -> tuple[int, ...]:
    """How many units of each length there are among these, in the order of the mix."""
    places = {length: place for place, (length, _) in enumerate(mix)}
    counts = [0] * len(mix)
    for length in lengths:
        counts[places[length]] += 1
    return tuple(counts)


def cartons_for(counts: Sequence[int], mix: Mix) -> int:
    """The cartons that hold these counts of each length, given in the order of the mix."""
    return max(-(-count // held) for count, (_, held) in zip(counts, mix, strict=True))


def shortest_for(need: int, mix: Mix) -> int:
    """The place in the mix of the shortest length that holds ``need`` ticks.

    Raises ValueError when none does.
    """
    for place in range(len(mix) - 1, -1, -1):
        if mix[place][0] >= need:
            return place
    raise ValueError(f"no unit is {need} ticks long")


def cartons_holding(fixed: Sequence[int], asked: Sequence[int], mix: Mix) -> int:
    """The fewest cartons that hold fixed counts, and ``asked`` units of each length or longer."""
    held = accumulate(count for _, count in mix)
    wanted = accumulate(map(sum, zip(fixed, asked, strict=True)))
    together = max(-(-want // have) for want, have in zip(wanted, held, strict=True))
    return max(together, cartons_for(fixed, mix))


def hand_out(needs: Sequence[int], fixed: Sequence[int], mix: Mix) -> list[int]:
    """A length for every need, at least as long, so that cartons are fewest.

    ``fixed`` are the counts already spoken for. Of the lengths left the shortest is taken,
    the longest need first: whatever it takes, all later needs could have taken too.
    """
    places = [shortest_for(need, mix) for need in needs]
    cartons = cartons_holding(fixed, [places.count(place) for place in range(len(mix))], mix)
    left = [cartons * held - taken for taken, (_, held) in zip(fixed, mix, strict=True)]
    given = [0] * len(needs)
    for number in sorted(range(len(needs)), key=lambda i: (-needs[i], i)):
        place = next(p for p in range(places[number], -1, -1) if left[p])
        left[place] -= 1
        given[number] = mix[place][0]
    return given


def cartons_at_least(length: float, mix: Mix) -> int:
    """The fewest cartons of which no layout can do with less.

    ``length`` is that of floor a unit's width wide, in ticks: its area over the width, or
    its longest comb of lines (``models.floor.combs``).
    """
    return max(1, math.ceil(length / carton_length(mix) - 1e-6))


def units_at_least(length: float, mix: Mix, cartons: int | None = None) -> int:
    """The fewest units that reach ``length`` ticks end to end; the longest reach furthest.

    With ``cartons`` there are no more of each length than these hold; when they hold too
    little, all they hold.
    """
    units = 0
    for unit, held in mix:
        wanted = max(0, math.ceil(length / unit - 1e-6))
        taken = wanted if cartons is None else min(wanted, cartons * held)
        units += taken
        length -= taken * unit
    return max(1, units)
