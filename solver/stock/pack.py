"""Pack parts into as few units as the sharing rules let it find.

Pairing (``pairing``) is quick, and exact for end pieces or rips alone. Where more might be
had, places are tried (``place``), and as a last step small numbers of parts are shared out
in every way (``exact``): all the cut parts, or those of the units that are emptiest.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from random import Random

from solver.stock.bound import least_units
from solver.stock.exact import fewer_units
from solver.stock.pairing import paired
from solver.stock.parts import Part, Sits, Stock
from solver.stock.place import placed

PLACED_AT_MOST = 60
"""Cut parts for which places are tried one by one as well."""
SHARED_AT_MOST = 32
"""Parts that are shared out in every way."""
WORK = 20_000
"""How much is tried in sharing them out: some hundredths of a second."""
KEPT = 512
"""Packings remembered: the search comes back to the same parts again and again."""

Bins = tuple[tuple[int, ...], ...]


def pack(parts: Sequence[Part], stock: Stock, looks: int = 1) -> list[list[int]]:
    """Units as lists of part numbers; every part is in exactly one.

    Parts may be of several zones and come in any order. ``looks`` is how many times some
    of the units are taken for a closer look in vain before it is left at that: the emptiest
    ones at first, then others. One is for searching, ten or more for what is laid.
    """
    bins = [[i] for i, part in enumerate(parts) if part.whole]
    cut = [i for i, part in enumerate(parts) if not part.whole]
    plain = _plain([parts[i] for i in cut], stock)
    order = sorted(range(len(cut)), key=lambda i: _key(plain[i]))
    packed = _packed(tuple(plain[i] for i in order), stock, looks)
    return bins + [sorted(cut[order[i]] for i in members) for members in packed]


def _plain(parts: Sequence[Part], stock: Stock) -> list[Part]:
    """The parts with nothing in them that does not matter here, so that like ones are equal.

    ``row`` counts on from zone to zone, so far that no offcut is carried over; ``cut`` is
    the place in the laying order. Both are 0 where nothing depends on them.
    """
    rows = [part.row for part in parts]
    stride = max(rows, default=0) - min(rows, default=0) + (stock.within or 0) + 1
    laid = sorted(range(len(parts)), key=lambda i: (parts[i].zone, parts[i].row, parts[i].cut))
    places = {i: place for place, i in enumerate(laid)}
    return [
        Part(
            places[i] if stock.scrap else 0,
            0 if stock.within is None else part.zone * stride + part.row,
            part.along,
            part.length,
            part.across,
            part.width,
            part.lean,
        )
        for i, part in enumerate(parts)
    ]


def _key(part: Part) -> tuple[int | str, ...]:
    lean = (0, 0) if part.lean is None else (1, part.lean)
    sits = (part.along.value, part.across.value)
    return (-part.length, -part.width, *sits, *lean, part.row, part.cut)


@lru_cache(maxsize=KEPT)
def _packed(parts: tuple[Part, ...], stock: Stock, looks: int) -> Bins:
    """The packing of plain parts."""
    best = paired(parts, stock)
    if stock.shop_cuts:
        parts = tuple(map(_anywhere, parts))
        best = min(best, paired(parts, stock), key=len)
    if _by_pairs(parts):
        return _tuples(best)
    least = least_units(parts, stock)
    if len(best) > least and len(parts) <= PLACED_AT_MOST:
        best = min(best, placed(parts, stock), key=len)
    return _tuples(_tighter(best, parts, stock, least, looks))


def _tuples(bins: Sequence[Sequence[int]]) -> Bins:
    return tuple(tuple(members) for members in bins)


def _anywhere(part: Part) -> Part:
    """A part whose cut edges may lie at joints."""
    along = part.along if part.along is Sits.FULL else Sits.FREE
    across = part.across if part.across is Sits.FULL else Sits.FREE
    lean = 0 if part.lean == 0 else None
    return Part(part.cut, part.row, along, part.length, across, part.width, lean)


def _by_pairs(parts: Sequence[Part]) -> bool:
    """True when pairing is exact: every part is held and cut in one direction only."""
    held = (Sits.LOW, Sits.HIGH)
    return all(
        (p.along is Sits.FULL and p.across in held) or (p.across is Sits.FULL and p.along in held)
        for p in parts
    )


def _tighter(
    bins: list[list[int]], parts: Sequence[Part], stock: Stock, least: int, looks: int
) -> list[list[int]]:
    """The packing with some of its units packed again in every way, while that saves one."""
    area = [part.length * part.width for part in parts]
    rng = Random(1)
    look = 0
    while look < looks and len(bins) > least:
        bins = sorted(bins, key=lambda members: (sum(area[i] for i in members), members))
        order = rng.sample(bins, len(bins)) if look else bins
        chosen, some = _first_parts(order)
        better, known = fewer_units([parts[i] for i in some], stock, len(chosen), WORK)
        if better is not None:
            again = [[some[i] for i in members] for members in better]
            bins = [members for members in bins if members not in chosen] + again
        if known and len(chosen) == len(order):
            return bins
        look = 0 if better is not None else look + 1
    return bins


def _first_parts(bins: Sequence[list[int]]) -> tuple[list[list[int]], list[int]]:
    """The first units, with no more parts than can be shared out in every way; their parts."""
    chosen: list[list[int]] = []
    some: list[int] = []
    for members in bins:
        if len(some) + len(members) > SHARED_AT_MOST:
            break
        chosen.append(members)
        some += members
    return chosen, some
