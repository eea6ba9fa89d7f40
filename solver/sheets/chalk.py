"""The chalk lines of one zone: where they run, their tape readings and the check for square."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from shapely.geometry import LineString, Polygon

from models.floor.frame import Frame
from models.floor.layout import ZoneLayout
from models.floor.squaring import Triangle, largest_triangle
from models.floor.tape import Mark, Stretch, row_line, sides_of, square_line
from models.job.data import BondKind, Job, Point, Ring
from models.lengths import TICKS_PER_FOOT, TICKS_PER_INCH, TICKS_PER_MM, System

CHECK_STEPS = {
    System.IMPERIAL: (TICKS_PER_FOOT, 3 * TICKS_PER_INCH),
    System.METRIC: (100 * TICKS_PER_MM, 20 * TICKS_PER_MM),
}
"""What one part of a 3-4-5 check may be: a round length, else a smaller one."""

LONGEST_TAPE = {System.IMPERIAL: 100 * TICKS_PER_FOOT, System.METRIC: 30_000 * TICKS_PER_MM}
"""The long tapes in common use; common practice, no source."""

_CLOSE = 64
"""Ticks (0.2 mm) within which a line on the edge of a zone is still in it."""

_WAYS = (
    "right",
    "upper right",
    "top",
    "upper left",
    "left",
    "lower left",
    "bottom",
    "lower right",
)


@dataclass(frozen=True, slots=True)
class Chalk:
    """Both chalk lines, in parts where columns break them.

    All of it is in ``frame``: the zone's own, but for a herringbone that lies at a slant to
    its line of points, where u runs along that line.
    """

    frame: Frame
    start: tuple[Stretch, ...]
    cross: tuple[Stretch, ...]
    triangle: Triangle | None


def chalk(job: Job, zone: ZoneLayout) -> Chalk:
    """The chalk lines of a zone. Raises ValueError when a line misses the room."""
    frame, (u, v) = _line_frame(zone)
    sides = sides_of(job, frame)
    start = row_line(sides, v)
    cross = square_line(sides, u)
    longest = LONGEST_TAPE[job.system]
    found = (
        largest_triangle(start, cross, sides, step, longest) for step in CHECK_STEPS[job.system]
    )
    return Chalk(frame, start, cross, next((each for each in found if each), None))


def near(lines: Chalk, zone: ZoneLayout) -> Chalk:
    """The chalk lines without the stretches that nowhere come to the zone; all if none does."""
    shape = Polygon(lines.frame.ring_to_frame(_job_ring(zone))).buffer(_CLOSE)
    start, cross = (
        tuple(part for part in line if _line(part).intersects(shape)) or line
        for line in (lines.start, lines.cross)
    )
    return replace(lines, start=start, cross=cross)


def _job_ring(zone: ZoneLayout) -> Ring:
    points = [zone.frame.to_job(point) for point in zone.outer]
    return tuple((round(x), round(y)) for x, y in points)


def _line(part: Stretch) -> LineString:
    return LineString([part.start.point, part.end.point])


def _line_frame(zone: ZoneLayout) -> tuple[Frame, Point]:
    """The frame the chalk lines run along, and their crossing in it."""
    crossing = (zone.cross_u, zone.start_v)
    if not slanted_points(zone):
        return zone.frame, crossing
    # The line of points runs along (1, 1) of the frame, and along (1, -1) of a mirrored one.
    a, b = zone.frame.direction
    frame = Frame(zone.frame.origin, (a + b, b - a) if zone.mirrors else (a - b, a + b))
    x, y = zone.frame.to_job(crossing)
    return frame, frame.to_frame((round(x), round(y)))


def bears_on_itself(mark: Mark) -> bool:
    """Whether a mark can only be measured from the curved wall it lies on: no tape finds it."""
    return mark.distance > 0 and mark.ends_on == mark.measured_from


def slanted_points(zone: ZoneLayout) -> bool:
    """Whether the zone is a herringbone whose units lie at a slant to the line of points."""
    bond = zone.laying.bond
    return bond.kind is BondKind.HERRINGBONE and bond.slant == 45


def toward(frame: Frame, u: int, v: int) -> str:
    """Which side of the printed plan a way in the frame leads to, such as ``upper right``."""
    dx, dy = frame.direction
    angle = math.atan2(u * dy + v * dx, u * dx - v * dy)
    return _WAYS[round(angle / (math.pi / 4)) % 8]


def line_ends(stretches: tuple[Stretch, ...]) -> tuple[Point, Point]:
    """First and last point of a line, whatever breaks it between."""
    return stretches[0].start.point, stretches[-1].end.point
