"""All outlines laid over each other: the faces between them, and which lies across a side.

Faces share whole-tick corners: the lines are joined on a grid of one tick, so that a corner
that touches a line becomes a corner of both faces beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon, STRtree

from models.job.checks import TOUCH
from models.job.data import Point, Ring

Step = tuple[Point, Point]
"""One step along a face's outline, with the face on its left."""


@dataclass(frozen=True, slots=True)
class Mesh:
    """Faces that meet side to side.

    ``steps`` are those round each face, in ticks; ``left_of`` tells the face on the left of
    a step. Outside all lines there is no face.
    """

    faces: tuple[Polygon, ...]
    steps: tuple[tuple[Step, ...], ...]
    left_of: dict[Step, int]

    def beside(self, face: int) -> Iterator[tuple[Step, int | None]]:
        """Each step round a face and the face across it, None outside all lines."""
        return ((step, self.left_of.get(step[::-1])) for step in self.steps[face])

    def inside(self, shapes: Sequence[Polygon]) -> list[tuple[int, ...]]:
        """For each face, the shapes it lies in."""
        found: list[list[int]] = [[] for _ in self.faces]
        if shapes and self.faces:
            spots = shapely.point_on_surface(list(self.faces))
            pairs = STRtree(spots).query(list(shapes), "contains").T.tolist()
            for shape, face in sorted(pairs):
                found[face].append(shape)
        return [tuple(shapes) for shapes in found]


def mesh_of(rings: Iterable[Sequence[Point]]) -> Mesh:
    """The faces between closed outlines."""
    lines = [shapely.linestrings([*ring, ring[0]]) for ring in rings]
    joined = shapely.union_all(lines, grid_size=1)
    found = shapely.get_parts(shapely.polygonize(shapely.get_parts(joined)))
    faces = tuple(shapely.orient_polygons(found).tolist())
    steps = tuple(tuple(steps_of(face)) for face in faces)
    left_of = {step: face for face, around in enumerate(steps) for step in around}
    return Mesh(faces, steps, left_of)


def steps_of(shape: Polygon) -> Iterator[Step]:
    """The steps round a shape on whole ticks, outline first."""
    for ring in rings_of(shape):
        yield from zip(ring, (*ring[1:], ring[0]), strict=True)


def rings_of(shape: Polygon) -> Iterator[Ring]:
    """A shape's outline and its holes, on whole ticks, first corners not repeated."""
    for ring in (shape.exterior, *shape.interiors):
        yield tuple((round(x), round(y)) for x, y in shapely.get_coordinates(ring)[:-1].tolist())


def is_slip(shape: Polygon) -> bool:
    """Whether a shape is thinner than ``TOUCH``: rounding, not floor."""
    # No shape is thinner than its area over its outline; most are seen to be floor by that.
    ratio = shape.area / shape.length if shape.length else 0.0
    return ratio <= TOUCH / 2 and shape.buffer(-TOUCH / 2).is_empty
