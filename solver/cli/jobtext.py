"""What ``startrow check`` prints: a job file as it was understood."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from models.floor.zone import zone_of
from models.job.data import Axis, Column, Door, Feature, Job, Point, Product, Ring, Sight, Wall
from models.lengths import TICKS_PER_FOOT, TICKS_PER_MM, System, show
from solver.cli.ruletext import off_lines, rule_lines
from solver.sheets.words import bond_words, counted, percent

Section = tuple[str, Sequence[str]]
"""A heading and the lines under it; a section without lines is not printed."""


def job_text(job: Job, sources: Mapping[str, str]) -> str:
    """Everything that was read, in the job's own units, one heading for each kind of thing.

    ``sources`` says for each rule the file names where that stands; see ``rule_sources``.
    """
    system = job.system
    sections: tuple[Section, ...] = (
        (job.name, _room(job)),
        ("Walls", [_wall(wall, system) for wall in job.walls]),
        ("Columns", [_column(column, system) for column in job.columns]),
        ("Doors", [_door(door, job) for door in job.doors]),
        ("Axes", [_axis(axis, system) for axis in job.axes]),
        ("Features", [_feature(feature, system) for feature in job.features]),
        ("Products", [line for item in job.products for line in _product(item, system)]),
        ("Laid", _field(job)),
        ("Rules, and where each limit comes from", rule_lines(job, sources)),
        ("Rules not asked for", off_lines(job, sources)),
        ("Changed or assumed when reading", job.notes),
    )
    return "\n".join(_block(heading, lines) for heading, lines in sections if lines)


def _block(heading: str, lines: Sequence[str]) -> str:
    return "".join(f"{line}\n" for line in (heading, *(f"  {line}" for line in lines)))


def _room(job: Job) -> list[str]:
    """Size, area, tape step, spare stock and, for a walked room, the closing error."""
    floor = zone_of(job, job.field.directions[0]).polygon.area
    return [
        f"{_extent(job.room, job.system)} overall, {counted(len(job.walls), 'wall')}",
        f"{_area(floor, job.system)} to lay, columns and features taken out",
        f"marked in steps of {show(job.tape_step, job.system)}",
        *_closing(job),
    ]


def _extent(ring: Ring, system: System) -> str:
    """Width and height of the box round a ring, along the job's axes."""
    xs, ys = zip(*ring, strict=True)
    return f"{show(max(xs) - min(xs), system)} x {show(max(ys) - min(ys), system)}"


def _area(square_ticks: float, system: System) -> str:
    """An area in square feet or square metres."""
    if system is System.METRIC:
        return f"{square_ticks / (1000 * TICKS_PER_MM) ** 2:.2f} m2"
    return f"{square_ticks / TICKS_PER_FOOT**2:.1f} sq ft"


def _closing(job: Job) -> Iterator[str]:
    """How far from its start the walk along the walls ended."""
    if job.closure is not None:
        dx, dy, walked = job.closure.dx, job.closure.dy, job.closure.walked
        error = math.hypot(dx, dy)
        ratio = f", 1 in {walked / error:,.0f}" if error else ""
        yield (
            f"closing error {show(round(error), job.system, 64)}"
            f" ({show(dx, job.system, 64)} in x, {show(dy, job.system, 64)} in y)"
            f" over {show(walked, job.system)} walked{ratio}"
        )


def _wall(wall: Wall, system: System) -> str:
    """A wall's length, and how much it is seen."""
    seen = "" if wall.sight is Sight.PLAIN else f", {wall.sight.value}"
    return f"{wall.name}: {show(_distance(wall.start, wall.end), system)}{seen}"


def _distance(one: Point, other: Point) -> int:
    """The distance between two points, to the nearest tick."""
    return round(math.dist(one, other))


def _column(column: Column, system: System) -> str:
    return f"{column.name}: {_extent(column.outline, system)}"


def _door(door: Door, job: Job) -> str:
    """A door's width and place on its wall."""
    wall = next(wall for wall in job.walls if wall.name == door.wall)
    near = min(_distance(wall.start, jamb) for jamb in door.jambs)
    return (
        f"{door.name}: {show(_distance(*door.jambs), job.system)} wide in {door.wall},"
        f" {show(near, job.system)} from its start"
    )


def _axis(axis: Axis, system: System) -> str:
    """An axis by its point and its direction in degrees."""
    degrees = math.degrees(math.atan2(axis.direction[1], axis.direction[0]))
    return f"{axis.name}: through {_at(axis.point, system)}, at {degrees:.6g} degrees"


def _feature(feature: Feature, system: System) -> str:
    """A feature's size, centre and axis."""
    if feature.round_diameter is None:
        size = _extent(feature.outline, system)
    else:
        size = f"round, {show(feature.round_diameter, system)} across"
    return (
        f"{feature.name}: {size}, centre {_at(feature.centre, system)},"
        f" on {feature.axis} within {show(feature.tolerance, system)}"
    )


def _at(point: Point, system: System) -> str:
    """A point as its two coordinates."""
    return f"({show(point[0], system)}, {show(point[1], system)})"


def _product(item: Product, system: System) -> list[str]:
    """One product in two lines."""
    turning = "keeps its direction" if item.directional else "may be turned"
    return [
        f"{item.name}: {show(item.length, system)} x {show(item.width, system)},"
        f" {item.per_carton} a carton, {turning}",
        f"  joint {show(item.joint, system)}, kerf {show(item.kerf, system, 64)},"
        f" maker's tolerance {show(item.tolerance, system, 64)}",
    ]


def _field(job: Job) -> list[str]:
    """What is laid, in which bond and directions, with which spare stock."""
    field = job.field
    spare = percent(float(job.spare_percent)) if job.spare_percent else str(job.spare_units)
    return [
        f"{field.name}: {field.product} in {bond_words(field.bond)}",
        f"rows {' or '.join(direction.label for direction in field.directions)}",
        f"spare units: {spare}{' of those laid' if job.spare_percent else ''}",
    ]
