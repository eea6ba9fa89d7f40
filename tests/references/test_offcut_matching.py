"""Offcut sharing against networkx and against trying every way to cut tiny sets of pieces."""

from __future__ import annotations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.stock import blossom
from solver.stock.match import Sized, pair_any, pair_ends
from solver.stock.pack import pack
from solver.stock.parts import NO_PIECE, Part, Sits, Stock
from tests.references.naive_units import Cut, fits, least_units
from tests.references.naive_units import Stock as NaiveStock

LENGTH, WIDTH = 6, 4

sized = st.tuples(st.integers(1, 47), st.integers(1, 12))
some = st.lists(sized, max_size=14)


def most_pairs(left: list[Sized], right: list[Sized], room: int, within: int | None) -> int:
    """Pairs in a maximum bipartite matching (Hopcroft and Karp, in networkx)."""
    graph: nx.Graph[tuple[str, int]] = nx.Graph()
    lows = [("low", i) for i in range(len(left))]
    graph.add_nodes_from(lows)
    for i, (a, row) in enumerate(left):
        for j, (b, other) in enumerate(right):
            if a + b <= room and (within is None or abs(row - other) <= within):
                graph.add_edge(("low", i), ("high", j))
    return len(nx.bipartite.hopcroft_karp_matching(graph, lows)) // 2


@given(lows=some, highs=some, kerf=st.integers(0, 3), within=st.none() | st.integers(0, 4))
@settings(deadline=None, derandomize=True)
def test_most_start_and_end_pieces_share(
    lows: list[Sized], highs: list[Sized], kerf: int, within: int | None
) -> None:
    pairs = pair_ends(lows, highs, 48 - kerf, within)
    assert len({a for a, _ in pairs}) == len({b for _, b in pairs}) == len(pairs)
    assert all(lows[a][0] + highs[b][0] + kerf <= 48 for a, b in pairs)
    assert len(pairs) == most_pairs(lows, highs, 48 - kerf, within)


@given(sizes=some, kerf=st.integers(0, 3))
@settings(deadline=None, derandomize=True)
def test_most_pairs_when_units_may_be_turned(sizes: list[Sized], kerf: int) -> None:
    pairs = pair_any(sizes, 48 - kerf)
    graph: nx.Graph[int] = nx.Graph()
    graph.add_edges_from(
        (i, j)
        for i, (a, _) in enumerate(sizes)
        for j, (b, _) in enumerate(sizes[:i])
        if a + b + kerf <= 48
    )
    assert len({i for pair in pairs for i in pair}) == 2 * len(pairs)
    assert all(sizes[a][0] + sizes[b][0] + kerf <= 48 for a, b in pairs)
    assert len(pairs) == len(nx.max_weight_matching(graph, maxcardinality=True))


@given(sizes=some, kerf=st.integers(0, 3), within=st.integers(0, 4))
@settings(deadline=None, derandomize=True)
def test_most_pairs_of_turned_units_within_some_rows(
    sizes: list[Sized], kerf: int, within: int
) -> None:
    pairs = pair_any(sizes, 48 - kerf, within)
    graph: nx.Graph[int] = nx.Graph()
    graph.add_edges_from(
        (i, j)
        for i, (a, row) in enumerate(sizes)
        for j, (b, other) in enumerate(sizes[:i])
        if a + b + kerf <= 48 and abs(row - other) <= within
    )
    assert len(pairs) == len(nx.max_weight_matching(graph, maxcardinality=True))


@given(edges=st.sets(st.tuples(st.integers(0, 11), st.integers(0, 11)), max_size=30))
@settings(max_examples=300, deadline=None, derandomize=True)
def test_most_pairs_in_any_graph(edges: set[tuple[int, int]]) -> None:
    # networkx has its own form of Edmonds' blossom method (after Galil).
    graph: nx.Graph[int] = nx.Graph([(a, b) for a, b in sorted(edges) if a != b])
    partners = [sorted(graph.neighbors(i)) if i in graph else [] for i in range(12)]
    pairs = blossom.most_pairs(partners)
    assert len({i for pair in pairs for i in pair}) == 2 * len(pairs)
    assert all(graph.has_edge(*pair) for pair in pairs)
    assert len(pairs) == len(nx.max_weight_matching(graph, maxcardinality=True))


ROOMS_OF_ENDS = st.lists(
    st.tuples(st.sampled_from([Sits.LOW, Sits.HIGH]), st.integers(1, 47), st.integers(1, 9)),
    max_size=24,
)


