"""Can these pieces be cut from one unit: a search for places, exact about their outlines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, islice, permutations, product

import shapely
from shapely import affinity

from solver.audit.measured.parts import Part, turns
from solver.audit.tolerances import NOISE, TOUCH

MOST_TRIES = 20_000
"""Places that are tried for the pieces of one unit before it is given up."""

SLIDES = 24
"""Halvings when a slanted piece is slid up to another: under a micrometre."""


@dataclass(frozen=True, slots=True)
class Stock:
    """One unit: its size, what a cut eats, and whether its pieces may be turned."""

    length: float
    width: float
    kerf: float
    directional: bool

    @property
    def square(self) -> bool:
        """Whether a quarter turn leaves the unit as it was."""
        return abs(self.length - self.width) <= NOISE


def fits(parts: Sequence[Part], stock: Stock) -> bool:
    """Whether all parts find places in one unit, a kerf apart, factory edges kept.

    At most ``MOST_TRIES`` places are tried, parts that are held and large ones first.
    """
    if sum(part.shape.area for part in parts) > stock.length * stock.width + TOUCH:
        return False
    ordered = sorted(parts, key=lambda part: (-sum(part.held), -part.shape.area))
    tries = chain.from_iterable(_tries(order, (), stock) for order in permutations(ordered))
    return any(islice(tries, MOST_TRIES))


def _tries(
    left: Sequence[Part], placed: tuple[shapely.Polygon, ...], stock: Stock
) -> Iterator[bool]:
    """One item for every place tried: true once all parts have theirs."""
    if not left:
        yield True
        return
    # Turning the whole unit changes nothing, so the first part need not be turned.
    ways = turns(left[0], stock.directional, stock.square) if placed else iter(left[:1])
    for part in ways:
        for shape in _places(part, placed, stock):
            yield False
            if _inside(shape, stock) and all(_apart(shape, one, stock.kerf) for one in placed):
                yield from _tries(left[1:], (*placed, shape), stock)


def _places(
    part: Part, placed: tuple[shapely.Polygon, ...], stock: Stock
) -> Iterator[shapely.Polygon]:
    """Every place worth trying for a part: at ends, beside others, slid up to slanted ones."""
    pitch = (stock.length, stock.width)
    free = [axis for axis in (0, 1) if part.fixed(axis, pitch[axis]) is None]
    spots = product(_along(part, placed, stock, 0), _along(part, placed, stock, 1))
    shapes = [affinity.translate(part.shape, u, v) for u, v in spots]
    yield from shapes
    for shape, axis, other in product(shapes, free, placed):
        slid = _slid(shape, other, axis, stock.kerf)
        if slid is not None:
            yield slid


def _along(
    part: Part, placed: tuple[shapely.Polygon, ...], stock: Stock, axis: int
) -> tuple[float, ...]:
    """Positions along one axis: where it is held, else at either end or beside another."""
    pitch = (stock.length, stock.width)[axis]
    fixed = part.fixed(axis, pitch)
    if fixed is not None:
        return fixed
    size = part.size[axis]
    beside = [
        at
        for other in placed
        for at in (other.bounds[axis] - size - stock.kerf, other.bounds[axis + 2] + stock.kerf)
    ]
    return (0.0, pitch - size, *beside)


def _inside(shape: shapely.Polygon, stock: Stock) -> bool:
    """Whether a part lies in the unit."""
    left, low, right, high = shape.bounds
    return (
        min(left, low) >= -TOUCH and right <= stock.length + TOUCH and high <= stock.width + TOUCH
    )


def _slid(
    shape: shapely.Polygon, other: shapely.Polygon, axis: int, kerf: float
) -> shapely.Polygon | None:
    """A part slid along an axis up to a neighbour whose facing side is at a slant."""
    one, two = shape.bounds, other.bounds
    way = (two[axis] + two[axis + 2] - one[axis] - one[axis + 2]) / 2
    if not _apart(shape, other, kerf) or _apart(_moved(shape, axis, way), other, kerf):
        return None
    low, high = 0.0, 1.0
    for _ in range(SLIDES):
        middle = (low + high) / 2
        if _apart(_moved(shape, axis, way * middle), other, kerf):
            low = middle
        else:
            high = middle
    return _moved(shape, axis, way * low)


def _moved(shape: shapely.Polygon, axis: int, by: float) -> shapely.Polygon:
    return affinity.translate(shape, by, 0.0) if axis == 0 else affinity.translate(shape, 0.0, by)


def _apart(one: shapely.Polygon, two: shapely.Polygon, kerf: float) -> bool:
    """Whether two placed parts leave a kerf between them (and at least do not overlap)."""
    a, b = one.bounds, two.bounds
    clear = max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3])
    if clear >= kerf - TOUCH:
        return True
    if kerf > TOUCH:
        return bool(one.distance(two) >= kerf - TOUCH)
    return bool(one.intersection(two).buffer(-TOUCH / 2).is_empty)
