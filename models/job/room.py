"""The room: its outline and walls, from corners or from a walk."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from models.job.data import Closure, Point, Ring, Sight, Wall
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.rings import first_crossing, is_flat, runs_on, twice_area
from models.job.walk import read_walk


@dataclass(frozen=True, slots=True)
class Side:
    """A wall as the file gives it: its own start, whichever way round the room was given."""

    name: str
    named: bool
    start: Point
    end: Point
    item: Item
    sight: Sight = Sight.PLAIN


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
        """The sides by name."""
        return {side.name: side for side in self.sides}


def read_room(item: Item, measures: Measures) -> Room:
    """The room, tidied and checked to be one simple outline.

    Raises JobError for crossing walls, walls without length, no floor inside, or a walk
    that does not close.
    """
    if "walk" in item.group:
        walked = read_walk(item.group["walk"], measures)
        entries = item.group["walk"].group["legs"].entries
        sides = _sides(walked.corners, [leg.find("wall") for leg in entries], entries)
        closure, notes = walked.closure, walked.notes
    else:
        corners = item.group["corners"]
        names = _wall_names(item, len(corners.entries))
        sides = _sides(measures.points(corners), names, corners.entries)
        closure, notes = None, ()
    sides, dropped = _tidy(sides)
    _check_outline(sides, item)
    area = twice_area([side.start for side in sides])
    return Room(_seen(sides, item), area > 0, closure, notes + dropped)


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


def _sides(
    corners: Sequence[Point], names: Sequence[Item | None], entries: Sequence[Item]
) -> tuple[Side, ...]:
    """One side from each corner to the next."""
    return tuple(
        Side(
            f"wall {i + 1}" if name is None else name.text,
            name is not None,
            corner,
            corners[(i + 1) % len(corners)],
            entries[i] if name is None else name,
        )
        for i, (corner, name) in enumerate(zip(corners, names, strict=True))
    )


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
    unnamed = not (before.named or after.named)
    return unnamed and runs_on(before.start, before.end, after.end)


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
