"""The one module that runs a solver: CP-SAT for offsets, a linear solver for the stock flow.

One worker and a deterministic time limit: the same job gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ortools.math_opt import model_pb2
from ortools.math_opt.python import mathopt
from ortools.sat.python import cp_model

from models.program.flow import LinearProgram, stock_flow
from models.program.offsets import build, hint
from models.program.spans import Choice, Span, cut_ends
from solver.stock.match import pair_ends

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


def best_offsets(
    choice: Choice, start: Sequence[int] | None, effort: float, may_break: bool = False
) -> Answer:
    """The least units over all offsets, from a first answer, within a deterministic effort.

    An answer is never worse than the first one, if that keeps the rules or ``may_break``.
    """
    program = build(choice, may_break)
    if start is not None:
        hint(program, start, sharing(choice, start))
    solver = _solver(effort)
    status = solver.solve(program.model)
    if status == cp_model.INFEASIBLE:
        return Answer(None, True, _confirm(choice, effort, may_break))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(None, False, False)
    offsets = tuple(solver.value(row.offset) * choice.step for row in program.rows)
    return Answer(offsets, status == cp_model.OPTIMAL, False)


def sharing(choice: Choice, offsets: Sequence[int]) -> frozenset[tuple[int, int]]:
    """As many (span of an end piece, span of a start piece) as can share units end to end."""
    pieces = [cut_ends(s, p, choice.pitch) for s, p in zip(choice.spans, offsets, strict=True)]
    starts, ends = (
        [i for i, piece in enumerate(pieces) if piece[which] < choice.pitch] for which in (0, 1)
    )
    pairs = pair_ends(
        [(pieces[i][1], choice.spans[i].row) for i in ends],
        [(pieces[i][0], choice.spans[i].row) for i in starts],
        choice.pitch - choice.kerf,
        choice.within,
    )
    return frozenset((ends[a], starts[b]) for a, b in pairs)


def _confirm(choice: Choice, effort: float, may_break: bool) -> bool:
    """Ask again with presolve off: some releases have called feasible programs infeasible."""
    solver = _solver(effort)
    solver.parameters.cp_model_presolve = False
    return bool(solver.solve(build(choice, may_break).model) == cp_model.INFEASIBLE)


def _solver(effort: float) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 7
    # Otherwise the solver takes Ctrl-C for itself and the caller never hears of it.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.max_deterministic_time = effort
    return solver


def least_units(choice: Choice, spans: Sequence[Span], directional: bool = True) -> int:
    """The stock flow's bound for spans of which no two lie side by side across a unit."""
    if not spans:
        return 0
    result = mathopt.solve(_model(stock_flow(choice, spans, directional)), mathopt.SolverType.GLOP)
    if result.termination.reason is not mathopt.TerminationReason.OPTIMAL:
        return math.ceil(sum(span.length for span in spans) / choice.pitch)
    return math.ceil(float(result.objective_value()) - ROUNDING)


def _model(program: LinearProgram) -> mathopt.Model:
    """A linear program as a MathOpt model, through its protocol buffer: all at once is fast."""
    proto = model_pb2.ModelProto()
    count = len(program.costs)
    proto.variables.ids.extend(range(count))
    proto.variables.lower_bounds.extend([0.0] * count)
    proto.variables.upper_bounds.extend([math.inf] * count)
    proto.variables.integers.extend([False] * count)
    costs = [(number, cost) for number, cost in enumerate(program.costs) if cost]
    proto.objective.linear_coefficients.ids.extend(number for number, _ in costs)
    proto.objective.linear_coefficients.values.extend(cost for _, cost in costs)
    proto.linear_constraints.ids.extend(range(len(program.rows)))
    proto.linear_constraints.lower_bounds.extend(program.lows)
    proto.linear_constraints.upper_bounds.extend(program.highs)
    for number, terms in enumerate(program.rows):
        merged: dict[int, float] = {}
        for variable, value in terms:
            merged[variable] = merged.get(variable, 0.0) + value
        columns = sorted(variable for variable, value in merged.items() if value)
        proto.linear_constraint_matrix.row_ids.extend([number] * len(columns))
        proto.linear_constraint_matrix.column_ids.extend(columns)
        proto.linear_constraint_matrix.coefficients.extend(merged[c] for c in columns)
    return mathopt.Model.from_model_proto(proto)
