"""Pieces of a hand-made layout: an area is clipped into units, nothing is searched."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

import shapely
from shapely.geometry import Polygon, box

from models.floor.frame import Frame
from models.floor.layout import Piece, RowPlan
from models.floor.sizes import SAME, sizes_of
from models.job.carve.area import Area, Side
from models.job.data import Job, Point, Product, Ring

Joints = Callable[[int], int]
"""For each row, where one of its end joints is."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one whole unit lies, joint included."""

    row: int
    cell: int
    corner: Point
    size: tuple[int, int]
    quarter: bool = False
    unit_length: int = 0


def whole_area(job: Job) -> Area:
    """The one area of a job without zones: the room less columns and features."""
    sides = [Side(wall.start, wall.end, wall.name, wall.sight) for wall in job.walls]
    islands = [(column.name, column.outline) for column in job.columns]
    islands += [(feature.name, feature.outline) for feature in job.features]
    for name, ring in islands:
        sides += [Side(end, start, name) for start, end in pairs(ring)]
    names = frozenset(name for name, _ in islands)
    holes = tuple(ring[::-1] for _, ring in islands)
    return Area(job.field.name, job.field, job.room, holes, tuple(sides), names)


def pairs(ring: Ring) -> list[tuple[Point, Point]]:
    return list(zip(ring, ring[1:] + ring[:1], strict=True))


def in_frame(area: Area, frame: Frame) -> Polygon:
    holes = [frame.ring_to_frame(hole) for hole in area.holes]
    return Polygon(frame.ring_to_frame(area.outer), holes)


