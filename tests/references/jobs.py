"""Small jobs built straight from data, for the checks against outside references."""

from __future__ import annotations

from fractions import Fraction

from models.job.data import (
    Bond,
    BondKind,
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

FREE = Bond(BondKind.STAGGERED)
STRAIGHT = Bond(BondKind.STRAIGHT)
ALONG_X = Direction("along the x axis", (1, 0))
ALONG_Y = Direction("along the y axis", (0, 1))


def make_job(
    room: Ring,
    product: Product,
    bond: Bond = FREE,
    rules: Rules | None = None,
    tape_step: int = TICKS_PER_INCH,
    directions: tuple[Direction, ...] = (ALONG_X,),
    spare: tuple[int, int] = (0, 0),
) -> Job:
    """A job with one field and nothing in the way; ``spare`` is units and percent."""
    corners = zip(room, (*room[1:], room[0]), strict=True)
    return Job(
        name="reference room",
        system=System.IMPERIAL,
        tape_step=tape_step,
        room=room,
        walls=tuple(Wall(f"wall {i}", a, b) for i, (a, b) in enumerate(corners, start=1)),
        columns=(),
        doors=(),
        axes=(),
        features=(),
        products=(product,),
        zones=(Laying("field", product.name, bond, directions, rules or Rules()),),
        spare_units=spare[0],
        spare_percent=Fraction(spare[1]),
    )


def box(width: int, height: int) -> Ring:
    """A rectangle in ticks."""
    return ((0, 0), (width, 0), (width, height), (0, height))


def must(ticks: int) -> Limit | None:
    """A rule that must hold, or none for 0."""
    return Limit(Kind.MUST, ticks) if ticks else None
