"""Seams: which zones meet, how long, over what strip, and what edges show on either side."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations

from solver.audit.document.claims import LayoutClaim, SeamClaim
from solver.audit.findings import Finding
from solver.audit.measured.rules import Surveyed
from solver.audit.measured.seams import SHORTEST, Facing, facing, shown
from solver.audit.tolerances import SIZE

CHECK = "seams"
LENGTH = 1.0
"""A claimed length may differ this much from the measured one, in mm."""

SHARE = 0.002
"""And over a strip by this part of it: along arcs it is longer on one side."""


def seams(layout: LayoutClaim, zones: Sequence[Surveyed]) -> Iterator[Finding]:
    """Every seam is told once, with its length, strip and edges."""
    if layout.seams is None:
        return
    told = Counter(frozenset(seam.zones) for seam in layout.seams)
    for seam in layout.seams:
        if told[frozenset(seam.zones)] > 1 or seam.zones[0] == seam.zones[1]:
            yield Finding(layout.rank, CHECK, _where(seam.zones), "one seam", "told twice over")
    surveyed = {zone.laid.zone.name: zone for zone in zones}
    for one, two in combinations(surveyed, 2):
        seen = _facing(surveyed[one], surveyed[two])
        listed = [seam for seam in layout.seams if set(seam.zones) == {one, two}]
        if not listed and seen.length > max(LENGTH, SHORTEST):
            found = f"{seen.length:.3f} mm of edge in common"
            yield Finding(layout.rank, CHECK, _where((one, two)), "no seam", found)
        for seam in listed:
            yield from _seam(layout.rank, seam, surveyed)


def _facing(one: Surveyed, two: Surveyed) -> Facing:
    """The stretches of the first zone's edge that the second faces."""
    zones = one.laid.zone, two.laid.zone
    return facing(zones[0].polygon, zones[1].polygon, max(zone.trim for zone in zones))


def _seam(rank: int, seam: SeamClaim, surveyed: dict[str, Surveyed]) -> Iterator[Finding]:
    one, two = (surveyed[name] for name in seam.zones)
    where = _where(seam.zones)
    seen = _facing(one, two)
    apart = float(seen.apart.max(initial=0.0))
    allowed = LENGTH + (SHARE * seen.length if apart > SIZE else 0.0)
    if abs(seam.length - seen.length) > allowed:
        claimed = f"{seam.length:.3f} mm long"
        yield Finding(rank, CHECK, where, claimed, f"{seen.length:.3f} mm")
    if abs(seam.trim - apart) > SIZE:
        claimed = f"a strip of {seam.trim:.3f} mm"
        yield Finding(rank, CHECK, where, claimed, f"{apart:.3f} mm between them")
    for zone, claimed, here in (
        (one, seam.edges[0], seen),
        (two, seam.edges[1], _facing(two, one)),
    ):
        found = shown(zone, here)
        if found not in (claimed, None):
            name = zone.laid.zone.name
            yield Finding(rank, CHECK, f"{where}, side of {name}", f"{claimed} edges", str(found))


def _where(zones: tuple[str, str]) -> str:
    return f"{zones[0]} and {zones[1]}"
