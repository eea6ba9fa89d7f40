"""A weighing made by hand, to see how it is told."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from models.floor.layout import Figures, Verdict
from models.job.data import Job, Kind
from models.job.reader import read_text
from solver.weigh.alternatives import Alternative, By, Contest
from solver.weigh.outcome import Outcome, Weighed, Weighing
from tests.job.sample import MM, text

TWO = "[{name: plank, length: 900, width: 150, price: 40}, {name: tile, length: 300, width: 300}]"
FIELD = "{product: plank, bond: staggered, directions: [{along: s}, {along: e}]}"
REASON = "field, bond: 'tile' comes in several lengths, which no straight bond can take"

FIGURES = Figures(
    units=95,
    units_at_least=93,
    cartons=10,
    spare_units=3,
    laid_area_mm2=12e6,
    waste_percent=5,
    smallest_cut=61 * MM,
    smallest_where="row 1, piece 3, at s",
    cuts=41,
    balance=MM,
    broken_must=0,
    broken_prefer=0,
)

SLIVER = Verdict(
    "smallest_cut", Kind.MUST, 60 * MM, 41 * MM, False, "row 9, piece 1", "s runs off the rows"
)


def job(**sections: str) -> Job:
    return read_text(text(**{"products": TWO, "field": FIELD, **sections}), "galley.yaml")


def weighed(
    waste: float = 5, cost: int | None = None, broken: tuple[Verdict, ...] = (), units: int = 95
) -> Weighed:
    """An alternative's figures with its bought area to match."""
    figures = replace(
        FIGURES,
        units=units,
        waste_percent=waste,
        cost=None if cost is None else Fraction(cost),
        broken_must=len(broken),
    )
    return Weighed(figures, 12e6 * (1 + waste / 100) + 0.9e6, broken)


def outcome(name: str, found: Weighed | None, reason: str = "", way: str = "") -> Outcome:
    """An outcome; without figures and reason it was stopped. ``way`` makes it one of a pair."""
    laid = None if reason else job()
    return Outcome(
        Alternative((name, way) if way else (name,), name, ("along s",), laid, reason), found
    )


def weighing(*outcomes: Outcome, of: Job | None = None) -> Weighing:
    alternatives = tuple(each.alternative for each in outcomes)
    return Weighing(Contest(of or job(), "field", By.PRODUCTS, alternatives), outcomes)


def full(count: int = 12) -> Weighing:
    """A page and more of alternatives, with long names, a refusal and one missing."""
    plain = [
        outcome(
            f"Weathered driftwood plank of the long sort {n}",
            weighed(3 + n, 123_000 + 4_000 * n),
            way="along the wall of the lesser garden" if n % 2 else "",
        )
        for n in range(count - 3)
    ]
    return weighing(
        *plain,
        outcome("Shingle tile 18", weighed(2, 99_000, (SLIVER,))),
        outcome("Mixed plank", None, REASON),
        outcome("Groyne plank 36 x 7-1/2", None),
        of=job(currency='"EUR"'),
    )