def rows_of(
    product: Product, shape: Polygon, start_v: int, joints: Joints, turned: bool = False
) -> tuple[tuple[RowPlan, ...], list[Spot]]:
    """Rows of one length; each run's offset is still the place of a joint in [0, pitch)."""
    length, width = product.pitch
    left, bottom, right, top = (round(x) for x in shape.bounds)
    rows, spots = [], []
    lows = range(start_v + (bottom - start_v) // width * width, top, width)
    for row, low in enumerate(lows, 1):
        strip = shape.intersection(box(left, low, right, low + width))
        parts = sorted(polygons(strip), key=lambda part: part.bounds)
        at = joints(row) % length
        ends = [(round(part.bounds[0]), round(part.bounds[2])) for part in parts]
        rows.append(RowPlan(row, low, tuple((each, at) for each in ends)))
        first = at + (left - at) // length * length
        spots += [
            Spot(row, cell, (u, low), (length, width), quarter=turned and (row + cell) % 2 == 1)
            for cell, u in enumerate(range(first, right, length))
        ]
    return tuple(rows), spots


def mixed_rows(
    product: Product, shape: Polygon, start_v: int, cross_u: int
) -> tuple[tuple[RowPlan, ...], list[Spot]]:
    """Rows of several lengths, each starting at another place in the list of lengths."""
    width = product.pitch[1]
    left, bottom, right, top = (round(x) for x in shape.bounds)
    rows, spots = [], []
    lows = range(start_v + (bottom - start_v) // width * width, top, width)
    for row, low in enumerate(lows, 1):
        u = left - (row * 5 % 11) * product.length // 14
        joints = []
        for cell in range(1000):
            long = product.mix[(row * 2 + cell * (1 + row % 2)) % len(product.mix)][0]
            spots.append(Spot(row, cell, (u, low), (long + product.joint, width), unit_length=long))
            u += long + product.joint
            if u >= right:
                break
            joints.append(u - cross_u)
        inside = tuple(each for each in joints if each > left - cross_u)
        rows.append(RowPlan(row, low, (((left, right), 0),), (inside,)))
    return tuple(rows), spots


def herringbone(product: Product, shape: Polygon, start_v: int, cross_u: int) -> list[Spot]:
    """Flat and upright units over the whole shape, numbered by the column of points."""
    long, wide = product.pitch
    left, bottom, right, top = (round(x) for x in shape.bounds)
    reach = (right - left + top - bottom) // min(long, wide) + 4
    spots = []
    for k in range(-reach, reach + 1):
        for i in range(-reach, reach + 1):
            u, v = cross_u + i * wide + k * long, start_v + i * wide - k * long
            for corner, size, quarter in (
                ((u, v), (long, wide), False),
                ((u + long, v + wide - long), (wide, long), True),
            ):
                far = (corner[0] + size[0], corner[1] + size[1])
                if left < far[0] and corner[0] < right and bottom < far[1] and corner[1] < top:
                    spots.append(Spot(k, i, corner, size, quarter))
    spots = [spot for spot in spots if shape.intersects(box(*spot.corner, *_far(spot)))]
    first = min(spot.row for spot in spots)
    return [replace(spot, row=spot.row - first + 1) for spot in spots]


def _far(spot: Spot) -> Point:
    return spot.corner[0] + spot.size[0], spot.corner[1] + spot.size[1]


def pieces_of(
    area: Area, frame: Frame, shape: Polygon, spots: Iterable[Spot], prefix: str = ""
) -> list[Piece]:
    """The pieces of an area, numbered along each row."""
    sides = [
        (side.name, shapely.LineString([frame.to_frame(side.start), frame.to_frame(side.end)]))
        for side in area.sides
    ]
    found, numbers = [], dict[int, int]()
    for spot in spots:
        for part in polygons(box(*spot.corner, *_far(spot)).intersection(shape)):
            numbers[spot.row] = numbers.get(spot.row, 0) + 1
            name = f"{prefix}{spot.row}-{numbers[spot.row]}"
            found.append(piece(name, spot, part, sides))
    return found


def polygons(shape: shapely.Geometry) -> Iterator[Polygon]:
    for part in shapely.get_parts(shape):
        if isinstance(part, Polygon) and part.area > 1000:
            yield shapely.geometry.polygon.orient(part)


def ring_of(coords: list[tuple[float, ...]]) -> Ring:
    return tuple((round(x), round(y)) for x, y in coords[:-1])


def piece(
    name: str, spot: Spot, shape: Polygon, sides: list[tuple[str, shapely.LineString]]
) -> Piece:
    outline = ring_of(list(shape.exterior.coords))
    holes = tuple(ring_of(list(hole.coords)) for hole in shape.interiors)
    sizes = sizes_of(outline, holes, (*spot.corner, *_far(spot)))
    along, across = sizes.along, sizes.across
    cut = shape.area < spot.size[0] * spot.size[1] - 1000
    touches = [
        where
        for where, side in sides
        if cut and side.buffer(SAME).intersection(shape.boundary).length > 100
    ]
    return Piece(
        name, spot.row, spot.cell, spot.corner, outline, holes, cut,
        across if spot.quarter else along, along if spot.quarter else across,
        sizes.slant, sizes.neck, tuple(dict.fromkeys(touches)), name,
        quarter=spot.quarter, unit_length=spot.unit_length,
    )  # fmt: skip


def share_units(job: Job, product: Product, pieces: list[Piece], start: int = 0) -> list[Piece]:
    """Number the units; a row's last piece leaves an offcut for a later row's first piece."""
    length = product.pitch[0]
    waiting: list[Piece] = []
    units, laid = start, []
    for each in pieces:
        giver = None
        if starts(each, length):
            giver = next((w for w in waiting if fits(w, each, length, product.kerf)), None)
        if giver:
            waiting.remove(giver)
            laid.append(replace(each, unit=giver.unit))
            continue
        units += 1
        fresh = replace(each, unit=f"{unit_letter(job, product)}{units}")
        laid.append(fresh)
        if ends(fresh):
            waiting.append(fresh)
    return laid


def unit_letter(job: Job, product: Product) -> str:
    """U for the units of the first product, V for those of the second and so on."""
    return chr(ord("U") + job.products.index(product))


def starts(each: Piece, length: int) -> bool:
    """Cut square on its left side only, at the whole width."""
    right = max(u for u, _ in each.outline) == each.corner[0] + length
    return right and len(each.outline) == 4 and only_along(each)


def ends(each: Piece) -> bool:
    left = min(u for u, _ in each.outline) == each.corner[0]
    return left and len(each.outline) == 4 and only_along(each)


def only_along(each: Piece) -> bool:
    """Cut across its length only, in a zone of one length laid in rows."""
    plain = not each.quarter and not each.unit_length
    return plain and each.size_along is not None and each.size_across is None


def fits(giver: Piece, taker: Piece, length: int, kerf: int) -> bool:
    return (giver.size_along or length) + (taker.size_along or length) + kerf <= length
