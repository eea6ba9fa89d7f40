"""What a layouts.json document claims, as frozen data; lengths in mm, job axes.

Pieces are held as columns, one entry a piece, because there may be many thousands.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import numpy.typing as npt
import shapely

from models.job.data import BondKind

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]
Bools = npt.NDArray[np.bool_]
Shapes = npt.NDArray[np.object_]
"""An array of shapely polygons."""


@dataclass(frozen=True, slots=True)
class ProductClaim:
    """A product; ``pitch`` is length and width with one joint.

    ``lengths`` has (length, units of it a carton) where a carton holds several; ``length``
    is then the longest. ``scrap`` is the least offcut worth keeping, ``shop_cuts`` allows
    cut edges at joints, ``price`` is that of a carton.
    """

    name: str
    length: float
    width: float
    joint: float
    kerf: float
    per_carton: int
    directional: bool
    lengths: tuple[tuple[float, int], ...] = ()
    scrap: float = 0.0
    shop_cuts: bool = False
    price: float | None = None

    @property
    def pitch(self) -> tuple[float, float]:
        """Distances from line to line, along and across, in mm."""
        return self.length + self.joint, self.width + self.joint


@dataclass(frozen=True, slots=True)
class AxisClaim:
    """A line through ``point`` along ``direction`` (of any length)."""

    name: str | None
    point: tuple[float, float]
    direction: tuple[float, float]


@dataclass(frozen=True, slots=True)
class MirrorClaim:
    """A zone is the reflection of ``zone`` about ``axis``."""

    zone: str
    axis: AxisClaim


@dataclass(frozen=True, slots=True)
class SideClaim:
    """One side of a zone (2, 2) and the wall, column, feature or zone it goes to."""

    line: Floats
    name: str


@dataclass(frozen=True, slots=True)
class ZoneClaim:
    """A zone to be tiled; ``step`` is the shift of each row in units (stepped bond only).

    ``double`` is a herringbone of pairs; ``turned`` tells quarter-turned marks, None when
    the document says nothing of marks. ``sides`` is None when it does not name them;
    ``trim`` is the width of the strip between the zone and its neighbours.
    """

    name: str
    product: str
    bond: BondKind
    step: Fraction
    polygon: shapely.Polygon
    double: bool = False
    turned: bool | None = None
    mirrors: MirrorClaim | None = None
    sides: tuple[SideClaim, ...] | None = None
    trim: float = 0.0

    @property
    def in_rows(self) -> bool:
        """Whether its units lie in rows."""
        return self.bond is not BondKind.HERRINGBONE


@dataclass(frozen=True, slots=True)
class LinkClaim:
    """Two zones said to lie on one set of lines: "row lines" or "joints"."""

    zones: tuple[str, str]
    share: str


@dataclass(frozen=True, slots=True)
class FeatureClaim:
    """A held feature and how far it is said to be off its axis."""

    name: str
    polygon: shapely.Polygon
    axis: AxisClaim
    off_axis: float


@dataclass(frozen=True, slots=True)
class RunClaim:
    """A run as (from, to) along u, and where its end joints fall, in the zone's frame."""

    start: float
    end: float
    offset: float


@dataclass(frozen=True, slots=True)
class RowClaim:
    """A row: its number, its lower row line's v and its runs.

    ``joints`` has the places of the end joints of each run, None when they are not listed.
    """

    row: int
    low: float
    runs: tuple[RunClaim, ...]
    joints: tuple[tuple[float, ...], ...] | None = None


@dataclass(frozen=True, slots=True)
class LaidZoneClaim:
    """One zone set out: its frame (angle, origin), chalk lines, rows and unit counts."""

    zone: str
    angle_deg: float
    origin: tuple[float, float]
    start_line: Floats
    cross_line: Floats
    start_row: int
    rows: tuple[RowClaim, ...]
    units: int
    units_at_least: int
    proved: bool


SIZE_KEYS = ("along", "across", "slant", "neck")


