"""A finished layout made by hand, to see how it is told."""

from __future__ import annotations

from dataclasses import replace

from models.floor.frame import Frame
from models.floor.layout import Figures, Layout, Solution, Verdict, ZoneLayout
from models.job.data import Bond, BondKind, Direction, Job, Kind, Laying, Rules
from models.job.reader import read_job
from models.lengths import TICKS_PER_INCH
from scenarios.catalogue import SCENARIOS

INCH = TICKS_PER_INCH

JOB = read_job(SCENARIOS["reading-room"].path)

ZONE = ZoneLayout(
    zone="field",
    laying=Laying(
        "field",
        "Driftwood plank 48 x 6",
        Bond(BondKind.STAGGERED),
        (Direction("along window wall", (1, 0)),),
        Rules(),
    ),
    frame=Frame((0, 0), (1, 0)),
    direction=Direction("along window wall", (1, 0)),
    outer=((0, 0), (96 * INCH, 0), (96 * INCH, 12 * INCH), (0, 12 * INCH)),
    holes=(),
    start_v=0,
    cross_u=0,
    start_row=1,
    rows=(),
    pieces=(),
    units=125,
    units_at_least=122,
)

FIGURES = Figures(
    units=125,
    units_at_least=122,
    cartons=8,
    spare_units=3,
    laid_area_mm2=22.6e6,
    waste_percent=2.5,
    smallest_cut=37 * INCH // 8,
    smallest_where="row 1, at the window wall",
    cuts=50,
    balance=INCH,
    broken_must=0,
    broken_prefer=0,
)

KEPT = Verdict("smallest_cut", Kind.MUST, 2 * INCH, 37 * INCH // 8, True, "row 1", "")
SLIVER = Verdict(
    "smallest_cut", Kind.MUST, 2 * INCH, INCH, False, "row 9", "the hoist axis must be kept"
)
UNEVEN = Verdict("balanced_cuts", Kind.PREFER, INCH, 3 * INCH, False, "rows 1 and 9", "")
STAIR = Verdict("no_stair", Kind.PREFER, 3, 5, False, "rows 2 to 7", "")


def layout(*verdicts: Verdict, rank: int = 1) -> Layout:
    """A layout with these verdicts, its counts of broken rules to match."""
    broken = [verdict.kind for verdict in verdicts if not verdict.kept]
    figures = replace(
        FIGURES,
        broken_must=broken.count(Kind.MUST),
        broken_prefer=broken.count(Kind.PREFER),
    )
    return Layout(rank, ("fewest units",), (ZONE,), verdicts, figures)


def solution(
    *layouts: Layout, complete: bool = True, notes: tuple[str, ...] = (), job: Job = JOB
) -> Solution:
    return Solution(job, layouts, notes, complete)
