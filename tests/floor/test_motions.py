"""Moving, turning or mirroring a job changes nothing but where things are."""

from collections import defaultdict
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.pieces import Cut, pieces_of
from models.floor.runs import runs_of, slabs
from models.floor.sizes import Cell, Sizes
from models.floor.zone import Zone
from models.job.data import Job, Point
from tests.floor.rooms import PITCH, Move, any_jobs, field_zone, moved, rectilinear_jobs

LENGTH, WIDTH = PITCH

MOTIONS: dict[str, tuple[Move, bool]] = {
    "moved": (lambda p: (p[0] + 123_457, p[1] - 76_543), False),
    "a quarter turn": (lambda p: (-p[1], p[0]), False),
    "half a turn": (lambda p: (-p[0], -p[1]), False),
    "three quarters of a turn": (lambda p: (p[1], -p[0]), False),
    "mirrored left to right": (lambda p: (5_000 - p[0], p[1]), True),
    "mirrored top to bottom": (lambda p: (p[0], -p[1]), True),
    "mirrored about the diagonal": (lambda p: (p[1], p[0]), True),
}

Laid = dict[Cell, list[tuple[Cell, Sizes]]]
Carry = Callable[[Cell], Cell]


def square(job: Job) -> bool:
    """Whether the rows run along an axis: then the frame is exact, and so is every motion."""
    return 0 in job.field.directions[0].vector


def pieces(zone: Zone, line: int, joints: dict[int, int]) -> list[Cut]:
    """Pieces with row lines through ``line``; ``joints`` has an end joint by row line."""
    runs = runs_of(zone, slabs(zone), WIDTH, line)
    return pieces_of(runs, [joints[run.low] for run in runs], PITCH)


def by_cell(cuts: list[Cut], carry: Carry) -> Laid:
    """Boxes and sizes of the pieces by their unit's place, all carried into another frame."""
    found: Laid = defaultdict(list)
    for cut in cuts:
        found[carry(cut.cell)].append((carry(cut.box), cut.sizes))
    return {cell: sorted(found[cell], key=lambda each: each[0]) for cell in sorted(found)}


def carrier(old: Zone, new: Zone, move: Move) -> Carry:
    """Takes a box in the old frame to where it lies in the frame of the moved job."""

    def point(at: Point) -> Point:
        x, y = old.frame.to_job(at)
        return new.frame.to_frame(move((round(x), round(y))))

    def carry(box: Cell) -> Cell:
        (u0, v0), (u1, v1) = point(box[:2]), point(box[2:])
        return min(u0, u1), min(v0, v1), max(u0, u1), max(v0, v1)

    return carry


def both(job: Job, motion: str, line: int, spread: int) -> tuple[Laid, Laid]:
    """The pieces of a job carried along with a motion, and the pieces of the moved job."""
    move, flips = MOTIONS[motion]
    again = moved(job, move, flips)
    old, new = field_zone(job), field_zone(again)
    carry = carrier(old, new, move)
    low = line + (old.heights[0] - line) // WIDTH * WIDTH
    lows = range(low, old.heights[1], WIDTH)
    joints = {v: spread * (i + 1) % LENGTH for i, v in enumerate(lows)}
    carried = {v: carry((u, v, u + LENGTH, v + WIDTH)) for v, u in joints.items()}
    cuts = pieces(old, line, joints)
    cuts_again = pieces(new, carried[low][1], {cell[1]: cell[0] for cell in carried.values()})
    return by_cell(cuts, carry), by_cell(cuts_again, lambda cell: cell)


@pytest.mark.parametrize("motion", MOTIONS)
@settings(max_examples=12, deadline=None, derandomize=True)
@given(rectilinear_jobs(), st.integers(0, 499), st.integers(0, 2999))
def test_a_rectilinear_job_has_the_same_pieces_to_the_tick(
    motion: str, job: Job, line: int, spread: int
) -> None:
    before, after = both(job, motion, 40 * line, 40 * spread)
    assert before == after


def near(a: int | None, b: int | None) -> bool:
    return a == b if a is None or b is None else abs(a - b) <= 8


@pytest.mark.parametrize("motion", MOTIONS)
@settings(max_examples=12, deadline=None, derandomize=True)
@given(any_jobs().filter(square), st.integers(0, WIDTH - 1), st.integers(0, LENGTH - 1))
def test_any_job_has_the_same_pieces_but_for_rounding(
    motion: str, job: Job, line: int, spread: int
) -> None:
    before, after = both(job, motion, line, spread)
    assert before.keys() == after.keys()
    for cell, expected in before.items():
        assert len(after[cell]) == len(expected)
        for (box, sizes), (box_again, again) in zip(expected, after[cell], strict=True):
            assert all(near(a, b) for a, b in zip(box, box_again, strict=True))
            assert near(sizes.along, again.along)
            assert near(sizes.across, again.across)
            assert near(sizes.slant, again.slant)
            assert near(sizes.neck, again.neck)
