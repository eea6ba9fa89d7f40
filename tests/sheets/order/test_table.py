import csv
import io
from dataclasses import replace

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets.order.table import order_csv, spare_cartons

Pair = tuple[Job, Solution]


def test_every_layout_is_ordered(planks: Pair) -> None:
    job, solution = planks
    rows = list(csv.DictReader(io.StringIO(order_csv(job, solution.layouts))))
    assert [row["layout"] for row in rows] == ["1", "2", "3"]
    assert [row["proved"] for row in rows] == ["yes", "no", "no"]
    assert {row["product"] for row in rows} == {"Driftwood plank 48 x 6"}
    assert {row["cost"] for row in rows} == {""}


def test_spare_cartons_are_one_for_every_so_many_of_the_others(planks: Pair) -> None:
    job, solution = planks
    need = solution.layouts[0].figures.needs[0]
    assert spare_cartons(job, need) == 0
    for per in (1, 2, 5, 10):
        for others in range(1, 40):
            spare = -(-others // per)
            bought = replace(need, cartons=others + spare)
            assert spare_cartons(replace(job, spare_carton_per=per), bought) == spare
