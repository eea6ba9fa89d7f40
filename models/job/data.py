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
class Feature:
    """An inset, medallion or fitting held on an axis; the field is cut round its outline.

    ``round_diameter`` is set for a circle, whose outline is then a polygon of equal sides.
    ``tolerance`` is how far off its axis the centre may be before the designer's verdict
    is "off".
    """

    name: str
    axis: str
    centre: Point
    outline: Ring
    tolerance: int
    round_diameter: int | None = None


@dataclass(frozen=True, slots=True)
class Product:
    """A plank or tile as it leaves the carton.

    ``joint`` is the width left between two units (0 when butted), ``kerf`` what one cut
    eats. ``directional`` forbids turning a unit. ``tolerance`` is the maker's size tolerance.
    """

    name: str
    length: int
    width: int
    joint: int = 0
    kerf: int = 0
    per_carton: int = 1
    directional: bool = True
    tolerance: int = 0

    @property
    def pitch(self) -> tuple[int, int]:
        """Length and width with one joint: the distances from line to line, in ticks."""
        return self.length + self.joint, self.width + self.joint


class BondKind(Enum):
    """How rows sit to each other."""

    STAGGERED = "staggered"
    STRAIGHT = "straight"
    STEPPED = "stepped"


@dataclass(frozen=True, slots=True)
class Bond:
    """A bond; ``step`` is the shift of each row as a fraction of the unit (stepped only)."""

    kind: BondKind
    step: Fraction = Fraction(0)


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
}


@dataclass(frozen=True, slots=True)
class Field:
    """The zone the search sets out: what is laid, in which bond, directions and rules."""

    name: str
    product: str
    bond: Bond
    directions: tuple[Direction, ...]
    rules: Rules


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
    None for a room given by corners or closed by calculation. Spare stock is ``spare_units``
    plus ``spare_percent`` of the units laid, rounded up. ``notes`` are things the reader
    changed or assumed, in words for the user.
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
    field: Field
    spare_percent: Fraction = Fraction(0)
    spare_units: int = 0
    closure: Closure | None = None
    notes: tuple[str, ...] = ()

    def product_of(self, field: Field) -> Product:
        """The product laid in a field."""
        return next(product for product in self.products if product.name == field.product)
