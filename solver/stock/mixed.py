"""Pack parts into units of several lengths: fewest cartons first, then fewest units.

A part that reaches from joint to joint fixes the length of its unit; an end piece takes
any unit long enough, alone or with the end of another row.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from solver.stock.ends import End, Share, may_turn, share_ends
from solver.stock.mix import Mix, cartons_holding, hand_out, needs_by_length, shortest_for
from solver.stock.pack import pack
from solver.stock.parts import Part, Sits, Stock

FAR = 1 << 20
"""Rows of two zones are numbered so far apart that nothing is carried between them."""

Unit = tuple[list[int], int]
"""The numbers of the parts cut from one unit, and the unit's length with joint in ticks."""


@dataclass(frozen=True, slots=True)
class _Group:
    """Parts side by side in one unit, taken as one: their numbers, length needed, rows."""

    members: tuple[int, ...]
    length: int
    rows: tuple[int, ...]


def pack_mixed(parts: Sequence[Part], stock: Stock, mix: Mix) -> list[Unit]:
    """Units with the parts cut from each; every part is in exactly one.

    ``stock`` is the product's, its length that of the longest unit; lengths are with joint.
    Raises ValueError when a part is longer than any unit, or a whole length is not one of
    the mix.
    """
    whole = _whole_lengths(parts, stock, mix)
    taken = {number for members, _ in whole for number in members}
    left = [i for i in range(len(parts)) if i not in taken]
    fixed = needs_by_length((length for _, length in whole), mix)
    ends, groups = [], []
    for sits in (Sits.LOW, Sits.HIGH):
        mine = _side_by_side(parts, [i for i in left if parts[i].along is sits], stock)
        groups += mine
        ends += [End(group.length, group.rows[0], sits is Sits.HIGH) for group in mine]
    shares = _kept(share_ends(ends, fixed, stock, mix), groups, ends, stock)
    bins = [_joined([groups[i] for i in members], need) for members, need in shares]
    free = _side_by_side(parts, [i for i in left if parts[i].along is Sits.FREE], stock)
    for group in sorted(free, key=lambda g: (-g.length, g.members)):
        bins = _put(group, bins, fixed, stock, mix)
    lengths = hand_out([group.length for group in bins], fixed, mix)
    return whole + [(sorted(g.members), length) for g, length in zip(bins, lengths, strict=True)]


def _whole_lengths(parts: Sequence[Part], stock: Stock, mix: Mix) -> list[Unit]:
    """Units for the parts of a unit's whole length; the strips left beside rips take corners."""
    units: list[Unit] = []
    known = {length for length, _ in mix}
    full = [i for i, part in enumerate(parts) if part.along is Sits.FULL]
    odd = next((parts[i].length for i in full if parts[i].length not in known), None)
    if odd is not None:
        raise ValueError(f"a part is {odd} ticks from joint to joint, which no unit is")
    for length, _ in mix:
        mine = [i for i in full if parts[i].length == length]
        packed = pack([parts[i] for i in mine], replace(stock, length=length))
        units += [([mine[i] for i in members], length) for members in packed]
    corners = [
        i
        for i, part in enumerate(parts)
        if part.along is not Sits.FULL and part.across in (Sits.LOW, Sits.HIGH)
    ]
    for number in sorted(corners, key=lambda i: (-parts[i].length, i)):
        strips = [u for u in units if _beside(parts[number], [parts[i] for i in u[0]], u[1], stock)]
        if strips:
            min(strips, key=lambda u: u[1])[0].append(number)
    return units


def _beside(part: Part, held: Sequence[Part], length: int, stock: Stock) -> bool:
    """Whether a corner part comes from the strip that one rip of a whole unit leaves."""
    if len(held) != 1 or part.length > length or held[0].across not in (Sits.LOW, Sits.HIGH):
        return False
    opposite = held[0].across is not part.across or may_turn(stock)
    near = _near((_row(held[0]), _row(part)), stock)
    across = max(held[0].width, stock.scrap) + max(part.width, stock.scrap) + stock.kerf
    return opposite and near and across <= stock.width


def _side_by_side(parts: Sequence[Part], mine: list[int], stock: Stock) -> list[_Group]:
    """Parts at one end of their units, those together that fit across one."""
    # Taken as whole lengths, and unturned: turned half round they would change ends.
    flat = [replace(parts[i], along=Sits.FULL, length=stock.length, lean=None) for i in mine]
    packed = pack(flat, replace(stock, directional=True))
    found = [[mine[i] for i in members] for members in packed]
    return [
        _Group(
            tuple(members),
            max(parts[i].length for i in members),
            tuple(_row(parts[i]) for i in members),
        )
        for members in found
    ]


def _row(part: Part) -> int:
    return part.zone * FAR + part.row


def _near(rows: Sequence[int], stock: Stock) -> bool:
    """Whether offcuts may be carried between all these rows."""
    return stock.within is None or max(rows) - min(rows) <= stock.within


def _kept(
    shares: Iterable[Share], groups: Sequence[_Group], ends: Sequence[End], stock: Stock
) -> list[Share]:
    """The shares with those taken apart whose groups hold rows too far from each other."""
    kept: list[Share] = []
    for members, need in shares:
        if _near([row for i in members for row in groups[i].rows], stock):
            kept.append((members, need))
        else:
            kept += [((i,), ends[i].length) for i in members]
    return kept


def _joined(groups: Sequence[_Group], need: int) -> _Group:
    return _Group(
        tuple(i for g in groups for i in g.members), need, tuple(r for g in groups for r in g.rows)
    )


def _put(
    group: _Group, bins: list[_Group], fixed: Sequence[int], stock: Stock, mix: Mix
) -> list[_Group]:
    """Add parts cut at both ends: beside others in a unit, or by themselves if that is better."""

    def cost(after: list[_Group]) -> tuple[int, int]:
        asked = [0] * len(mix)
        for one in after:
            asked[shortest_for(one.length, mix)] += 1
        return cartons_holding(fixed, asked, mix), len(after)

    ways = [[*bins, group]]
    for place, one in enumerate(bins):
        need = max(one.length, stock.scrap) + stock.kerf + max(group.length, stock.scrap)
        if need <= mix[0][0] and _near(one.rows + group.rows, stock):
            ways.append([*bins[:place], _joined([one, group], need), *bins[place + 1 :]])
    return min(ways, key=cost)
