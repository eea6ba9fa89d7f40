"""What each side of an area goes to: split where that changes, and named."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely
from shapely import Geometry, Polygon, STRtree
from shapely import Point as Spot

from models.job.carve.area import Side
from models.job.carve.floor import OUTSIDE, Floor, Kind, Part
from models.job.carve.mesh import Step, rings_of
from models.job.carve.snap import place_at, reach_along
from models.job.checks import TOUCH
from models.job.data import Column, Feature, Job, Ring, Sight
from models.job.rings import in_line

Label = tuple[str, Sight]


@dataclass(frozen=True, slots=True)
class Labels:
    """The names of everything a side may go to."""

    job: Job
    floor: Floor
    parts: tuple[Part, ...]
    part_of: dict[int, int]
    walls: dict[Step, Label]
    wall_lines: STRtree

    def along(self, step: Step, part: Part) -> Iterator[Side]:
        """A step round a part as sides, each with what lies across it."""
        across = self.floor.mesh.left_of.get(step[::-1])
        owner = OUTSIDE if across is None else self.floor.owners[across]
        if across is not None and owner.kind is Kind.TRIM:
            yield from self._over_trim(step, part, owner.number, self.floor.cut_from[across])
        elif owner.kind is Kind.COLUMN:
            yield Side(*step, self.job.columns[owner.number].name)
        elif owner.kind is Kind.FEATURE:
            yield Side(*step, self.job.features[owner.number].name)
        elif across in self.part_of:
            yield Side(*step, self.parts[self.part_of[across]].name)
        else:
            yield Side(*step, *(self.walls.get(step) or self._wall(_off(step, 0.5, 0))))

    def _wall(self, spot: Geometry) -> Label:
        """The wall nearest to a spot."""
        wall = self.job.walls[int(self.wall_lines.nearest(spot))]
        return wall.name, wall.sight

    def _over_trim(self, step: Step, part: Part, by: int, lot: int) -> Iterator[Side]:
        """A step beside a strip of trim, with what lies beyond the strip.

        Zone number ``by`` took the strip from ``lot``: it is the part's own strip unless the
        part's zone is the one it was taken from.
        """
        mine = self.floor.lots[part.lot].zone
        own = self.floor.lots[lot].zone != mine
        trim = self.job.zones[mine if own else by].trim
        zones = [self.floor.lots[other.lot].zone for other in self.parts]
        line = shapely.LineString(step)
        close = [
            other
            for other, its in zip(self.parts, zones, strict=True)
            if (its != mine if own else its == by)
            and other.shape.distance(line) <= 2 * (trim + TOUCH)
        ]
        corners = {corner for other in close for ring in rings_of(other.shape) for corner in ring}
        cuts = sorted(
            reach
            for corner in corners
            if line.distance(Spot(corner)) <= trim + TOUCH
            and TOUCH < (reach := reach_along(step, corner)) * line.length < line.length - TOUCH
        )
        spans = list(pairwise([0.0, *cuts, 1.0]))
        beyond = [self._beyond(_off(step, sum(span) / 2, trim), close) for span in spans]
        clear = {labels[0] for labels in beyond if len(labels) == 1}
        for (low, high), labels in zip(spans, beyond, strict=True):
            # At a corner two may be as near: it goes with the rest of the step.
            label = next((label for label in labels if label in clear), labels[0])
            yield Side(place_at(step, low), place_at(step, high), *label)

    def _beyond(self, spot: Geometry, close: Iterable[Part]) -> list[Label]:
        """What lies nearest to a spot beyond a strip: areas, or what stands there."""
        things = [(other.shape.distance(spot), other.name) for other in close]
        things += [(Polygon(item.outline).distance(spot), item.name) for item in standing(self.job)]
        nearest = min((distance for distance, _ in things), default=math.inf)
        wall = self.job.walls[int(self.wall_lines.nearest(spot))]
        if shapely.LineString([wall.start, wall.end]).distance(spot) < nearest:
            return [(wall.name, wall.sight)]
        return [(name, Sight.PLAIN) for distance, name in things if distance <= nearest + TOUCH]


def labels_of(job: Job, floor: Floor, parts: Sequence[Part]) -> Labels:
    """The names of everything on a divided floor."""
    part_of = {face: i for i, part in enumerate(parts) for face in part.faces}
    walls = {(wall.start, wall.end): (wall.name, wall.sight) for wall in job.walls}
    lines = STRtree(shapely.linestrings([(wall.start, wall.end) for wall in job.walls]))
    return Labels(job, floor, tuple(parts), part_of, walls, lines)


def standing(job: Job) -> tuple[Column | Feature, ...]:
    """Everything in the room that floor goes round."""
    return (*job.columns, *job.features)


def sides_of(ring: Ring, part: Part, labels: Labels) -> tuple[Side, ...]:
    """The sides round one ring of a part, from its first corner.

    A side runs on while it is straight and goes to the same thing.
    """
    sides: list[Side] = []
    for step in zip(ring, (*ring[1:], ring[0]), strict=True):
        for side in labels.along(step, part):
            if sides and _runs_on(sides[-1], side):
                side = Side(sides.pop().start, side.end, side.name, side.sight)
            sides.append(side)
    return tuple(sides)


def _runs_on(before: Side, after: Side) -> bool:
    same = (before.name, before.sight) == (after.name, after.sight)
    return same and in_line(before.start, after.start, after.end)


def _off(step: Step, reach: float, distance: float) -> Geometry:
    """The spot part of the way along a step and that far to its right."""
    (x0, y0), (x1, y1) = step
    dx, dy = x1 - x0, y1 - y0
    length = math.hypot(dx, dy)
    return Spot(x0 + reach * dx + distance * dy / length, y0 + reach * dy - distance * dx / length)
