"""What a search of one direction finds: layouts worth finishing, and a bound for them all."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from models.floor.runs import Run
from models.floor.zone import Zone
from models.job.data import Job, Product
from models.program.spans import Choice

Stop = Callable[[], bool]
"""Asked between steps of a long search; True keeps the best so far."""

Say = Callable[[str], None]
"""Told what is being searched."""


@dataclass(frozen=True, slots=True)
class Found:
    """A start line with offsets (one u of an end joint for each run), not yet cut to pieces.

    ``choice`` is the choice the offsets were made in (staggered bond), so that they can be
    changed with other zones in view. In a herringbone ``start_line`` and the one offset are
    the v and u of a cell's corner. ``cells`` lists, for each run, the (start u, end u) of
    every unit's place, where a carton holds several lengths.
    """

    zone: Zone
    start_line: int
    runs: tuple[Run, ...]
    offsets: tuple[int, ...]
    units: int
    broken: int
    choice: Choice | None = None
    cells: tuple[tuple[tuple[int, int], ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Only:
    """The only row lines, and joint lines, a zone may take (None: any), in its own frame."""

    rows: tuple[int, ...] | None = None
    joints: tuple[int, ...] | None = None


ANY_LINE = Only()


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to search: start lines and pairs of lines weighed at most (None: all)."""

    patterns: int | None = None
    pairs: int | None = None
    deep: bool = True


FULL = Effort()
QUICK = Effort(patterns=4, pairs=40, deep=False)
"""Enough to tell one border width or place of a feature from another."""


@dataclass(frozen=True, slots=True)
class Task:
    """One zone to search in one direction.

    ``only`` holds its lines. ``copies`` counts the zone and those that mirror it: the units
    and the bound found are of them all.
    """

    job: Job
    zone: Zone
    only: Only = ANY_LINE
    copies: int = 1
    effort: Effort = FULL

    @property
    def product(self) -> Product:
        """The product laid."""
        return self.job.product_of(self.zone.laying)


@dataclass(frozen=True, slots=True)
class Searched:
    """The layouts of one direction worth finishing; ``at_least`` bounds every one there is.

    ``admitted`` is False when none of them keeps the must rules on cuts: the bound then
    counts only where no other direction has one that does. ``choices`` lists the choices
    of offsets of all start lines, for bounds over several zones; empty when there are none
    or they do not tell all.
    """

    found: tuple[Found, ...]
    at_least: int
    complete: bool = True
    admitted: bool = True
    choices: tuple[Choice, ...] = ()
