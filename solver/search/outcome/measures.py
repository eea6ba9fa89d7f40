"""What each rule measures on a draft: its worst value, and where that is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from models.floor.centring import off_axis, runs_along
from models.floor.herringbone_centring import herringbone_off_axis
from models.floor.pieces import Cut
from models.floor.sizes import SAME
from models.floor.zone import Edge
from models.job.data import BondKind, Centred, Sight
from models.program.joints import STAIR_SAME
from models.program.spans import Meet, gap, meets_of
from solver.search.draft import Draft
from solver.search.outcome import mixed_measures


@dataclass(frozen=True, slots=True)
class Measure:
    """A worst value (ticks, or rows), the place, and the piece it was found on, if one.

    ``along`` tells a difference of rips (True) from one of end cuts (False).
    """

    worst: int | None
    where: str = ""
    piece: int | None = None
    along: bool | None = None


NOTHING = Measure(None)

Measuring = Callable[[Draft], Measure]


def place(draft: Draft, index: int, edges: Sequence[Edge]) -> str:
    """A piece's place in words: its row, and what the cut in question goes to."""
    cut = draft.cuts[index]
    names = " and ".join(dict.fromkeys(edge.name for edge in edges))
    return f"row {cut.row}, piece {cut.order}" + (f", at {names}" if names else "")


def ripped(cut: Cut, edge: Edge) -> bool:
    """Whether a piece is ripped at an edge: along its unit, which may lie square to the rows."""
    return edge.across_rows if cut.quarter else edge.along_rows


def crossed(cut: Cut, edge: Edge) -> bool:
    """Whether a piece is cross cut at an edge."""
    return edge.along_rows if cut.quarter else edge.across_rows


def cut_edges(draft: Draft, index: int, size: int) -> tuple[Edge, ...]:
    """The zone's edges a piece is cut at to one of its sizes: rips, cross cuts or slants."""
    cut, edges = draft.cuts[index], draft.touching[index]
    if size == cut.sizes.across:
        return tuple(e for e in edges if ripped(cut, e))
    if size == cut.sizes.along:
        return tuple(e for e in edges if crossed(cut, e))
    return tuple(e for e in edges if not (e.along_rows or e.across_rows))


def _least(draft: Draft, sizes: Iterable[tuple[int | None, int]]) -> Measure:
    """The least size (or margin) with its place."""
    found = min(((size, index) for size, index in sizes if size is not None), default=None)
    if found is None:
        return NOTHING
    size, index = found
    edges = cut_edges(draft, index, size) or draft.touching[index]
    return Measure(size, place(draft, index, edges), index)


def _sizes(draft: Draft) -> Iterator[tuple[int | None, int]]:
    for index, cut in enumerate(draft.cuts):
        sizes = (cut.sizes.along, cut.sizes.across, cut.sizes.slant)
        yield min((s for s in sizes if s is not None), default=None), index


def smallest_cut(draft: Draft) -> Measure:
    """The smallest cut size of any piece."""
    return _least(draft, _sizes(draft))


def smallest_end(draft: Draft) -> Measure:
    """The shortest piece along the row that is cut along the row."""
    return _least(draft, ((cut.sizes.along, i) for i, cut in enumerate(draft.cuts)))


def half_unit_edges(draft: Draft) -> Measure:
    """The narrowest rip that does not go to hidden walls alone."""
    return _least(
        draft,
        (
            (c.sizes.across, i)
            for i, c in enumerate(draft.cuts)
            if _seen(e for e in draft.touching[i] if ripped(c, e))
        ),
    )


def half_unit_ends(draft: Draft) -> Measure:
    """The shortest end cut that does not go to hidden walls alone."""
    return _least(
        draft,
        (
            (c.sizes.along, i)
            for i, c in enumerate(draft.cuts)
            if _seen(e for e in draft.touching[i] if crossed(c, e))
        ),
    )


def _seen(edges: Iterable[Edge]) -> bool:
    sights = {edge.sight for edge in edges}
    return sights != {Sight.HIDDEN}


def prominent_cut(draft: Draft) -> Measure:
    """The smallest cut at the walls seen first; ranking respects it."""
    found: list[tuple[int | None, int]] = []
    for index, cut in enumerate(draft.cuts):
        for edge in draft.touching[index]:
            if edge.sight is Sight.PROMINENT:
                size = (
                    cut.sizes.across
                    if ripped(cut, edge)
                    else cut.sizes.along
                    if crossed(cut, edge)
                    else cut.sizes.slant
                )
                found.append((size, index))
    return _least(draft, found)


def joint_offset(draft: Draft) -> Measure:
    """The least distance between end joints of neighbouring rows."""
    if draft.cells:
        return _nearest_of(mixed_measures.joint_offset(draft.runs, draft.cells))
    return _nearest(draft, meets_of(draft.runs)[0])


def second_joint_offset(draft: Draft) -> Measure:
    """The least distance between end joints of rows two apart."""
    if draft.cells:
        return _nearest_of(mixed_measures.second_joint_offset(draft.runs, draft.cells))
    return _nearest(draft, meets_of(draft.runs)[1])


