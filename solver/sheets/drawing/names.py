"""Names on a plan: walls, doors, columns, features, axes and the chalk lines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from models.job.data import Axis, Door, Ring, Wall
from solver.sheets.drawing.boxes import Segment
from solver.sheets.drawing.labels import Label, Spot, around, beside, place
from solver.sheets.drawing.lettering import shorten
from solver.sheets.drawing.page import label_box
from solver.sheets.drawing.plan import Plan, axis_segment

_PARTS = (0.5, 0.38, 0.62, 0.25, 0.75, 0.12, 0.88)
_GAPS = (3.5, 9, 16, 24, 32, 41, -4, -12)
"""How far outside a wall its name may stand, in points; inside when negative."""
_LONGEST_NAME = 110.0


def name_lines(plan: Plan, start: Sequence[Segment], cross: Sequence[Segment], size: float) -> None:
    """Label the start line and the cross line."""
    for text, parts, bold in (("start line", start, True), ("cross line", cross, False)):
        line = max(parts, key=lambda part: math.dist(*part))
        label = Label(text, size, line, bold, backed=True)
        spots = beside(line, label, (2.5, -2.5), (0.8, 0.2, 0.7, 0.3, 0.9, 0.1, 0.6, 0.4))
        place(plan.page, label, list(spots), plan.bounds)


def name_things(plan: Plan, size: float) -> tuple[str, ...]:
    """Label everything in the room that has a name; return the names that found no place."""
    job = plan.job
    missed = [axis.name for axis in job.axes if not _name_axis(plan, axis, size)]
    # Short walls have the fewest places for a name, so they come first.
    walls = sorted(_by_name(job.walls), key=lambda wall: math.dist(wall.start, wall.end))
    missed += [wall.name for wall in walls if not _name_wall(plan, wall, size)]
    things = [(each.name, each.outline) for each in job.features]
    things += [(each.name, each.outline) for each in job.columns]
    missed += [name for name, outline in things if not _name_thing(plan, name, outline, size)]
    missed += [door.name for door in job.doors if not _name_door(plan, door, size)]
    return tuple(missed)


def _by_name(walls: Sequence[Wall]) -> list[Wall]:
    """One side for each name: the middle one of a curved wall, the longest of a broken one."""
    sides: dict[str, list[Wall]] = {}
    for wall in walls:
        sides.setdefault(wall.name, []).append(wall)
    return [_middle_side(group) for group in sides.values()]


def _middle_side(group: list[Wall]) -> Wall:
    lengths = [math.dist(wall.start, wall.end) for wall in group]
    if max(lengths) < sum(lengths) / 2:
        return group[len(group) // 2]
    return group[lengths.index(max(lengths))]


def _name_thing(plan: Plan, name: str, outline: Ring, size: float) -> bool:
    """Label a column or feature inside it or beside it."""
    box = plan.box_of(outline)
    label = Label(_short(name, size), size, (box.middle, box.middle), backed=True)
    return place(plan.page, label, list(around(box, label)), plan.bounds) is not None


def _short(name: str, size: float) -> str:
    return shorten(name, _LONGEST_NAME, size)


def _name_wall(plan: Plan, wall: Wall, size: float) -> bool:
    line = (plan.view.at(wall.start), plan.view.at(wall.end))
    label = Label(_short(wall.name, size), size, line, leader_from=24)
    spots = beside(line, label, _GAPS, _PARTS)
    return place(plan.page, label, list(spots), plan.bounds) is not None


def _name_door(plan: Plan, door: Door, size: float) -> bool:
    """Doors are named outside the room, whichever way their jambs were given."""
    wall = next(wall for wall in plan.job.walls if wall.name == door.wall)
    low, high = door.jambs
    way = (wall.end[0] - wall.start[0], wall.end[1] - wall.start[1])
    if (high[0] - low[0]) * way[0] + (high[1] - low[1]) * way[1] < 0:
        low, high = high, low
    line = (plan.view.at(low), plan.view.at(high))
    label = Label(_short(door.name, size), size, line)
    spots = beside(line, label, _GAPS, (0.5, 0.2, 0.8, -0.2, 1.2))
    return place(plan.page, label, list(spots), plan.bounds) is not None


def _name_axis(plan: Plan, axis: Axis, size: float) -> bool:
    line = axis_segment(plan, axis)
    label = Label(_short(axis.name, size), size, line)
    return place(plan.page, label, list(_axis_spots(line, label)), plan.bounds) is not None


def _axis_spots(line: Segment, label: Label) -> Iterator[Spot]:
    """Past either end of the axis, then beside it near its ends."""
    size = math.dist(*line) or 1
    box = label_box((0, 0), label.text, label.size, False)
    for (x, y), (ox, oy) in (line[::-1], line):
        dx, dy = (x - ox) / size, (y - oy) / size
        reach = (abs(dx) * box.width + abs(dy) * box.height) / 2 + 1
        yield (x + dx * reach, y + dy * reach), False
        if abs(dx) > 0.98:
            reach = box.height / 2 + 1
            yield (x + dx * reach, y + dy * reach), True
    yield from beside(line, label, (2, -2), (0.97, 0.03, 0.9, 0.1, 0.8, 0.2))
