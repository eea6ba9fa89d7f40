"""Hand-made floors of several zones: borders, a filled feature, herringbone, a mirror, a mix."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from models.floor.frame import Frame
from models.floor.layout import Layout, Solution, ZoneLayout
from models.job.carve.area import Area, Chosen, Side
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Border,
    Column,
    Direction,
    Door,
    Extent,
    Feature,
    Fill,
    Job,
    Kind,
    Laying,
    Limit,
    Marks,
    Mirror,
    Outline,
    Point,
    Product,
    Ring,
    Rules,
    Sight,
)
from models.lengths import System
from tests.sheets.builders import laid_zone, zone_of
from tests.sheets.clipping import herringbone, in_frame, mixed_rows, pairs, pieces_of, share_units
from tests.sheets.figuring import figures_of, verdicts_of
from tests.sheets.jobs import inch, mm, rectangle, walls

RIGHT, UP = Direction("along sea wall", (1, 0)), Direction("along lane wall", (0, 1))
STRIP = inch("9")
HALF = inch("1/2")
"""The trim strip between the halves of the net loft and the walk."""


def border_products() -> tuple[Product, Product]:
    plank = Product(
        "Driftwood plank 48 x 6", inch("48"), inch("6"), kerf=inch("1/8"), per_carton=12,
        price=Fraction("61.50"),
    )  # fmt: skip
    tile = Product(
        "Shingle tile 9", inch("9"), inch("9"), kerf=inch("1/8"), per_carton=20,
        directional=True, price=Fraction("32.20"),
    )  # fmt: skip
    return plank, tile


def border_job() -> Job:
    """A gallery: planks in the field, a tile border at two walls, a filled compass."""
    room = rectangle((0, 0), (inch("21'"), inch("15'")))
    axis = Axis("door axis", (inch("10'"), 0), (0, 1))
    centre = (inch("10'"), inch("7' 6\""))
    reach = inch("18")
    outline = rectangle(
        (centre[0] - reach, centre[1] - reach), (centre[0] + reach, centre[1] + reach)
    )
    post = rectangle((inch("16'"), inch("10'")), (inch("17'"), inch("11'")))
    plank, tile = border_products()
    rules = Rules(smallest_cut=Limit(Kind.MUST, inch("2")), half_unit_edges=Limit(Kind.PREFER, 0))
    straight = Bond(BondKind.STRAIGHT)
    edge = Border(Extent(STRIP, STRIP, inch("1/16")), ("sea wall", "lane wall"))
    return Job(
        name="Tern House: Gallery",
        system=System.IMPERIAL,
        tape_step=inch("1/16"),
        room=room,
        walls=walls(
            room,
            ["sea wall", "lane wall", "yard wall", "hall wall"],
            {"sea wall": Sight.PROMINENT},
        ),
        columns=(Column("post", post),),
        doors=(Door("hall door", "sea wall", ((inch("8' 6\""), 0), (inch("11' 6\""), 0))),),
        axes=(axis,),
        features=(Feature("compass", axis.name, centre, outline, inch("1/8")),),
        products=(plank, tile),
        zones=(
            Laying("tile border", tile.name, straight, (RIGHT,), rules, edge),
            Laying(
                "compass tiles",
                tile.name,
                straight,
                (RIGHT,),
                rules,
                Fill("compass"),
                Marks.QUARTER_TURNED,
            ),
            Laying("field", plank.name, Bond(BondKind.STAGGERED), (RIGHT, UP), rules),
        ),
        spare_percent=Fraction(5),
        breakage_percent=Fraction(2),
        currency="$",
    )


def area_of(
    laying: Laying, name: str, outer: Ring, sides: list[str], *holes: tuple[str, Ring]
) -> Area:
    """An area with its sides named, and holes given as (name, outline)."""
    found = [Side(*side, label) for side, label in zip(pairs(outer), sides, strict=True)]
    for label, ring in holes:
        found += [Side(*side, label) for side in pairs(ring[::-1])]
    around = frozenset(label for label, _ in holes)
    rings = tuple(ring[::-1] for _, ring in holes)
    return Area(name, laying, outer, rings, tuple(found), around)


def border_areas(job: Job) -> tuple[Area, ...]:
    """Two border strips, the compass and the field."""
    edge, fill, field = job.zones
    wide, deep = job.room[2]
    south = rectangle((0, 0), (wide, STRIP))
    east = rectangle((wide - STRIP, STRIP), (wide, deep))
    inner = rectangle((0, STRIP), (wide - STRIP, deep))
    compass, post = job.features[0], job.columns[0]
    south_name, east_name = "tile border, sea wall", "tile border, lane wall"
    cut = (wide - STRIP, STRIP)
    south_ring = (south[0], south[1], south[2], cut, south[3])
    return (
        area_of(
            edge, south_name, south_ring,
            ["sea wall", "lane wall", east_name, "field", "hall wall"],
        ),
        area_of(
            edge, east_name, east, [south_name, "lane wall", "yard wall", "field"]
        ),
        area_of(fill, fill.name, compass.outline, ["field"] * 4),
        area_of(
            field, "field", inner, [south_name, east_name, "yard wall", "hall wall"],
            (fill.name, compass.outline), (post.name, post.outline),
        ),
    )  # fmt: skip


def border_layout(
    job: Job, rank: int, best: tuple[str, ...], start: int, cross: int, shift: int
) -> Layout:
    south, east, fill, field = border_areas(job)
    frame = Frame((0, 0), (1, 0))
    upright = Frame((job.room[1][0] - STRIP, STRIP), (0, 1))
    middle = job.features[0].centre
    zones: list[ZoneLayout] = []
    for area, own, direction, lines in (
        (south, frame, RIGHT, (0, inch("10'") - shift)),
        (east, upright, UP, (-STRIP, inch("7'") + shift)),
        (fill, frame, RIGHT, middle[::-1]),
        (field, frame, RIGHT, (start, cross)),
    ):
        first = sum(zone.units for zone in zones if zone.product == area.laying.product)
        offset = field_offset if area is field else no_offset
        prefix = f"{len(zones) + 1}."
        zones.append(zone_of(job, area, own, direction, lines, offset, prefix, first))
    return layout_of_zones(job, rank, best, tuple(zones))


def no_offset(_row: int) -> int:
    return 0


def field_offset(row: int) -> int:
    return inch(str((0, 17, 31, 9, 40, 23)[row % 6]))


def layout_of_zones(
    job: Job, rank: int, best: tuple[str, ...], zones: tuple[ZoneLayout, ...]
) -> Layout:
    verdicts = tuple(found for zone in zones for found in verdicts_of(job, zone))
    return Layout(rank, best, zones, verdicts, figures_of(job, zones, verdicts))


def border_solution() -> Solution:
    job = border_job()
    chosen = (Chosen("tile border", inch("8"), inch("14"), STRIP),)
    return Solution(
        job,
        (
            border_layout(job, 1, ("fewest units",), inch("7' 3\""), inch("10'"), 0),
            border_layout(job, 2, ("largest smallest cut",), inch("7'"), inch("8'"), inch("4-1/2")),
            border_layout(job, 3, ("fewest cuts",), inch("7' 9\""), inch("9'"), inch("3")),
        ),
        ("the border's width was chosen first",),
        True,
        chosen,
    )


def herringbone_job(slant: int = 45, double: bool = False) -> Job:
    """A metric hall laid in herringbone, its line of points along the quay wall."""
    room = rectangle((0, 0), (mm("3600"), mm("2600")))
    block = Product("Oar block 350 x 70", mm("350"), mm("70"), 0, mm("3"), 40, False)
    bond = Bond(BondKind.HERRINGBONE, slant=slant, double=double)
    rules = Rules(smallest_cut=Limit(Kind.MUST, mm("20")))
    along = Direction("along quay wall", (1, 0))
    return Job(
        name="Tern House: Boat hall",
        system=System.METRIC,
        tape_step=mm("1"),
        room=room,
        walls=walls(room, ["quay wall", "net wall", "lamp wall", "stair wall"]),
        columns=(),
        doors=(Door("slip door", "quay wall", ((mm("1300"), 0), (mm("2300"), 0))),),
        axes=(),
        features=(),
        products=(block,),
        zones=(Laying("field", block.name, bond, (along,), rules),),
        spare_percent=Fraction(5),
    )


def herringbone_zone(job: Job, area: Area, frame: Frame, lines: Point, prefix: str) -> ZoneLayout:
    product = job.product_of(area.laying)
    shape = in_frame(area, frame)
    spots = herringbone(product, shape, *lines)
    pieces = share_units(job, product, pieces_of(area, frame, shape, spots, prefix))
    return laid_zone(area, frame, area.laying.directions[0], lines, 1, (), pieces)


def herringbone_solution(slant: int = 45) -> Solution:
    job = herringbone_job(slant)
    sides = [wall.name for wall in job.walls]
    area = area_of(job.field, "field", job.room, sides)
    frame = Frame((0, 0), (1, -1) if slant == 45 else (1, 0))
    layouts = []
    for rank, (x, y) in enumerate(((1800, 1300), (1750, 1335)), 1):
        u, v = frame.to_frame((mm(str(x)), mm(str(y))))
        zone = herringbone_zone(job, area, frame, (v, u), "")
        layouts.append(layout_of_zones(job, rank, (f"best at {rank}",), (zone,)))
    return Solution(job, tuple(layouts), (), True)


def mirror_job() -> Job:
    """Two halves of a net loft, one the other's reflection, with a band of tile between."""
    room = rectangle((0, 0), (inch("24'"), inch("11'")))
    axis = Axis("ridge axis", (inch("12'"), 0), (0, 1))
    plank = Product(
        "Mast plank", inch("48"), inch("5"), kerf=inch("1/8"), per_carton=10,
        mix=((inch("48"), 4), (inch("36"), 3), (inch("24"), 3)),
    )  # fmt: skip
    tile = Product(
        "Pebble tile 12", inch("11-7/8"), inch("11-7/8"), inch("1/8"), inch("1/8"), 15, False
    )
    half = rectangle((0, 0), (inch("11'"), inch("11'")))
    rules = Rules(smallest_cut=Limit(Kind.MUST, inch("1")))
    bond = Bond(BondKind.STAGGERED)
    return Job(
        name="Tern House: Net loft",
        system=System.IMPERIAL,
        tape_step=inch("1/16"),
        room=room,
        walls=walls(room, ["A", "B", "C", "D"]),
        columns=(),
        doors=(),
        axes=(axis,),
        features=(),
        products=(plank, tile),
        zones=(
            Laying("west floor", plank.name, bond, (RIGHT,), rules, Outline(half), trim=HALF),
            Laying(
                "east floor", plank.name, bond, (RIGHT,), rules,
                Mirror("west floor", "ridge axis"), trim=HALF,
            ),
            Laying("hearth walk", tile.name, Bond(BondKind.STRAIGHT), (RIGHT,), rules),
        ),
        spare_units=3,
    )  # fmt: skip


