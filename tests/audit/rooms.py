"""The rooms the audit is tried on: invented, each with one difficulty of its own."""

from __future__ import annotations

import math

from shapely.geometry import Polygon, box

from tests.audit.scene import Held, Scene

STAGGER = (0.0, 420.0, 810.0, 190.0, 640.0, 1010.0)


def staggered(row: int) -> float:
    """Row offsets without a stair, for a plank 1200 mm long."""
    return STAGGER[row % len(STAGGER)]


def tile_room(**changes: object) -> Scene:
    """Straight bond, 2630 x 3540 mm with 300 mm tile, a joint on both centre lines.

    A printed room (flooringtech.com.au unit 4 section 3 lesson 4; its "7 whole" is a misprint
    for 8): 8 whole tiles and two cuts of 115 mm across, 10 and two of 270 mm along.
    """
    scene = Scene(
        room=box(0, 0, 3540, 2630),
        length=300,
        width=300,
        low=115 - 300,
        offset=lambda _: 270.0,
        bond="straight",
        directional=False,
        share=False,
        rules=(
            ("smallest_cut", "must", 50.0),
            ("half_unit_edges", "prefer", 150.0),
            ("half_unit_ends", "prefer", 150.0),
            ("balanced_cuts", "prefer", 5.0),
            ("reuse_within", "prefer", 4),
        ),
    )
    return _changed(scene, changes)


def plank_room(**changes: object) -> Scene:
    """Staggered planks 1200 x 150 mm with a kerf, offcuts used again."""
    scene = Scene(
        room=box(0, 0, 5230, 2010),
        length=1200,
        width=150,
        low=-40,
        offset=staggered,
        kerf=3,
        rules=(
            ("smallest_cut", "must", 50.0),
            ("smallest_end", "must", 100.0),
            ("joint_offset", "must", 150.0),
            ("second_joint_offset", "prefer", 100.0),
            ("no_stair", "prefer", 2),
            ("balanced_cuts", "prefer", 60.0),
            ("reuse_within", "prefer", 9),
            ("tape_tolerance", "prefer", 5.0),
        ),
    )
    return _changed(scene, changes)


def slanted_room(**changes: object) -> Scene:
    """A room at 45 degrees to the rows: slanted cuts at every wall."""
    half = math.sqrt(0.5)
    room = Polygon(
        [(0, 0), (2800 * half, 2800 * half), (900 * half, 4700 * half), (-1900 * half, 1900 * half)]
    )
    scene = Scene(
        room=room,
        length=450,
        width=300,
        low=-120,
        offset=lambda row: 130.0 + 150.0 * (row % 3),
        bond="stepped 1/3",
        share=False,
        angle=-45.0,
        rules=(("smallest_cut", "prefer", 40.0), ("joint_offset", "must", 150.0)),
    )
    return _changed(scene, changes)


def column_room(**changes: object) -> Scene:
    """A room with a recess, a column inside pieces, and an inset held on an axis."""
    column = box(1510, 640, 1660, 790)
    corners = [(0, 0), (4000, 0), (4000, 2100), (2900, 2100), (2900, 2450), (1400, 2450)]
    room = Polygon([*corners, (1400, 2100), (0, 2100)], [list(column.exterior.coords)])
    inset = box(2600, 900, 3200, 1350)
    scene = Scene(
        room=room,
        length=1200,
        width=150,
        low=-60,
        offset=staggered,
        kerf=2,
        held=(Held("Compass inset", inset, (2900, 0), (0, 1), 0.0),),
        rules=(
            ("smallest_cut", "prefer", 50.0),
            ("smallest_end", "prefer", 100.0),
            ("joint_offset", "must", 150.0),
            ("second_joint_offset", "prefer", 100.0),
            ("no_stair", "prefer", 2),
            ("half_unit_edges", "prefer", 75.0),
        ),
    )
    return _changed(scene, changes)


def off_square_room(**changes: object) -> Scene:
    """Four walls, none square: rips and end cuts taper; rows turned 17.3 degrees in the job."""
    scene = Scene(
        room=Polygon([(0, 0), (4310, 35), (4360, 2380), (-45, 2330)]),
        length=1200,
        width=150,
        low=-70,
        offset=staggered,
        kerf=3,
        angle=17.3,
        origin=(1250.0, -830.0),
        rules=(
            ("smallest_cut", "prefer", 50.0),
            ("smallest_end", "prefer", 100.0),
            ("joint_offset", "must", 150.0),
            ("second_joint_offset", "prefer", 100.0),
        ),
    )
    return _changed(scene, changes)


ROOMS = {
    "tile": tile_room,
    "plank": plank_room,
    "slanted": slanted_room,
    "column": column_room,
    "off square": off_square_room,
}


def _changed(scene: Scene, changes: dict[str, object]) -> Scene:
    return Scene(**{**scene.__dict__, **changes})


def turned(scene: Scene, degrees: float, dx: float, dy: float) -> Scene:
    """The same room turned about the job's origin and moved."""
    turn = math.radians(degrees)
    x, y = scene.origin
    origin = (
        round(x * math.cos(turn) - y * math.sin(turn) + dx, 6),
        round(x * math.sin(turn) + y * math.cos(turn) + dy, 6),
    )
    return _changed(scene, {"angle": scene.angle + degrees, "origin": origin})
