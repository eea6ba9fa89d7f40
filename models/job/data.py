"""The job as frozen, plain data: what the reader returns and everything else starts from.

Lengths and coordinates are integer ticks (see ``models.lengths``), in the job's own axes:
x to the right, y up, as the outline was given.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from models.lengths import System

Point = tuple[int, int]
"""x and y in ticks."""

Ring = tuple[Point, ...]
"""A closed outline, first corner not repeated, counter-clockwise."""


class Sight(Enum):
    """How much a wall's edge cuts are seen."""

    PLAIN = "plain"
    PROMINENT = "prominent"
    HIDDEN = "hidden"


@dataclass(frozen=True, slots=True)
class Wall:
    """One straight wall of the room, from ``start`` to ``end`` with the floor on its left."""

    name: str
    start: Point
    end: Point
    sight: Sight = Sight.PLAIN


@dataclass(frozen=True, slots=True)
class Column:
    """A column or other obstacle the floor goes round."""

    name: str
    outline: Ring


@dataclass(frozen=True, slots=True)
class Door:
    """A door opening: its two jambs, as points on a named wall."""

    name: str
    wall: str
    jambs: tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Axis:
    """A line something is centred on: through ``point`` along ``direction`` (any length)."""

    name: str
    point: Point
    direction: Point


@dataclass(frozen=True, slots=True)
class Extent:
    """A length the search may choose: ``low`` to ``high`` in ticks, equal when it is given.

    ``step`` is what it is chosen in: a whole number of units, say. With 0 it is a whole
    number of tape steps, or what makes an edge fall exactly on a line.
    """

    low: int
    high: int
    step: int = 0

    @property
    def free(self) -> bool:
        """True when there is something to choose."""
        return self.low != self.high


@dataclass(frozen=True, slots=True)
class Feature:
    """An inset, medallion or fitting held on an axis; the field is cut round its outline.

    ``round_diameter`` is set for a circle, whose outline is then a polygon of equal sides.
    ``tolerance`` is how far off its axis the centre may be before the designer's verdict
    is "off". ``slide`` is set for a feature free to move along its axis: the range of its
    centre's distance from the axis' point. Until one is chosen it lies at the low end.
    """

    name: str
    axis: str
    centre: Point
    outline: Ring
    tolerance: int
    round_diameter: int | None = None
    slide: Extent | None = None


@dataclass(frozen=True, slots=True)
class Product:
    """A plank or tile as it leaves the carton.

    ``joint`` is the width left between two units (0 when butted), ``kerf`` what one cut
    eats. ``directional`` forbids turning a unit. ``tolerance`` is the maker's size tolerance.
    ``mix`` is set when a carton holds units of several lengths: each length and how many
    of it a carton holds, longest first; ``length`` is then the longest. ``scrap`` is the
    least size of an offcut worth keeping; ``shop_cuts`` allows cut edges at joints.
    ``price`` is that of a carton.
    """

    name: str
    length: int
    width: int
    joint: int = 0
    kerf: int = 0
    per_carton: int = 1
    directional: bool = True
    tolerance: int = 0
    mix: tuple[tuple[int, int], ...] = ()
    scrap: int = 0
    shop_cuts: bool = False
    price: Fraction | None = None

    @property
    def pitch(self) -> tuple[int, int]:
        """Length and width with one joint: the distances from line to line, in ticks."""
        return self.length + self.joint, self.width + self.joint


class BondKind(Enum):
    """How rows sit to each other."""

    STAGGERED = "staggered"
    STRAIGHT = "straight"
    STEPPED = "stepped"
    HERRINGBONE = "herringbone"


@dataclass(frozen=True, slots=True)
class Bond:
    """A bond; ``step`` is the shift of each row as a fraction of the unit (stepped only).

    In a herringbone units lie square to each other and the line of its points runs along
    the direction given; ``slant`` is the angle in degrees between units and that line, 45
    or 90 (units along and square to it). ``double`` lays them in pairs.
    """

    kind: BondKind
    step: Fraction = Fraction(0)
    slant: int = 45
    double: bool = False


@dataclass(frozen=True, slots=True)
class Direction:
    """A direction rows may run in: a vector of any length, and the words it was given in."""

    label: str
    vector: Point


class Kind(Enum):
    """Whether a rule must hold or is preferred."""

    MUST = "must"
    PREFER = "prefer"


class CentreOn(Enum):
    """What may lie on the axis a field is centred on."""

    JOINT = "joint"
    UNIT = "unit"
    EITHER = "either"


@dataclass(frozen=True, slots=True)
class Limit:
    """One rule's kind and its limit in ticks (or in rows, where the rule counts rows)."""

    kind: Kind
    limit: int


@dataclass(frozen=True, slots=True)
class Centred:
    """The field's lines held on an axis."""

    kind: Kind
    axis: str
    on: CentreOn


