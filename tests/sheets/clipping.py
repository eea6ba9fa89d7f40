"""Pieces of a hand-made layout: the room is clipped into rows and cells, nothing is searched."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import shapely
from shapely.geometry import Polygon, box

from models.floor.frame import Frame
from models.floor.layout import Piece, RowPlan
from models.floor.sizes import SAME, sizes_of
from models.job.data import Job, Point, Ring


def pieces_of(
    job: Job, frame: Frame, start_v: int, offset: Callable[[int], int]
) -> tuple[list[Piece], tuple[RowPlan, ...], Polygon]:
    """Pieces and rows of a field; ``offset`` gives the end joints of a row (from u = 0)."""
    length, width = job.product_of(job.field).pitch
    named = [(wall.name, (wall.start, wall.end)) for wall in job.walls]
    islands = [(column.name, column.outline) for column in job.columns]
    islands += [(feature.name, feature.outline) for feature in job.features]
    for name, ring in islands:
        named += [(name, side) for side in zip(ring, ring[1:] + ring[:1], strict=True)]
    sides = [(name, tuple(frame.to_frame(end) for end in side)) for name, side in named]
    holes = [frame.ring_to_frame(ring) for _, ring in islands]
    zone = Polygon(frame.ring_to_frame(job.room), holes)
    left, bottom, right, top = (round(x) for x in zone.bounds)
    lows = range(start_v + (bottom - start_v) // width * width, top, width)
    pieces, rows = [], []
    for row, low in enumerate(lows, 1):
        strip = zone.intersection(box(left, low, right, low + width))
        parts = sorted(polygons(strip), key=lambda part: part.bounds)
        at = offset(row) % length
        rows.append(
            RowPlan(row, low, tuple(((round(p.bounds[0]), round(p.bounds[2])), at) for p in parts))
        )
        first = at + (left - at) // length * length
        number = 0
        for cell, u in enumerate(range(first, right, length)):
            whole = box(u, low, u + length, low + width)
            for part in polygons(whole.intersection(zone)):
                number += 1
                pieces.append(
                    piece(f"{row}-{number}", row, cell, (u, low), part, (length, width), sides)
                )
    return pieces, tuple(rows), zone


def polygons(shape: shapely.Geometry) -> Iterator[Polygon]:
    for part in shapely.get_parts(shape):
        if isinstance(part, Polygon) and part.area > 1000:
            yield shapely.geometry.polygon.orient(part)


def ring_of(coords: list[tuple[float, ...]]) -> Ring:
    return tuple((round(x), round(y)) for x, y in coords[:-1])


def piece(
    name: str,
    row: int,
    cell: int,
    corner: Point,
    shape: Polygon,
    pitch: tuple[int, int],
    sides: list[tuple[str, tuple[Point, ...]]],
) -> Piece:
    length, width = pitch
    outline = ring_of(list(shape.exterior.coords))
    holes = tuple(ring_of(list(hole.coords)) for hole in shape.interiors)
    whole = (*corner, corner[0] + length, corner[1] + width)
    sizes = sizes_of(outline, holes, whole)
    touches = [
        where
        for where, side in sides
        if shapely.LineString(side).buffer(SAME).intersection(shape.boundary).length > 100
    ]
    return Piece(
        name, row, cell, corner, outline, holes, shape.area < length * width - 1000,
        sizes.along, sizes.across, sizes.slant, sizes.neck, tuple(dict.fromkeys(touches)), name,
    )  # fmt: skip


def share_units(job: Job, pieces: list[Piece]) -> tuple[list[Piece], int]:
    """Number the units; a row's last piece leaves an offcut for a later row's first piece."""
    product = job.product_of(job.field)
    length = product.pitch[0]
    waiting: list[Piece] = []
    units, laid = 0, []
    for each in pieces:
        giver = None
        if starts(each, length):
            giver = next((w for w in waiting if fits(w, each, length, product.kerf)), None)
        if giver:
            waiting.remove(giver)
            laid.append(replace(each, unit=giver.unit))
            continue
        units += 1
        fresh = replace(each, unit=f"U{units}")
        laid.append(fresh)
        if ends(fresh):
            waiting.append(fresh)
    return laid, units


def starts(each: Piece, length: int) -> bool:
    """Cut square on its left side only, at the whole width."""
    right = max(u for u, _ in each.outline) == each.corner[0] + length
    return right and len(each.outline) == 4 and only_along(each)


def ends(each: Piece) -> bool:
    left = min(u for u, _ in each.outline) == each.corner[0]
    return left and len(each.outline) == 4 and only_along(each)


def only_along(each: Piece) -> bool:
    return each.size_along is not None and each.size_across is None


def fits(giver: Piece, taker: Piece, length: int, kerf: int) -> bool:
    return (giver.size_along or length) + (taker.size_along or length) + kerf <= length
