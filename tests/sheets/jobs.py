"""Invented jobs for the papers: a plank reading room in inches and a tile galley in mm."""

from __future__ import annotations

from fractions import Fraction

from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Centred,
    CentreOn,
    Column,
    Direction,
    Door,
    Feature,
    Job,
    Kind,
    Laying,
    Limit,
    Point,
    Product,
    Ring,
    Rules,
    Sight,
    Wall,
)
from models.lengths import System, parse


def inch(text: str) -> int:
    return parse(text, "in")


def mm(text: str) -> int:
    return parse(text, "mm")


def walls(ring: Ring, names: list[str], sights: dict[str, Sight] | None = None) -> tuple[Wall, ...]:
    ends = ring[1:] + ring[:1]
    return tuple(
        Wall(name, start, end, (sights or {}).get(name, Sight.PLAIN))
        for name, start, end in zip(names, ring, ends, strict=True)
    )


def rectangle(low: Point, high: Point) -> Ring:
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def plank_job() -> Job:
    """An L-shaped reading room in planks: one column, one feature on an axis."""
    room = (
        (0, 0), (inch("24'"), 0), (inch("24'"), inch("11' 7\"")),
        (inch("15' 2\""), inch("11' 7\"")), (inch("15' 2\""), inch("17' 9-1/2\"")),
        (0, inch("17' 9-1/2\"")),
    )  # fmt: skip
    names = ["sea wall", "lane wall", "step", "return", "garden wall", "hall wall"]
    axis = Axis("door axis", (inch("7' 6\""), 0), (0, 1))
    centre = (inch("7' 6\""), inch("9'"))
    rose = rectangle(
        (centre[0] - inch("15"), centre[1] - inch("15")),
        (centre[0] + inch("15"), centre[1] + inch("15")),
    )
    return Job(
        name="Tern House: Reading room",
        system=System.IMPERIAL,
        tape_step=inch("1/16"),
        room=room,
        walls=walls(room, names, {"sea wall": Sight.PROMINENT, "return": Sight.HIDDEN}),
        columns=(
            Column(
                "post", rectangle((inch("17'"), inch("6'")), (inch("17' 10\""), inch("6' 10\"")))
            ),
        ),
        doors=(Door("street door", "sea wall", ((inch("6'"), 0), (inch("9'"), 0))),),
        axes=(axis,),
        features=(Feature("compass", axis.name, centre, rose, inch("1/8")),),
        products=(
            Product(
                "Driftwood plank 48 x 6", inch("48"), inch("6"), kerf=inch("1/8"), per_carton=12
            ),
        ),
        zones=(
            Laying(
                "field",
                "Driftwood plank 48 x 6",
                Bond(BondKind.STAGGERED),
                (Direction("along sea wall", (1, 0)), Direction("along hall wall", (0, 1))),
                Rules(
                    smallest_cut=Limit(Kind.MUST, inch("2")),
                    smallest_end=Limit(Kind.MUST, inch("8")),
                    joint_offset=Limit(Kind.MUST, inch("6")),
                    half_unit_edges=Limit(Kind.PREFER, 0),
                ),
            ),
        ),
        spare_percent=Fraction(5),
    )


def tile_job() -> Job:
    """A metric galley in tiles, straight bond, one wall off square."""
    room = ((0, 0), (mm("4620"), 0), (mm("4655"), mm("3210")), (0, mm("3180")))
    axis = Axis("hatch axis", (mm("2310"), 0), (0, 1))
    return Job(
        name="Tern House: Galley",
        system=System.METRIC,
        tape_step=mm("1"),
        room=room,
        walls=walls(room, ["quay wall", "net wall", "lamp wall", "stair wall"]),
        columns=(),
        doors=(Door("hatch", "quay wall", ((mm("1900"), 0), (mm("2720"), 0))),),
        axes=(axis,),
        features=(),
        products=(Product("Shingle tile 450", mm("450"), mm("450"), mm("2"), mm("3"), 10, False),),
        zones=(
            Laying(
                "field",
                "Shingle tile 450",
                Bond(BondKind.STRAIGHT),
                (Direction("along quay wall", (1, 0)),),
                Rules(
                    smallest_cut=Limit(Kind.MUST, mm("60")),
                    half_unit_edges=Limit(Kind.PREFER, 0),
                    centred=(Centred(Kind.PREFER, axis.name, CentreOn.EITHER),),
                ),
            ),
        ),
        spare_units=4,
    )
