"""The job file page, key by key, against the schema."""

import re
from pathlib import Path

import pytest

from models.job.reader import read_text
from models.job.schema import load_schema
from tests.job.sample import text

PAGE = (Path(__file__).parents[2] / "docs" / "job-file.md").read_text(encoding="utf-8")
# Value kinds, not groups of keys a user sees as such.
_KINDS = ("length_rule", "rows_rule")


def schema_keys() -> dict[str, list[str]]:
    """The keys of each group in the schema, by the group's name."""
    schema = load_schema()
    groups = {"job_file": schema, **schema["$defs"]}
    keys = {name: list(group.get("properties", {})) for name, group in groups.items()}
    keys["bond"] = list(groups["bond"]["then"]["properties"])
    return {name: found for name, found in keys.items() if found and name not in _KINDS}


def page_keys() -> dict[str, list[str]]:
    """The keys in the table of each section of the page, by the section's heading."""
    sections = re.findall(r"(?ms)^## (.+?)\n(.*?)(?=^## |\Z)", PAGE)
    found = {
        heading.lower().replace(" ", "_"): re.findall(r"(?m)^\| `([a-z_]+)` \|", body)
        for heading, body in sections
    }
    return {heading: keys for heading, keys in found.items() if keys}


def test_every_key_is_explained_in_the_section_of_its_group_and_no_other() -> None:
    assert page_keys() == schema_keys()


@pytest.mark.parametrize("key", sorted(load_schema()["$defs"]["rules"]["properties"]))
def test_a_rule_has_the_same_default_on_the_page_and_in_the_schema(key: str) -> None:
    row = re.search(rf"(?m)^\| `{key}` \|.*\| (.+) \|$", PAGE.split("## Rules")[1])
    assert row is not None
    described = load_schema()["$defs"]["rules"]["properties"][key]["description"]
    default = described.split("Default ")[1]
    assert re.findall(r"\d+(?:/\d+)?", row[1]) == re.findall(r"\d+(?:/\d+)?", default)
    first = re.search(r"must|prefer|off|none", default)
    assert first is not None
    assert first[0] in row[1]


def test_the_small_job_on_the_page_is_a_job() -> None:
    blocks = re.findall(r"(?s)```yaml\n(.*?)```", PAGE)
    whole = [block for block in blocks if block.startswith("job:")]
    assert len(whole) == 1
    assert read_text(whole[0], "page.yaml").name == "Net loft"


def test_the_walk_on_the_page_closes() -> None:
    walk = next(block for block in re.findall(r"(?s)```yaml\n(.*?)```", PAGE) if "legs:" in block)
    job = read_text(text(room=None) + walk, "page.yaml")
    assert [wall.name for wall in job.walls] == ["street wall", "bay", "back wall", "hall wall"]


def test_the_axes_and_rules_on_the_page_are_read() -> None:
    blocks = re.findall(r"(?s)```yaml\n(.*?)```", PAGE)
    parts = "".join(block for block in blocks if block.startswith(("axes:", "rules:")))
    room = (
        "{corners: [[0, 0], [18' 7\", 0], [18' 7\", 14'], [0, 14']],"
        " walls: [street wall, east wall, back wall, hall wall]}"
    )
    doors = "[{name: front door, wall: street wall, from_start: 7', width: 3'}]"
    field = "{bond: staggered, directions: [{along: hall wall}]}"
    job = read_text(text(room=room, doors=doors, field=field) + parts, "page.yaml")
    assert [axis.name for axis in job.axes] == ["entry axis", "bench axis", "long axis"]
    assert job.field.rules.no_stair is None


def blocks(word: str) -> list[str]:
    """The examples of the page that hold a word."""
    found: list[str] = re.findall(r"(?s)```yaml\n(.*?)```", PAGE)
    return [block for block in found if word in block]


def block(start: str) -> str:
    """The last example of the page that starts with a key."""
    return next(block for block in reversed(blocks(start)) if block.startswith(start))


def test_the_arc_on_the_page_is_one_wall() -> None:
    job = read_text(text(room=None) + blocks("arc_through")[0], "page.yaml")
    names = dict.fromkeys(wall.name for wall in job.walls)
    assert list(names) == ["sea wall", "bow window", "porch wall", "stair wall"]


def test_the_mixed_lengths_on_the_page_are_a_product() -> None:
    product = read_text(text(products=None) + block("products:"), "page.yaml").products[0]
    assert len(product.mix) == 3
    assert product.per_carton == 10


def test_the_zones_links_and_sliding_feature_on_the_page_are_read() -> None:
    room = (
        "{corners: [[0, 0], [30', 0], [30', 14'], [18', 14'], [18', 13'], [0, 13']],"
        " walls: [street wall, east wall, north wall, jog, back wall, hall wall]}"
    )
    products = (
        "[{name: plank, length: 48 in, width: 6 in},"
        " {name: Shingle tile 12, length: 12 in, width: 12 in}]"
    )
    job = read_text(
        text(
            room=room,
            products=products,
            axes="[{name: entry axis, through: [[12', 0], [12', 13']]}]",
            field="{product: plank, bond: staggered, directions: [{along: street wall}]}",
        )
        + block("features:")
        + block("zones:")
        + block("links:"),
        "page.yaml",
    )
    assert job.features[0].slide is not None
    assert [zone.name for zone in job.zones] == [
        "tile border",
        "threshold",
        "hearth",
        "west mat",
        "east mat",
        "study floor",
        "field",
    ]
    assert [link.second for link in job.links] == ["study floor"]
