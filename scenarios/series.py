"""The benchmark series: invented halls of growing area, all laid in the same plank.

Each hall is a rectangle with a recess in its far wall and a row of columns, one a thousand
square feet begun. Sizes come from the area alone, so every run measures the same rooms.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from models.job.data import (
    Bond,
    BondKind,
    Column,
    Direction,
    Job,
    Kind,
    Laying,
    Limit,
    Product,
    Ring,
    Rules,
    Wall,
)
from models.lengths import TICKS_PER_INCH, System

AREAS = (100, 200, 500, 1000, 2000, 5000, 10_000)
"""Areas of the series, in square feet; a hall comes within a few per cent of its own."""

SIXTEENTH = TICKS_PER_INCH // 16
COLUMN = 16 * TICKS_PER_INCH
RECESS = 20 * TICKS_PER_INCH
NAMES = (
    "long wall",
    "right wall",
    "far right",
    "recess right",
    "recess back",
    "recess left",
    "far left",
    "left wall",
)

PLANK = Product(
    "Driftwood plank 48 x 6",
    length=48 * TICKS_PER_INCH,
    width=6 * TICKS_PER_INCH,
    kerf=TICKS_PER_INCH // 8,
    per_carton=16,
)


def hall(square_feet: int) -> Job:
    """One hall of about ``square_feet``; ValueError below 20, too small for its recess."""
    if square_feet < 20:
        raise ValueError(f"a hall of {square_feet} sq ft is too small; 20 is the least")
    room = _room(square_feet)
    corners = zip(NAMES, room, (*room[1:], room[0]), strict=True)
    return Job(
        name=f"Tern House hall of {square_feet} sq ft",
        system=System.IMPERIAL,
        tape_step=SIXTEENTH,
        room=room,
        walls=tuple(Wall(name, start, end) for name, start, end in corners),
        columns=tuple(_columns(square_feet, room)),
        doors=(),
        axes=(),
        features=(),
        products=(PLANK,),
        zones=(Laying("field", PLANK.name, Bond(BondKind.STAGGERED), _directions(), _rules()),),
    )


def series() -> tuple[Job, ...]:
    """Every hall of the series, smallest first."""
    return tuple(hall(area) for area in AREAS)


def _room(square_feet: int) -> Ring:
    """Five by four, to odd sixteenths so that nothing comes out in whole units by chance."""
    side = math.isqrt(square_feet * 144 * 256 // 20)
    width, depth = ((5 * side) | 1) * SIXTEENTH, ((4 * side) | 1) * SIXTEENTH
    left, right = _sixteenths(2 * width // 5), _sixteenths(3 * width // 5)
    far = depth + RECESS
    return (
        (0, 0),
        (width, 0),
        (width, depth),
        (right, depth),
        (right, far),
        (left, far),
        (left, depth),
        (0, depth),
    )


def _columns(square_feet: int, room: Ring) -> Iterator[Column]:
    """Columns evenly along the room, a little off its middle."""
    width, depth = room[2]
    count = -(-square_feet // 1000)
    y = _sixteenths(3 * depth // 7)
    for place in range(1, count + 1):
        x = _sixteenths(place * width // (count + 1))
        outline = ((x, y), (x + COLUMN, y), (x + COLUMN, y + COLUMN), (x, y + COLUMN))
        yield Column(f"column {place}", outline)


def _sixteenths(ticks: int) -> int:
    """The next sixteenth of an inch below."""
    return ticks // SIXTEENTH * SIXTEENTH


def _directions() -> tuple[Direction, ...]:
    return Direction("along long wall", (1, 0)), Direction("along right wall", (0, 1))


def _rules() -> Rules:
    def limit(kind: Kind, inches: int) -> Limit:
        return Limit(kind, inches * TICKS_PER_INCH)

    return Rules(
        smallest_cut=limit(Kind.MUST, 2),
        half_unit_edges=Limit(Kind.PREFER, 0),
        smallest_end=limit(Kind.MUST, 8),
        joint_offset=limit(Kind.MUST, 6),
        second_joint_offset=limit(Kind.PREFER, 2),
        no_stair=Limit(Kind.PREFER, 3),
        balanced_cuts=limit(Kind.PREFER, 1),
    )
