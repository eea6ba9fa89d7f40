"""Where two areas meet, edge to edge or over a strip of trim: what carving is checked by."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from models.job.carve.area import Area, Plan
from models.job.carve.trim import keeps_shape


@dataclass(frozen=True, slots=True)
class Seam:
    """Two areas that meet, by name, the earlier in the plan first.

    ``length`` is how far they run side by side, in ticks; over a strip of ``trim`` (its
    width in ticks, 0 without) it is measured along the area the strip goes round.
    """

    one: str
    two: str
    length: float
    trim: int


def seams(plan: Plan) -> tuple[Seam, ...]:
    """Every two areas that meet, in the order of the plan's areas."""
    numbers = {zone.name: i for i, zone in enumerate(plan.job.zones)}
    found = []
    for one, two in combinations(plan.areas, 2):
        zones = numbers[one.laying.name], numbers[two.laying.name]
        along, beside = (two, one) if keeps_shape(plan.job, zones[1], zones[0]) else (one, two)
        length = _beside(along, beside)
        if length:
            trim = max(one.laying.trim, two.laying.trim) if zones[0] != zones[1] else 0
            found.append(Seam(one.name, two.name, length, trim))
    return tuple(found)


def _beside(along: Area, beside: Area) -> float:
    """How far the sides of one area run beside another, in ticks."""
    return math.fsum(
        math.dist(side.start, side.end) for side in along.sides if side.name == beside.name
    )
