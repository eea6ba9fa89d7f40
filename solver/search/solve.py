"""From a job to its best layouts: search every direction, finish the promising, pick three."""

from __future__ import annotations

from collections.abc import Callable

from models.floor.layout import Solution
from models.floor.zone import zone_of
from models.job.data import BondKind, Job
from solver.search import grid, staggered
from solver.search.draft import draft
from solver.search.finish import finish
from solver.search.found import Found, Searched
from solver.search.pick import best_three, tell
from solver.search.staggered import SMALL_UNITS
from solver.search.verdicts import explain

FINISHED_AT_MOST = 16
"""Layouts cut to pieces and packed; on a small floor, where that costs little, more."""
SMALL_FINISHED = 240


def solve(
    job: Job, progress: Callable[[str], None] | None = None, stop: Callable[[], bool] | None = None
) -> Solution:
    """The best one to three layouts of a job, with a bound over all it admits.

    ``progress`` is told what is being searched; ``stop`` is asked between steps and, once
    True, ends the search with the best so far.
    """
    say = progress or (lambda _: None)
    halt = stop or (lambda: False)
    searched: list[Searched] = []
    for direction in job.field.directions:
        if searched and halt():
            break
        zone = zone_of(job, direction)
        if job.field.bond.kind is BondKind.STAGGERED:
            searched.append(staggered.search(job, zone, say, halt, searched))
        else:
            searched.append(grid.search(job, zone, say, halt))
    every = len(searched) == len(job.field.directions)
    counting = [s for s in searched if s.admitted] or searched
    at_least = min(s.at_least for s in counting)
    found = [f for s in searched for f in s.found]
    say("finishing the best layouts")
    drafts = [draft(job, f.zone, f.start_line, f.runs, f.offsets) for f in _promising(found)]
    layouts = [finish(d, at_least) for d in drafts]
    chosen = tuple(explain(layout, layouts) for layout in best_three(layouts))
    complete = every and all(s.complete for s in searched)
    return Solution(chosen, job.notes + tell(chosen), complete)


def _promising(found: list[Found]) -> list[Found]:
    """The ones worth cutting to pieces: fewest broken rules, then fewest units.

    Each direction keeps a share, so that a second one can show what it does better.
    """
    directions = list(dict.fromkeys(f.zone.frame.direction for f in found))
    small = min(f.units for f in found) <= SMALL_UNITS and found[0].zone.rectilinear
    share = (SMALL_FINISHED if small else FINISHED_AT_MOST) // len(directions) or 1
    ordered = sorted(found, key=lambda f: (f.broken, f.units))
    return [
        f for d in directions for f in [x for x in ordered if x.zone.frame.direction == d][:share]
    ]
