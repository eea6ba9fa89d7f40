"""A small room solved by trying every layout, cell by cell. Shares no code with the project.

The room is a set of square cells, one tape step wide. Every start line and every row offset
is tried; each layout's pieces are sets of cells, its rules are checked on the cells and its
units counted by trying every way to share a unit. Rows have one run each (rectangles and L
shapes), so an offset a row is an offset a run.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from shapely import LineString, MultiPoint

from tests.references.naive_units import Cell, Cut, Stock, least_units


@dataclass(frozen=True)
class Task:
    """What is asked, in cells; a limit of 0 asks for nothing.

    ``shift`` None leaves each row's offset free; otherwise each row is shifted by it from
    the row below (0 for a straight bond).
    """

    room: frozenset[Cell]
    stock: Stock
    smallest_cut: int = 0
    smallest_end: int = 0
    joint_offset: int = 0
    shift: int | None = None


@dataclass(frozen=True)
class Answer:
    """``least`` gives the fewest units for each smallest cut: ``least[s]`` is the fewest of
    any layout that keeps the rules and whose smallest cut is ``s`` or more (``s`` counted up
    to the unit's length where nothing is cut). Empty when no layout keeps the rules.
    """

    least: dict[int, int]

    @property
    def units(self) -> int:
        """Fewest units of any layout that keeps the rules."""
        return min(self.least.values())

    @property
    def smallest_cut(self) -> int:
        """Largest smallest cut of any layout that keeps the rules."""
        return max(self.least)


@dataclass(frozen=True)
class Row:
    """One row at one offset: whole units, cut pieces, smallest cut and joints."""

    low: int
    whole: int
    cuts: tuple[Cut, ...]
    smallest: int
    joints: tuple[int, ...]


def rectangle(width: int, height: int) -> frozenset[Cell]:
    """A rectangular room."""
    return frozenset((x, y) for x in range(width) for y in range(height))


def l_shape(width: int, height: int, notch_x: int, notch_y: int) -> frozenset[Cell]:
    """A rectangle without its upper right corner, ``notch_x`` by ``notch_y`` cells."""
    return rectangle(width, height) - frozenset(
        (x, y) for x in range(width - notch_x, width) for y in range(height - notch_y, height)
    )


def solve_naively(task: Task) -> Answer:
    """Try everything."""
    found: set[tuple[int, int, tuple[Cut, ...]]] = set()
    for start in range(task.stock.width):
        found |= set(_layouts(task, start))
    size = task.stock.length * task.stock.width

    def at_least(layout: tuple[int, int, tuple[Cut, ...]]) -> int:
        return layout[1] - (-sum(cut.area for cut in layout[2]) // size)

    best: dict[int, int] = {}
    for layout in sorted(found, key=lambda layout: (at_least(layout), layout)):
        smallest, whole, cuts = layout
        beaten = min((n for s, n in best.items() if s >= smallest), default=None)
        if beaten is None or at_least(layout) < beaten:
            units = whole + least_units(cuts, task.stock)
            if beaten is None or units < beaten:
                best[smallest] = units
    return Answer({s: min(n for t, n in best.items() if t >= s) for s in sorted(best)})


def _layouts(task: Task, start: int) -> Iterator[tuple[int, int, tuple[Cut, ...]]]:
    """Every layout from one start line, as (smallest cut, whole units, cut pieces)."""
    top = 1 + max(y for _, y in task.room)
    lows = [
        low
        for low in range(start - task.stock.width, top, task.stock.width)
        if _row_cells(task.room, low, task.stock.width)
    ]
    length = task.stock.length
    states: set[State] = {(offset, length, 0, ()) for offset in range(length)}
    for place, low in enumerate(lows):
        states = set(_grow(task, states, low, lows[place - 1] if place else None))
    for _, smallest, whole, cuts in states:
        yield smallest, whole, cuts


State = tuple[int, int, int, tuple[Cut, ...]]
"""Offset of the last row; smallest cut, whole units and cut pieces (sorted) so far."""


def _grow(task: Task, states: set[State], low: int, below: int | None) -> Iterator[State]:
    """Every way to lay one row more that keeps the rules."""
    length = task.stock.length
    for offset, smallest, whole, cuts in states:
        if below is None:
            offsets = [offset]
        elif task.shift is None:
            offsets = list(range(length))
        else:
            offsets = [(offset + task.shift) % length]
        for new in offsets:
            row = _row(task, low, new)
            if row is None:
                continue
            lower = None if below is None else _row(task, below, offset)
            if lower and _joint_gap(task.room, lower, row) < task.joint_offset:
                continue
            pieces = tuple(sorted((*cuts, *row.cuts)))
            yield new, min(smallest, row.smallest), whole + row.whole, pieces


def _row_cells(room: frozenset[Cell], low: int, width: int) -> list[Cell]:
    """The room's cells in one row."""
    return [(x, y) for x, y in room if low <= y < low + width]


@cache
def _row(task: Task, low: int, offset: int) -> Row | None:
    """One row laid at one offset, or None when it breaks a rule on cuts."""
    length, width = task.stock.length, task.stock.width
    xs = [x for x, _ in _row_cells(task.room, low, width)]
    whole, smallest, cuts, bounds = 0, length, [], []
    first = min(xs) - (min(xs) - offset) % length
    for left in range(first, max(xs) + 1, length):
        cells = [
            (x, y)
            for x in range(left, left + length)
            for y in range(low, low + width)
            if (x, y) in task.room
        ]
        bounds.append(left)
        along, across = _sizes(task, (left, low), cells)
        if min(along, across) < task.smallest_cut or along < task.smallest_end:
            return None
        smallest = min(smallest, along, across)
        if len(cells) == length * width:
            whole += 1
        else:
            cuts.append(_cut(task.room, cells))
    return Row(low, whole, tuple(cuts), smallest, tuple(bounds[1:]))


def _cut(room: frozenset[Cell], cells: list[Cell]) -> Cut:
    """A piece in its own grid, its joints being the sides with floor beyond them."""
    x0, x1 = min(x for x, _ in cells), max(x for x, _ in cells)
    y0, y1 = min(y for _, y in cells), max(y for _, y in cells)
    return Cut(
        cells=tuple(sorted((x - x0, y - y0) for x, y in cells)),
        left=any((x0 - 1, y) in room for x, y in cells if x == x0),
        right=any((x1 + 1, y) in room for x, y in cells if x == x1),
        bottom=any((x, y0 - 1) in room for x, y in cells if y == y0),
        top=any((x, y1 + 1) in room for x, y in cells if y == y1),
    )


def _sizes(task: Task, unit: Cell, cells: list[Cell]) -> tuple[int, int]:
    """Cut sizes along and across: least chord of the hull at the ends of a cut edge on it.

    A side on the unit's own side is a factory edge, not a cut. The unit's length where
    there is no cut.
    """
    length, width = task.stock.length, task.stock.width
    hull = MultiPoint([(x + i, y + j) for x, y in cells for i in (0, 1) for j in (0, 1)])
    shape = hull.convex_hull
    x0, y0, x1, y1 = (round(bound) for bound in shape.bounds)

    def chord(ends: tuple[int, int, int, int]) -> float:
        return float(LineString([ends[:2], ends[2:]]).intersection(shape).length)

    along, across = [float(length)], [float(width)]
    for x, y in cells:
        if (x == x0 > unit[0] and (x - 1, y) not in task.room) or (
            x + 1 == x1 < unit[0] + length and (x + 1, y) not in task.room
        ):
            along += [chord((x0 - 1, v, x1 + 1, v)) for v in (y, y + 1)]
        if (y == y0 > unit[1] and (x, y - 1) not in task.room) or (
            y + 1 == y1 < unit[1] + width and (x, y + 1) not in task.room
        ):
            across += [chord((u, y0 - 1, u, y1 + 1)) for u in (x, x + 1)]
    least_across = round(min(across))
    return round(min(along)), length if least_across >= width else least_across


def _joint_gap(room: frozenset[Cell], lower: Row, upper: Row) -> int:
    """Least distance of two end joints that meet one unbroken stretch of row line."""
    v, gaps = upper.low, []
    for a in lower.joints:
        for b in upper.joints:
            near, far = min(a, b), max(a, b)
            stretch = range(near - 1, far + 1)
            if all((x, v - 1) in room and (x, v) in room for x in stretch):
                gaps.append(far - near)
    return min(gaps, default=max(x for x, _ in room) + 1)
