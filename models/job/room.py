"""The room: its outline and walls, from corners or from a walk."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from models.job.arcs import ROUNDNESS_MM
from models.job.corners import Corner, read_corners
from models.job.data import Closure, Point, Ring, Sight, Wall
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.rings import first_crossing, is_flat, runs_on, twice_area
from models.job.walk import read_walk


@dataclass(frozen=True, slots=True)
class Side:
    """A straight wall as the file gives it, or one side of a wall that is an arc.

    It has its own start, whichever way round the room was given. ``part`` is None for a
    straight wall and counts the sides of an arc, which share a name, from 0.
    """

    name: str
    named: bool
    start: Point
    end: Point
    item: Item
    sight: Sight = Sight.PLAIN
    part: int | None = None

    @property
    def arc(self) -> bool:
        """Whether this is one of the sides of a wall that is an arc."""
        return self.part is not None


@dataclass(frozen=True, slots=True)
class Room:
    """The sides in the order given, and whether that runs with the floor on the left."""

    sides: tuple[Side, ...]
    counter_clockwise: bool
    closure: Closure | None
    notes: tuple[str, ...]

    @property
    def walls(self) -> tuple[Wall, ...]:
        """The walls counter-clockwise round the floor; names stay on their walls."""
        if self.counter_clockwise:
            return tuple(Wall(s.name, s.start, s.end, s.sight) for s in self.sides)
        return tuple(Wall(s.name, s.end, s.start, s.sight) for s in reversed(self.sides))

    @property
    def ring(self) -> Ring:
        """The outline, counter-clockwise."""
        return tuple(wall.start for wall in self.walls)

    @property
    def by_name(self) -> Mapping[str, Side]:
        """The walls by name; of an arc, its first side."""
        return {side.name: side for side in self.sides if not side.part}

    @property
    def named(self) -> tuple[tuple[str, Item], ...]:
        """The name of each wall and where it stands."""
        return tuple((side.name, side.item) for side in self.sides if not side.part)

    @property
    def arcs(self) -> Mapping[str, int]:
        """The walls that are arcs and how many sides each is worked as."""
        return Counter(side.name for side in self.sides if side.arc)


def read_room(item: Item, measures: Measures) -> Room:
    """The room, tidied and checked to be one simple outline.

    Raises JobError for crossing walls, walls without length, no floor inside, or a walk
    that does not close.
    """
    if "walk" in item.group:
        walked = read_walk(item.group["walk"], measures)
        sides = _sides(walked.corners, [corner.item.find("wall") for corner in walked.corners])
        closure, notes = walked.closure, walked.notes
    else:
        corners = read_corners(item.group["corners"], measures)
        sides = _sides(corners, _wall_names(item, len(corners)))
        closure, notes = None, ()
    sides, dropped = _tidy(sides)
    _check_outline(sides, item)
    area = twice_area([side.start for side in sides])
    room = Room(_seen(sides, item), area > 0, closure, notes + dropped)
    return replace(room, notes=room.notes + _arc_notes(room))


def straight_wall(item: Item, room: Room, why: str, remedy: str) -> Side:
    """The wall a text names, which must not be an arc; ``why`` says what an arc cannot do."""
    side = look_up(item, room.by_name, "wall")
    if side.arc:
        raise item.error(f"wall '{side.name}' is an arc, and {why}", remedy)
    return side


def _arc_notes(room: Room) -> tuple[str, ...]:
    """How each arc is worked."""
    return tuple(
        f"wall '{name}' is worked as {count} sides within {ROUNDNESS_MM} mm of its arc"
        for name, count in room.arcs.items()
    )


def _wall_names(room: Item, corners: int) -> Sequence[Item | None]:
    """The name of each wall of a room given by corners, or None each."""
    walls = room.find("walls")
    if walls is None:
        return [None] * corners
    if len(walls.entries) != corners:
        raise walls.error(
            f"{len(walls.entries)} names for {corners} walls",
            "give one name for each corner; wall 1 runs from corner 1 to corner 2",
        )
    return walls.entries


def _sides(corners: Sequence[Corner], names: Sequence[Item | None]) -> tuple[Side, ...]:
    """One side from each corner to the next, several where an arc runs between them."""
    sides: list[Side] = []
    for i, (corner, name) in enumerate(zip(corners, names, strict=True)):
        words = f"wall {i + 1}" if name is None else name.text
        item = corner.item if name is None else name
        points = (corner.point, *corner.arc, corners[(i + 1) % len(corners)].point)
        sides.extend(
            Side(words, name is not None, start, end, item, part=part if corner.arc else None)
            for part, (start, end) in enumerate(pairwise(points))
        )
    return tuple(sides)


def _tidy(sides: tuple[Side, ...]) -> tuple[tuple[Side, ...], tuple[str, ...]]:
    """Sides without repeated corners and without corners on a straight unnamed wall."""
    kept: list[Side] = []
    for side in sides:
        if side.start == side.end:
            if side.named:
                raise side.item.error(
                    f"wall '{side.name}' has no length", "check the corners at its ends"
                )
        elif kept and _continues(kept[-1], side):
            kept[-1] = replace(kept[-1], end=side.end)
        else:
            kept.append(side)
    if len(kept) > 2 and _continues(kept[-1], kept[0]):
        kept[0] = replace(kept[0], start=kept.pop().start)
    dropped = len(sides) - len(kept)
    words = "a corner that was" if dropped == 1 else f"{dropped} corners that were"
    note = f"left out {words} repeated or on a straight wall without a name"
    return tuple(kept), (note,) if dropped else ()


def _continues(before: Side, after: Side) -> bool:
    """Whether two unnamed sides are one straight wall."""
    apart = before.named or after.named or before.arc or after.arc
    return not apart and runs_on(before.start, before.end, after.end)


def _check_outline(sides: Sequence[Side], room: Item) -> None:
    """Refuse an outline that crosses itself or encloses nothing."""
    ring = [side.start for side in sides]
    if is_flat(ring):
        raise room.error("encloses no floor", "give at least three corners not in one line")
    crossing = first_crossing(ring)
    if crossing is not None:
        first, second = (sides[i] for i in crossing)
        raise second.item.error(
            f"walls '{first.name}' and '{second.name}' cross or touch",
            "check the order of the corners and the lengths between them",
        )


def _seen(sides: tuple[Side, ...], room: Item) -> tuple[Side, ...]:
    """The sides with how much each is seen."""
    by_name = {side.name: side for side in sides}
    sights: dict[str, Sight] = {}
    for sight in (Sight.PROMINENT, Sight.HIDDEN):
        for item in room.list_of(sight.value):
            name = look_up(item, by_name, "wall").name
            if sights.get(name, sight) is not sight:
                raise item.error(f"wall '{name}' is prominent too", "keep it in one of the lists")
            sights[name] = sight
    return tuple(replace(side, sight=sights.get(side.name, side.sight)) for side in sides)
