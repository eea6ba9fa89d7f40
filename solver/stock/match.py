"""The most pairs of offcuts: who can share a unit in one direction.

With every start piece at the right end of its unit and every end piece at the left, two
share when their lengths and one kerf fit. The partners a longer piece has are among those
a shorter one has (nested neighbourhoods), so a sweep from the longest finds the most pairs.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_bipartite_matching

Sized = tuple[int, int]
"""A length in ticks and the row it is laid in."""


def pair_ends(
    lows: Sequence[Sized], highs: Sequence[Sized], room: int, within: int | None = None
) -> list[tuple[int, int]]:
    """The most pairs (low index, high index) with low + high <= ``room``.

    ``room`` is the unit less one kerf. ``within`` limits how many rows apart the two may
    be laid; None is no limit. Both ways are exact.
    """
    if within is not None:
        return _pair_within(lows, highs, room, within)
    small_first = sorted(range(len(lows)), key=lambda i: lows[i][0])
    long_first = sorted(range(len(highs)), key=lambda i: -highs[i][0])
    waiting: list[int] = []
    pairs = []
    place = 0
    for high in long_first:
        left = room - highs[high][0]
        while place < len(small_first) and lows[small_first[place]][0] <= left:
            waiting.append(small_first[place])
            place += 1
        if waiting:
            pairs.append((waiting.pop(), high))
    return pairs


def _pair_within(
    lows: Sequence[Sized], highs: Sequence[Sized], room: int, within: int
) -> list[tuple[int, int]]:
    if not lows or not highs:
        return []
    low, high = np.array(lows), np.array(highs)
    fits = (low[:, None, 0] + high[None, :, 0] <= room) & (
        np.abs(low[:, None, 1] - high[None, :, 1]) <= within
    )
    partner = maximum_bipartite_matching(csr_matrix(fits), perm_type="column")
    return [(i, int(j)) for i, j in enumerate(partner) if j >= 0]


def pair_any(sizes: Sequence[Sized], room: int, within: int | None = None) -> list[tuple[int, int]]:
    """The most pairs of parts that may be turned: any two with sum <= ``room``.

    Exact without ``within``; with it, the longest takes the longest partner that fits.
    """
    order = sorted(range(len(sizes)), key=lambda i: sizes[i][0])
    if within is None:
        low, high = 0, len(order) - 1
        pairs = []
        while low < high:
            if sizes[order[low]][0] + sizes[order[high]][0] <= room:
                pairs.append((order[low], order[high]))
                low += 1
            high -= 1
        return pairs
    pairs, used = [], set()
    for i in reversed(order):
        if i in used:
            continue
        for j in reversed(order):
            near = abs(sizes[i][1] - sizes[j][1]) <= within
            if j != i and j not in used and near and sizes[i][0] + sizes[j][0] <= room:
                used |= {i, j}
                pairs.append((i, j))
                break
    return pairs
