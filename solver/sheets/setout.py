"""The set-out sheets of one layout: with them the lines go down with a tape and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from models.floor.layout import Layout, Solution, ZoneLayout
from models.job.data import Job
from solver.sheets import ink
from solver.sheets.boxes import Box
from solver.sheets.chalk import chalk, near
from solver.sheets.heads import MARGIN, write_head
from solver.sheets.jointtable import joint_lines, write_joints
from solver.sheets.legend import line_legend
from solver.sheets.lettering import wrap
from solver.sheets.offsettable import write_table
from solver.sheets.page import Page
from solver.sheets.rows import Offset, offset_lines
from solver.sheets.seams import Seam, seams_of
from solver.sheets.setoutplan import arranged, draw_plan
from solver.sheets.steps import CAUTIONS, steps
from solver.sheets.steptext import write_steps
from solver.sheets.words import bond_words, capital
from solver.sheets.zones import shows_zones
from solver.sheets.zonesteps import zone_steps

Writer = Callable[[Page, Box, Sequence[Offset], bool], int]
"""Writes as much of a table of rows as a box holds (or all or nothing); says how much."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One zone of one layout to be set out, and all that is said of it."""

    solution: Solution
    layout: Layout
    zone: ZoneLayout
    seams: tuple[Seam, ...]

    @property
    def title(self) -> str:
        """What the sheet is called."""
        name = f"Set-out sheet {self.layout.rank}"
        if not shows_zones(self.layout):
            return name
        return f"{name}, zone {self.layout.zones.index(self.zone) + 1}"

    @property
    def about(self) -> str:
        """What the sheet is for, in the head."""
        zone = self.zone
        best = capital(", ".join(self.layout.best_at))
        runs = "rows" if zone.rows else "line of points"
        how = f"{bond_words(zone.laying.bond)}, {runs} {zone.direction.label}"
        return f"{capital(zone.zone)}: {zone.product}, {how}. {best}."

    @property
    def table(self) -> tuple[str, tuple[Offset, ...], Writer]:
        """The table of rows: its name, its entries and how it is written."""
        job, zone = self.solution.job, self.zone
        if any(row.joints for row in zone.rows):
            return "End joints", joint_lines(job, zone), write_joints
        return "Row offsets", offset_lines(job, zone), write_table


def setout_pages(solution: Solution, layout: Layout) -> list[Page]:
    """The pages of one layout: one for each zone, and more where its rows need them."""
    seams = seams_of(solution.job, layout.zones)
    return [page for zone in layout.zones for page in _pages(Sheet(solution, layout, zone, seams))]


def _pages(sheet: Sheet) -> list[Page]:
    job, zone = sheet.solution.job, sheet.zone
    arrangement = arranged(job, sheet.about)
    page = Page(job.system, arrangement.landscape)
    write_head(page, job.name, sheet.title, sheet.about)
    lines = chalk(job, zone)
    if shows_zones(sheet.layout):
        lines = near(lines, zone)
    missed = draw_plan(page, job, sheet.layout, zone, lines, arrangement.plan)
    _footing(page, job, sheet.layout)
    boxes = arrangement.words
    more = zone_steps(sheet.solution, sheet.layout, zone, sheet.seams)
    found = steps(job, zone, lines, more, missed)
    left = write_steps(page, boxes[0], found, most_of_it=len(boxes) == 1 and bool(zone.rows))
    rest = boxes[1] if len(boxes) > 1 else Box(boxes[0].left, boxes[0].bottom, boxes[0].right, left)
    if not zone.rows:
        return [page]
    name, table, write = sheet.table
    if write(page, rest, table, True):
        return [page]
    page.write(rest.left, rest.top - 9, f"{name}: on the next page", 9, bold=True)
    return [page, *_table_pages(sheet, name, table, write)]


def _footing(page: Page, job: Job, layout: Layout) -> None:
    """The legend and the cautions."""
    inner = page.box.grown(-MARGIN)
    page.lines(
        [((inner.left, inner.bottom + 20), (inner.right, inner.bottom + 20))], ink.HEAVY_RULE
    )
    more = [ink.CHECK, ink.ZONE] if shows_zones(layout) else [ink.CHECK]
    line_legend(page, inner.left, inner.bottom + 24, job, more)
    for i, line in enumerate(wrap(CAUTIONS, inner.width, 6.2)[:3]):
        page.write(inner.left, inner.bottom + 12 - 7.6 * i, line, 6.2)


def _table_pages(sheet: Sheet, name: str, table: tuple[Offset, ...], write: Writer) -> list[Page]:
    """The table of rows on pages of its own."""
    pages = []
    while table:
        page = Page(sheet.solution.job.system, landscape=False)
        title = f"{sheet.title}: {name.lower()}"
        box = write_head(page, sheet.solution.job.name, title, sheet.about)
        table = table[write(page, box, table, False) :]
        pages.append(page)
    return pages
