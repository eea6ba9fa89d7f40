"""From a job to its best layouts: decide, search every zone, finish the promising, pick three."""

from __future__ import annotations

from collections.abc import Callable

from models.floor.layout import Solution
from models.job.data import Job
from solver.search.combine import floor_drafts
from solver.search.decide import decide
from solver.search.finish import finish
from solver.search.pick import best_three, tell
from solver.search.verdicts import explain
from solver.search.zones import search_zones


def solve(
    job: Job, progress: Callable[[str], None] | None = None, stop: Callable[[], bool] | None = None
) -> Solution:
    """The best one to three layouts of a job, with a bound over all it admits.

    ``progress`` is told what is being searched; ``stop`` is asked between steps and, once
    True, ends the search with the best so far.
    """
    say = progress or (lambda _: None)
    halt = stop or (lambda: False)
    decided = decide(job, say, halt)
    searched = search_zones(decided.plan, say, halt)
    say("finishing the best layouts")
    bounds = decided.bounds(searched)
    layouts = [finish(floor, bounds) for floor in floor_drafts(decided.plan, searched)]
    chosen = tuple(explain(layout, layouts) for layout in best_three(layouts))
    complete = decided.complete and all(zone.complete for zone in searched)
    notes = job.notes + decided.notes + tell(chosen)
    return Solution(decided.plan.job, chosen, notes, complete, decided.plan.chosen)
