"""A zone's own floor in the job's axes, and the plan of all of them: frozen, plain data."""

from __future__ import annotations

from dataclasses import dataclass

from models.job.data import Job, Laying, Point, Ring, Sight


@dataclass(frozen=True, slots=True)
class Side:
    """One straight side of an area, and the wall, column, feature or zone it goes to.

    The area lies on its left.
    """

    start: Point
    end: Point
    name: str
    sight: Sight = Sight.PLAIN


@dataclass(frozen=True, slots=True)
class Area:
    """The floor one zone gets, in the job's axes, in ticks.

    ``outer`` is counter-clockwise, ``holes`` clockwise; ``sides`` follow them. ``around``
    names the columns, features and filled zones the area goes round. ``mirrors`` names the
    area it is the reflection of, if any.
    """

    name: str
    laying: Laying
    outer: Ring
    holes: tuple[Ring, ...]
    sides: tuple[Side, ...]
    around: frozenset[str]
    mirrors: str = ""


@dataclass(frozen=True, slots=True)
class Chosen:
    """A length the job left open and what it was chosen to be, in ticks."""

    what: str
    low: int
    high: int
    value: int


@dataclass(frozen=True, slots=True)
class Plan:
    """A job with everything it left open decided, and the area of each zone, the field last."""

    job: Job
    chosen: tuple[Chosen, ...]
    areas: tuple[Area, ...]


class CarveError(ValueError):
    """A zone that cannot be carved: which one, what is wrong, what would be right."""

    def __init__(self, zone: str, problem: str, remedy: str) -> None:
        super().__init__(f"zone '{zone}' {problem}: {remedy}")
        self.zone, self.problem, self.remedy = zone, problem, remedy
