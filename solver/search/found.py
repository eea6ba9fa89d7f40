"""What a search of one direction finds: layouts worth finishing, and a bound for them all."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from models.floor.runs import Run
from models.floor.zone import Zone

Stop = Callable[[], bool]
"""Asked between steps of a long search; True keeps the best so far."""


@dataclass(frozen=True, slots=True)
class Found:
    """A start line with offsets (one u of an end joint for each run), not yet cut to pieces."""

    zone: Zone
    start_line: int
    runs: tuple[Run, ...]
    offsets: tuple[int, ...]
    units: int
    broken: int


@dataclass(frozen=True, slots=True)
class Searched:
    """The layouts of one direction worth finishing; ``at_least`` bounds every one there is.

    ``admitted`` is False when none of them keeps the must rules on cuts: the bound then
    counts only where no other direction has one that does.
    """

    found: tuple[Found, ...]
    at_least: int
    complete: bool = True
    admitted: bool = True
