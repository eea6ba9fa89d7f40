"""The set-out sheets of one layout: with them the lines go down with a tape and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from models.floor.layout import Layout, Solution, ZoneLayout
from models.job.data import Job
from solver.sheets.chalk import chalk, near, slanted_points
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.heads import MARGIN, write_head
from solver.sheets.drawing.legend import line_legend
from solver.sheets.drawing.lettering import wrap
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.zones import shows_zones
from solver.sheets.seams import Seam, seams_of
from solver.sheets.setout.jointtable import joint_lines, write_joints
from solver.sheets.setout.offsettable import write_table
from solver.sheets.setout.plan import GAP, arranged, draw_plan
from solver.sheets.setout.rows import Offset, offset_lines
from solver.sheets.setout.steps import CAUTIONS, Step, steps
from solver.sheets.setout.steptext import write_steps
from solver.sheets.setout.zonesteps import zone_steps
from solver.sheets.words import bond_words, capital

LEAST = 12.0
"""The height one line of writing needs, in points."""

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
        runs = "rows" if zone.rows else "line of points" if slanted_points(zone) else "start line"
        how = f"{bond_words(zone.laying.bond)}, {runs} {zone.direction.label}"
        return f"{capital(zone.zone)}: {zone.product}, {how}. {best}."

    @property
    def table(self) -> tuple[str, tuple[Offset, ...], Writer]:
        """The table of rows: its name, its entries and how it is written."""
        job, zone = self.solution.job, self.zone
        if not zone.rows:
            return "", (), write_table
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
    more = zone_steps(sheet.solution, sheet.layout, zone, sheet.seams)
    found = steps(job, zone, lines, more, missed)
    rest, done = _write_steps(page, arrangement.words, found, bool(zone.rows))
    return [page, *_further(sheet, page, rest, found[done:], done + 1)]


def _write_steps(
    page: Page, boxes: tuple[Box, ...], found: Sequence[Step], table: bool
) -> tuple[Box, int]:
    """Write the steps in the boxes for words; return what is left of them, and how many."""
    y, done = write_steps(page, boxes[0], found, most_of_it=len(boxes) == 1 and table)
    rest = Box(boxes[0].left, boxes[0].bottom, boxes[0].right, y)
    if len(boxes) > 1:
        rest = boxes[1]
        if done < len(found):
            y, more = write_steps(page, rest, found[done:], most_of_it=table, first=done + 1)
            rest, done = Box(rest.left, rest.bottom, rest.right, y - GAP), done + more
    return rest, done


def _further(sheet: Sheet, page: Page, rest: Box, found: Sequence[Step], number: int) -> list[Page]:
    """The table of rows where it fits, and pages for what does not: steps, then the table."""
    job, pages = sheet.solution.job, []
    name, table, write = sheet.table
    while found:
        page = Page(job.system, landscape=False)
        rest = write_head(page, job.name, f"{sheet.title}: setting out", sheet.about)
        y, done = write_steps(page, rest, found, most_of_it=False, first=number)
        rest, found, number = rest._replace(top=y - GAP), found[done:], number + done
        pages.append(page)
    if not table or write(page, rest, table, True):
        return pages
    if rest.height > LEAST:
        page.write(rest.left, rest.top - 9, f"{name}: on the next page", 9, bold=True)
    return pages + _table_pages(sheet, name, table, write)


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
