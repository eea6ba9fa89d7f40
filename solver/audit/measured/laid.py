"""One zone of one layout, turned into the zone's own frame: u along the rows, v across."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely

from solver.audit.document.claims import (
    Bools,
    Claims,
    Floats,
    Ints,
    LaidZoneClaim,
    LayoutClaim,
    PieceClaims,
    ProductClaim,
    Shapes,
    ZoneClaim,
)
from solver.audit.measured.boundary import Boundary, boundary_of
from solver.audit.measured.edges import Edges, Meets, edges_of, meet
from solver.audit.measured.lattice import Lattice, columns_as_rows, lattice_from
from solver.audit.measured.mirrored import is_turned_over
from solver.audit.tolerances import ROUNDING, TOUCH


@dataclass(frozen=True, slots=True)
class Laid:
    """The pieces of one zone as laid, in mm in the zone's frame.

    ``area`` is the zone, ``shapes`` its pieces with their ``bounds`` (n, 4), ``areas`` and
    ``edges``. ``unit`` (n, 2) is how far the unit of each reaches along u and v. ``whole``
    tells the pieces that are whole units, ``oblong`` the rectangles. ``joints`` are the
    places where two pieces meet end to end, ``seams`` where they meet across a row line.
    ``row_zero`` is the v of a row line and ``rows`` each piece's row by its place, counted
    from 1 at the lowest; in a herringbone, which has a ``lattice`` instead, they are the
    columns of its points.
    """

    rank: int
    zone: ZoneClaim
    product: ProductClaim
    claim: LaidZoneClaim
    pieces: PieceClaims
    area: shapely.Polygon
    shapes: Shapes
    bounds: Floats
    areas: Floats
    unit: Floats
    whole: Bools
    oblong: Bools
    edges: Edges
    boundary: Boundary
    joints: Meets
    seams: Meets
    row_zero: float
    rows: Ints
    lattice: Lattice | None

    @property
    def in_rows(self) -> bool:
        """Whether units lie in rows (and not in a herringbone)."""
        return self.zone.in_rows

    @property
    def mixed(self) -> bool:
        """Whether units are of several lengths."""
        return bool(self.product.lengths)

    @property
    def pitch(self) -> tuple[float, float]:
        """Unit length and width with one joint."""
        return self.product.pitch

    @property
    def height(self) -> Floats:
        """The v of each piece's lower row line, by its measured row."""
        return np.asarray(self.row_zero + (self.rows - 1) * self.pitch[1], dtype=np.float64)

    def label(self, place: int) -> str:
        """A piece as the document names it, for findings."""
        return f"piece {self.pieces.ids[place]} (row {self.pieces.row[place]})"


