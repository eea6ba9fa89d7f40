import csv
import io

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets.order import order_csv

Pair = tuple[Job, Solution]


def test_every_layout_is_ordered(planks: Pair) -> None:
    job, solution = planks
    rows = list(csv.DictReader(io.StringIO(order_csv(job, solution.layouts))))
    assert [row["layout"] for row in rows] == ["1", "2", "3"]
    assert [row["proved"] for row in rows] == ["yes", "no", "no"]
    assert {row["product"] for row in rows} == {"Driftwood plank 48 x 6"}
    assert {row["cost"] for row in rows} == {""}
