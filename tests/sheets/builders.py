"""Hand-made jobs and layouts for the papers: pieces are clipped here, nothing is searched."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

import shapely
from shapely.geometry import Polygon, box

from models.floor.frame import Frame
from models.floor.layout import (
    Figures,
    Layout,
    Piece,
    RowPlan,
    Solution,
    Verdict,
    ZoneLayout,
)
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
    Field,
    Job,
    Kind,
    Limit,
    Point,
    Product,
    Ring,
    Rules,
    Sight,
    Wall,
)
from models.lengths import System, parse

SAME = 6


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
        field=Field(
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
        field=Field(
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
        spare_units=4,
    )


def pieces_of(
    job: Job, frame: Frame, start_v: int, offset: Callable[[int], int]
) -> tuple[list[Piece], tuple[RowPlan, ...], Polygon]:
    """Pieces and rows of a field; ``offset`` gives the end joints of a row (from u = 0)."""
    length, width = job.product_of(job.field).pitch
    named = [(wall.name, (wall.start, wall.end)) for wall in job.walls]
    islands = [(column.name, column.outline) for column in job.columns]
    islands += [(feature.name, feature.outline) for feature in job.features]
    for name, ring in islands:
        named += [(name, side) for side in zip(ring, ring[1:] + ring[:1], strict=True)]
    sides = [(name, tuple(frame.to_frame(end) for end in side)) for name, side in named]
    holes = [frame.ring_to_frame(ring) for _, ring in islands]
    zone = Polygon(frame.ring_to_frame(job.room), holes)
    left, bottom, right, top = (round(x) for x in zone.bounds)
    lows = range(start_v + (bottom - start_v) // width * width, top, width)
    pieces, rows = [], []
    for row, low in enumerate(lows, 1):
        strip = zone.intersection(box(left, low, right, low + width))
        parts = sorted(polygons(strip), key=lambda part: part.bounds)
        at = offset(row) % length
        rows.append(
            RowPlan(row, low, tuple(((round(p.bounds[0]), round(p.bounds[2])), at) for p in parts))
        )
        first = at + (left - at) // length * length
        number = 0
        for cell, u in enumerate(range(first, right, length)):
            whole = box(u, low, u + length, low + width)
            for part in polygons(whole.intersection(zone)):
                number += 1
                pieces.append(
                    piece(f"{row}-{number}", row, cell, (u, low), part, (length, width), sides)
                )
    return pieces, tuple(rows), zone


def polygons(shape: shapely.Geometry) -> Iterator[Polygon]:
    for part in shapely.get_parts(shape):
        if isinstance(part, Polygon) and part.area > 1000:
            yield shapely.geometry.polygon.orient(part)


def ring_of(coords: list[tuple[float, ...]]) -> Ring:
    return tuple((round(x), round(y)) for x, y in coords[:-1])


def piece(
    name: str,
    row: int,
    cell: int,
    corner: Point,
    shape: Polygon,
    pitch: tuple[int, int],
    sides: list[tuple[str, tuple[Point, ...]]],
) -> Piece:
    """A piece with its sizes, for rooms square or nearly so (least chord at each cut edge)."""
    length, width = pitch
    u0, v0, u1, v1 = shape.bounds
    cut = shape.area < length * width - 1000
    rim = shape.exterior
    along = across = neck = None
    touches = []
    for where, (start, end) in sides:
        edge = shapely.LineString([start, end]).buffer(SAME).intersection(rim)
        if edge.length < 100:
            continue
        touches.append(where)
        level = abs(end[0] - start[0]) > abs(end[1] - start[1])
        low, high = (edge.bounds[0], edge.bounds[2]) if level else (edge.bounds[1], edge.bounds[3])
        hull = shape.convex_hull
        assert isinstance(hull, Polygon)
        chord = min(
            (hull if cut else shape)
            .intersection(
                shapely.LineString(
                    [(x, v0 - 9), (x, v1 + 9)] if level else [(u0 - 9, x), (u1 + 9, x)]
                )
            )
            .length
            for x in (low + 20, high - 20)
        )
        outer = edge.centroid.distance(hull.exterior) < 3 * SAME
        if not outer:
            neck = round(min(neck or chord, chord))
        elif level and chord < width - 2 * SAME:
            across = min(across or width, round(chord))
        elif not level and chord < length - 2 * SAME:
            along = min(along or length, round(chord))
    return Piece(
        name, row, cell, corner, ring_of(list(rim.coords)),
        tuple(ring_of(list(hole.coords)) for hole in shape.interiors),
        cut, along, across, None, neck, tuple(dict.fromkeys(touches)), name,
    )  # fmt: skip


def share_units(job: Job, pieces: list[Piece]) -> tuple[list[Piece], int]:
    """Number the units; a row's last piece leaves an offcut for a later row's first piece."""
    product = job.product_of(job.field)
    length = product.pitch[0]
    waiting: list[Piece] = []
    units, laid = 0, []
    for each in pieces:
        giver = None
        if starts(each, length):
            giver = next((w for w in waiting if fits(w, each, length, product.kerf)), None)
        if giver:
            waiting.remove(giver)
            laid.append(replace(each, unit=giver.unit))
            continue
        units += 1
        fresh = replace(each, unit=f"U{units}")
        laid.append(fresh)
        if ends(fresh):
            waiting.append(fresh)
    return laid, units


def starts(each: Piece, length: int) -> bool:
    """Cut square on its left side only, at the whole width."""
    right = max(u for u, _ in each.outline) == each.corner[0] + length
    return right and len(each.outline) == 4 and only_along(each)


def ends(each: Piece) -> bool:
    left = min(u for u, _ in each.outline) == each.corner[0]
    return left and len(each.outline) == 4 and only_along(each)


def only_along(each: Piece) -> bool:
    return each.size_along is not None and each.size_across is None


def fits(giver: Piece, taker: Piece, length: int, kerf: int) -> bool:
    return (giver.size_along or length) + (taker.size_along or length) + kerf <= length


def layout_of(
    job: Job,
    rank: int,
    best_at: tuple[str, ...],
    start_v: int,
    cross_u: int,
    offset: Callable[[int], int],
    start_row: int,
    vector: Point = (1, 0),
    verdicts: tuple[Verdict, ...] = (),
) -> Layout:
    frame = Frame((0, 0), vector)
    pieces, rows, shape = pieces_of(job, frame, start_v, lambda row: cross_u + offset(row))
    pieces, units = share_units(job, pieces)
    product = job.product_of(job.field)
    length = product.pitch[0]
    direction = next(d for d in job.field.directions if d.vector == vector)
    runs = tuple(
        replace(plan, runs=tuple((ends, (at - cross_u) % length) for ends, at in plan.runs))
        for plan in rows
    )
    zone = ZoneLayout(
        zone=job.field.name, product=product.name, frame=frame, direction=direction,
        outer=ring_of(list(shapely.geometry.polygon.orient(shape).exterior.coords)),
        holes=tuple(ring_of(list(hole.coords)) for hole in shape.interiors),
        start_v=start_v, cross_u=cross_u, start_row=start_row, rows=runs, pieces=tuple(pieces),
        units=units, units_at_least=units - (rank - 1),
    )  # fmt: skip
    return Layout(rank, best_at, (zone,), verdicts, figures_of(job, zone, shape.area, verdicts))


def figures_of(job: Job, zone: ZoneLayout, area: float, verdicts: tuple[Verdict, ...]) -> Figures:
    product = job.product_of(job.field)
    length, width = product.pitch
    cuts = [piece for piece in zone.pieces if piece.cut]
    least = min((p for p in cuts if p.size), key=lambda p: p.size or 0, default=None)
    spare = job.spare_units + math.ceil(job.spare_percent * zone.units / 100)
    broken = [v.kind for v in verdicts if not v.kept]
    return Figures(
        units=zone.units,
        units_at_least=zone.units_at_least,
        cartons=-(-(zone.units + spare) // product.per_carton),
        spare_units=spare,
        laid_area_mm2=area / 320**2,
        waste_percent=(zone.units * length * width - area) / area * 100,
        smallest_cut=least.size if least else None,
        smallest_where=f"row {least.row} at {least.touches[0]}" if least else "",
        cuts=len(cuts),
        balance=None,
        broken_must=broken.count(Kind.MUST),
        broken_prefer=broken.count(Kind.PREFER),
    )


def verdict(key: str, kind: Kind, limit: int, worst: int | None, kept: bool = True) -> Verdict:
    return Verdict(
        key, kind, limit, worst, kept, "row 3 at hall wall", "" if kept else "the compass is held"
    )


def stagger(row: int) -> int:
    return inch(str((row * 17) % 47 + 1))


def plank_solution(job: Job | None = None) -> Solution:
    job = job or plank_job()
    kept = (
        verdict("smallest_cut", Kind.MUST, inch("2"), inch("2-1/2")),
        verdict("joint_offset", Kind.MUST, inch("6"), inch("13")),
    )
    sliver = (
        replace(verdict("smallest_cut", Kind.MUST, inch("2"), inch("1"), False)),
        verdict("half_unit_edges", Kind.PREFER, inch("3"), inch("1"), False),
    )
    return Solution(
        (
            layout_of(job, 1, ("least waste", "every rule kept"), inch("8' 5-1/2\""),
                      inch("7' 6\""), stagger, 18, verdicts=kept),
            layout_of(job, 2, ("most equal edge cuts",), inch("8' 2\""), inch("9' 3-1/4\""),
                      lambda row: stagger(row + 2), 17, verdicts=sliver),
            layout_of(job, 3, ("fewest cuts",), inch("-11'"), inch("6'"),
                      stagger, 23, (0, 1), (*kept, *sliver[1:])),
        ),
        ("No layout keeps half a plank at every wall.",),
        True,
    )  # fmt: skip


def tile_solution(job: Job | None = None) -> Solution:
    job = job or tile_job()
    centred = Verdict("centred", Kind.PREFER, 0, 0, True, "joint line", "", "hatch axis")
    return Solution(
        (
            layout_of(job, 1, ("equal cuts at both sides",), mm("1590"), mm("2310"),
                      lambda _: 0, 5, verdicts=(centred,)),
            layout_of(job, 2, ("fewest cuts", "smallest cut largest"), mm("1365"), mm("2084"),
                      lambda _: 0, 4, verdicts=(centred,)),
        ),
        (),
        True,
    )  # fmt: skip