def into_frame(claim: LaidZoneClaim) -> Callable[[Floats], Floats]:
    """The function that turns job points (n, 2) into the zone's frame."""
    turn = math.radians(claim.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    x0, y0 = claim.origin

    def turned(points: Floats) -> Floats:
        x, y = points[:, 0] - x0, points[:, 1] - y0
        return np.column_stack([x * cos + y * sin, y * cos - x * sin])

    return turned


def out_of_frame(claim: LaidZoneClaim) -> Callable[[Floats], Floats]:
    """The function that turns points (n, 2) of the zone's frame into job axes."""
    turn = math.radians(claim.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)

    def turned(points: Floats) -> Floats:
        u, v = points[:, 0], points[:, 1]
        x0, y0 = claim.origin
        return np.column_stack([x0 + u * cos - v * sin, y0 + u * sin + v * cos])

    return turned


def lay(claims: Claims, layout: LayoutClaim, claim: LaidZoneClaim) -> Laid:
    """The pieces of a zone in its frame; every polygon must be valid."""
    zone = claims.zones[claim.zone]
    product = claims.products[zone.product]
    pieces = pieces_in(layout.pieces, claim.zone)
    turned = into_frame(claim)
    area = shapely.transform(zone.polygon, turned)
    shapes: Shapes = shapely.transform(pieces.shapes, turned)
    bounds, areas, edges = shapely.bounds(shapes), shapely.area(shapes), edges_of(shapes)
    box = (bounds[:, 2] - bounds[:, 0]) * (bounds[:, 3] - bounds[:, 1])
    oblong = (np.abs(box - areas) <= _slack(product)) & ~_has_slants(edges, len(areas))
    unit = _units(pieces, product)
    whole = oblong & _is_whole(bounds, unit)
    seams = meet(edges, 1)
    lattice, row_zero, rows = None, 0.0, pieces.row
    if zone.in_rows:
        row_zero, rows = _rows(seams, bounds, turned(claim.start_line)[0, 1], product.pitch[1])
    else:
        lattice = _lattice(claims, zone, product, pieces, bounds, unit, whole)
        _, column = lattice.nearest(lattice.plain(pieces.corner, unit), pieces.quarter)
        rows = columns_as_rows(column, pieces.row)
    return Laid(
        layout.rank, zone, product, claim, pieces, area, shapes, bounds, areas, unit, whole, oblong,
        edges, boundary_of(claims, zone, area, turned), meet(edges, 0), seams, row_zero, rows,
        lattice,
    )  # fmt: skip


def _rows(seams: Meets, bounds: Floats, start_v: float, width: float) -> tuple[float, Ints]:
    """The v of the lowest row line, and the row of every piece by its place."""
    zero = _row_zero(seams, start_v, width)
    rows = np.floor(((bounds[:, 1] + bounds[:, 3]) / 2 - zero) / width).astype(np.int64)
    lowest = int(rows.min())
    return zero + lowest * width, rows - lowest + 1


def _lattice(
    claims: Claims, zone: ZoneClaim, product: ProductClaim, pieces: PieceClaims,
    bounds: Floats, unit: Floats, whole: Bools,
) -> Lattice:  # fmt: skip
    """The pattern of a herringbone: from its whole units, or where there are none as claimed."""
    halves = 2 if zone.double else 1
    empty = Lattice(*product.pitch, halves, is_turned_over(claims, zone.name))
    if whole.any():
        return lattice_from(empty, bounds[whole, :2], unit[whole], pieces.quarter[whole])
    return lattice_from(empty, pieces.corner, unit, pieces.quarter)


def _units(pieces: PieceClaims, product: ProductClaim) -> Floats:
    """How far the unit of each piece reaches along u and v, joint included."""
    length = np.full(len(pieces), product.pitch[0])
    if product.lengths:
        length = pieces.unit_length + product.joint
    width = np.full(len(pieces), product.pitch[1])
    quarter = pieces.quarter
    return np.column_stack([np.where(quarter, width, length), np.where(quarter, length, width)])


def pieces_in(pieces: PieceClaims, zone: str) -> PieceClaims:
    """The pieces of one zone."""
    return pieces.take(np.flatnonzero(np.array(pieces.zone, dtype=object) == zone))


def _slack(product: ProductClaim) -> float:
    """Area in mm2 that rounding to six decimals can make: nothing a saw can cut."""
    return 1e-5 * sum(product.pitch)


def _has_slants(edges: Edges, count: int) -> Bools:
    """Which pieces have a side that is not along or square to the rows, however short."""
    step = np.abs(edges.end - edges.start)
    found = np.zeros(count, dtype=np.bool_)
    found[edges.piece[step.min(axis=1) > ROUNDING]] = True
    return found


def _is_whole(bounds: Floats, unit: Floats) -> Bools:
    """Boxes as large as a unit, to less than any cut."""
    over = np.abs(bounds[:, 2:] - bounds[:, :2] - unit)
    return np.asarray(over.max(axis=1) <= ROUNDING, dtype=np.bool_)


def _row_zero(seams: Meets, start_v: float, width: float) -> float:
    """The v of a row line: the commonest of the places where pieces of two rows meet.

    The start line is only where to look from, so that a wrong one is found out.
    """
    if not len(seams.at):
        return start_v
    beside = (seams.at - start_v + width / 2) % width - width / 2
    # Rows half a unit off the start line would wrap round: look from the first seam then.
    if np.ptp(beside) > TOUCH:
        beside = beside[0] + (beside - beside[0] + width / 2) % width - width / 2
    return start_v + float(np.median(beside))
