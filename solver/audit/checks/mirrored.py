"""Mirrored zones: piece for piece the reflection of the zone they mirror."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from solver.audit.document.claims import Claims, LayoutClaim
from solver.audit.findings import Finding
from solver.audit.measured.mirrored import reflection
from solver.audit.tolerances import NOISE, TOUCH

CHECK = "mirror image"


def reflections(claims: Claims, layout: LayoutClaim) -> Iterator[Finding]:
    """Every piece of a mirrored zone is the reflection of one piece, and no two of the same."""
    for zone in claims.zones.values():
        if zone.mirrors is None:
            continue
        seen = reflection(layout, zone.name, zone.mirrors)
        for k in np.flatnonzero(seen.off > TOUCH + 2 * NOISE).tolist():
            place, partner = int(seen.places[k]), int(seen.partner[k])
            where = f"piece {layout.pieces.ids[place]} (zone {zone.name})"
            claimed = f"the reflection of a piece of zone {zone.mirrors.zone}"
            found = f"{seen.off[k]:.3f} mm off that of {layout.pieces.ids[partner]}"
            yield Finding(layout.rank, CHECK, where, claimed, found)
        for place in seen.alone.tolist():
            where = f"piece {layout.pieces.ids[place]} (zone {zone.mirrors.zone})"
            found = "no such piece"
            claimed = f"reflected in zone {zone.name}"
            yield Finding(layout.rank, CHECK, where, claimed, found)
        if not seen.one_to_one and not len(seen.alone):
            found = "two pieces that reflect one"
            yield Finding(layout.rank, CHECK, f"zone {zone.name}", "piece for piece", found)
