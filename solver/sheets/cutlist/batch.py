"""Cuts that are alike, to be made ahead at the bench: in new units, the same measure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from models.floor.layout import Layout
from models.job.data import Job
from solver.sheets.cutlist.steps import LEAD, SIZE, Entry, write_table
from solver.sheets.cutlist.words import SIDES, measure_words
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.heads import write_head
from solver.sheets.drawing.lettering import wrap
from solver.sheets.drawing.page import Page
from solver.sheets.words import length
from solver.stock.cutplan.steps import CutPlan, Step, StepKind
from solver.stock.cutplan.trims import Trim

HEADS = ("times", "product", "kind", "measure", "from", "for pieces (new units)")
ROOMS = (30.0, 130.0, 74.0, 124.0, 76.0)
ABOUT = (
    "First cuts in new units that are alike: they can be made ahead. Write the piece and the "
    "unit's name on both parts; the list tells what is cut next and what is kept."
)


@dataclass(frozen=True, slots=True)
class Batch:
    """Cuts in new units that are alike: what is measured, from which side, for which pieces."""

    product: str
    unit_length: int
    kind: StepKind
    trim: Trim
    side: str
    steps: tuple[Step, ...]


def batches(job: Job, plan: CutPlan) -> tuple[Batch, ...]:
    """All cuts that can be made ahead and come more than once; the most frequent first."""
    turning = {product.name: not product.directional for product in job.products}
    mixed = {product.name for product in job.products if product.mix}
    sizes = {unit.name: unit.size[0] for unit in plan.units}
    found: dict[Batch, list[Step]] = {}
    for step in plan.steps:
        if step.fresh and step.trim:
            trim, side = step.trim, f"factory {SIDES[step.trim.axis][not step.trim.low]}"
            if turning[step.product]:
                # Turned half round it is the same cut.
                trim = trim if trim.low else replace(trim, low=True, at=trim.at[::-1])
                side = f"factory {('end', 'edge')[trim.axis]}"
            long = sizes[step.unit] if step.product in mixed else 0
            key = Batch(step.product, long, step.kind, trim, side, ())
            found.setdefault(key, []).append(step)
    alike = [replace(key, steps=tuple(steps)) for key, steps in found.items() if len(steps) > 1]
    return tuple(sorted(alike, key=lambda batch: (-len(batch.steps), batch.steps[0].number)))


def batch_pages(job: Job, layout: Layout, plan: CutPlan) -> list[Page]:
    """The table of cuts to make ahead; no page when there are none."""
    entries = list(_entries(job, batches(job, plan)))
    pages: list[Page] = []
    while entries:
        page = Page(job.system, landscape=True)
        more = f", page {len(pages) + 1}" if pages else ""
        body = write_head(page, job.name, f"Cuts made ahead {layout.rank}{more}", ABOUT)
        held = _write(page, body, entries)
        entries = entries[held:]
        pages.append(page)
    return pages


def _write(page: Page, body: Box, entries: list[Entry]) -> int:
    """Write as many lines as the page takes; return how many."""
    held = int((body.height - 20) / LEAD)
    write_table(page, body, HEADS, ROOMS, entries[:held])
    return held


def _entries(job: Job, found: tuple[Batch, ...]) -> Iterator[Entry]:
    """The printed lines; those with many pieces go on below."""
    page = Page(job.system, landscape=True)
    room = page.box.width - 52 - sum(ROOMS) - 6
    for batch in found:
        names = ", ".join(f"{step.piece} ({step.unit})" for step in batch.steps)
        first, *others = wrap(names, room, SIZE)
        product = batch.product
        if batch.unit_length:
            product += f", {length(job, batch.unit_length)} long"
        yield (
            str(len(batch.steps)),
            product,
            batch.kind.value,
            measure_words(job, batch.trim),
            batch.side,
            first,
        )
        for line in others:
            yield ("", "", "", "", "", line)
