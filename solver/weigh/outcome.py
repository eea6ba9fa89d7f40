"""Every alternative solved and audited, and the figures of its first layout."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from models.floor.layout import Figures, Layout, Need, Verdict
from models.job.data import Job, Product
from models.lengths import TICKS_PER_MM
from solver.search import solve
from solver.sheets.audited import audited
from solver.weigh.alternatives import Alternative, Contest

R = TypeVar("R", float, Fraction)


@dataclass(frozen=True, slots=True)
class Weighed:
    """What one alternative comes to: its first layout's figures, over the whole floor.

    ``bought_mm2`` is the area of all units in the cartons bought, joints counted; ``broken``
    has the rules the layout does not keep.
    """

    figures: Figures
    bought_mm2: float
    broken: tuple[Verdict, ...]

    @property
    def used_mm2(self) -> float:
        """The area of the units cut from: the floor and the waste."""
        return self.figures.laid_area_mm2 * (1 + self.figures.waste_percent / 100)


@dataclass(frozen=True, slots=True)
class Outcome:
    """An alternative and what it comes to; None when it cannot be laid or was not solved."""

    alternative: Alternative
    weighed: Weighed | None

    @property
    def name(self) -> str:
        """What tells the alternative from the others."""
        return self.alternative.name

    @property
    def missing(self) -> bool:
        """True when it could be laid, but the search was stopped before it was solved."""
        return self.weighed is None and self.alternative.job is not None


@dataclass(frozen=True, slots=True)
class Weighing:
    """Every alternative of a contest with its outcome, in the contest's order.

    ``least_waste`` and ``cheapest`` name the best of those that keep every must rule; ties
    are shared. Nothing is cheapest unless every alternative solved has a price.
    """

    contest: Contest
    outcomes: tuple[Outcome, ...]

    @property
    def job(self) -> Job:
        """The job as it is written."""
        return self.contest.job

    @property
    def solved(self) -> tuple[tuple[str, Weighed], ...]:
        """The names and figures of the alternatives that were solved."""
        return tuple((each.name, each.weighed) for each in self.outcomes if each.weighed)

    @property
    def missing(self) -> tuple[str, ...]:
        """The alternatives that were not solved before the search was stopped."""
        return tuple(each.name for each in self.outcomes if each.missing)

    @property
    def priced(self) -> bool:
        """True when there is a cost to show."""
        return any(weighed.figures.cost is not None for _, weighed in self.solved)

    @property
    def must_broken(self) -> bool:
        """True when some alternative breaks a must rule."""
        return any(weighed.figures.broken_must for _, weighed in self.solved)

    @property
    def least_waste(self) -> tuple[str, ...]:
        """The alternatives of lowest waste, alike when they are so to six decimals."""
        return _least(
            [(name, round(w.figures.waste_percent, 6), w.figures) for name, w in self.solved]
        )

    @property
    def cheapest(self) -> tuple[str, ...]:
        """The alternatives of lowest cost."""
        costs = [
            (name, w.figures.cost, w.figures)
            for name, w in self.solved
            if w.figures.cost is not None
        ]
        return _least(costs) if len(costs) == len(self.solved) else ()


def _least(ranked: list[tuple[str, R, Figures]]) -> tuple[str, ...]:
    """The names of the lowest among those that keep every must rule."""
    kept = [(name, rank) for name, rank, figures in ranked if not figures.broken_must]
    least = min((rank for _, rank in kept), default=None)
    return tuple(name for name, rank in kept if rank == least)


def weigh(
    contest: Contest,
    progress: Callable[[str], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Weighing:
    """Solve and audit one alternative after another.

    ``stop``, once True, ends the work; what is not solved by then is left without figures.
    Raises solver.sheets.audited.AuditFailure naming the alternative that fails its audit.
    """
    say = progress or (lambda _: None)
    halt = stop or (lambda: False)
    count = len(contest.alternatives)
    outcomes = []
    for number, alternative in enumerate(contest.alternatives, 1):

        def told(text: str, head: str = f"{number} of {count}, {alternative.name}") -> None:
            say(f"{head}: {text}")

        weighed = None
        if alternative.job is not None and not halt():
            weighed = _weighed(alternative.job, alternative.name, told, halt)
        outcomes.append(Outcome(alternative, weighed))
    return Weighing(contest, tuple(outcomes))


def _weighed(
    job: Job, name: str, say: Callable[[str], None], halt: Callable[[], bool]
) -> Weighed | None:
    """What one alternative comes to; None when its search was stopped."""
    solution = solve(job, say, halt)
    if not solution.complete:
        return None
    say("checking the layouts")
    audited(solution, f"the layouts of '{name}'")
    first = solution.layouts[0]
    broken = tuple(verdict for verdict in first.verdicts if not verdict.kept)
    return Weighed(first.figures, _bought(job, first), broken)


def _bought(job: Job, layout: Layout) -> float:
    """The area of all units in the cartons of a layout, in square millimetres."""
    products = {product.name: product for product in job.products}
    return sum(_cartons(need, products[need.product]) for need in layout.figures.needs)


def _cartons(need: Need, product: Product) -> float:
    """The area of the units in one product's cartons, joints counted."""
    held = product.mix or ((product.length, product.per_carton),)
    long = sum((length + product.joint) * count for length, count in held)
    return need.cartons * long * product.pitch[1] / TICKS_PER_MM**2