@dataclass(frozen=True, slots=True)
class Rules:
    """The rules a layout is judged by; None means the rule is not asked for.

    Sizes are in ticks. See ``RULE_NAMES`` for what each is called on paper.

    - ``smallest_cut``: least cut size of any piece.
    - ``half_unit_edges``: rips of half a unit or more, except at hidden walls; in a straight
      bond end cuts too, judged apart as ``half_unit_ends``. Its ``limit`` is not used.
    - ``smallest_end``: least length along the row of a row's first and last pieces.
    - ``joint_offset``: least distance between end joints of neighbouring rows.
    - ``second_joint_offset``: the same to the row after next, against an H pattern.
    - ``no_stair``: at most ``limit`` equal shifts one after another.
    - ``balanced_cuts``: largest difference between the two opposite edge cuts.
    - ``reuse_within``: an offcut is used at most ``limit`` rows from where it was cut.
    - ``tape_tolerance``: every cut limit still holds after a wall moves this much.
    - ``centred``: a row line, joint or unit centre lies on an axis.
    """

    smallest_cut: Limit | None = None
    half_unit_edges: Limit | None = None
    smallest_end: Limit | None = None
    joint_offset: Limit | None = None
    second_joint_offset: Limit | None = None
    no_stair: Limit | None = None
    balanced_cuts: Limit | None = None
    reuse_within: Limit | None = None
    tape_tolerance: Limit | None = None
    centred: tuple[Centred, ...] = ()


RULE_NAMES = {
    "smallest_cut": "smallest cut",
    "half_unit_edges": "half-unit edge cuts",
    "half_unit_ends": "half-unit end cuts",
    "smallest_end": "smallest end piece",
    "joint_offset": "end joints apart, next row",
    "second_joint_offset": "end joints apart, row after next",
    "no_stair": "no repeating stair",
    "balanced_cuts": "balanced opposite cuts",
    "reuse_within": "offcuts reused within rows",
    "tape_tolerance": "cuts hold after tape error",
    "centred": "centred on axis",
    "linked": "on the lines of the zone beside",
    "mirrored": "mirror image",
}


class Marks(Enum):
    """How the direction marks on the backs of units lie to each other."""

    ONE_WAY = "one way"
    QUARTER_TURNED = "quarter-turned"


@dataclass(frozen=True, slots=True)
class Outline:
    """A zone given by its corners."""

    ring: Ring


@dataclass(frozen=True, slots=True)
class Border:
    """A zone along walls, or round a feature: one strip a side, each laid along its side.

    ``walls`` are names of walls, in the order of ``Job.walls``; empty round a ``feature``.
    ``mitred`` corners are cut along their bisector, butted ones run the longer side through.
    """

    width: Extent
    walls: tuple[str, ...] = ()
    feature: str = ""
    mitred: bool = False


@dataclass(frozen=True, slots=True)
class Band:
    """A zone across the whole floor between two lines along ``direction``.

    ``near`` and ``far`` are their distances to the left of the line through ``point``.
    """

    point: Point
    direction: Point
    near: int
    far: int


@dataclass(frozen=True, slots=True)
class Fill:
    """A zone that fills a held feature."""

    feature: str


@dataclass(frozen=True, slots=True)
class Mirror:
    """A zone that is the reflection of another about an axis, piece for piece."""

    zone: str
    axis: str


@dataclass(frozen=True, slots=True)
class Rest:
    """What no other zone takes: the part of it that holds ``at``, or all there is."""

    at: Point | None = None


Shape = Outline | Border | Band | Fill | Mirror | Rest


@dataclass(frozen=True, slots=True)
class Laying:
    """One zone as the job asks for it: where, what is laid, in which bond and directions.

    ``trim`` is the width of the strip left between the zone and its neighbours, which
    belongs to neither; it lies outside the zone's own shape.
    """

    name: str
    product: str
    bond: Bond
    directions: tuple[Direction, ...]
    rules: Rules
    shape: Shape = Rest()
    marks: Marks = Marks.ONE_WAY
    trim: int = 0


class Share(Enum):
    """What two linked zones have in common."""

    ROW_LINES = "row lines"
    JOINTS = "joints"


@dataclass(frozen=True, slots=True)
class Link:
    """Two zones laid on one set of lines: the second goes on from the first."""

    first: str
    second: str
    share: Share


@dataclass(frozen=True, slots=True)
class Closure:
    """By how much a walk along the walls failed to come back to its start, in ticks."""

    dx: int
    dy: int
    walked: int


@dataclass(frozen=True, slots=True)
class Job:
    """A whole job, checked: everything in it can be laid out.

    ``walls`` follow ``room`` (wall i runs from corner i to corner i + 1). ``closure`` is
    None for a room given by corners or closed by calculation. ``zones`` lists every zone,
    the field last. Spare stock is ``spare_units`` plus ``spare_percent`` of the units laid,
    rounded up, and one carton for every ``spare_carton_per`` cartons or fraction (0: none).
    ``breakage_percent`` of the units laid is bought on top for breakage. ``currency`` goes
    before prices. ``notes`` are things the reader changed or assumed, in words for the user.
    """

    name: str
    system: System
    tape_step: int
    room: Ring
    walls: tuple[Wall, ...]
    columns: tuple[Column, ...]
    doors: tuple[Door, ...]
    axes: tuple[Axis, ...]
    features: tuple[Feature, ...]
    products: tuple[Product, ...]
    zones: tuple[Laying, ...]
    links: tuple[Link, ...] = ()
    spare_percent: Fraction = Fraction(0)
    spare_units: int = 0
    spare_carton_per: int = 0
    breakage_percent: Fraction = Fraction(0)
    currency: str = ""
    closure: Closure | None = None
    notes: tuple[str, ...] = ()

    @property
    def field(self) -> Laying:
        """The zone that takes what the others leave."""
        return self.zones[-1]

    def product_of(self, laying: Laying) -> Product:
        """The product laid in a zone."""
        return next(product for product in self.products if product.name == laying.product)