@given(
    ends=ROOMS_OF_ENDS,
    kerf=st.integers(0, 3),
    scrap=st.integers(0, 20),
    within=st.none() | st.integers(0, 4),
    directional=st.booleans(),
)
@settings(max_examples=200, deadline=None, derandomize=True)
def test_a_room_of_end_pieces_is_a_matching(
    ends: list[tuple[Sits, int, int]],
    kerf: int,
    scrap: int,
    within: int | None,
    directional: bool,
) -> None:
    # Full-width end pieces share in twos at most, so the units are parts less pairs.
    stock = Stock(48, 8, kerf, directional, within, scrap)
    found = [
        Part(number, row, sits, length, Sits.FULL, 8)
        for number, (sits, length, row) in enumerate(sorted(ends, key=lambda end: end[2]))
    ]
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(found)))
    for j, later in enumerate(found):
        for i, first in enumerate(found[:j]):
            opposite = first.along is not later.along or not directional
            near = within is None or later.row - first.row <= within
            fit = first.length + kerf + max(later.length, scrap) <= 48
            if opposite and near and fit:
                graph.add_edge(i, j)
    pairs = nx.max_weight_matching(graph, maxcardinality=True)
    assert len(pack(found, stock)) == len(found) - len(pairs)


@st.composite
def parts(draw: st.DrawFn, width: int = LENGTH, height: int = WIDTH) -> Part:
    """One rectangular part that is cut along the row, across it, or both."""
    along, across = draw(st.sampled_from(SITS))
    return Part(
        cut=NO_PIECE,
        row=1,
        along=along,
        length=width if along is Sits.FULL else draw(st.integers(1, width - 1)),
        across=across,
        width=height if across is Sits.FULL else draw(st.integers(1, height - 1)),
    )


SITS = [(a, b) for a in Sits for b in Sits if (a, b) != (Sits.FULL, Sits.FULL)]


def cut_of(part: Part) -> Cut:
    """The same part for the naive program."""
    along = (part.along in (Sits.LOW, Sits.FULL), part.along in (Sits.HIGH, Sits.FULL))
    across = (part.across in (Sits.LOW, Sits.FULL), part.across in (Sits.HIGH, Sits.FULL))
    cells = tuple((x, y) for x in range(part.length) for y in range(part.width))
    return Cut(cells, *along, *across)


def check_units(found: list[Part], stock: Stock) -> int:
    """Units packed, after checking that each part is in one and every unit can be cut so."""
    naive = NaiveStock(
        stock.length, stock.width, stock.kerf, not stock.directional, stock.shop_cuts
    )
    units = pack(found, stock)
    assert sorted(i for unit in units for i in unit) == list(range(len(found)))
    for unit in units:
        assert fits(tuple(sorted(cut_of(found[i]) for i in unit)), naive)
    return len(units)


@given(
    found=st.lists(parts(), max_size=6),
    kerf=st.integers(0, 1),
    directional=st.booleans(),
    shop_cuts=st.booleans(),
)
@settings(max_examples=200, deadline=None, derandomize=True)
def test_units_are_as_few_as_can_be(
    found: list[Part], kerf: int, directional: bool, shop_cuts: bool
) -> None:
    units = check_units(found, Stock(LENGTH, WIDTH, kerf, directional, shop_cuts=shop_cuts))
    naive = NaiveStock(LENGTH, WIDTH, kerf, not directional, shop_cuts)
    assert units == least_units(tuple(map(cut_of, found)), naive)


@given(found=st.lists(parts(WIDTH, WIDTH), max_size=6), kerf=st.integers(0, 1))
@settings(max_examples=200, deadline=None, derandomize=True)
def test_square_units_are_as_few_as_can_be(found: list[Part], kerf: int) -> None:
    units = check_units(found, Stock(WIDTH, WIDTH, kerf, directional=False))
    naive = NaiveStock(WIDTH, WIDTH, kerf, turn=True)
    assert units == least_units(tuple(map(cut_of, found)), naive)


@pytest.mark.parametrize("along", [True, False], ids=["end pieces", "rips"])
@given(data=st.data(), kerf=st.integers(0, 1), directional=st.booleans())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_pieces_cut_in_one_direction_take_the_least_units(
    along: bool, data: st.DataObject, kerf: int, directional: bool
) -> None:
    sits = st.sampled_from([Sits.LOW, Sits.HIGH])
    found = [
        Part(NO_PIECE, 1, data.draw(sits), data.draw(st.integers(1, LENGTH - 1)), Sits.FULL, WIDTH)
        if along
        else Part(
            NO_PIECE, 1, Sits.FULL, LENGTH, data.draw(sits), data.draw(st.integers(1, WIDTH - 1))
        )
        for _ in range(data.draw(st.integers(0, 6)))
    ]
    naive = NaiveStock(LENGTH, WIDTH, kerf, not directional)
    units = check_units(found, Stock(LENGTH, WIDTH, kerf, directional))
    assert units == least_units(tuple(map(cut_of, found)), naive)
