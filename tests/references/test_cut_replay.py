"""The cut list followed line by line on rectangles: it ends with exactly the laid pieces."""

from __future__ import annotations

import pytest
from shapely import Polygon

from models.floor.layout import Layout, Piece
from models.job.data import Job, Product
from models.job.reader import read_job
from models.lengths import TICKS_PER_MM as MM
from scenarios.catalogue import SCENARIOS
from solver.search import solve
from solver.sheets.cutlist import cut_list_csv
from tests.references.cut_replay import HAIR, alike, replay

QUICK = ("galley", "reading-room", "porch-passage", "tern-hall", "star-landing", "lamp-room",
         "boat-hall")  # fmt: skip
"""Scenarios that are solved in a second or two."""


def follow(job: Job, layout: Layout, text: str) -> None:
    """Replay a list and compare what is laid with the layout's own pieces."""
    found = replay(job, text)
    pieces = {piece.id: (zone, piece) for zone in layout.zones for piece in zone.pieces}
    assert found.laid.keys() == pieces.keys()
    for name, (zone, piece) in pieces.items():
        product = job.product_of(zone.laying)
        assert_same(found.laid[name], piece, product)
        assert found.units.get(name, piece.unit) == piece.unit
    for need in layout.figures.needs:
        mine = {size: n for (name, size), n in found.opened.items() if name == need.product and n}
        assert sum(mine.values()) == need.units
        if need.lengths:
            assert mine == {long / MM: units for long, units in need.lengths if units}


def assert_same(shape: Polygon, piece: Piece, product: Product) -> None:
    """A freed part against a piece's outline: the box round it, and its area when it is cut
    straight from side to side."""
    joint = product.joint / MM
    us, vs = zip(*((u / MM, v / MM) for u, v in piece.outline), strict=True)
    want = [max(us) - min(us) - joint, max(vs) - min(vs) - joint]
    if piece.quarter:
        want.reverse()
    own = [shape.bounds[axis + 2] - shape.bounds[axis] for axis in (0, 1)]
    want = [max(size, 0) for size in want]
    assert alike(own, want, product), f"{piece.id}: {own}, not {want}"
    if len(shape.exterior.coords) - 1 != 4 or abs(shape.area - own[0] * own[1]) > HAIR:
        area = Polygon(list(zip(us, vs, strict=True))).area
        likely = [(size * (area / (size + joint) - joint)) for size in want]
        # A triangle's tip is cut off by the joint: the sizes told are those of its two sides.
        likely.append(want[0] * want[1] / 2)
        assert any(abs(shape.area - each) < HAIR * sum(want) for each in likely), piece.id


@pytest.mark.parametrize("name", QUICK)
def test_a_scenarios_cut_list_ends_with_its_pieces(name: str) -> None:
    solution = solve(read_job(SCENARIOS[name].path))
    for layout in solution.layouts:
        follow(solution.job, layout, cut_list_csv(solution.job, layout))
