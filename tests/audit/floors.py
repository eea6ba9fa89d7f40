"""Floors of several zones, each laid by hand: a border, a field and a filled inset."""

from __future__ import annotations

from shapely.geometry import Polygon, box

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
