"""How near end joints come to each other where units have several lengths.

The same distances as in ``measures``, from the joints themselves instead of row offsets.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence

from models.floor.cells import RunCells, joints_of
from models.floor.runs import Run
from models.program.spans import Meet, Range, meets_of

Nearest = tuple[int, tuple[int, int]]
"""The least distance, in ticks, and the two rows it is between."""


def joint_offset(runs: Sequence[Run], cells: Sequence[RunCells]) -> Nearest | None:
    """The least distance between end joints of neighbouring rows; None when no two meet."""
    return _nearest(runs, cells, meets_of(runs)[0])


def second_joint_offset(runs: Sequence[Run], cells: Sequence[RunCells]) -> Nearest | None:
    """The least distance between end joints of rows two apart; None when no two meet."""
    return _nearest(runs, cells, meets_of(runs)[1])


def _nearest(
    runs: Sequence[Run], cells: Sequence[RunCells], meets: Iterable[Meet]
) -> Nearest | None:
    found: list[Nearest] = []
    for meet in meets:
        ones = within(joints_of(cells[meet.one]), meet.one_range)
        twos = within(joints_of(cells[meet.two]), meet.two_range)
        if ones and twos:
            rows = runs[meet.one].row, runs[meet.two].row
            found.append((min(distance(joint, twos) for joint in ones), rows))
    return min(found, default=None)


def within(joints: Sequence[int], span: Range) -> Sequence[int]:
    """The joints, in rising order, that lie in a closed range."""
    return joints[bisect_left(joints, span[0]) : bisect_right(joints, span[1])]


def distance(joint: int, others: Sequence[int]) -> int:
    """From a joint to the nearest of others (at least one), given in rising order; ticks."""
    place = bisect_left(others, joint)
    return min(abs(joint - other) for other in others[max(place - 1, 0) : place + 1])
