"""The most pairs in any graph: Edmonds' blossom method, from every vertex left alone.

Edmonds, Paths, trees and flowers, 1965, from memory. From an unpaired vertex grows a tree of
alternating steps; an odd cycle in it (a blossom) is treated as one vertex. A tree that ends
at no other unpaired vertex can be left out for good.
"""

from __future__ import annotations

from collections.abc import Sequence


def most_pairs(partners: Sequence[Sequence[int]]) -> list[tuple[int, int]]:
    """Pairs (lower number first) of vertices, given whom each may be paired with."""
    mates = _greedy(partners)
    gone: set[int] = set()
    for root, mate in enumerate(mates):
        if mate is None:
            tree = _Tree(root, mates, partners, gone)
            end = tree.grow()
            if end is None:
                gone |= tree.reached
            else:
                tree.flip(end)
    return [(one, two) for one, two in enumerate(mates) if two is not None and one < two]


def _greedy(partners: Sequence[Sequence[int]]) -> list[int | None]:
    """Pairs to start from: those with fewest partners choose first."""
    mates: list[int | None] = [None] * len(partners)
    for one in sorted(range(len(partners)), key=lambda i: (len(partners[i]), i)):
        if mates[one] is None:
            free = (two for two in partners[one] if mates[two] is None)
            two = min(free, key=lambda i: (len(partners[i]), i), default=None)
            if two is not None:
                mates[one], mates[two] = two, one
    return mates


class _Tree:
    """One search from an unpaired vertex; ``flip`` pairs up along the path it found."""

    def __init__(
        self,
        root: int,
        mates: list[int | None],
        partners: Sequence[Sequence[int]],
        gone: set[int],
    ) -> None:
        self.root, self.mates, self.partners, self.gone = root, mates, partners, gone
        self.came: dict[int, int] = {}
        self.base = list(range(len(mates)))
        self.even = {root}
        self.queue = [root]

    @property
    def reached(self) -> set[int]:
        """Every vertex in the tree."""
        return self.even | set(self.came)

    def grow(self) -> int | None:
        """The other end of a path along which one more pair can be made; None if none."""
        for one in self.queue:  # the queue grows while it is read
            for two in self.partners[one]:
                if two in self.gone or self._same(one, two):
                    continue
                mate = self.mates[two]
                if two == self.root or (mate is not None and mate in self.came):
                    self._shrink(one, two)
                elif two not in self.came:
                    self.came[two] = one
                    if mate is None:
                        return two
                    self._add(mate)
        return None

    def flip(self, end: int) -> None:
        """Pair up along the path that ends here."""
        at: int | None = end
        while at is not None:
            before = self.came[at]
            following = self.mates[before]
            self.mates[at], self.mates[before] = before, at
            at = following

    def _same(self, one: int, two: int) -> bool:
        return self.base[one] == self.base[two] or self.mates[one] == two

    def _add(self, vertex: int) -> None:
        if vertex not in self.even:
            self.even.add(vertex)
            self.queue.append(vertex)

    def _shrink(self, one: int, two: int) -> None:
        """Make one vertex of the odd cycle closed by the step from one to two."""
        stem = self._meeting(one, two)
        inside: set[int] = set()
        self._mark(one, stem, two, inside)
        self._mark(two, stem, one, inside)
        for vertex, base in enumerate(self.base):
            if base in inside:
                self.base[vertex] = stem
                self._add(vertex)

    def _meeting(self, one: int, two: int) -> int:
        """Where the ways back to the root from two vertices meet."""
        seen = set()
        at = self.base[one]
        while True:
            seen.add(at)
            mate = self.mates[at]
            if mate is None:
                break
            at = self.base[self.came[mate]]
        at = self.base[two]
        while at not in seen:
            mate = self.mates[at]
            if mate is None:
                raise AssertionError("the two ways back share the root")
            at = self.base[self.came[mate]]
        return at

    def _mark(self, vertex: int, stem: int, child: int, inside: set[int]) -> None:
        """Note the bases on the way from a vertex to the stem, and how to go round."""
        while self.base[vertex] != stem:
            mate = self.mates[vertex]
            if mate is None:
                raise AssertionError("only the root is unpaired on the way back")
            inside |= {self.base[vertex], self.base[mate]}
            self.came[vertex] = child
            child = mate
            vertex = self.came[mate]
