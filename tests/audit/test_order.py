from __future__ import annotations

import pytest

from tests.audit.conftest import Fresh
from tests.audit.rooms import plank_room
from tests.audit.said import finds, finds_only, said
from tests.audit.scene import document


@pytest.mark.parametrize(
    ("key", "by", "pattern"),
    [
        ("cartons", 1, r"order: product Driftwood plank: claimed 17 cartons, found 16 for 120 "
                       r"units and 3 spare, 8 a carton|figures: cartons"),
        ("laid_area_m2", 0.01, r"order: .*claimed 9.3202 m2 laid, found 9.3102 m2"),
        ("waste_percent", 0.5, r"order: .*claimed 16.50\d % waste, found 16.00\d %"),
        ("spare_units", 80, r"claimed 16 cartons, found 26|spare units: claimed 3, found 83"),
    ],
)  # fmt: skip
def test_a_wrong_figure_in_the_order(fresh: Fresh, key: str, by: float, pattern: str) -> None:
    broken = fresh("tile")
    broken["layouts"][0]["order"][0][key] += by
    finds_only(broken, pattern)


def test_an_order_without_a_product_or_with_one_twice(fresh: Fresh) -> None:
    broken = fresh("tile")
    line = broken["layouts"][0]["order"][0]
    broken["layouts"][0]["order"].append(dict(line))
    finds(broken, "order: product Driftwood plank: claimed one line, found 2 lines")
    broken["products"].append({**broken["products"][0], "name": "Shingle tile"})
    broken["layouts"][0]["order"] = [{**line, "product": "Shingle tile"}]
    finds(broken, "order: product Driftwood plank: claimed not ordered, found laid")
    finds(broken, "order: product Shingle tile: claimed one line, found 1 lines, laid in no zone")


@pytest.mark.parametrize(
    ("key", "value", "pattern"),
    [
        ("cuts", 39, "figures: cut pieces: claimed 39, found 40"),
        ("smallest_cut", 120.0, "figures: smallest cut: claimed 120.000 mm, found 115.000 mm"),
        ("smallest_cut", None, "figures: smallest cut: claimed none, found 115.000 mm"),
        ("balance", 8.0, "figures: balance: claimed 8.000 mm, found 0.000 mm"),
        ("broken_must", 1, "figures: broken must rules: claimed 1, found 0"),
        ("broken_prefer", 0, "figures: broken preferences: claimed 0, found 1"),
        ("spare_units", 0, "figures: spare units: claimed 0, found 3"),
        ("cartons", 1, "figures: cartons: claimed 1, found 16"),
        ("waste_percent", 1.0, r"figures: waste: claimed 1.000 %, found 16.00\d %"),
        ("units", 119, "units: figures: claimed 119 units, found 120 different units"),
    ],
)
def test_a_wrong_figure_beside_a_layout(
    fresh: Fresh, key: str, value: float | None, pattern: str
) -> None:
    broken = fresh("tile")
    broken["layouts"][0]["figures"][key] = value
    finds_only(broken, pattern)


def test_joints_count_as_floor_laid() -> None:
    assert said(document(plank_room(joint=2.0))) == []


def test_ranks_out_of_order(fresh: Fresh) -> None:
    broken = fresh("tile")
    broken["layouts"][0]["rank"] = 2
    finds_only(broken, "the document, ranks: layouts: claimed ranks 2, found not 1, 2, 3 in order")