@dataclass(frozen=True, slots=True)
class PieceClaims:
    """Pieces as columns: what each touches, along the row (``rip_at``) and across (``end_at``).

    Without those two keys all that is touched counts both ways. ``corner`` is (n, 2);
    ``sizes`` (n, 4) by SIZE_KEYS, nan for none. ``quarter`` tells units laid a quarter turn
    to the rows; ``unit_length`` is 0 where all units are of one length. ``cell`` is None
    when the document does not number the units of a row.
    """

    ids: tuple[str, ...]
    zone: tuple[str, ...]
    unit: tuple[str, ...]
    touches: tuple[tuple[str, ...], ...]
    rip_at: tuple[tuple[str, ...], ...]
    end_at: tuple[tuple[str, ...], ...]
    row: Ints
    cut: Bools
    corner: Floats
    sizes: Floats
    shapes: Shapes
    quarter: Bools
    unit_length: Floats
    cell: Ints | None

    def __len__(self) -> int:
        """How many pieces there are."""
        return len(self.ids)

    def take(self, chosen: Ints) -> PieceClaims:
        """The chosen pieces, in that order."""
        places = chosen.tolist()
        return PieceClaims(
            tuple(self.ids[i] for i in places),
            tuple(self.zone[i] for i in places),
            tuple(self.unit[i] for i in places),
            tuple(self.touches[i] for i in places),
            tuple(self.rip_at[i] for i in places),
            tuple(self.end_at[i] for i in places),
            self.row[chosen],
            self.cut[chosen],
            self.corner[chosen],
            self.sizes[chosen],
            self.shapes[chosen],
            self.quarter[chosen],
            self.unit_length[chosen],
            None if self.cell is None else self.cell[chosen],
        )


@dataclass(frozen=True, slots=True)
class RuleClaim:
    """One rule's outcome; ``on`` is what is centred, when the document says so.

    ``zone`` is where it is measured, None (a document of the old form) for everywhere.
    """

    rule: str
    key: str
    subject: str
    must: bool
    limit: float
    worst: float | None
    kept: bool
    on: str | None
    zone: str | None = None


@dataclass(frozen=True, slots=True)
class OrderClaim:
    """One product's line of the order.

    The last five are those of documents that tell breakage and cost; ``cartons_at_least``
    is None in one that does not. ``lengths`` has (length, units of it); ``spare_cartons``
    is None when the document does not tell them.
    """

    product: str
    units: int
    units_at_least: int
    proved: bool
    spare_units: int
    cartons: int
    laid_area_m2: float
    waste_percent: float
    breakage_units: int = 0
    cartons_at_least: int | None = None
    cost: float | None = None
    lengths: tuple[tuple[float, int], ...] = ()
    spare_cartons: int | None = None


@dataclass(frozen=True, slots=True)
class FiguresClaim:
    """The figures shown beside a layout."""

    units: int
    units_at_least: int
    cartons: int
    spare_units: int
    smallest_cut: float | None
    cuts: int
    balance: float | None
    broken_must: int
    broken_prefer: int
    waste_percent: float
    cost: float | None = None


@dataclass(frozen=True, slots=True)
class SeamClaim:
    """Where two zones meet: ``length`` and ``trim`` in mm, what pieces of each show there."""

    zones: tuple[str, str]
    length: float
    edges: tuple[str, str]
    trim: float


@dataclass(frozen=True, slots=True)
class LayoutClaim:
    """One layout of the document; ``seams`` is None when it does not tell of any."""

    rank: int
    zones: tuple[LaidZoneClaim, ...]
    pieces: PieceClaims
    order: tuple[OrderClaim, ...]
    rules: tuple[RuleClaim, ...]
    figures: FiguresClaim
    seams: tuple[SeamClaim, ...] | None = None


@dataclass(frozen=True, slots=True)
class Claims:
    """A whole document. ``axes`` and ``hidden_walls`` are None when it does not give them."""

    zones: dict[str, ZoneClaim]
    products: dict[str, ProductClaim]
    features: tuple[FeatureClaim, ...]
    axes: tuple[AxisClaim, ...] | None
    hidden_walls: frozenset[str] | None
    layouts: tuple[LayoutClaim, ...]
    links: tuple[LinkClaim, ...] = ()
