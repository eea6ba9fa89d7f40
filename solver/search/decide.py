"""Decide what a job leaves open: border widths and places of features.

Every value worth trying is searched quickly; the best is then searched in full.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from math import prod

from models.floor.layout import Layout
from models.job.carve.area import Plan
from models.job.carve.plan import plan_of
from models.job.data import Job
from solver.search.choices import LARGE_UNITS, Open, open_lengths, units_by_area, values_of
from solver.search.combine import best_floor
from solver.search.found import FULL, QUICK, Say, Stop
from solver.search.outcome.finish import finish
from solver.search.outcome.pick import Grade, grade
from solver.search.sums import bounds_of
from solver.search.zones import Known, Watch, search_zones

MOST_TOGETHER = 80
"""Sets of values tried one by one; beyond it one length is decided after another."""

SEARCHED_IN_FULL = 4
"""Sets of values searched in full, of those that quick searches find best."""

ROUNDS = 2
"""Times each length is then decided again, the others as decided."""

Values = dict[str, int]


def decide(job: Job, say: Say, stop: Stop) -> Plan:
    """The plan to search in full."""
    lengths = open_lengths(job)
    if not lengths:
        return plan_of(job)
    trial = _Trial(job, Watch(say, stop, QUICK))
    start = {length.name: length.extent.low for length in lengths}
    offered = [values_of(job, length, start) for length in lengths]
    if prod(len(values) for values in offered) <= MOST_TOGETHER:
        names = [length.name for length in lengths]
        tries = [dict(zip(names, values, strict=True)) for values in product(*offered)]
        trial.best(tries)
    else:
        _in_turn(job, lengths, start, trial)
    return plan_of(job, trial.best_in_full())


def _in_turn(job: Job, lengths: tuple[Open, ...], start: Values, trial: _Trial) -> None:
    """Decide one length after another, each with the others as they stand."""
    best = start
    for _ in range(ROUNDS):
        before = best
        for length in lengths:
            values = values_of(job, length, best)
            best = trial.best([best, *({**best, length.name: value} for value in values)])
        if best == before:
            break


class _Trial:
    """Quick searches of one job's plans; areas that stay the same are searched once."""

    def __init__(self, job: Job, watch: Watch) -> None:
        self._job, self._watch = job, watch
        self._known: Known = {}
        self._grades: dict[tuple[tuple[str, int], ...], Grade] = {}

    def best(self, tries: list[Values]) -> Values:
        """The values with the best layout; once stopped, of those tried so far."""
        tried: list[Values] = []
        for number, values in enumerate(tries, 1):
            if tried and self._watch.stop():
                break
            self._watch.say(f"open lengths: {number} of {len(tries)}")
            tried.append(values)
        return min(tried, key=lambda values: (self._grade(values), sorted(values.items())))

    def best_in_full(self) -> Values:
        """Of the best values tried, those with the best layout when searched in full."""
        ranked = sorted(self._grades, key=lambda key: (self._grades[key], key))
        most = SEARCHED_IN_FULL
        if units_by_area(plan_of(self._job, dict(ranked[0]))) > LARGE_UNITS:
            most //= 2
        few = [dict(key) for key in ranked[:most]]
        if len(few) == 1 or self._watch.stop():
            return few[0]
        watch = replace(self._watch, effort=FULL)
        return min(few, key=lambda values: grade(self._layout(values, watch, {})))

    def _grade(self, values: Values) -> Grade:
        key = tuple(sorted(values.items()))
        if key not in self._grades:
            self._grades[key] = grade(self._layout(values, self._watch, self._known))
        return self._grades[key]

    def _layout(self, values: Values, watch: Watch, known: Known) -> Layout:
        plan = plan_of(self._job, values)
        bundles = search_zones(plan, watch, known)
        return finish(best_floor(plan, bundles), bounds_of(plan, bundles))
