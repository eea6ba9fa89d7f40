"""What ``startrow check`` prints: a job file as it was understood."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from shapely import Polygon

from models.job.carve.plan import plan_of
from models.job.data import (
    Axis,
    Column,
    Door,
    Feature,
    Fill,
    Job,
    Point,
    Product,
    Ring,
    Sight,
    Wall,
)
from models.lengths import TICKS_PER_MM, System, show
from solver.cli.ruletext import Sources, rule_sections
from solver.cli.zonetext import extent_words, link_line, zone_lines
from solver.sheets.words import area, counted, listed, money, percent

Section = tuple[str, Sequence[str]]
"""A heading and the lines under it; a section without lines is not printed."""


def job_text(job: Job, sources: Sources) -> str:
    """Everything that was read, in the job's own units, one heading for each kind of thing.

    ``sources`` says for each zone where the rules it takes stand; see ``rule_sources``.
    """
    system = job.system
    sections: tuple[Section, ...] = (
        (job.name, _room(job)),
        ("Walls", [_wall(sides, system) for sides in _walls(job)]),
        ("Columns", [_column(column, system) for column in job.columns]),
        ("Doors", [_door(door, job) for door in job.doors]),
        ("Axes", [_axis(axis, system) for axis in job.axes]),
        ("Features", [_feature(feature, system) for feature in job.features]),
        ("Products", [line for item in job.products for line in _product(item, job)]),
        ("Laid", [*zone_lines(job), *_bought(job)]),
        ("Linked", [link_line(link) for link in job.links]),
        *rule_sections(job, sources),
        ("Changed or assumed when reading", job.notes),
    )
    return "\n".join(_block(heading, lines) for heading, lines in sections if lines)


def _block(heading: str, lines: Sequence[str]) -> str:
    return "".join(f"{line}\n" for line in (heading, *(f"  {line}" for line in lines)))


def _room(job: Job) -> list[str]:
    """Size, area, tape step, spare stock and, for a walked room, the closing error."""
    floor = sum(Polygon(each.outer, each.holes).area for each in plan_of(job).areas)
    to_lay = area(job.system, floor / TICKS_PER_MM**2)
    laid = {zone.shape.feature for zone in job.zones if isinstance(zone.shape, Fill)}
    filled = f", {listed(sorted(laid))} filled" if laid else ""
    return [
        f"{_extent(job.room, job.system)} overall, {counted(len(list(_walls(job))), 'wall')}",
        f"{to_lay} to lay, columns and features taken out{filled}",
        f"marked in steps of {show(job.tape_step, job.system)}",
        *_closing(job),
    ]


def _extent(ring: Ring, system: System) -> str:
    """Width and height of the box round a ring, along the job's axes."""
    xs, ys = zip(*ring, strict=True)
    return f"{show(max(xs) - min(xs), system)} x {show(max(ys) - min(ys), system)}"


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


def _walls(job: Job) -> Iterator[list[Wall]]:
    """Each wall, or the sides of one that is an arc."""
    for _, sides in groupby(_from_a_wall(job.walls), key=lambda wall: wall.name):
        yield list(sides)


def _from_a_wall(walls: Sequence[Wall]) -> Iterable[Wall]:
    """The walls round the room from the start of one: the list may start amid an arc."""
    amid = next((i for i, wall in enumerate(walls) if wall.name != walls[-1].name), 0)
    return (*walls[amid:], *walls[:amid])


def _wall(sides: Sequence[Wall], system: System) -> str:
    """A wall's length, and how much it is seen."""
    wall = sides[0]
    seen = "" if wall.sight is Sight.PLAIN else f", {wall.sight.value}"
    length = show(sum(_distance(side.start, side.end) for side in sides), system)
    arc = f" round its arc, worked as {len(sides)} sides" if len(sides) > 1 else ""
    return f"{wall.name}: {length}{arc}{seen}"


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
    place = f"centre {_at(feature.centre, system)}"
    if feature.slide is not None:
        place = f"centre {extent_words(feature.slide, system)}"
    return (
        f"{feature.name}: {size}, {place},"
        f" on {feature.axis} within {show(feature.tolerance, system)}"
    )


def _at(point: Point, system: System) -> str:
    """A point as its two coordinates."""
    return f"({show(point[0], system)}, {show(point[1], system)})"


def _product(item: Product, job: Job) -> list[str]:
    """One product in two lines, a third for scrap, shop cuts and price."""
    system = job.system
    turning = "keeps its direction" if item.directional else "may be turned"
    lengths = listed(show(length, system) for length, _ in item.mix or [(item.length, 0)])
    each = f" ({listed(str(count) for _, count in item.mix)})" if item.mix else ""
    more = [f"offcuts under {show(item.scrap, system)} are scrap"] if item.scrap else []
    more += ["cut edges may lie at joints"] if item.shop_cuts else []
    more += [f"{money(job, item.price)} a carton"] if item.price is not None else []
    lines = [
        f"{item.name}: {lengths} x {show(item.width, system)},"
        f" {item.per_carton} a carton{each}, {turning}",
        f"  joint {show(item.joint, system)}, kerf {show(item.kerf, system, 64)},"
        f" maker's tolerance {show(item.tolerance, system, 64)}",
    ]
    return [*lines, f"  {', '.join(more)}"] if more else lines


def _bought(job: Job) -> Iterator[str]:
    """What is bought beyond the units laid."""
    if job.spare_carton_per:
        yield f"spare cartons: 1 for every {job.spare_carton_per} or fraction"
    elif job.spare_percent:
        yield f"spare units: {percent(float(job.spare_percent))} of those laid"
    else:
        yield f"spare units: {job.spare_units}"
    if job.breakage_percent:
        yield f"for breakage: {percent(float(job.breakage_percent))} of the units laid"
