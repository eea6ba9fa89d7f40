"""The bound on units against exact optima: HiGHS over all offsets, and trying everything."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import numpy.typing as npt
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from models.program.spans import Choice, Span
from solver.search.engine import least_units as units_at_least
from tests.references.naive_units import Cut, Stock, least_units

Run = tuple[int, int]
"""Where a run starts and how long it is."""


def choice_of(runs: list[Run], pitch: int, kerf: int, need: int) -> Choice:
    spans = tuple(
        Span(row, start, start + length, need, need, width=1)
        for row, (start, length) in enumerate(runs, start=1)
    )
    return Choice(pitch, 1, kerf, spans)


def ends_at(run: Run, joint: int, pitch: int) -> tuple[int, int]:
    """First and last piece of a run longer than a unit; 0 stands for a whole unit."""
    return (joint - run[0]) % pitch, (run[0] + run[1] - joint) % pitch


def exact_optimum(runs: list[Run], pitch: int, kerf: int, need: int) -> tuple[float, int]:
    """Least units over all offsets, as HiGHS proves: linear relaxation and whole optimum.

    One variable a run and offset, one a pair of an end piece and a start piece that fit
    in one unit; units are places less pairs.
    """
    offsets = [
        (i, ends, (run[1] - sum(ends)) // pitch + sum(end > 0 for end in ends))
        for i, run in enumerate(runs)
        for ends in {ends_at(run, joint, pitch) for joint in range(pitch)}
        if all(end == 0 or end >= need for end in ends)
    ]
    pairs = [(e, s) for e in range(1, pitch) for s in range(1, pitch) if e + s + kerf <= pitch]
    cost = np.array([*(float(places) for _, _, places in offsets), *(-1.0 for _ in pairs)])
    one_each = np.array(
        [[float(i == run) for i, _, _ in offsets] + [0.0] * len(pairs) for run in range(len(runs))]
    )
    supply = np.array(
        [
            [-float(ends[which] == size) for _, ends, _ in offsets]
            + [float(pair[1 - which] == size) for pair in pairs]
            for which in (0, 1)
            for size in range(1, pitch)
        ]
    )
    rules = [LinearConstraint(one_each, 1, 1), LinearConstraint(supply, -np.inf, 0)]
    relaxed, exact = (_minimum(cost, rules, whole) for whole in (0, 1))
    return relaxed, round(exact)


def _minimum(cost: npt.NDArray[np.float64], rules: list[LinearConstraint], whole: int) -> float:
    result = milp(cost, constraints=rules, integrality=np.full(len(cost), whole))
    assert result.fun is not None, result.message
    return float(result.fun)


@st.composite
def instances(draw: st.DrawFn, least: int, most: int, count: int) -> list[Run]:
    run = st.tuples(st.integers(0, 9), st.integers(least, most))
    return draw(st.lists(run, min_size=1, max_size=count))


@given(runs=instances(13, 70, 6), kerf=st.integers(0, 2), need=st.integers(0, 4))
@settings(max_examples=40, deadline=None, derandomize=True)
def test_the_bound_is_the_linear_optimum_rounded_up(runs: list[Run], kerf: int, need: int) -> None:
    choice = choice_of(runs, 12, kerf, need)
    relaxed, whole = exact_optimum(runs, 12, kerf, need)
    bound = units_at_least(choice, choice.spans)
    assert bound <= whole
    assert bound == math.ceil(relaxed - 1e-6)


def pieces_at(run: Run, joint: int, pitch: int, need: int) -> tuple[int, tuple[Cut, ...]] | None:
    """Whole units and cut pieces of a run of any length; None when an end is too short."""
    first, last = ends_at(run, joint, pitch)
    if run[1] <= (first or pitch):
        return 0, (piece(run[1], left=False, right=False),)
    if any(0 < end < need for end in (first, last)):
        return None
    cuts = [piece(first, left=False, right=True)] if first else []
    cuts += [piece(last, left=True, right=False)] if last else []
    return (run[1] - first - last) // pitch, tuple(cuts)


def piece(length: int, left: bool, right: bool) -> Cut:
    return Cut(tuple((x, 0) for x in range(length)), left, right, bottom=True, top=True)


@given(
    runs=instances(2, 20, 4),
    kerf=st.integers(0, 1),
    need=st.integers(0, 2),
    directional=st.booleans(),
)
@settings(max_examples=60, deadline=None, derandomize=True)
def test_no_choice_of_offsets_takes_less_than_the_bound(
    runs: list[Run], kerf: int, need: int, directional: bool
) -> None:
    pitch = 6
    choice = choice_of(runs, pitch, kerf, need)
    ways = [
        {way for joint in range(pitch) if (way := pieces_at(run, joint, pitch, need))}
        for run in runs
    ]
    assume(all(ways))
    stock = Stock(pitch, 1, kerf, turn=not directional)
    best = min(
        sum(whole for whole, _ in laid)
        + least_units(tuple(cut for _, cuts in laid for cut in cuts), stock)
        for laid in product(*ways)
    )
    assert units_at_least(choice, choice.spans, directional) <= best
