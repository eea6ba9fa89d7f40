"""The table as CSV: one line for each alternative, solved or not."""

from __future__ import annotations

from models.job.data import Job
from solver.sheets.cutlist.pages import csv_text
from solver.sheets.words import broken_rule, length
from solver.weigh.columns import CANNOT
from solver.weigh.outcome import Outcome, Weighed, Weighing

HEAD = (
    "alternative", "zone", "product", "directions", "outcome", "reason",
    "units", "least possible", "proved", "cartons", "waste %", "cost", "currency",
    "smallest cut", "smallest cut at", "cuts", "must rules broken", "preferred rules broken",
    "lowest waste", "cheapest", "laid m2", "bought m2", "broken rules",
)  # fmt: skip


def weigh_csv(weighing: Weighing) -> str:
    """The whole table; figures are left empty where there are none."""
    return csv_text([HEAD, *(_line(weighing, each) for each in weighing.outcomes)])


def _line(weighing: Weighing, outcome: Outcome) -> list[object]:
    """One alternative."""
    found, weighed = outcome.alternative, outcome.weighed
    state = "solved" if weighed else "not solved" if outcome.missing else CANNOT
    head = [
        found.name, weighing.contest.zone, found.product, "; ".join(found.directions),
        state, found.reason,
    ]  # fmt: skip
    if weighed is None:
        return [*head, *[""] * (len(HEAD) - len(head))]
    best = [found.name in names for names in (weighing.least_waste, weighing.cheapest)]
    return [*head, *_figures(weighing.job, weighed, ["yes" if each else "no" for each in best])]


def _figures(job: Job, weighed: Weighed, best: list[str]) -> list[object]:
    """What one alternative comes to."""
    f = weighed.figures
    return [
        f.units, f.units_at_least, "yes" if f.units == f.units_at_least else "no", f.cartons,
        f"{f.waste_percent:.2f}", "" if f.cost is None else f"{float(f.cost):.2f}",
        "" if f.cost is None else job.currency, length(job, f.smallest_cut, ""),
        f.smallest_where, f.cuts, f.broken_must, f.broken_prefer, *best,
        f"{f.laid_area_mm2 / 1e6:.3f}", f"{weighed.bought_mm2 / 1e6:.3f}",
        "; ".join(broken_rule(job, verdict) for verdict in weighed.broken),
    ]  # fmt: skip
