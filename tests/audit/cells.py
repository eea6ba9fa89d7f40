"""Documents of units laid cell by cell: a herringbone by a double loop, rows of mixed lengths."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import accumulate, pairwise

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import Polygon, box

from models.job.data import RULE_NAMES
from tests.audit.claims import Cut, size_claims
from tests.audit.compose import add_up
from tests.audit.scene import Document, Scene, document, floor_of, in_job, points, touches


@dataclass(frozen=True)
class Laid:
    """A unit's cell (lower left corner, size), whether it lies square to u, and its column."""

    u: float
    v: float
    along: float
    up: float
    quarter: bool
    row: int
    cell: int


def herringbone_cells(
    length: float, width: float, corner: tuple[float, float], double: bool, reach: int
) -> list[Laid]:
    """Every unit of a herringbone about a corner, by two loops over its two steps."""
    halves = 2 if double else 1
    wide = width * halves
    found = []
    for k in range(-reach, reach + 1):
        for i in range(-5 * reach, 5 * reach + 1):
            u = corner[0] + i * wide + k * length
            v = corner[1] + i * wide - k * length
            for half in range(halves):
                flat_v, up_u = v + half * width, u + length + half * width
                found.append(Laid(u, flat_v, length, width, False, -k, 2 * i))
                found.append(Laid(up_u, v + wide - length, width, length, True, -k, 2 * i + 1))
    return found


def laid_out(scene: Scene, cells: Sequence[Laid], lengths: bool = False) -> Document:
    """The document of a scene with its pieces cut from given cells; no rows, rules of sizes."""
    floor = floor_of(scene)
    found = document(replace(scene, rules=(), share=False))
    layout = found["layouts"][0]
    layout["pieces"], sizes = [], []
    units = shapely.box(*np.array([(c.u, c.v, c.u + c.along, c.v + c.up) for c in cells]).T)
    near = np.flatnonzero(shapely.intersects(floor, units)).tolist()
    inside = [(cells[place], part) for place in near for part in _parts(floor, cells[place])]
    rows = sorted({cell.row for cell, _ in inside})
    for number, (cell, part) in enumerate(inside, 1):
        piece = _piece(scene, floor, cell, part, rows.index(cell.row) + 1, number)
        piece["unit_length"] = cell.along if lengths else 0.0
        layout["pieces"].append(piece)
        sizes += [s for key, s in piece["sizes"].items() if s is not None and key != "neck"]
    layout["figures"].update(
        smallest_cut=min(sizes, default=None),
        cuts=sum(piece["cut"] for piece in layout["pieces"]),
        balance=None,
    )
    found["products"][0].update(price=None, lengths=[])
    add_up(found)
    return found


def _parts(floor: Polygon, cell: Laid) -> list[Polygon]:
    unit = box(cell.u, cell.v, cell.u + cell.along, cell.v + cell.up)
    found = shapely.get_parts(unit if floor.contains_properly(unit) else unit.intersection(floor))
    return [part for part in found if isinstance(part, Polygon) and part.area > 1e-3]


def _piece(
    scene: Scene, floor: Polygon, cell: Laid, part: Polygon, row: int, number: int
) -> Document:
    """One piece; sizes of a unit laid square to u are measured the other way round."""
    cut = Cut(f"P{number}", row, cell.cell, (cell.u, cell.v), cell.along, cell.up, part)
    sizes = size_claims(replace(scene, length=cell.along, width=cell.up), floor, cut)
    if cell.quarter:
        sizes["along"], sizes["across"] = sizes["across"], sizes["along"]
    return {
        "id": cut.id, "zone": "Reading room", "row": row, "cell": cell.cell,
        "corner": list(cut.corner), "cut": cut.is_cut, **in_job(scene, part),
        "unit": f"U{number}", "sizes": sizes, "touches": touches(scene, floor, cut),
        "quarter": cell.quarter,
    }  # fmt: skip


