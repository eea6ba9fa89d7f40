import csv
import io

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets.order import order_csv, order_lines

Pair = tuple[Job, Solution]


def test_every_layout_is_ordered(planks: Pair) -> None:
    job, solution = planks
    rows = list(csv.DictReader(io.StringIO(order_csv(job, solution.layouts))))
    assert [row["layout"] for row in rows] == ["1", "2", "3"]
    assert [row["proved"] for row in rows] == ["yes", "no", "no"]
    assert {row["product"] for row in rows} == {"Driftwood plank 48 x 6"}


def test_cartons_hold_the_units_and_the_spares(planks: Pair) -> None:
    job, solution = planks
    for layout in solution.layouts:
        (line,) = order_lines(job, layout)
        per_carton = job.products[0].per_carton
        assert line.cartons * per_carton >= line.units + line.spare_units
        assert (line.cartons - 1) * per_carton < line.units + line.spare_units


def test_waste_is_what_is_bought_over_what_is_laid(planks: Pair) -> None:
    job, solution = planks
    (line,) = order_lines(job, solution.layouts[0])
    unit = 1219.2 * 152.4
    assert abs((line.units * unit / line.laid_mm2 - 1) * 100 - line.waste_percent) < 1e-9
