"""The most pairs of offcuts: who can share a unit in one direction.

With every start piece at the right end of its unit and every end piece at the left, two
share when their lengths and one kerf fit. The partners a longer piece has are among those
a shorter one has (nested neighbourhoods), so a sweep from the longest finds the most pairs.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_bipartite_matching

from solver.stock.blossom import most_pairs

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
    return pair_allowed(fits, turned=False)


def pair_any(sizes: Sequence[Sized], room: int, within: int | None = None) -> list[tuple[int, int]]:
    """The most pairs of parts that may be turned: any two with sum <= ``room``. Exact."""
    if within is not None:
        length, row = np.array(sizes, dtype=np.int64).reshape(-1, 2).T
        fits = length[:, None] + length[None, :] <= room
        fits &= np.abs(row[:, None] - row[None, :]) <= within
        np.fill_diagonal(fits, False)
        return pair_allowed(fits, turned=True)
    order = sorted(range(len(sizes)), key=lambda i: sizes[i][0])
    low, high = 0, len(order) - 1
    pairs = []
    while low < high:
        if sizes[order[low]][0] + sizes[order[high]][0] <= room:
            pairs.append((order[low], order[high]))
            low += 1
        high -= 1
    return pairs


def pair_allowed(allowed: npt.NDArray[np.bool_], turned: bool) -> list[tuple[int, int]]:
    """The most pairs (row, column) that a table allows. Exact.

    With ``turned`` any two may pair and the table is the same mirrored; without, what has a
    partner in its row has none in its column.
    """
    if not allowed.any():
        return []
    if turned:
        return most_pairs([[int(j) for j in np.flatnonzero(row)] for row in allowed])
    partner = maximum_bipartite_matching(csr_matrix(allowed), perm_type="column")
    return [(i, int(j)) for i, j in enumerate(partner) if j >= 0]
