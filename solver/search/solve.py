"""From a job to its best layouts: decide, search every zone, finish the promising, pick three."""

from __future__ import annotations

from collections.abc import Callable

from models.floor.layout import Solution
from models.job.data import Job
from solver.search.admits import told_of_all
from solver.search.combine import floor_drafts
from solver.search.decide import decide
from solver.search.outcome.finish import finish
from solver.search.outcome.pick import best_three, tell
from solver.search.outcome.verdicts import explain
from solver.search.sums import bounds_of
from solver.search.zones import Watch, search_zones


def solve(
    job: Job, progress: Callable[[str], None] | None = None, stop: Callable[[], bool] | None = None
) -> Solution:
    """The best one to three layouts of a job, with a bound over all it admits.

    ``progress`` is told what is being searched; ``stop`` is asked between steps and, once
    True, ends the search with the best so far.
    """
    say = progress or (lambda _: None)
    halt = stop or (lambda: False)
    plan = decide(job, say, halt)
    bundles = search_zones(plan, Watch(say, halt))
    say("finishing the best layouts")
    bounds = bounds_of(plan, bundles)
    layouts = [finish(floor, bounds) for floor in floor_drafts(plan, bundles, bounds.products)]
    chosen = tuple(explain(layout, layouts) for layout in best_three(layouts))
    complete = not halt() and all(bundle.complete for bundle in bundles)
    notes = (*job.notes, *_told_of_joints(job), *told_of_all(job), *tell(chosen))
    return Solution(plan.job, chosen, notes, complete, plan.chosen)


def _told_of_joints(job: Job) -> tuple[str, ...]:
    """A note on which sizes are with a joint, where one is laid."""
    if not any(job.product_of(zone).joint for zone in job.zones):
        return ()
    return (
        "cut sizes in figures and rules count one joint with the piece; cut lists and widths of "
        "rows give the piece alone",
    )
