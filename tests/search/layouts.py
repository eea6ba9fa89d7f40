"""Finished layouts with figures made up for the test."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from models.floor.layout import Figures, Layout, Verdict
from models.job.data import Job, Kind
from models.lengths import TICKS_PER_MM as MM
from solver.search.outcome.finish import Bounds, finish
from tests.search.floors import ALONG_Y, box, job_of, laid_alone

JOB = job_of(box(3600, 3600))
CROSSWISE = job_of(box(3600, 3600), directions=(ALONG_Y,))


@cache
def _shown(number: int, job: Job) -> Layout:
    """Lines at ``number`` mm, each row shifted by much from the one below."""
    offsets = [(37 * number + 301 * row) % 1200 for row in range(19)]
    return finish(laid_alone(job, number, offsets), Bounds((54,), {"plank": 54}))


def layout(number: int, job: Job = JOB, **figures: float | None) -> Layout:
    """One of many layouts that look different, its figures as given and else the same."""
    units = figures.get("units") or 56
    bought = units * 1200 * 200.0
    same = Figures(
        units=56,
        units_at_least=54,
        cartons=56,
        spare_units=0,
        laid_area_mm2=12.96e6,
        waste_percent=(bought - 12.96e6) / 12.96e6 * 100,
        smallest_cut=100 * MM,
        smallest_where="row 1",
        cuts=38,
        balance=50 * MM,
        broken_must=0,
        broken_prefer=0,
        bought_mm2=bought,
    )
    return replace(_shown(number, job), verdicts=(), figures=replace(same, **figures))  # type: ignore[arg-type]


def verdict(
    key: str, kind: Kind, limit: int, worst: int, kept: bool = False, because: str = ""
) -> Verdict:
    return Verdict(key, kind, limit * MM, worst * MM, kept, "row 1", because)