@dataclass(frozen=True)
class Zigzag:
    """A room in herringbone, its line of points along the room (45) or units along it (90).

    Turned over, v is counted the other way, as in the reflection of the same room about the
    job's line x = ``mirror``.
    """

    double: bool = False
    slant: int = 45
    length: float = 500.0
    width: float = 100.0
    directional: bool = False
    mirror: float | None = None

    CORNER = (130.0, 45.0)

    @property
    def scene(self) -> Scene:
        """The room with its frame: the job's axes lie square to it."""
        room = box(0, 0, 1700, 1300)
        if self.slant == 45:
            room = affinity.rotate(room, 45, origin=(0, 0))
        angle, x = float(-self.slant % 90), 700.0
        if self.slant == 45:
            angle = -45.0
        if self.mirror is not None:
            room = affinity.scale(room, 1, -1, origin=(0, 0))
            angle, x = 180.0 - angle, 2 * self.mirror - x
        return Scene(
            room=room, length=self.length, width=self.width,
            low=math.floor(room.bounds[1]) - 1.0, offset=lambda _: 0.0, kerf=2,
            directional=self.directional, per_carton=40, angle=angle, origin=(x, -20.0),
        )  # fmt: skip

    def points(self, *found: tuple[float, float]) -> list[list[float]]:
        """Points of the pattern, counted from its corner, in job axes."""
        up = 1 if self.mirror is None else -1
        u, v = self.CORNER
        return points(self.scene, [(u + a, up * (v + b)) for a, b in found])

    def document(self) -> Document:
        """The room laid: made once, and a copy of it handed out each time."""
        found: Document = json.loads(_written(self))
        return found

    def laid(self) -> Document:
        """The room laid, worked out."""
        cells = herringbone_cells(self.length, self.width, self.CORNER, self.double, 5)
        if self.mirror is not None:
            cells = [replace(cell, v=-cell.v - cell.up) for cell in cells]
        found = laid_out(self.scene, cells)
        found["zones"][0].update(bond="herringbone", double=self.double, marks="one way")
        rise = 1000.0 if self.slant == 45 else 0.0
        found["layouts"][0]["zones"][0].update(
            rows=[], start_row=1,
            start_line=self.points((0, 0), (1000, rise)),
            cross_line=self.points((0, 0), (-rise, 1000)),
        )  # fmt: skip
        return found

    def centred(self, at: tuple[float, float], way: tuple[float, float], on: str) -> Document:
        """The room laid and said to be centred on an axis, its place counted from the corner."""
        found = self.document()
        point, far = self.points(at, (at[0] + way[0], at[1] + way[1]))
        along = [far[0] - point[0], far[1] - point[1]]
        found["axes"] = [{"name": "long axis", "point": point, "direction": along}]
        found["layouts"][0]["rules"] = [{
            "rule": RULE_NAMES["centred"], "key": "centred", "subject": "long axis",
            "kind": "must", "zone": "Reading room", "on": on, "limit": 0.0, "worst": 0.0,
            "kept": True, "where": "", "because": "",
        }]  # fmt: skip
        return found


@cache
def _written(room: Zigzag) -> str:
    return json.dumps(room.laid())


MIX = (1200.0, 900.0, 600.0)
ROWS = (
    (-250.0, (1200, 900, 1200, 600, 1200)),
    (-700.0, (1200, 1200, 600, 900, 1200)),
    (0.0, (1200, 600, 900, 1200, 900)),
    (-360.0, (600, 1200, 900, 1200, 900)),
)
"""Where each row starts and the units in it: joints are the running sums that lie inside."""

APART = 100.0
"""The nearest joints of neighbouring rows: 1700 of the second and 1800 of the third."""


def joints_of(row: int, right: float) -> list[float]:
    """The joints of a row inside the room, by running sums."""
    start, units = ROWS[row]
    return [at for at in accumulate(units, initial=start) if 0 < at < right]


def mixed() -> Document:
    """Four rows of planks of three lengths in a room 4300 mm long, no rip."""
    room = box(0, 0, 4300, 600)
    cells = []
    for row, (start, units) in enumerate(ROWS):
        edges = list(accumulate(units, initial=start))
        for cell, (one, two) in enumerate(pairwise(edges), 1):
            cells.append(Laid(one, 150.0 * row, two - one, 150.0, False, row, cell))
    scene = Scene(room=room, length=1200, width=150, low=0, offset=lambda _: 0.0, kerf=3,
                  per_carton=12, angle=8.5, origin=(40.0, 900.0))  # fmt: skip
    found = laid_out(scene, cells, lengths=True)
    found["products"][0]["lengths"] = [
        {"length": length, "per_carton": count}
        for length, count in zip(MIX, (6, 4, 2), strict=True)
    ]
    found["layouts"][0]["zones"][0]["rows"] = [
        {"row": row + 1, "low": 150.0 * row, "runs": [{"from": 0.0, "to": 4300.0, "offset": 0.0}],
         "joints": [joints_of(row, 4300.0)]}
        for row in range(len(ROWS))
    ]  # fmt: skip
    found["layouts"][0]["rules"] = [{
        "rule": RULE_NAMES["joint_offset"], "key": "joint_offset", "subject": "", "kind": "must",
        "zone": "Reading room", "limit": 40.0, "worst": APART, "kept": True, "where": "",
        "because": "",
    }]  # fmt: skip
    found["layouts"][0]["figures"]["balance"] = 0.0
    add_up(found)
    return found
