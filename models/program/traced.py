"""A CP-SAT model whose variables know their values once the offsets are chosen.

Everything in the offset program but the sharing follows from the offsets. Each variable is
made together with how it follows, so a first answer can be given to the solver whole.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

Follows = Callable[[Sequence[int]], int]
"""From one offset (ticks) for each span to the value of a variable."""

Breaks = list[cp_model.IntVar] | None
"""Where a rule puts its break literals; None when it may not break."""


@dataclass(frozen=True, slots=True)
class Traced:
    """A model under construction, and how each of its variables follows from the offsets."""

    model: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    follows: list[tuple[cp_model.IntVar, Follows]] = field(default_factory=list)

    def number(self, domain: cp_model.Domain, follows: Follows) -> cp_model.IntVar:
        """A whole number in a domain."""
        variable = self.model.new_int_var_from_domain(domain, "")
        self.follows.append((variable, follows))
        return variable

    def between(self, low: int, high: int, follows: Follows) -> cp_model.IntVar:
        """A whole number in [low, high]."""
        return self.number(cp_model.Domain(low, high), follows)

    def literal(self, follows: Follows) -> cp_model.IntVar:
        """A literal; ``follows`` tells its truth."""
        variable = self.model.new_bool_var("")
        self.follows.append((variable, follows))
        return variable


def breaks_at(traced: Traced, breaks: Breaks, follows: Follows) -> list[cp_model.LiteralT]:
    """What a rule is enforced by at one place: no break there, or nothing if it may not break."""
    if breaks is None:
        return []
    breaks.append(traced.literal(follows))
    return [~breaks[-1]]
