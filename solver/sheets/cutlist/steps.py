"""The crew's list on paper: one line a cut, row by row, in the order they are made."""

from __future__ import annotations

from models.floor.layout import Layout
from models.job.data import Job
from solver.sheets.cutlist.sizes import CutLine, cut_lines
from solver.sheets.cutlist.words import (
    SIDES_TOLD,
    measure_words,
    other_words,
    side_words,
    source_words,
    whole_names,
)
from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.lettering import shorten, width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.words import counted, length, listed, span
from solver.stock.cutplan.steps import CutPlan, Laid, Stack, Step

SIZE, LEAD = 6.9, 9.0
HEADS = (
    "cut",
    "piece",
    "made in",
    "kind",
    "measure",
    "from",
    "piece, along × across",
    "other part",
)
ROOMS = (22.0, 40.0, 66.0, 68.0, 114.0, 68.0, 154.0)
"""The widths of all columns but the last, in points."""
GAP = 5.0
NARROWEST = 738.0
"""Points between the margins of the narrower of the two papers, on its side."""
NAMED_IN = 110
"""Characters in which the whole units of a row are named at most."""

Entry = tuple[str, ...]
"""The cells of one line; a row's heading has only one."""


def step_pages(job: Job, layout: Layout, plan: CutPlan) -> list[Page]:
    """The list of all cuts; one page even when nothing is cut."""
    entries = step_entries(job, layout, plan)
    pages: list[Page] = []
    while entries or not pages:
        page = Page(job.system, landscape=True)
        more = f", page {len(pages) + 1}" if pages else ""
        about = about_words(job, layout, plan)
        body = write_head(page, job.name, f"Cut list {layout.rank}{more}", about)
        held = _held(entries, int((body.height - 20) / LEAD))
        if held:
            write_table(page, body, HEADS, ROOMS, entries[:held])
        entries = entries[held:]
        pages.append(page)
    return pages


def about_words(job: Job, layout: Layout, plan: CutPlan) -> str:
    """What the list holds, in a sentence or two."""
    cuts = sum(step.trim is not None for step in plan.steps)
    cut = sum(each.piece.cut for each in plan.laid)
    return (
        f"{counted(cuts, 'straight cut')} for {counted(cut, 'piece')} from "
        f"{counted(len(plan.units), 'unit')}, {kerf_words(job, layout)}. "
        f"{SIDES_TOLD} Sizes without joint; the kerf falls beyond the measure."
    )


def kept_words(stacks: tuple[Stack, ...]) -> str:
    """How many offcuts are kept at most, and when."""
    if not stacks[0].most:
        return "No offcuts are kept"
    if sum(each.most > 0 for each in stacks[1:]) == 1:
        stacks = stacks[1:]
    told = [
        f"{each.most}{' of ' + each.product if each.product else ''} in row {each.row}"
        + (f", {each.zone}" if len(stacks) > 1 else "")
        for each in stacks
        if each.most
    ]
    return f"Offcuts kept at most: {'; '.join(told)}"


def kerf_words(job: Job, layout: Layout) -> str:
    """The kerf of each product laid, or one for all."""
    laid = {zone.product for zone in layout.zones}
    kerfs = {each.name: length(job, each.kerf) for each in job.products if each.name in laid}
    if len(set(kerfs.values())) == 1:
        return f"kerf {next(iter(kerfs.values()))}"
    return "kerf " + listed(f"{kerf} for {name}" for name, kerf in kerfs.items())


def step_entries(job: Job, layout: Layout, plan: CutPlan) -> list[Entry]:
    """The printed lines, with a heading before each row in which something is cut.

    Before them all stands how many offcuts are kept.
    """
    sizes = {line.piece: line for line in cut_lines(job, layout)}
    steps: dict[str, list[Step]] = {}
    for step in plan.steps:
        steps.setdefault(step.piece, []).append(step)
    kept = wrap(kept_words(plan.stacks), NARROWEST, SIZE, bold=True) if plan.steps else []
    found: list[Entry] = [(line,) for line in kept]
    for row in plan.rows:
        mine = [step for each in row for step in steps.get(each.piece.id, ())]
        if mine:
            found.append((_row_words(job, row, len(layout.zones) > 1),))
            found += [_entry(job, step, sizes[step.piece]) for step in mine]
    return found


def _row_words(job: Job, row: tuple[Laid, ...], more_zones: bool) -> str:
    """A row's heading: what of it is laid whole."""
    whole = [each.piece for each in row if not each.piece.cut]
    name = f"Row {row[0].piece.row}" + (f", {row[0].zone}" if more_zones else "")
    if not whole:
        return name
    name += f": {counted(len(whole), 'whole unit')}"
    names = whole_names(job, whole)
    # Where every second piece is whole, naming them all helps nobody: the CSV does.
    return f"{name}, {names}" if len(names) <= NAMED_IN else name


def _entry(job: Job, step: Step, sizes: CutLine) -> Entry:
    size = ""
    if step.frees:
        size = f"{span(job, *sizes.along)} × {span(job, *sizes.across)}"
        if width(size, SIZE) > ROOMS[-1] - GAP:
            size = size.replace(" mm to ", "–").replace(" to ", "–")
    return (
        str(step.number),
        step.piece,
        source_words(job, step),
        step.kind.value,
        measure_words(job, step.trim),
        side_words(step),
        size or "more to cut",
        other_words(job, step, sizes.neck),
    )


def _held(entries: list[Entry], lines: int) -> int:
    """How many entries fit on a page; a row's heading never stands last."""
    held = min(lines, len(entries))
    while 1 < held < len(entries) and len(entries[held - 1]) == 1:
        held -= 1
    return held


def write_table(
    page: Page,
    body: Box,
    heads: tuple[str, ...],
    rooms: tuple[float, ...],
    entries: list[Entry],
) -> None:
    """Write a table from the top of a box; entries of one cell are headings over its width."""
    lefts = [body.left + sum(rooms[:i]) for i in range(len(heads))]
    widths = [*rooms, body.right - lefts[-1]]
    top = body.top - 8
    for x, word in zip(lefts, heads, strict=True):
        page.write(x, top, word, 6.2, ink=ink.GREY)
    lines = [(top - 3 - (i + 1) * LEAD, entry) for i, entry in enumerate(entries)]
    titles = [(y, e[0]) for y, e in lines if len(e) == 1]
    page.write_column(
        [(body.left, y) for y, _ in titles],
        [shorten(text, body.width, SIZE, bold=True) for _, text in titles],
        SIZE,
        bold=True,
    )
    page.lines(
        [((body.left, y + LEAD - 2.2), (body.right, y + LEAD - 2.2)) for y, _ in titles], ink.RULE
    )
    cells = [(y, entry) for y, entry in lines if len(entry) > 1]
    for i, (left, wide) in enumerate(zip(lefts, widths, strict=True)):
        held = [(y, shorten(entry[i], wide - GAP, SIZE)) for y, entry in cells if entry[i]]
        page.write_column([(left, y) for y, _ in held], [text for _, text in held], SIZE)
