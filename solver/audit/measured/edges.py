"""The sides of pieces as arrays, and which of them lie together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from solver.audit.document.claims import Bools, Floats, Ints, Shapes
from solver.audit.tolerances import NOISE, TOUCH


@dataclass(frozen=True, slots=True)
class Edges:
    """Sides from ``start`` to ``end`` (n, 2) with the inside on their left.

    ``piece`` is the place of the piece each belongs to.
    """

    piece: Ints
    start: Floats
    end: Floats

    def take(self, chosen: Ints | Bools) -> Edges:
        """The chosen sides."""
        return Edges(self.piece[chosen], self.start[chosen], self.end[chosen])

    @property
    def length(self) -> Floats:
        """Length of each side in mm."""
        step = self.end - self.start
        return np.hypot(step[:, 0], step[:, 1])


@dataclass(frozen=True, slots=True)
class Meets:
    """Pairs of sides of two pieces that lie together on a line of the frame.

    ``at`` is the line's coordinate, ``low`` and ``high`` the shared length on it;
    ``before`` and ``after`` are the pieces on its low and high side.
    """

    before: Ints
    after: Ints
    at: Floats
    low: Floats
    high: Floats

    def take(self, chosen: Ints | Bools) -> Meets:
        """The chosen pairs."""
        return Meets(
            self.before[chosen], self.after[chosen], self.at[chosen],
            self.low[chosen], self.high[chosen],
        )  # fmt: skip


def edges_of(shapes: Shapes) -> Edges:
    """All sides of polygons, outlines and holes, turned so that the inside is on the left."""
    rings, piece = shapely.get_rings(shapes, return_index=True)
    points, ring = shapely.get_coordinates(rings, return_index=True)
    joined = ring[1:] == ring[:-1]
    ring = ring[:-1][joined]
    start, end = points[:-1][joined], points[1:][joined]
    outline = np.ones(len(rings), dtype=np.bool_)
    outline[1:] = piece[1:] != piece[:-1]
    twice = np.bincount(
        ring, start[:, 0] * end[:, 1] - end[:, 0] * start[:, 1], minlength=len(rings)
    )
    wrong_way = ((twice > 0) != outline)[ring][:, None]
    edges = Edges(piece[ring], np.where(wrong_way, end, start), np.where(wrong_way, start, end))
    return edges.take(edges.length > NOISE)


def along(edges: Edges, axis: int) -> Ints:
    """Places of the sides that lie on a line of constant u (axis 0) or v (axis 1)."""
    step = np.abs(edges.end - edges.start)
    return np.flatnonzero((step[:, axis] <= TOUCH / 2) & (step[:, 1 - axis] > TOUCH))


def meet(edges: Edges, axis: int) -> Meets:
    """Every pair of sides that share a length of a line of constant u (axis 0) or v (axis 1)."""
    flat = edges.take(along(edges, axis))
    # With the inside on the left, a right side runs up and an upper side runs towards low u.
    forward = (flat.end - flat.start)[:, 1 - axis] > 0
    ends_here = forward if axis == 0 else ~forward
    one, two = flat.take(ends_here), flat.take(~ends_here)
    tree = shapely.STRtree(_boxes(two, axis, 0.0))
    i, j = tree.query(_boxes(one, axis, TOUCH))
    low = np.maximum(_least(one, 1 - axis)[i], _least(two, 1 - axis)[j])
    high = np.minimum(_most(one, 1 - axis)[i], _most(two, 1 - axis)[j])
    near = np.abs(one.start[i, axis] - two.start[j, axis]) <= TOUCH
    kept = near & (high - low > TOUCH) & (one.piece[i] != two.piece[j])
    found = Meets(one.piece[i], two.piece[j], one.start[i, axis], low, high)
    return found.take(kept)


def _least(edges: Edges, axis: int) -> Floats:
    return np.minimum(edges.start[:, axis], edges.end[:, axis])


def _most(edges: Edges, axis: int) -> Floats:
    return np.maximum(edges.start[:, axis], edges.end[:, axis])


def _boxes(edges: Edges, axis: int, margin: float) -> Shapes:
    """Boxes about sides, wider by a margin square to them."""
    spread = (margin, 0.0) if axis == 0 else (0.0, margin)
    boxes: Shapes = shapely.box(
        _least(edges, 0) - spread[0],
        _least(edges, 1) - spread[1],
        _most(edges, 0) + spread[0],
        _most(edges, 1) + spread[1],
    )
    return boxes
