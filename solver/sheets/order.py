"""The order: units, spares and cartons of each product for each layout."""

from __future__ import annotations

from dataclasses import dataclass

from models.floor.layout import Layout
from models.job.data import Job
from solver.sheets.cutlist import csv_text


@dataclass(frozen=True, slots=True)
class OrderLine:
    """What one layout needs of one product; ``laid_mm2`` counts joints as floor."""

    product: str
    units: int
    units_at_least: int
    spare_units: int
    cartons: int
    laid_mm2: float
    waste_percent: float

    @property
    def proved(self) -> bool:
        """True when no layout the job admits needs fewer units."""
        return self.units == self.units_at_least


def order_lines(job: Job, layout: Layout) -> tuple[OrderLine, ...]:
    """The order of a layout: its figures are those of the one product it lays."""
    figures = layout.figures
    product = job.product_of(job.field)
    return (
        OrderLine(
            product.name,
            figures.units,
            figures.units_at_least,
            figures.spare_units,
            figures.cartons,
            figures.laid_area_mm2,
            figures.waste_percent,
        ),
    )


def order_csv(job: Job, layouts: tuple[Layout, ...]) -> str:
    """The order of every layout as CSV."""
    head = [
        "layout", "best at", "product", "units", "least possible", "proved",
        "spare units", "cartons", "waste %", "laid m2",
    ]  # fmt: skip
    lines = [
        [
            layout.rank, "; ".join(layout.best_at), line.product, line.units,
            line.units_at_least, "yes" if line.proved else "no", line.spare_units,
            line.cartons, f"{line.waste_percent:.2f}", f"{line.laid_mm2 / 1e6:.3f}",
        ]
        for layout in layouts
        for line in order_lines(job, layout)
    ]  # fmt: skip
    return csv_text([head, *lines])
