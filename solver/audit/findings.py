"""What the audit returns: findings, its own measurements, and what it could not check."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import groupby

MOST_SHOWN = 10
"""Findings of one check in one layout that are listed one by one."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing the document claims that its own geometry does not bear out.

    ``layout`` is the rank of the layout, None for the document as a whole. ``check`` is
    what was checked, ``where`` the item, ``claimed`` and ``found`` the two accounts of it.
    """

    layout: int | None
    check: str
    where: str
    claimed: str
    found: str

    def __str__(self) -> str:
        """One plain sentence."""
        place = "the document" if self.layout is None else f"layout {self.layout}"
        return f"{place}, {self.check}: {self.where}: claimed {self.claimed}, found {self.found}"


@dataclass(frozen=True, slots=True)
class MeasuredRule:
    """One rule as the audit measured it.

    ``limit`` and ``worst`` in mm (plain counts for row-counting rules); ``worst`` is None
    when nothing in the layout is measured by the rule or the document does not say enough.
    """

    key: str
    subject: str
    limit: float
    worst: float | None
    kept: bool


@dataclass(frozen=True, slots=True)
class SideCuts:
    """The cuts a feature makes on one side of its axis: least sizes in mm, None for none.

    ``along`` and ``across`` are measured along and across the rows, ``slant`` is the
    largest circle of a piece cut at a slant, ``neck`` the narrowest part beside a notch.
    ``cut`` and ``whole`` count the pieces beside the feature.
    """

    along: float | None
    across: float | None
    slant: float | None
    neck: float | None
    cut: int
    whole: int


@dataclass(frozen=True, slots=True)
class BesideFeature:
    """A feature's distance off its axis in mm, and the cuts to its left and right.

    Left and right are of the axis, looking along its direction; a piece the axis crosses
    counts on both sides.
    """

    feature: str
    off_axis: float
    left: SideCuts
    right: SideCuts


@dataclass(frozen=True, slots=True)
class SmallestCut:
    """The smallest cut: size in mm, the piece, its row and a point in it (job axes, mm)."""

    size: float
    piece: str
    row: int
    at: tuple[float, float]


@dataclass(frozen=True, slots=True)
class MeasuredLayout:
    """One layout in the audit's own numbers."""

    rank: int
    rules: tuple[MeasuredRule, ...]
    beside: tuple[BesideFeature, ...]
    smallest: SmallestCut | None
    cuts: int
    units: int
    laid_area_m2: float


@dataclass(frozen=True, slots=True)
class AuditReport:
    """The outcome: no findings means the document says nothing its geometry contradicts.

    ``checks`` names what was checked; ``unchecked`` says, in plain sentences, what the
    document does not give enough to check.
    """

    findings: tuple[Finding, ...]
    measured: tuple[MeasuredLayout, ...]
    checks: tuple[str, ...]
    unchecked: tuple[str, ...] = field(default=())

    @property
    def clean(self) -> bool:
        """True when nothing was found."""
        return not self.findings


def shorten(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """At most ``MOST_SHOWN`` findings of each check in a row, then how many more there are."""
    kept: list[Finding] = []
    for (layout, check), group in groupby(findings, key=lambda one: (one.layout, one.check)):
        these = list(group)
        kept += these[:MOST_SHOWN]
        if len(these) > MOST_SHOWN:
            more = f"{len(these) - MOST_SHOWN} more like these"
            kept.append(Finding(layout, check, "elsewhere", "nothing wrong", more))
    return tuple(kept)


def mm(value: float | None) -> str:
    """A measured length as text, or that there is none."""
    return "none" if value is None else f"{value:.3f} mm"
