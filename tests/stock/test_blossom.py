"""The most pairs in any graph, where odd cycles lead a simple search astray."""

from __future__ import annotations

from solver.stock.blossom import most_pairs


def pairs(count: int, *edges: tuple[int, int]) -> list[tuple[int, int]]:
    partners = [[b if a == i else a for a, b in edges if i in (a, b)] for i in range(count)]
    found = most_pairs(partners)
    assert all(pair in edges for pair in found)
    assert len({i for pair in found for i in pair}) == 2 * len(found)
    return found


def test_no_edge_makes_no_pair() -> None:
    assert pairs(3) == []


def test_a_triangle_makes_one_pair() -> None:
    assert len(pairs(3, (0, 1), (1, 2), (0, 2))) == 1


def test_a_path_is_paired_from_its_ends() -> None:
    assert pairs(4, (0, 1), (1, 2), (2, 3)) == [(0, 1), (2, 3)]


def test_two_triangles_joined_by_an_edge_are_paired_through_it() -> None:
    edges = ((0, 1), (0, 2), (1, 2), (2, 3), (3, 4), (3, 5), (4, 5))
    assert len(pairs(6, *edges)) == 3


def test_a_cycle_of_five_with_a_tail_at_every_corner() -> None:
    ring = [(i, (i + 1) % 5) for i in range(5)]
    edges = [(min(a, b), max(a, b)) for a, b in ring] + [(i, i + 5) for i in range(5)]
    assert pairs(10, *edges) == [(i, i + 5) for i in range(5)]


def test_a_vertex_none_reaches_is_left_alone() -> None:
    assert len(pairs(7, (0, 1), (0, 2), (0, 3), (4, 5), (5, 6))) == 2
