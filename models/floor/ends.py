"""How far from its stops a run's first and last end joint must stay.

The piece between a stop and a joint grows with its length, so "no end piece under m" is
one least distance at each end of a run: its *need*.
"""

from __future__ import annotations

import math
from functools import lru_cache

import shapely
from shapely.affinity import affine_transform
from shapely.geometry import Polygon

from models.floor.runs import Run, parts_of
from models.floor.sizes import sizes_of
from models.floor.zone import NEAR_SQUARE_TAN, whole_ring
from models.job.data import Ring


def end_needs(run: Run, pitch: tuple[int, int], least_cut: int, least_end: int) -> tuple[int, int]:
    """The least distance of the first joint from the start, and of the last from the end.

    ``least_cut`` and ``least_end`` are the rules' limits in ticks (0 when not asked for).
    A need above the unit's length means that no end piece there is long enough.
    """
    least = max(least_cut, least_end)
    if run.outline is None:
        return least, least
    shape = run.polygon
    turned = affine_transform(shape, (-1, 0, 0, 1, run.start + run.end, 0))
    first, last = (_need(side, run, pitch, least_cut, least_end) for side in (shape, turned))
    return first, last


def _need(shape: Polygon, run: Run, pitch: tuple[int, int], least_cut: int, least_end: int) -> int:
    """The need at the low end of a run's outline, moved to start at u = 0, v = 0."""
    window = shapely.box(run.start, run.low, run.start + pitch[0], run.low + pitch[1])
    near = max(parts_of(shapely.intersection(shape, window)), key=lambda p: p.area, default=None)
    if near is None:
        return max(least_cut, least_end)
    ring = whole_ring(shapely.normalize(near).exterior.coords)
    local = tuple((u - run.start, v - run.low) for u, v in ring)
    quick = _straight_end(local, pitch, least_cut, least_end)
    return _bisect(local, pitch, least_cut, least_end) if quick is None else quick


def _straight_end(ring: Ring, pitch: tuple[int, int], least_cut: int, least_end: int) -> int | None:
    """The need in closed form when the end is one straight cut from row line to row line."""
    cut = sorted((p for p in ring if p[0] != pitch[0]), key=lambda p: p[1])
    rest = {p for p in ring if p[0] == pitch[0]}
    if len(cut) != 2 or (cut[0][1], cut[1][1]) != (0, pitch[1]) or rest != {(pitch[0], 0), pitch}:
        return None
    lean = abs(cut[1][0] - cut[0][0]) / pitch[1]
    if lean <= NEAR_SQUARE_TAN:
        return max(cut[0][0], cut[1][0]) + max(least_cut, least_end)
    if lean * NEAR_SQUARE_TAN >= 1:
        return max(least_cut, least_end)  # A rip that runs out to nothing, whatever its length.
    # Largest circle in a right triangle of legs x and x / lean: x + x / lean - hypotenuse.
    return math.ceil(least_cut / (1 + 1 / lean - math.hypot(1, 1 / lean)))


@lru_cache(maxsize=4096)
def _bisect(ring: Ring, pitch: tuple[int, int], least_cut: int, least_end: int) -> int:
    """The least joint distance at which the piece before it is large enough; to 0.1 mm."""
    shape = Polygon(ring)

    def enough(at: int) -> bool:
        # Some other piece of the run reaches further; here the unit's cell ends at the joint.
        cell = (at - pitch[0], 0, at, pitch[1])
        for part in parts_of(shapely.intersection(shape, shapely.box(-1, 0, at, pitch[1]))):
            outline = whole_ring(shapely.orient_polygons(part).exterior.coords)
            if len(outline) < 3:
                continue
            sizes = sizes_of(outline, (), cell)
            found = [s for s in (sizes.along, sizes.across, sizes.slant) if s is not None]
            if min(found, default=least_cut) < least_cut or (sizes.along or pitch[0]) < least_end:
                return False
        return True

    low, high = 0, pitch[0]
    if not enough(high):
        # Too small whatever its length (a rip, say): only the length along is ours to choose.
        return max(least_cut, least_end)
    while high - low > 32:
        mid = (low + high) // 2
        low, high = (low, mid) if enough(mid) else (mid, high)
    return high
