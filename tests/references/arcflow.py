"""A textbook arc-flow cutting-stock model for HiGHS, to check the project's own against.

Valerio de Carvalho's arc flow: a bin is a path from 0 to its length, an item arc takes its
own length, a loss arc one position. Solved by scipy.optimize.milp, which runs HiGHS.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

Items = dict[int, int]
"""How many of each length."""


def least_stock(lengths: tuple[int, ...], items: Items) -> int:
    """Least total stock length that yields all the items, any number of each stock length.

    Raises RuntimeError when HiGHS does not prove an optimum.
    """
    arcs = _arcs(lengths, items)
    sizes = sorted(items)
    ends = [(length, 0) for length in lengths]
    columns = [*arcs, *((tail, head, None) for tail, head in ends)]
    nodes = sorted({node for arc in columns for node in arc[:2]})
    row_of = {node: row for row, node in enumerate(nodes)}
    demand_row = {size: len(nodes) + row for row, size in enumerate(sizes)}
    entries: list[tuple[int, int, float]] = []
    for column, (tail, head, size) in enumerate(columns):
        entries += [(row_of[tail], column, -1.0), (row_of[head], column, 1.0)]
        if size is not None:
            entries.append((demand_row[size], column, 1.0))
    right = np.array([0.0] * len(nodes) + [float(items[size]) for size in sizes])
    rows, cols, values = zip(*entries, strict=True)
    matrix = coo_array((values, (rows, cols)), shape=(len(right), len(columns))).tocsr()
    cost = np.array([0.0] * len(arcs) + [float(length) for length in lengths])
    result = milp(
        cost,
        constraints=LinearConstraint(matrix, right, right),
        integrality=np.ones(len(columns), dtype=np.int64),
        bounds=Bounds(0, np.inf),
    )
    if result.status != 0:
        raise RuntimeError(f"HiGHS proved no optimum: {result.message}")
    return round(result.fun)


def _arcs(lengths: tuple[int, ...], items: Items) -> list[tuple[int, int, int | None]]:
    """Item arcs between reachable positions, longest items first in a bin; loss arcs."""
    reached, arcs = {0}, set[tuple[int, int, int | None]]()
    for size in sorted(items, reverse=True):
        for start in sorted(reached):
            for copies in range(items[size]):
                tail, head = start + copies * size, start + (copies + 1) * size
                if head > max(lengths):
                    break
                arcs.add((tail, head, size))
                reached.add(head)
    stops = sorted(reached.union(lengths))
    losses = [(tail, head, None) for tail, head in pairwise(stops)]
    return [*sorted(arcs), *losses]
