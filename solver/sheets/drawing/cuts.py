"""What kind of cut a piece has, and which pieces to mark."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from models.floor.layout import Layout, Piece, Verdict, ZoneLayout
from models.job.data import Job, Kind, Product, Rules, Sight

TOLERANCE = 6
"""Two sizes this close, in ticks (under 0.02 mm), count as the same."""


class CutKind(Enum):
    """The kinds of pieces, with their names on paper."""

    WHOLE = "whole unit"
    RIP = "rip"
    CROSS = "cross cut"
    CORNER = "rip and cross cut"
    SLANT = "slanted cut"
    NOTCH = "notch only"


def kind_of(piece: Piece) -> CutKind:
    """The kind of cut a piece has; a slanted cut counts before the others."""
    if piece.size_slant is not None:
        return CutKind.SLANT
    if piece.size_along is not None:
        return CutKind.CORNER if piece.size_across is not None else CutKind.CROSS
    if piece.size_across is not None:
        return CutKind.RIP
    return CutKind.NOTCH if piece.cut else CutKind.WHOLE


def marked(job: Job, layout: Layout, zone: ZoneLayout) -> tuple[Piece, ...]:
    """Slivers, and pieces that break a `must` rule on the size of cuts."""
    broken = {
        verdict.key
        for verdict in layout.verdicts
        if not verdict.kept and verdict.kind is Kind.MUST and verdict.zone == zone.zone
    }
    rules = zone.laying.rules
    product = job.product_of(zone.laying)
    hidden = {wall.name for wall in job.walls if wall.sight is Sight.HIDDEN}
    return tuple(
        piece
        for piece in zone.pieces
        if piece.cut and (_sliver(rules, piece) or _breaks(rules, piece, product, hidden, broken))
    )


def _sliver(rules: Rules, piece: Piece) -> bool:
    """Smaller than the smallest cut asked for, whether as a must or a wish."""
    limit = rules.smallest_cut
    return limit is not None and _under(piece.size, limit.limit)


def _breaks(
    rules: Rules, piece: Piece, product: Product, hidden: set[str], broken: Iterable[str]
) -> bool:
    """Whether the piece itself breaks one of the broken rules."""
    length, width = product.pitch
    end, least, slack = rules.smallest_end, rules.smallest_cut, rules.tape_tolerance
    spare = slack.limit if slack else 0
    tests = {
        "smallest_end": end is not None and _under(piece.size_along, end.limit),
        "half_unit_edges": _seen(piece.rip_at, hidden)
        and _under(2 * piece.size_across if piece.size_across else None, width),
        "half_unit_ends": _seen(piece.end_at, hidden)
        and _under(2 * piece.size_along if piece.size_along else None, length),
        "tape_tolerance": (least is not None and _under(piece.size, least.limit + spare))
        or (end is not None and _under(piece.size_along, end.limit + spare)),
    }
    return any(tests.get(key, False) for key in broken)


def _seen(names: Iterable[str], hidden: set[str]) -> bool:
    """Whether a cut shows: it does unless all it goes to are hidden walls."""
    found = set(names)
    return not found or not found <= hidden


def _under(size: int | None, limit: int) -> bool:
    return size is not None and size < limit - TOLERANCE


def broken_rules(layout: Layout) -> tuple[Verdict, ...]:
    """The verdicts that are not kept, musts first."""
    return tuple(
        sorted((v for v in layout.verdicts if not v.kept), key=lambda v: v.kind is not Kind.MUST)
    )