def mirror_solution() -> Solution:
    job = mirror_job()
    west, east, walk = job.zones
    wide, deep = job.room[2]
    left = rectangle((0, 0), (inch("11'"), deep))
    right = rectangle((wide - inch("11'"), 0), (wide, deep))
    between = rectangle((inch("11'") + HALF, 0), (wide - inch("11'") - HALF, deep))
    areas = (
        area_of(west, west.name, left, ["A", walk.name, "C", "D"]),
        replace(
            area_of(east, east.name, right, ["A", "B", "C", walk.name]), mirrors=west.name
        ),
        area_of(walk, walk.name, between, ["A", east.name, "C", west.name]),
    )  # fmt: skip
    first = mixed_zone(job, areas[0], Frame((0, 0), (1, 0)), (inch("62"), inch("66")), "1.")
    mirrored = mirror_of(job, first, areas[1], Frame((wide, 0), (-1, 0)))
    last = zone_of(
        job, areas[2], Frame((0, 0), (1, 0)), RIGHT, (inch("60"), inch("12'")), no_offset, "3."
    )
    layout = layout_of_zones(job, 1, ("only one",), (first, mirrored, last))
    return Solution(job, (layout,), ("only one layout is worth showing",), True)


def mixed_zone(job: Job, area: Area, frame: Frame, lines: Point, prefix: str) -> ZoneLayout:
    product = job.product_of(area.laying)
    shape = in_frame(area, frame)
    rows, spots = mixed_rows(product, shape, *lines)
    pieces = share_units(job, product, pieces_of(area, frame, shape, spots, prefix))
    start = next(row.row for row in rows if row.low == lines[0])
    return laid_zone(area, frame, RIGHT, lines, start, rows, pieces)


def mirror_of(job: Job, zone: ZoneLayout, area: Area, frame: Frame) -> ZoneLayout:
    """A zone's reflection: u as it was and v turned round, so rows are counted the other way."""
    product = job.product_of(area.laying)
    count, width = len(zone.rows), product.pitch[1]
    rows = tuple(
        replace(row, row=count + 1 - row.row, low=-row.low - width) for row in reversed(zone.rows)
    )
    names = {piece.unit: f"{piece.unit}m" for piece in zone.pieces}
    pieces = [
        replace(
            piece,
            id=f"2.{count + 1 - piece.row}-{piece.id.split('-')[1]}",
            row=count + 1 - piece.row,
            corner=(piece.corner[0], -piece.corner[1] - width),
            outline=tuple((u, -v) for u, v in reversed(piece.outline)),
            unit=names[piece.unit],
            touches=tuple("B" if name == "D" else name for name in piece.touches),
        )
        for piece in zone.pieces
    ]
    start = count + 2 - zone.start_row
    lines = (-zone.start_v, zone.cross_u)
    return laid_zone(area, frame, RIGHT, lines, start, rows, pieces)
