"""Least units for a handful of cut pieces, by trying everything. Shares no project code.

A piece is a set of square cells in its unit's own grid, with the sides at which it meets
another unit inside the floor. Such a side must be a factory edge, so it lies on that end of
the unit it is cut from; between two cut sides the piece may lie anywhere. A notched piece
takes the rectangle round it: what is cut out of its notch is not used.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from functools import cache, cached_property
from itertools import product

import networkx as nx

Cell = tuple[int, int]


@dataclass(frozen=True, order=True)
class Cut:
    """A cut piece: cells from (0, 0), and whether left, right, bottom and top are joints."""

    cells: tuple[Cell, ...]
    left: bool
    right: bool
    bottom: bool
    top: bool

    @cached_property
    def extent(self) -> Cell:
        """Width and height in cells."""
        return 1 + max(x for x, _ in self.cells), 1 + max(y for _, y in self.cells)

    @cached_property
    def area(self) -> int:
        """Cells of the rectangle round it."""
        return self.extent[0] * self.extent[1]

    def quarter_turn(self) -> Cut:
        """The piece turned a quarter turn counter-clockwise."""
        height = self.extent[1]
        cells = tuple(sorted((height - 1 - y, x) for x, y in self.cells))
        return Cut(cells, left=self.top, right=self.bottom, bottom=self.left, top=self.right)


@dataclass(frozen=True)
class Stock:
    """A unit in cells, the kerf in cells, whether it may be turned, cut edges at joints."""

    length: int
    width: int
    kerf: int = 0
    turn: bool = False
    shop_cuts: bool = False


def least_units(pieces: tuple[Cut, ...], stock: Stock) -> int:
    """Fewest units all pieces can be cut from: every way to share them out is tried."""
    return _least(tuple(sorted(pieces, key=lambda piece: (-piece.area, piece))), stock)


@cache
def _least(pieces: tuple[Cut, ...], stock: Stock) -> int:
    if not pieces:
        return 0
    first, rest = pieces[0], pieces[1:]
    best = len(pieces)
    for group in _groups((first,), rest, stock):
        left = Counter(rest) - Counter(group[1:])
        remaining = tuple(piece for piece in dict.fromkeys(rest) for _ in range(left[piece]))
        area = sum(piece.area for piece in remaining)
        if 1 - (-area // (stock.length * stock.width)) < best:
            best = min(best, 1 + _least(remaining, stock))
    return best


def _groups(held: tuple[Cut, ...], rest: tuple[Cut, ...], stock: Stock) -> list[tuple[Cut, ...]]:
    """Every set of pieces with ``held`` in it that fits one unit, largest first."""
    if not fits(tuple(sorted(held)), stock):
        return []
    found = [held]
    for place, piece in enumerate(rest):
        if piece not in rest[:place]:
            found += _groups((*held, piece), rest[place + 1 :], stock)
    return sorted(found, key=lambda group: -sum(piece.area for piece in group))


@cache
def fits(pieces: tuple[Cut, ...], stock: Stock) -> bool:
    """Whether the pieces can all be cut from one unit, a kerf apart."""
    area = sum(piece.area for piece in pieces)
    return area <= stock.length * stock.width and _place(pieces, 0, stock)


def _place(pieces: tuple[Cut, ...], taken: int, stock: Stock) -> bool:
    """Whether the pieces fit beside the cells already taken (a bit a cell)."""
    if not pieces:
        return True
    return any(
        _place(pieces[1:], taken | guarded, stock)
        for mask, guarded in _places(pieces[0], stock)
        if not mask & taken
    )


@cache
def _places(piece: Cut, stock: Stock) -> tuple[tuple[int, int], ...]:
    """Each way to lie in a unit: the cells it takes, and those no other piece may take."""
    found: set[tuple[int, int]] = set()
    for turned in _turns(piece, stock):
        width, height = turned.extent
        for x, y in product(
            _starts(turned.left, turned.right, width, stock.length),
            _starts(turned.bottom, turned.top, height, stock.width),
        ):
            cells = {(x + i, y + j) for i in range(width) for j in range(height)}
            found.add((_mask(cells, stock), _mask(_grown(cells, stock.kerf), stock)))
    return tuple(sorted(found))


def _turns(piece: Cut, stock: Stock) -> list[Cut]:
    """The piece in each direction its unit may be turned to."""
    if stock.shop_cuts:
        piece = replace(piece, left=False, right=False, bottom=False, top=False)
    if not stock.turn:
        return [piece]
    turns = [piece]
    for _ in range(3):
        turns.append(turns[-1].quarter_turn())
    return turns if stock.length == stock.width else turns[::2]


def _starts(low: bool, high: bool, size: int, room: int) -> list[int]:
    """Where a piece may begin in one direction, given which of its sides are joints."""
    starts = set(range(room - size + 1))
    if low:
        starts &= {0}
    if high:
        starts &= {room - size}
    return sorted(starts)


def _grown(cells: set[Cell], kerf: int) -> set[Cell]:
    """The cells with all those less than a kerf away."""
    reach = range(-kerf, kerf + 1)
    return {(x + i, y + j) for x, y in cells for i in reach for j in reach}


def _mask(cells: set[Cell], stock: Stock) -> int:
    """The cells inside the unit as bits of a number."""
    inside = (c for c in cells if 0 <= c[0] < stock.length and 0 <= c[1] < stock.width)
    return sum(1 << (x + stock.length * y) for x, y in inside)


def matched_units(pieces: tuple[Cut, ...], stock: Stock) -> int:
    """The same for full-width start and end pieces: at most two a unit, so a matching.

    Kuhn's and Edmonds' theorems: the most pairs is a maximum matching (networkx).
    """
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(pieces)))
    for i, a in enumerate(pieces):
        for j in range(i):
            if fits(tuple(sorted((a, pieces[j]))), stock):
                graph.add_edge(i, j)
    return len(pieces) - len(nx.max_weight_matching(graph, maxcardinality=True))
