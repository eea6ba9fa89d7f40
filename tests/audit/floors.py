"""Floors of several zones, each laid by hand: bordered, mirrored, and on shared lines."""

from __future__ import annotations

from shapely.geometry import Polygon, box

from models.job.data import RULE_NAMES
from tests.audit.compose import beside, join, zone_document
from tests.audit.rooms import staggered
from tests.audit.scene import Document, Held, Scene

ROOM = box(0, 0, 4600, 3400)
INSIDE = box(300, 300, 4300, 3100)
INSET = box(2000, 1400, 2600, 2000)

BORDER = {
    "border, south wall": Polygon(
        [(0, 0), (4600, 0), (4600, 300), (4300, 300), (300, 300), (0, 300)]
    ),
    "border, east wall": box(4300, 300, 4600, 3100),
    "border, north wall": Polygon(
        [(0, 3100), (300, 3100), (4300, 3100), (4600, 3100), (4600, 3400), (0, 3400)]
    ),
    "border, west wall": box(0, 300, 300, 3100),
}
"""Butted at its corners, the longer sides run through."""


def _tiles(room: Polygon, offset: float, **keys: object) -> Scene:
    """Tiles of 300 mm in straight rows from the room's lower left corner."""
    left, low, _, _ = room.bounds
    scene: dict[str, object] = {
        "room": room, "length": 300, "width": 300, "low": low, "offset": lambda _: left + offset,
        "bond": "straight", "directional": False, "share": False,
        "rules": (("smallest_cut", "must", 50.0),),
        **keys,
    }  # fmt: skip
    return Scene(**scene)  # type: ignore[arg-type]


def bordered(breakage: int = 2, price: float | None = 40.5) -> Document:
    """A plank field with a tile border along all walls and a tile inset on its middle axis."""
    field = INSIDE.difference(INSET)
    assert isinstance(field, Polygon)
    names = {**BORDER, "field": field, "compass inset": INSET}

    def others(own: str) -> dict[str, Polygon]:
        return {name: shape for name, shape in names.items() if name != own}

    held = Held("Compass", INSET, (2300, 0), (0, 1), 0.0)
    planks = Scene(
        room=INSIDE, length=1200, width=150, low=250, offset=staggered, kerf=3, held=(held,),
        rules=(
            ("smallest_cut", "must", 50.0),
            ("joint_offset", "must", 150.0),
            ("balanced_cuts", "prefer", 60.0),
        ),
    )  # fmt: skip
    parts = [zone_document(planks, "field", "Driftwood plank", beside(others("field")))]
    for number, (name, shape) in enumerate(BORDER.items()):
        tiles = _tiles(shape, 100.0 * (number % 2 == 0))
        parts.append(zone_document(tiles, name, "Shingle tile", beside(others(name))))
    inset = _tiles(INSET, 0.0)
    parts.append(
        zone_document(inset, "compass inset", "Shingle tile", beside(others("compass inset")))
    )
    for piece in parts[0]["layouts"][0]["pieces"]:
        piece["touches"] = [{"Compass": "compass inset"}.get(n, n) for n in piece["touches"]]
    whole = join(parts, breakage, price)
    whole["axes"] = [{"name": "middle", "point": [2300.0, 0.0], "direction": [0.0, 1.0]}]
    return whole


CUT, FACTORY = "cut", "factory"
SEAMS = [
    ("field", "border, south wall", 4000.0, CUT, FACTORY),
    ("field", "border, east wall", 2800.0, CUT, FACTORY),
    # The nineteenth row ends at 250 + 19 x 150 = 3100: whole widths against the north border.
    ("field", "border, north wall", 4000.0, FACTORY, FACTORY),
    ("field", "border, west wall", 2800.0, CUT, FACTORY),
    ("border, south wall", "border, east wall", 300.0, FACTORY, FACTORY),
    ("border, south wall", "border, west wall", 300.0, FACTORY, FACTORY),
    # 2800 = 9 x 300 + 100: the last tile of the short sides is cut.
    ("border, east wall", "border, north wall", 300.0, CUT, FACTORY),
    ("border, north wall", "border, west wall", 300.0, FACTORY, CUT),
    ("field", "compass inset", 2400.0, CUT, FACTORY),
]
"""Where the zones of ``bordered`` meet, how long, and what shows."""


def seams(trim: float = 0.0) -> list[Document]:
    """The seams of ``bordered`` as a document tells them."""
    return [
        {"zones": [one, two], "length": length, "edges": [mine, theirs], "trim": trim}
        for one, two, length, mine, theirs in SEAMS
    ]


PLANKS = (
    ("smallest_cut", "must", 50.0),
    ("smallest_end", "must", 100.0),
    ("joint_offset", "must", 150.0),
    ("balanced_cuts", "prefer", 60.0),
)


def tied(key: str, zone: str, subject: str) -> Document:
    """The outcome of a rule between two zones that is kept."""
    return {
        "rule": RULE_NAMES[key], "key": key, "zone": zone, "subject": subject, "kind": "must",
        "limit": 0.0, "worst": 0.0, "kept": True, "where": "", "because": "",
    }  # fmt: skip


def reflected(scene: Scene, rows: int, axis: float) -> Scene:
    """A scene seen in a mirror along x = axis: u stays as it is, v is turned round."""
    points = [(u, -v) for u, v in scene.room.exterior.coords]
    x, y = scene.origin
    changes: dict[str, object] = {
        "room": Polygon(points),
        "low": -(scene.low + rows * scene.width),
        "offset": lambda row: scene.offset(rows + 1 - row),
        "angle": 180.0 - scene.angle,
        "origin": (2 * axis - x, y),
    }
    return Scene(**{**scene.__dict__, **changes})


def twins(angle: float = 0.0) -> Document:
    """Two cabins, the second the reflection of the first about x = 4200."""
    room = Polygon([(0, 0), (3100, 0), (3100, 1400), (2300, 1720), (0, 1720)])
    scene = Scene(
        room=room, length=1200, width=150, low=-40, offset=staggered, kerf=3, angle=angle,
        rules=PLANKS,
    )  # fmt: skip
    one = zone_document(scene, "north cabin", "Driftwood plank", lambda _: "wall")
    axis = {"point": [4200.0, 0.0], "direction": [0.0, -3.0], "name": "between cabins"}
    two = zone_document(
        reflected(scene, 12, 4200.0), "south cabin", "Driftwood plank", lambda _: "wall",
        mirrors={"zone": "north cabin", "axis": axis},
    )  # fmt: skip
    two["layouts"][0]["rules"].append(tied("mirrored", "south cabin", "north cabin"))
    return join([one, two])


def linked(share: str, low: float = 0.0, offset: float = 0.0) -> Document:
    """Tiles in two rooms side by side on one set of lines, the second shifted by so much."""
    parts = []
    for name, left, (down, right) in (
        ("hall floor", 0.0, (0.0, 0.0)),
        ("study floor", 2500.0, (low, offset)),
    ):
        scene = _tiles(
            box(left, 0, left + 2500, 2000), 70.0 + right - left,
            low=(-120.0 + down) % 300 - 300, rules=(),
        )  # fmt: skip
        parts.append(zone_document(scene, name, "Shingle tile", lambda _: "wall"))
    whole = join(parts)
    whole["links"] = [{"zones": ["hall floor", "study floor"], "share": share}]
    whole["layouts"][0]["rules"].append(tied("linked", "study floor", "hall floor"))
    return whole
