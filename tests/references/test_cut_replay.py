"""The cut list followed line by line on rectangles: it ends with exactly the laid pieces."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from models.floor.layout import Layout, Piece
from models.floor.runs import runs_of, slabs
from models.job.data import Job, Product
from models.job.reader import read_job
from models.lengths import TICKS_PER_MM as MM
from scenarios.catalogue import SCENARIOS
from solver.search import solve
from solver.search.outcome.finish import Bounds, finish
from solver.sheets.cutlist.pages import COLUMNS, cut_list_csv
from tests.references.cut_joints import Neighbours, at_factory_edges
from tests.references.cut_replay import HAIR, ReplayError, alike, replay
from tests.search.floors import job_of, laid_alone, zone_in
from tests.sheets.builders import plank_solution, tile_solution
from tests.sheets.floors import border_solution, herringbone_solution, mirror_solution

QUICK = ("galley", "reading-room", "porch-passage", "tern-hall", "star-landing", "lamp-room")
"""Scenarios that are solved in a second or two."""


def follow(job: Job, layout: Layout, text: str) -> None:
    """Replay a list and compare what is laid with the layout's own pieces."""
    found = replay(job, text)
    pieces = [piece for zone in layout.zones for piece in zone.pieces]
    assert found.laid.keys() == {piece.id for piece in pieces}
    assert len(found.laid) == len(pieces)
    for zone in layout.zones:
        product, near = job.product_of(zone.laying), Neighbours(zone)
        for piece in zone.pieces:
            shape = found.laid[piece.id]
            assert found.units.get(piece.id, piece.unit) == piece.unit
            assert_same(shape, piece, product)
            if piece.cut and not product.shop_cuts and not shape.is_empty:
                size = found.sizes[piece.unit]
                assert at_factory_edges(shape, size, near.joints(piece, product), product), piece.id
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
    if min(want) < HAIR:
        assert shape.is_empty, piece.id
        return
    own = [shape.bounds[axis + 2] - shape.bounds[axis] for axis in (0, 1)]
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


FLOORS = {
    "planks": plank_solution,
    "tiles": tile_solution,
    "border": border_solution,
    "points": herringbone_solution,
    "walk of mixed lengths": mirror_solution,
}


@pytest.mark.parametrize("name", FLOORS)
def test_a_hand_made_floors_cut_list_ends_with_its_pieces(name: str) -> None:
    solution = FLOORS[name]()
    for layout in solution.layouts:
        follow(solution.job, layout, cut_list_csv(solution.job, layout))


@st.composite
def floors(draw: st.DrawFn) -> tuple[Job, Layout]:
    """A small room with a slanted wall or a post, laid at random and packed."""
    wide, high = draw(st.integers(700, 2500)), draw(st.integers(300, 900))
    lean, notch = draw(st.integers(0, 150)), draw(st.integers(0, 120))
    corners = [(0, 0), (wide, 0), (wide + lean, high), (0, high)]
    if notch > 20:
        corners[3:] = [(notch, high), (notch, high - notch), (0, high - notch)]
    square = draw(st.booleans())
    length, width = draw(st.integers(200, 700)), draw(st.integers(80, 250))
    joint = draw(st.sampled_from([0, 2, 5]))
    product = Product(
        "plank",
        (width if square else length) * MM,
        width * MM,
        joint * MM,
        draw(st.sampled_from([0, 1, 3])) * MM,
        directional=draw(st.booleans()),
        scrap=draw(st.sampled_from([0, 60, 150])) * MM,
        shop_cuts=draw(st.booleans()),
    )
    job = job_of(corners, product)
    zone, line = zone_in(job), draw(st.integers(-200, 200))
    runs = runs_of(zone, slabs(zone), product.pitch[1], line * MM)
    offsets = draw(st.lists(st.integers(0, 699), min_size=len(runs), max_size=len(runs)))
    floor = laid_alone(job, line, offsets)
    return job, finish(floor, Bounds((1,), {product.name: 1}))


@settings(max_examples=40, deadline=None)
@given(floors())
def test_any_small_rooms_cut_list_ends_with_its_pieces(floor: tuple[Job, Layout]) -> None:
    job, layout = floor
    follow(job, layout, cut_list_csv(job, layout))


def small_floor() -> tuple[Job, Layout]:
    """A room with cross cuts, rips, slanted cuts and offcuts used again."""
    product = Product("plank", 900 * MM, 150 * MM, 2 * MM, 3 * MM, scrap=60 * MM)
    job = job_of([(0, 0), (2500, 0), (2560, 700), (0, 700)], product)
    floor = laid_alone(job, 40, (0, 300, 650, 150, 800))
    return job, finish(floor, Bounds((1,), {product.name: 1}))


def lines_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def text_of(lines: list[dict[str, str]]) -> str:
    """Lines as CSV again, the cuts numbered through."""
    numbers = Counter[str]()
    store = io.StringIO()
    writer = csv.DictWriter(store, list(COLUMNS))
    writer.writeheader()
    for line in lines:
        numbers["cuts"] += line["cut"] != "whole units"
        number = str(numbers["cuts"]) if line["cut"] != "whole units" else ""
        writer.writerow({**line, "number": number})
    return store.getvalue()


def test_the_small_floor_has_every_kind_of_cut() -> None:
    job, layout = small_floor()
    lines = lines_of(cut_list_csv(job, layout))
    follow(job, layout, text_of(lines))
    assert {line["cut"] for line in lines} >= {"cross cut", "rip", "slanted cross cut"}
    assert any(line["other part for"] for line in lines)


def test_no_line_can_be_dropped_or_come_twice() -> None:
    job, layout = small_floor()
    lines = lines_of(cut_list_csv(job, layout))
    for i in range(len(lines)):
        for changed in (lines[:i] + lines[i + 1 :], [*lines[: i + 1], *lines[i:]]):
            with pytest.raises((ReplayError, AssertionError)):
                follow(job, layout, text_of(changed))


def other_side(words: str) -> str:
    edge, _, side = words.partition(" ")
    sides = ("tail end", "head end", "right edge", "left edge")
    return f"{edge} {sides[sides.index(side) ^ 1]}"


CHANGES: dict[str, Callable[[str], str]] = {
    "cut": lambda old: "rip" if "cross" in old else "cross cut",
    "from": other_side,
    "in hand": lambda old: "rest" if old == "measured part" else "measured part",
    "made in": lambda old: f"{old}z",
    "piece": lambda old: f"{old}0",
    "units opened": lambda old: str(int(old) + 1),
    "frees piece": lambda old: "" if old else "yes",
    "measure right or tail mm": lambda old: str(float(old) + 1),
    "measure left or head mm": lambda old: str(float(old) - 1),
    "along most mm": lambda old: str(float(old) + 0.1),
    "across most mm": lambda old: str(float(old) - 0.1),
    "other part": lambda old: "scrap" if old != "scrap" else "u99a",
    "other part for": lambda old: f"{old} 9-9",
    "other part along mm": lambda old: str(float(old) + 20),
}


@pytest.mark.parametrize("column", CHANGES)
def test_no_line_can_be_altered(column: str) -> None:
    job, layout = small_floor()
    lines = lines_of(cut_list_csv(job, layout))
    changed = 0
    for i, line in enumerate(lines):
        if line["cut"] != "whole units" and (line[column] or column == "frees piece"):
            altered = {**line, column: CHANGES[column](line[column])}
            with pytest.raises((ReplayError, AssertionError)):
                follow(job, layout, text_of([*lines[:i], altered, *lines[i + 1 :]]))
            changed += 1
    assert changed > 3
