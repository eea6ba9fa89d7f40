"""The constraint program for row offsets: one function per rule, nothing solved here.

Every run has one offset, in tape steps. From it follow its start piece, its end piece and
the unit places it takes (``rows``), and where its joints lie beside others (``joints``); an
end piece and a start piece may share a unit when they and one kerf fit. A rule that may
break gets a *break* literal for each place, which the objective counts: broken rules first,
then units, then broken preferences.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import product

from ortools.sat.python import cp_model

from models.program.joints import joints_apart, no_stair
from models.program.rows import Row, row
from models.program.spans import Choice
from models.program.traced import Breaks, Traced

Shares = dict[tuple[int, int], cp_model.IntVar]
"""A literal for each (span of an end piece, span of a start piece) that may share a unit."""


@dataclass(frozen=True, slots=True)
class Program:
    """A built model and its variables.

    A unit costs ``unit_cost``, a place where a rule is broken ``break_cost``, and one where
    a preference is broken 1.
    """

    traced: Traced
    rows: tuple[Row, ...]
    shares: Shares
    unit_cost: int
    break_cost: int

    @property
    def model(self) -> cp_model.CpModel:
        """What the solver takes."""
        return self.traced.model


def build(choice: Choice, may_break: bool = False) -> Program:
    """The whole program: least units over all offsets that keep the rules.

    Preferences may always break, for fewer units. With ``may_break`` the rules may as well,
    but never for units.
    """
    traced = Traced()
    broken: list[cp_model.IntVar] = []
    soft: list[cp_model.IntVar] = []
    must: Breaks = broken if may_break else None
    rows = [row(traced, index, choice, must) for index in range(len(choice.spans))]
    for meet in choice.meets:
        joints_apart(traced, rows, meet, choice, choice.apart, must)
    for meet in choice.second:
        breaks = must if choice.second_must else soft
        joints_apart(traced, rows, meet, choice, choice.second_apart, breaks)
    if choice.stair is not None:
        no_stair(traced, rows, choice, choice.stair, must if choice.stair_must else soft)
    shares = share_units(traced.model, rows, choice)
    units = sum(r.places for r in rows) - sum(shares.values())
    unit_cost = 1 + len(soft)
    break_cost = unit_cost * (1 + sum(span.length // choice.pitch + 2 for span in choice.spans))
    traced.model.minimize(break_cost * sum(broken) + unit_cost * units + sum(soft))
    return Program(traced, tuple(rows), shares, unit_cost, break_cost)


def share_units(model: cp_model.CpModel, rows: Sequence[Row], choice: Choice) -> Shares:
    """One end piece and one start piece share a unit when they and a kerf fit in it.

    They are laid at most ``choice.within`` rows apart. A literal is true only if they share.
    """
    shares: Shares = {}
    ends: list[list[cp_model.IntVar]] = [[] for _ in choice.spans]
    starts: list[list[cp_model.IntVar]] = [[] for _ in choice.spans]
    for (a, ending), (b, starting) in product(enumerate(choice.spans), repeat=2):
        if choice.within is not None and abs(ending.row - starting.row) > choice.within:
            continue
        shares[a, b] = model.new_bool_var("")
        fits = rows[a].last + rows[b].first + choice.kerf <= choice.pitch
        model.add(fits).only_enforce_if(shares[a, b])
        ends[a].append(shares[a, b])
        starts[b].append(shares[a, b])
    for literals in (*ends, *starts):
        model.add_at_most_one(literals)
    return shares


def hint(program: Program, offsets: Sequence[int], sharing: Collection[tuple[int, int]]) -> None:
    """Give the solver a whole first answer: a value for every variable there is.

    ``offsets`` has one offset (ticks) for each span, ``sharing`` the pairs that share a unit
    as keys of ``program.shares``.
    """
    model = program.model
    model.clear_hints()  # type: ignore[no-untyped-call]  # ortools leaves it unannotated
    for variable, follows in program.traced.follows:
        model.add_hint(variable, int(follows(offsets)))
    for pair, literal in program.shares.items():
        model.add_hint(literal, int(pair in sharing))
