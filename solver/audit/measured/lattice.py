"""The pattern of a herringbone, found from where its whole units lie.

A module (one unit, or two side by side in a double herringbone) is L long and M wide with
joints. From the corner of one flat module others follow at every sum of whole numbers of
the steps (M, M) and (L, -L), and upright ones at (L, M - L) from those. Turned over, as in
the reflection of such a zone, v counts the other way.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from solver.audit.document.claims import Bools, Floats, Ints
from solver.audit.tolerances import TOUCH

MOST_STARTS = 12
"""Whole units from which the pattern is tried; the one most others agree with is taken."""


@dataclass(frozen=True, slots=True)
class Lattice:
    """Where the modules are: ``base`` is the corner of a flat one, not yet turned over."""

    length: float
    width: float
    halves: int
    turned_over: bool
    base: tuple[float, float] = (0.0, 0.0)

    @property
    def module(self) -> float:
        """The width of a module, M."""
        return self.width * self.halves

    @property
    def tips(self) -> float:
        """Distance from one line of tips to the next, square to them."""
        return float(self.length / np.sqrt(2))

    def to_tips(self, points: Floats) -> Floats:
        """Distances of points (n, 2) from some line of tips, square to it, with sign."""
        away = self.plain(points, np.zeros_like(points)) - np.array(self.base)
        return np.asarray((away[:, 0] - away[:, 1]) / np.sqrt(2), dtype=np.float64)

    def plain(self, corner: Floats, unit: Floats) -> Floats:
        """Lower left corners as they are before the zone is turned over."""
        if not self.turned_over:
            return corner
        return np.column_stack([corner[:, 0], -(corner[:, 1] + unit[:, 1])])

    def start_of(self, half: int, upright: Bools) -> Floats:
        """Where the unit of a module starts, seen from the corner of the flat one."""
        flat = np.array([0.0, half * self.width])
        up = np.array([self.length + half * self.width, self.module - self.length])
        return np.where(upright[:, None], up, flat)

    def nearest(self, corner: Floats, upright: Bools) -> tuple[Floats, Ints]:
        """How far corners (plain) are from the nearest unit of their kind, and its column."""
        off = np.full(len(corner), np.inf)
        column = np.zeros(len(corner), dtype=np.int64)
        for half in range(self.halves):
            away = corner - self.start_of(half, upright) - np.array(self.base)
            # The two steps are square to each other, so each is rounded by itself.
            i = np.rint((away[:, 0] + away[:, 1]) / (2 * self.module))
            k = np.rint((away[:, 0] - away[:, 1]) / (2 * self.length))
            step = np.column_stack([i * self.module + k * self.length,
                                    i * self.module - k * self.length])  # fmt: skip
            here = np.abs(away - step).max(axis=1)
            nearer = here < off
            off[nearer], column[nearer] = here[nearer], k[nearer]
        return off, column


def lattice_from(lattice: Lattice, corner: Floats, unit: Floats, upright: Bools) -> Lattice:
    """The lattice that most units agree with; their corners are lower left ones, as laid."""
    plain = lattice.plain(corner, unit)
    chosen = np.unique(np.linspace(0, len(plain) - 1, MOST_STARTS).astype(np.int64))
    best, agree = lattice, -1
    for place in chosen.tolist():
        for half in range(lattice.halves):
            base = plain[place] - lattice.start_of(half, upright[[place]])[0]
            tried = Lattice(
                lattice.length, lattice.width, lattice.halves, lattice.turned_over,
                (float(base[0]), float(base[1])),
            )  # fmt: skip
            count = int((tried.nearest(plain, upright)[0] <= TOUCH).sum())
            if count > agree:
                best, agree = tried, count
    return best


def columns_as_rows(column: Ints, claimed: Ints) -> Ints:
    """Columns numbered from 1, from whichever side agrees better with the document."""
    _, rank = np.unique(column, return_inverse=True)
    ways = [rank + 1, rank.max() - rank + 1]
    found = max(ways, key=lambda rows: int((rows == claimed).sum()))
    return np.asarray(found, dtype=np.int64)
