"""The least units parts could be cut from, proved by weights no unit can hold more than 1 of.

A *scale* gives every part a size along (or across) so that parts in a row in one unit never
come to more than 1. With one scale for each direction every part gets an area, and those in
a unit never come to more than 1 either. (Conservative scales and dual feasible functions:
Fekete and Schepers 2004, from memory.) Scales here also know which side of the unit a part
is held to: of two held to one side, only one can lie in a row.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from solver.stock.parts import Part, Sits, Stock

Weights = npt.NDArray[np.float64]
"""One row for each way to weigh, one column for each part."""

MOST_LIMITS = 100
"""Sizes tried as limits in one direction; of more, evenly chosen ones."""
MOST_LIMITS_TURNED = 12
"""The same where units may be turned a quarter and every pair of scales is weighed by itself."""
STEPS = 5
"""Rounding scales up to this many equal steps."""
NOISE = 1e-9


def least_units(parts: Sequence[Part], stock: Stock) -> int:
    """A number of units no packing of the parts can go below, whole ones included.

    The scrap size and the limit on rows are left out of it: they only ask for more.
    """
    cut = [part for part in parts if not part.whole]
    if not cut:
        return len(parts)
    kinds = Counter(
        Part(0, 0, p.along, p.length - abs(p.lean or 0), p.across, p.width) for p in cut
    )
    counts = list(kinds.values())
    most = float((weights(list(kinds), counts, stock) @ counts).max())
    return len(parts) - len(cut) + math.ceil(most - NOISE)


def weights(kinds: Sequence[Part], counts: Sequence[int], stock: Stock, most: int = 1) -> Weights:
    """The ``most`` ways to weigh kinds of parts that come to most, with so many of each.

    In each, no unit holds more than 1.
    """
    kerf, free = stock.kerf, stock.shop_cuts
    # Slanted ends nest, so of a slanted part only what it takes over its whole width counts.
    along = [(Sits.FREE if free else p.along, p.length - abs(p.lean or 0)) for p in kinds]
    across = [(Sits.FREE if free else p.across, p.width) for p in kinds]
    if stock.square:
        both = scales([*along, *across], stock.length, kerf, True, MOST_LIMITS_TURNED)
        found = _turned(both[:, : len(kinds)], both[:, len(kinds) :])
        best = np.argsort(-(found @ np.array(counts)), kind="stable")[:most]
        return found[best]
    turn = not stock.directional
    one = scales(along, stock.length, kerf, turn, MOST_LIMITS)
    two = scales(across, stock.width, kerf, turn, MOST_LIMITS)
    totals = (one * np.array(counts)) @ two.T
    best = np.argsort(-totals, axis=None, kind="stable")[:most]
    rows, columns = np.unravel_index(best, totals.shape)
    return np.asarray(one[rows] * two[columns])


def _turned(along: Weights, across: Weights) -> Weights:
    """Every pair of scales, each part weighed the way round in which it weighs less."""
    straight = along[:, None, :] * across[None, :, :]
    quarter = across[:, None, :] * along[None, :, :]
    return np.asarray(np.minimum(straight, quarter).reshape(-1, along.shape[1]))


def scales(
    sizes: Sequence[tuple[Sits, int]], whole: int, kerf: int, turn: bool, most: int
) -> Weights:
    """Ways to size parts in one direction of a unit, ``whole`` long; no two rows alike.

    ``turn`` when a unit may be turned half a turn, so that which side is not known.
    """
    size = np.array([size for _, size in sizes], dtype=np.float64)
    low = np.array([sits is Sits.LOW for sits, _ in sizes])
    high = np.array([sits is Sits.HIGH for sits, _ in sizes])
    full = np.array([sits is Sits.FULL for sits, _ in sizes])
    limits = _limits(sorted({size for _, size in sizes} | {whole}), most)
    found = [(size + kerf) / (whole + kerf)]
    found += _small_left_out(size + kerf, whole + kerf, limits, kerf)
    found += _in_steps(size + kerf, whole + kerf)
    room = whole - kerf
    for limit in limits:
        if 2 * limit > room:
            # Whatever is as long is alone in its row, and two held ends are all there is.
            near = (low | high) & (size > room - limit) & (size < limit)
            found.append(full + (~full) * ((size >= limit) + 0.5 * near))
        if not turn:
            free = ~(low | high | full)
            alone = free & (size >= limit) & (size > room - limit) & (2 * size > room)
            found.append(
                1.0 * (full | alone | high & (size >= limit) | low & (size > room - limit))
            )
    if not turn:
        found += [1.0 * (full | low), 1.0 * (full | high)]
    return np.unique(np.array(found), axis=0)


def _limits(sizes: Sequence[int], most: int) -> list[int]:
    if len(sizes) <= most:
        return list(sizes)
    return sorted({sizes[i * (len(sizes) - 1) // (most - 1)] for i in range(most)})


def _small_left_out(size: Weights, whole: int, limits: Sequence[int], kerf: int) -> list[Weights]:
    """What leaves less than a limit counts as a whole unit, what is under it as nothing."""
    found = []
    for limit in {limit + kerf for limit in limits if 2 * (limit + kerf) <= whole}:
        large, small = size > whole - limit, size < limit
        found.append(np.where(large, 1.0, np.where(small, 0.0, size / whole)))
    return found


def _in_steps(size: Weights, whole: int) -> list[Weights]:
    """Sizes rounded down to n-ths of a unit and a bit more, as in Lueker's functions."""
    found = []
    for step in range(1, STEPS + 1):
        exact = (step + 1) * size % whole == 0
        found.append(np.where(exact, size / whole, (step + 1) * size // whole / step))
    return found
