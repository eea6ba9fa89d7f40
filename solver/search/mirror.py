"""A zone that is the reflection of another, piece for piece."""

from __future__ import annotations

from dataclasses import replace

from models.floor.frame import Frame
from models.floor.runs import Run, rows_count
from models.floor.zone import Zone, in_frame
from models.job.angles import mirrored_point, mirrored_vector
from models.job.carve.area import Area
from models.job.data import Axis, Direction, Ring
from solver.search.found import Found


def reflect(found: Found, area: Area, axis: Axis, width: int) -> Found:
    """What was found for one zone, seen in the mirror; ``width`` is the pitch across.

    The mirrored zone's frame is the mirrored frame with v turned round: u stays the same,
    so that every run, offset and piece keeps its whole ticks.
    """
    zone = _zone(found.zone, area, axis)
    _, count = rows_count(found.zone, width, found.start_line)
    runs = [_run(run, count, width) for run in found.runs]
    order = sorted(range(len(runs)), key=lambda i: (runs[i].row, runs[i].start, runs[i].bottom))
    return replace(
        found,
        zone=zone,
        start_line=-found.start_line,
        runs=tuple(runs[i] for i in order),
        # Units of several lengths have cells, not offsets.
        offsets=tuple(found.offsets[i] for i in order) if found.offsets else (),
        cells=tuple(found.cells[i] for i in order) if found.cells else (),
    )


def _run(run: Run, count: int, width: int) -> Run:
    return replace(
        run,
        row=count + 1 - run.row,
        low=-run.low - width,
        bottom=-run.top,
        top=-run.bottom,
        outline=None if run.outline is None else _over(run.outline),
        holes=tuple(_over(hole) for hole in run.holes),
    )


def _zone(zone: Zone, area: Area, axis: Axis) -> Zone:
    origin = mirrored_point(zone.frame.origin, axis)
    vector = mirrored_vector(zone.frame.direction, axis.direction)
    frame = Frame(origin, vector)
    label = f"{zone.direction.label}, mirrored"
    placed = in_frame(area, Direction(label, vector), frame)
    bond = zone.laying.bond
    # Seen in a mirror every row is shifted the other way.
    laying = replace(area.laying, bond=replace(bond, step=-bond.step % 1))
    # The shape is turned over exactly; only what its sides go to is taken from the area.
    return replace(
        placed,
        laying=laying,
        outer=_over(zone.outer),
        holes=tuple(_over(h) for h in zone.holes),
    )


def _over(ring: Ring) -> Ring:
    """A ring with v turned round, running the way it ran."""
    return tuple((u, -v) for u, v in reversed(ring))
