"""Features that are filled: a zone lies in them instead of going round."""

from __future__ import annotations

import shapely

from solver.audit.document.claims import Claims, FeatureClaim, ZoneClaim
from solver.audit.tolerances import TOUCH


def fills(zone: ZoneClaim, feature: FeatureClaim) -> bool:
    """Whether a zone lies wholly in a feature."""
    wide = shapely.buffer(feature.polygon, TOUCH, join_style="mitre")
    return bool(wide.covers(zone.polygon))


def inside(claims: Claims, feature: FeatureClaim) -> frozenset[str]:
    """The names of the zones that fill a feature."""
    return frozenset(name for name, zone in claims.zones.items() if fills(zone, feature))
