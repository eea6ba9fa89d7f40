"""The one module that runs a solver: CP-SAT for offsets, a linear solver for the stock flow.

One worker and a deterministic time limit: the same job gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ortools.math_opt.python import mathopt
from ortools.sat.python import cp_model

from models.program.flow import stock_flow
from models.program.offsets import build, hint
from models.program.spans import Choice, Span

ROUNDING = 1e-6
"""A linear optimum this little above a whole number counts as that number."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What CP-SAT found: offsets in ticks (None: nothing), and whether it is proved best.

    ``infeasible`` is True only when a second run, presolve off, said the same.
    """

    offsets: tuple[int, ...] | None
    proved: bool
    infeasible: bool


def best_offsets(choice: Choice, start: Sequence[int] | None, effort: float,
                 may_break: bool = False) -> Answer:
    """The least units over all offsets, from a first answer, within a deterministic effort."""
    program = build(choice, may_break)
    if start is not None:
        hint(program, choice, start)
    solver = _solver(effort)
    status = solver.solve(program.model)
    if status == cp_model.INFEASIBLE:
        return Answer(None, True, _confirm(choice, effort, may_break))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(None, False, False)
    offsets = tuple(solver.value(row.offset) * choice.step for row in program.rows)
    return Answer(offsets, status == cp_model.OPTIMAL, False)


def _confirm(choice: Choice, effort: float, may_break: bool) -> bool:
    """Ask again with presolve off: some releases have called feasible programs infeasible."""
    solver = _solver(effort)
    solver.parameters.cp_model_presolve = False
    return bool(solver.solve(build(choice, may_break).model) == cp_model.INFEASIBLE)


def _solver(effort: float) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 7
    solver.parameters.max_deterministic_time = effort
    return solver


def least_units(choice: Choice, spans: Sequence[Span], directional: bool = True) -> int:
    """The stock flow's bound for spans of which no two lie side by side across a unit."""
    if not spans:
        return 0
    result = mathopt.solve(stock_flow(choice, spans, directional), mathopt.SolverType.GLOP)
    if result.termination.reason is not mathopt.TerminationReason.OPTIMAL:
        return math.ceil(sum(span.length for span in spans) / choice.pitch)
    return math.ceil(result.objective_value() - ROUNDING)
