"""The order as CSV: what each layout needs of each product."""

from __future__ import annotations

from fractions import Fraction

from models.floor.layout import Layout, Need
from models.job.data import Job
from solver.sheets.cutlist.pages import csv_text
from solver.sheets.words import length

HEAD = (
    "layout", "best at", "product", "units", "least possible", "proved", "breakage units",
    "spare units", "cartons", "spare cartons", "least cartons", "cost", "currency",
    "waste %", "laid m2", "lengths",
)  # fmt: skip


def order_csv(job: Job, layouts: tuple[Layout, ...]) -> str:
    """The order of every layout as CSV, one line for each product."""
    lines = [
        [
            layout.rank, "; ".join(layout.best_at), need.product, need.units,
            need.units_at_least, "yes" if need.proved else "no", need.breakage_units,
            need.spare_units, need.cartons, spare_cartons(job, need),
            need.cartons_at_least, _amount(need.cost),
            "" if need.cost is None else job.currency,
            f"{need.waste_percent:.2f}", f"{need.laid_area_mm2 / 1e6:.3f}",
            "; ".join(f"{units} of {length(job, each)}" for each, units in need.lengths),
        ]
        for layout in layouts
        for need in layout.figures.needs
    ]  # fmt: skip
    return csv_text([HEAD, *lines])


def spare_cartons(job: Job, need: Need) -> int:
    """How many of a product's cartons are spare ones: one for every so many of the others."""
    per = job.spare_carton_per
    return -(-need.cartons // (per + 1)) if per else 0


def _amount(cost: Fraction | None) -> str:
    return "" if cost is None else f"{float(cost):.2f}"
