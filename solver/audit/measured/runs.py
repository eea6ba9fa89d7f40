"""Rows as they are laid: their runs, their joints, and distances modulo a pitch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from solver.audit.document.claims import Floats, Ints
from solver.audit.measured.edges import Meets
from solver.audit.measured.laid import Laid


def circular(values: Floats, period: float) -> Floats:
    """Values as the nearest distance to a multiple of the period, with sign."""
    return np.asarray((values + period / 2) % period - period / 2, dtype=np.float64)


def off_line(value: float, period: float) -> float:
    """A value as the nearest distance to a multiple of the period, with sign."""
    return (value + period / 2) % period - period / 2


@dataclass(frozen=True, slots=True)
class Run:
    """Pieces of one row joined end to end, from ``start`` to ``end`` along u.

    ``phase`` is where its end joints fall, in [0, pitch).
    """

    row: int
    start: float
    end: float
    phase: float
    pieces: Ints

    @property
    def length(self) -> float:
        """Length of the run."""
        return self.end - self.start


def runs_of(laid: Laid) -> tuple[Run, ...]:
    """The runs of a zone, by row and then along it, measured from the pieces."""
    same = laid.rows[laid.joints.before] == laid.rows[laid.joints.after]
    before, after, at = (
        column[same] for column in (laid.joints.before, laid.joints.after, laid.joints.at)
    )
    count = len(laid.rows)
    graph = coo_array((np.ones(len(before)), (before, after)), shape=(count, count))
    number, label = connected_components(graph, directed=False)
    start, end = np.full(number, np.inf), np.full(number, -np.inf)
    np.minimum.at(start, label, laid.bounds[:, 0])
    np.maximum.at(end, label, laid.bounds[:, 2])
    # A run without a joint is one piece: its unit's corner says where the joints would fall.
    phase, row = np.zeros(number), np.zeros(number, dtype=np.int64)
    phase[label], row[label] = laid.pieces.corner[:, 0], laid.rows
    phase[label[before]] = at
    order = np.argsort(label, kind="stable")
    members = np.split(order, np.flatnonzero(np.diff(label[order])) + 1)
    runs = [
        Run(int(row[i]), float(start[i]), float(end[i]), float(phase[i] % laid.pitch[0]), those)
        for i, those in enumerate(members)
    ]
    return tuple(sorted(runs, key=lambda run: (run.row, run.start)))


def joints_by_row(laid: Laid) -> dict[int, Meets]:
    """The joints of each row, in order along it; a floor of one piece a row has none."""
    row = laid.rows[laid.joints.before]
    order = np.lexsort((laid.joints.at, row))
    numbers, starts = np.unique(row[order], return_index=True)
    places = np.split(order, starts[1:]) if len(order) else []
    return {
        int(number): laid.joints.take(place) for number, place in zip(numbers, places, strict=True)
    }


def neighbours(rows: dict[int, Meets], gap: int) -> Iterator[tuple[int, Meets, Meets]]:
    """Rows with joints that lie a number of rows apart, with their joints."""
    for number in sorted(rows):
        if number + gap in rows:
            yield number, rows[number], rows[number + gap]
