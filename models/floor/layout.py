"""A finished layout as frozen, plain data: what search returns and the papers are made from.

All coordinates are integer ticks in the zone's own frame (u along the rows, v across);
``ZoneLayout.frame`` turns them into the job's axes.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.floor.frame import Frame
from models.job.carve.area import Chosen
from models.job.data import Direction, Job, Kind, Laying, Point, Ring


@dataclass(frozen=True, slots=True)
class Piece:
    """What is laid: a whole unit or a cut one.

    ``row`` counts from 1 at the lowest v; ``cell`` is the unit's place in its row, counted
    along u; ``corner`` the (u, v) of the whole unit's lower left corner. ``size_along``
    and ``size_across`` are the cut sizes along the row and across it, ``size_slant`` the
    largest circle of a piece cut at a slant, ``neck`` the narrowest part beside a notch;
    all in ticks, None where the piece is not cut that way (see ``models.floor.sizes``).
    ``touches`` names the walls, columns and features its edges go to; ``rip_at`` those of
    them along the row and ``end_at`` those across it. ``unit`` names the physical unit the
    piece comes from. ``quarter`` is True for a unit laid a quarter turn to the rows:
    ``size_along`` is then measured square to them. ``unit_length`` is the length of the unit
    without joint where a carton holds several, else 0.
    """

    id: str
    row: int
    cell: int
    corner: tuple[int, int]
    outline: Ring
    holes: tuple[Ring, ...]
    cut: bool
    size_along: int | None
    size_across: int | None
    size_slant: int | None
    neck: int | None
    touches: tuple[str, ...]
    unit: str
    rip_at: tuple[str, ...] = ()
    end_at: tuple[str, ...] = ()
    quarter: bool = False
    unit_length: int = 0

    @property
    def size(self) -> int | None:
        """The cut size: the least of the sizes along, across and at a slant."""
        sizes = (self.size_along, self.size_across, self.size_slant)
        return min((size for size in sizes if size is not None), default=None)


@dataclass(frozen=True, slots=True)
class RowPlan:
    """One row: its lower row line, and the offset of its end joints from the cross line.

    ``runs`` has one entry a run, as ((start u, end u), offset in [0, pitch)). With units of
    several lengths no one offset tells where the joints are: ``joints`` then lists, for each
    run, the distance of every end joint from the cross line.
    """

    row: int
    low: int
    runs: tuple[tuple[tuple[int, int], int], ...]
    joints: tuple[tuple[int, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Verdict:
    """How one rule came out: limit and worst value in ticks (rows for row-counting rules).

    ``key`` is the rule's key in the job file (a key of ``RULE_NAMES``), ``subject`` the
    axis (or the linked zone) it is about, if any; ``zone`` the zone it is measured in.
    ``worst`` is None when nothing in the layout is measured by the rule. ``where`` names
    the place, ``because`` what forces a break (empty when kept).
    """

    key: str
    kind: Kind
    limit: int
    worst: int | None
    kept: bool
    where: str
    because: str
    subject: str = ""
    zone: str = ""


@dataclass(frozen=True, slots=True)
class ZoneLayout:
    """One zone set out; ``laying`` is what the job asks for there.

    ``zone`` is its own name: a border has one zone a side. ``units`` counts the units some
    piece of it is cut from; one shared with another zone counts in both. A herringbone has
    no ``rows``: its pieces alone tell where they lie.

    ``start_v`` is the v of the chalk start line, ``cross_u`` the u of the cross line;
    ``start_row`` the row laid first, on the high side of the start line.
    ``units_at_least`` holds over every start line, direction and offset the job admits.
    ``sides`` has every side of the polygon as (start, end, name of the wall, column, feature
    or zone it goes to), floor on its left. ``mirrors`` names the zone this one is the
    reflection of, if any.
    """

    zone: str
    laying: Laying
    frame: Frame
    direction: Direction
    outer: Ring
    holes: tuple[Ring, ...]
    start_v: int
    cross_u: int
    start_row: int
    rows: tuple[RowPlan, ...]
    pieces: tuple[Piece, ...]
    units: int
    units_at_least: int
    sides: tuple[tuple[Point, Point, str], ...] = ()
    mirrors: str = ""

    @property
    def product(self) -> str:
        """The name of the product laid."""
        return self.laying.product

    @property
    def laying_order(self) -> tuple[int, ...]:
        """Row numbers in the order they are laid: up from the start row, then back down."""
        last = max((piece.row for piece in self.pieces), default=0)
        if self.rows:
            last = self.rows[-1].row
        return (*range(self.start_row, last + 1), *range(self.start_row - 1, 0, -1))

    @property
    def proved(self) -> bool:
        """True when no layout the job admits needs fewer units."""
        return self.units == self.units_at_least


@dataclass(frozen=True, slots=True)
class Need:
    """What a layout needs of one product, over all its zones; spares and breakage apart.

    ``lengths`` lists (length without joint, units) where a carton holds several lengths.
    """

    product: str
    units: int
    units_at_least: int
    laid_area_mm2: float
    waste_percent: float
    spare_units: int
    breakage_units: int
    cartons: int
    cartons_at_least: int
    cost: Fraction | None = None
    lengths: tuple[tuple[int, int], ...] = ()

    @property
    def proved(self) -> bool:
        """True when no layout the job admits needs fewer units."""
        return self.units == self.units_at_least


@dataclass(frozen=True, slots=True)
class Figures:
    """The figures that decide between layouts, over all products and zones.

    ``needs`` has one entry a product, in the job's order; ``cost`` is None without prices.
    ``bought_mm2`` is the area of the units bought, of whole cartons where these hold several
    lengths.

    ``smallest_cut`` in ticks with its place, None when nothing is cut; ``balance`` the
    largest difference between opposite edge cuts in ticks, None when nothing compares;
    ``prominent_cut`` the smallest cut at prominent walls, None when there is none.
    """

    units: int
    units_at_least: int
    cartons: int
    spare_units: int
    laid_area_mm2: float
    waste_percent: float
    smallest_cut: int | None
    smallest_where: str
    cuts: int
    balance: int | None
    broken_must: int
    broken_prefer: int
    prominent_cut: int | None = None
    needs: tuple[Need, ...] = ()
    cost: Fraction | None = None
    bought_mm2: float = 0.0


@dataclass(frozen=True, slots=True)
class Layout:
    """One of the best three: ``best_at`` says in a few words each what it is best at."""

    rank: int
    best_at: tuple[str, ...]
    zones: tuple[ZoneLayout, ...]
    verdicts: tuple[Verdict, ...]
    figures: Figures


@dataclass(frozen=True, slots=True)
class Solution:
    """The best layouts (one to three), and what to tell the user about the search.

    ``job`` is the job with everything it left open decided: border widths, places of
    features. ``chosen`` lists those decisions; all layouts share them. ``notes`` says, for
    example, that fewer than three differ; ``complete`` is False when the search was
    interrupted and this is the best it had.
    """

    job: Job
    layouts: tuple[Layout, ...]
    notes: tuple[str, ...]
    complete: bool
    chosen: tuple[Chosen, ...] = ()
