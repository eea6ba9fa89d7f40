from __future__ import annotations

import pytest

from solver.audit import audit
from tests.audit.rooms import plank_room, tile_room
from tests.audit.said import finds, finds_only
from tests.audit.scene import Document, document


@pytest.fixture
def two_zones() -> Document:
    """A plank zone and a tile zone of another room, in one document."""
    both = document(plank_room(rules=()))
    other = document(tile_room(rules=(), origin=(20_000.0, 0.0)))
    one, two = both["layouts"][0], other["layouts"][0]
    other["zones"][0].update(name="Galley", product="Shingle tile")
    other["products"][0].update(name="Shingle tile")
    two["zones"][0]["zone"] = "Galley"
    two["order"][0]["product"] = "Shingle tile"
    for piece in two["pieces"]:
        piece.update(zone="Galley", id=f"G{piece['id']}", unit=f"G{piece['unit']}")
    for key in ("zones", "products"):
        both[key] += other[key]
    for key in ("zones", "pieces", "order"):
        one[key] += two[key]
    mine, theirs = one["figures"], two["figures"]
    for key in ("units", "units_at_least", "cartons", "spare_units", "cuts"):
        mine[key] += theirs[key]
    mine["smallest_cut"] = min(mine["smallest_cut"], theirs["smallest_cut"])
    mine["balance"] = max(mine["balance"], theirs["balance"])
    areas = [line["laid_area_m2"] for line in one["order"]]
    bought = [a * (1 + line["waste_percent"] / 100)
              for a, line in zip(areas, one["order"], strict=True)]  # fmt: skip
    mine["waste_percent"] = (sum(bought) / sum(areas) - 1) * 100
    return both


def test_two_zones_laid_right_are_clean(two_zones: Document) -> None:
    report = audit(two_zones)
    assert report.findings == ()
    assert report.measured[0].units == 68 + 120


def test_a_fault_in_the_second_zone_is_found(two_zones: Document) -> None:
    two_zones["layouts"][0]["zones"][1]["units"] += 1
    finds(two_zones, "units: zone Galley: claimed 121 units, found 120 different units")


def test_a_unit_is_of_one_product(two_zones: Document) -> None:
    layout = two_zones["layouts"][0]
    layout["pieces"][-1]["unit"] = layout["pieces"][0]["unit"]
    finds(two_zones, r"units: unit U-P1: .*found pieces of different products, Driftwood plank, S")


def test_zones_over_each_other_are_checked_each_for_itself(two_zones: Document) -> None:
    two_zones["layouts"][0]["zones"][1]["start_line"][0][1] += 9
    finds_only(two_zones, "start line: start line: claimed the low line of row 2, found")