def _nearest_of(found: tuple[int, tuple[int, int]] | None) -> Measure:
    """A distance between two rows, if there is one, as a measure."""
    if found is None:
        return NOTHING
    return Measure(found[0], f"rows {found[1][0]} and {found[1][1]}")


def _nearest(draft: Draft, meets: tuple[Meet, ...]) -> Measure:
    pitch = draft.product.pitch[0]
    best = NOTHING
    for meet in meets:
        near = gap(meet, draft.offsets[meet.one], draft.offsets[meet.two], pitch)
        if near is not None and (best.worst is None or near < best.worst):
            rows = draft.runs[meet.one].row, draft.runs[meet.two].row
            best = Measure(near, f"rows {rows[0]} and {rows[1]}")
    return best


def no_stair(draft: Draft) -> Measure:
    """The longest streak of equal shifts from row to row."""
    pitch = draft.product.pitch[0]
    longest: dict[int, int] = {}
    for index, run in enumerate(draft.runs):
        if run.row not in longest or run.length > draft.runs[longest[run.row]].length:
            longest[run.row] = index
    rows = sorted(longest)
    shifts = [
        (draft.offsets[longest[b]] - draft.offsets[longest[a]]) % pitch for a, b in pairwise(rows)
    ]
    if not shifts:
        return NOTHING
    best, streak, end = 1, 1, 1
    for i in range(1, len(shifts)):
        apart = (shifts[i] - shifts[i - 1]) % pitch
        streak = streak + 1 if min(apart, pitch - apart) <= STAIR_SAME else 1
        if streak > best:
            best, end = streak, i + 1
    return Measure(best, f"rows {rows[end - best]} to {rows[end]}")


def balanced_cuts(draft: Draft) -> Measure:
    """The largest difference between opposite edge cuts: first and last row, and ends."""
    if draft.zone.laying.bond.kind is BondKind.HERRINGBONE:
        return NOTHING  # no cut lies opposite another
    pitch = draft.product.pitch
    last = max(cut.row for cut in draft.cuts)

    def rip(row: int) -> int:
        return min(
            (c.sizes.across for c in draft.cuts if c.row == row and c.sizes.across is not None),
            default=pitch[1],
        )

    found = Measure(abs(rip(1) - rip(last)), f"rows 1 and {last}", along=True)
    if draft.zone.laying.bond.kind is BondKind.STRAIGHT:
        longest = max(range(len(draft.runs)), key=lambda i: draft.runs[i].length)
        mine = [cut for cut in draft.cuts if cut.run == longest]
        ends = [
            c.sizes.along if c.sizes.along is not None else pitch[0] for c in (mine[0], mine[-1])
        ]
        apart = abs(ends[0] - ends[1])
        if found.worst is None or apart > found.worst:
            found = Measure(apart, f"row {mine[0].row}, first and last piece", along=False)
    return found


def reuse_within(draft: Draft) -> Measure:
    """The most rows between two pieces of one unit."""
    spreads = [
        (max(rows) - min(rows), rows)
        for members in draft.bins
        if len(rows := [draft.cuts[i].row for i in members]) > 1
    ]
    if not spreads:
        return NOTHING
    spread, rows = max(spreads)
    return Measure(spread, f"rows {min(rows)} and {max(rows)}")


def tape_margin(draft: Draft) -> Measure:
    """How far the tightest cut is from its limit."""
    rules = draft.zone.laying.rules
    margins: list[tuple[int | None, int]] = []
    for size, index in _sizes(draft):
        if rules.smallest_cut and size is not None:
            margins.append((size - rules.smallest_cut.limit, index))
        along = draft.cuts[index].sizes.along
        if rules.smallest_end and along is not None:
            margins.append((along - rules.smallest_end.limit, index))
    return _least(draft, margins)


def centred(draft: Draft, rule: Centred) -> Measure:
    """How far the nearest line or unit centre is from an axis."""
    axis = next(a for a in draft.job.axes if a.name == rule.axis)
    bond = draft.zone.laying.bond
    if bond.kind is BondKind.HERRINGBONE:
        corner = draft.offsets[0], draft.start_line
        off = herringbone_off_axis(
            draft.zone, axis, rule.on, corner, draft.product.pitch, bond.double
        )
        return Measure(off, f"axis {rule.axis}")
    along = bool(runs_along(draft.zone, axis))
    line = draft.start_line if along else draft.offsets[0]
    pitch = draft.product.pitch[1 if along else 0]
    return Measure(off_axis(draft.zone, axis, rule.on, line, pitch, along), f"axis {rule.axis}")


def at_least(worst: int | None, limit: int) -> bool:
    """A size keeps a least limit, within 0.02 mm."""
    return worst is None or worst >= limit - SAME


def at_most(worst: int | None, limit: int) -> bool:
    """A value keeps a greatest limit, within 0.02 mm."""
    return worst is None or worst <= limit + SAME
