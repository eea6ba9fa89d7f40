"""The columns of the table: what is said of each alternative, on screen, paper and in CSV."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from models.job.data import Job
from solver.sheets.compare.figures import broken_words
from solver.sheets.words import length, money, percent
from solver.weigh.alternatives import By
from solver.weigh.outcome import Weighed, Weighing

NO_BREAK = "\N{NO-BREAK SPACE}"
"""Where a cell of the table may not be broken into lines."""

NOT_SOLVED = "not solved: the work was stopped first"
CANNOT = "cannot be laid"
KEPT = "with every must rule kept"


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its head, and what it says of an alternative."""

    head: str
    words: Callable[[Job, Weighed], str]


_BEFORE_COST = (
    Column("Units", lambda _, w: str(w.figures.units)),
    Column("Least possible", lambda _, w: _least(w)),
    Column("Cartons", lambda _, w: str(w.figures.cartons)),
    Column("Waste", lambda _, w: _whole(percent(w.figures.waste_percent))),
)
COST = Column("Cost", lambda job, w: _cost(job, w))
_AFTER_COST = (
    Column("Smallest cut", lambda job, w: _whole(length(job, w.figures.smallest_cut))),
    Column("Cuts", lambda _, w: str(w.figures.cuts)),
    Column(
        "Rules broken", lambda _, w: broken_words(w.figures.broken_must, w.figures.broken_prefer)
    ),
)


def columns_of(weighing: Weighing) -> tuple[Column, ...]:
    """Every column of a table; cost only where there are prices."""
    return (*_BEFORE_COST, *((COST,) if weighing.priced else ()), *_AFTER_COST)


def _least(weighed: Weighed) -> str:
    """The least units any layout could need, and whether that is proved to be reached."""
    units, at_least = weighed.figures.units, weighed.figures.units_at_least
    return f"{at_least}, {'proved' if units == at_least else _whole(f'gap {units - at_least}')}"


def _cost(job: Job, weighed: Weighed) -> str:
    cost = weighed.figures.cost
    return "no price" if cost is None else money(job, cost)


def _whole(text: str) -> str:
    """The text as one that is never broken into lines."""
    return text.replace(" ", NO_BREAK)


def merits_of(weighing: Weighing, name: str) -> Mapping[str, str]:
    """What an alternative is the best at: a word for each column in which it is."""
    merits = {"Waste": ("lowest", weighing.least_waste), "Cost": ("cheapest", weighing.cheapest)}
    return {head: word for head, (word, names) in merits.items() if name in names}


def in_a_row(names: Iterable[str]) -> str:
    """Names of alternatives one after another; they have commas of their own."""
    return "; ".join(names)


def verdict_lines(weighing: Weighing) -> tuple[str, ...]:
    """Which alternatives are best, or why none is."""
    among = ", of those solved" if weighing.missing else ""
    if not weighing.least_waste:
        return (f"No alternative keeps every must rule{among}.",)
    lines = [f"Lowest waste {KEPT}{among}: {in_a_row(weighing.least_waste)}."]
    if weighing.cheapest:
        lines.append(f"Cheapest {KEPT}{among}: {in_a_row(weighing.cheapest)}.")
    elif weighing.priced:
        lines.append("None is called the cheapest, for not every product has a price.")
    return tuple(lines)


def about(weighing: Weighing) -> str:
    """What differs between the alternatives, and what stays."""
    contest = weighing.contest
    laying = next(each for each in contest.job.zones if each.name == contest.zone)
    what = {
        By.PRODUCTS: "products",
        By.DIRECTIONS: "directions",
        By.BOTH: "products and directions",
    }
    laid = f" ({laying.product})" if contest.by is By.DIRECTIONS else ""
    where = "" if contest.zone == "field" and len(contest.job.zones) == 1 else f" in {contest.zone}"
    return (
        f"The same floor with other {what[contest.by]}{where}{laid}, all else as the job says. "
        "Figures are those of each one's first layout, over the whole floor."
    )
