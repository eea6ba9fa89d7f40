"""Small choices of offsets in whole inches, and the solver the tests run themselves."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ortools.sat.python import cp_model

from models.lengths import TICKS_PER_INCH as INCH
from models.program.rows import Row, row
from models.program.spans import Choice, Meet, Span
from models.program.traced import Traced

Rule = Callable[[Traced, Sequence[Row], Choice], object]
"""Adds one rule to a model that has its rows."""


def span_of(row: int, start: int, end: int, needs: tuple[int, int] = (0, 0)) -> Span:
    """A span over the whole width of a row; inches."""
    return Span(row, start * INCH, end * INCH, needs[0] * INCH, needs[1] * INCH, INCH)


def meet_of(spans: Sequence[Span], one: int, two: int) -> Meet:
    """Two spans' joints count where both are laid; a stop is no joint."""
    low = max(spans[one].start, spans[two].start)
    high = min(spans[one].end, spans[two].end)
    ranges = [(max(low, spans[i].start + 1), min(high, spans[i].end - 1)) for i in (one, two)]
    return Meet(one, two, *ranges)


def choice_of(spans: Sequence[Span], pitch: int = 12, kerf: int = 0, **rules: object) -> Choice:
    """A choice on whole inches."""
    return Choice(pitch * INCH, INCH, kerf * INCH, tuple(spans), **rules)  # type: ignore[arg-type]


def solver_of() -> cp_model.CpSolver:
    """One worker, so that the same test gives the same answer."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    return solver


class _Every(cp_model.CpSolverSolutionCallback):
    def __init__(self, rows: Sequence[Row]) -> None:
        super().__init__()
        self.rows = rows
        self.found: set[tuple[int, ...]] = set()

    def on_solution_callback(self) -> None:
        self.found.add(tuple(self.value(row.offset) for row in self.rows))


def every(choice: Choice, rule: Rule | None = None) -> set[tuple[int, ...]]:
    """All offsets (inches, one a span) that one rule and the end needs leave."""
    traced = Traced()
    rows = [row(traced, index, choice) for index in range(len(choice.spans))]
    if rule is not None:
        rule(traced, rows, choice)
    solver = solver_of()
    solver.parameters.enumerate_all_solutions = True
    told = _Every(rows)
    status = solver.solve(traced.model, told)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE), solver.status_name(status)
    return told.found


def solve_broken(choice: Choice, rule: Callable[[list[cp_model.IntVar]], Rule]) -> int:
    """The fewest places at which one rule has to break; the rule is given its list of breaks."""
    traced = Traced()
    rows = [row(traced, index, choice) for index in range(len(choice.spans))]
    breaks: list[cp_model.IntVar] = []
    rule(breaks)(traced, rows, choice)
    traced.model.minimize(sum(breaks))
    solver = solver_of()
    assert solver.solve(traced.model) == cp_model.OPTIMAL
    return round(solver.objective_value)
