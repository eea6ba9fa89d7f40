"""What the set-out of one zone of several has to say: seams, marks, mirrors and choices."""

from __future__ import annotations

from models.floor.layout import Layout, Solution, ZoneLayout
from models.job.data import Job, Marks, Mirror
from solver.sheets.chalk import toward
from solver.sheets.drawing.zones import shows_zones
from solver.sheets.seams import Seam, Shown
from solver.sheets.setout.steps import Step
from solver.sheets.words import chosen_words, length

SHOWN = {
    Shown.FACTORY: "factory edges",
    Shown.CUT: "cut edges",
    Shown.MIXED: "factory and cut edges",
}


def zone_steps(
    solution: Solution, layout: Layout, zone: ZoneLayout, seams: tuple[Seam, ...]
) -> list[Step]:
    """The steps a zone has besides its lines and rows."""
    found = []
    meets = [
        _seam_words(solution.job, seam, zone.zone) for seam in seams if zone.zone in seam.zones
    ]
    if meets:
        found.append(Step("Seams", f"{'; '.join(meets)}."))
    if zone.mirrors and isinstance(zone.laying.shape, Mirror):
        text = f"laid as {zone.mirrors} is, seen in a mirror along {zone.laying.shape.axis}."
        found.append(Step("Mirror", text))
    marks = _mark_words(solution.job, layout, zone)
    if marks:
        found.append(Step("Direction marks", marks))
    if solution.chosen:
        found.append(Step("Chosen", f"{chosen_words(solution)}."))
    return found


def _seam_words(job: Job, seam: Seam, own: str) -> str:
    """What shows on both sides of a seam, seen from one of its zones."""
    here = seam.zones.index(own)
    other, edge = seam.zones[1 - here], seam.edges[1 - here]
    text = f"edge to {other}: {SHOWN[seam.edges[here]]} here, {SHOWN[edge]} there"
    return f"{text}, {length(job, seam.trim)} trim between" if seam.trim else text


def _mark_words(job: Job, layout: Layout, zone: ZoneLayout) -> str:
    """Which way the marks on the backs point; nothing where a unit may lie any way."""
    way = toward(zone.frame, 1, 0)
    if zone.laying.marks is Marks.QUARTER_TURNED:
        aside = toward(zone.frame, 0, 1)
        return (
            f"turn every second unit a quarter: marks on the backs point toward the {way} and "
            f"toward the {aside} by turns, along the rows and across them."
        )
    if shows_zones(layout) and job.product_of(zone.laying).directional and zone.rows:
        return f"marks on the backs point toward the {way}."
    return ""
