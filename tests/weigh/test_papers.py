"""The papers of a weighing: same bytes twice, whole or not at all, over nobody's work."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from solver.sheets.folder import PaperError
from solver.weigh.csvtable import HEAD, weigh_csv
from solver.weigh.outcome import Weighing
from solver.weigh.papers import OUR_NAMES, write_weigh_papers
from tests.weigh.samples import REASON, SLIVER, full, job, outcome, weighed, weighing

SHORT = weighing(
    outcome("plank", weighed(5, 400)),
    outcome("stave", weighed(4, 200, (SLIVER,))),
    outcome("mixed", None, REASON),
    outcome("tile", None),
    of=job(currency='"$"'),
)
ALL = ["weigh.csv", "weigh.pdf", "weigh.png", "weigh.svg"]


def tree(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def lines(found: Weighing) -> list[dict[str, str]]:
    return list(csv.DictReader(weigh_csv(found).splitlines()))


def test_the_table_has_a_line_for_each_alternative() -> None:
    plank, stave, mixed, tile = lines(SHORT)
    assert list(plank) == list(HEAD)
    assert (plank["units"], plank["least possible"], plank["proved"]) == ("95", "93", "no")
    assert (plank["waste %"], plank["cost"], plank["currency"]) == ("5.00", "400.00", "$")
    assert (plank["lowest waste"], plank["cheapest"]) == ("yes", "yes")
    assert (stave["lowest waste"], stave["must rules broken"]) == ("no", "1")
    assert stave["broken rules"].startswith("smallest cut (must): 41 mm, asked 60 mm")
    assert (mixed["outcome"], mixed["reason"], mixed["units"]) == ("cannot be laid", REASON, "")
    assert (tile["outcome"], tile["reason"], tile["cost"]) == ("not solved", "", "")


def test_all_papers_are_written_with_a_picture_a_page(tmp_path: Path) -> None:
    found = write_weigh_papers(full(13), tmp_path / "out", replace=False)
    names = [path.name for path in found]
    assert names == [*ALL, "weigh-page-2.png", "weigh-page-2.svg"]
    assert all(OUR_NAMES.fullmatch(name) for name in names)
    assert sorted(tree(tmp_path / "out")) == sorted(names)


def test_the_same_weighing_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a", "b"):
        write_weigh_papers(SHORT, tmp_path / name, replace=False)
    assert tree(tmp_path / "a") == tree(tmp_path / "b")


def test_a_folder_in_use_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(PaperError, match="is not empty"):
        write_weigh_papers(SHORT, tmp_path, replace=False)
    assert tree(tmp_path) == {"notes.txt": b"mine"}


def test_replacing_touches_only_papers_of_a_weighing(tmp_path: Path) -> None:
    write_weigh_papers(full(13), tmp_path, replace=False)
    mine = {"notes.txt": b"mine", "layouts.json": b"of solve"}
    for name, content in mine.items():
        (tmp_path / name).write_bytes(content)
    write_weigh_papers(SHORT, tmp_path, replace=True)
    assert sorted(tree(tmp_path)) == sorted([*ALL, *mine])
    assert {name: tree(tmp_path)[name] for name in mine} == mine


@pytest.mark.parametrize("chart", [None, b"<svg/>", b"\xff\xfe"])
def test_a_paper_of_somebody_elses_is_not_replaced(tmp_path: Path, chart: bytes | None) -> None:
    (tmp_path / "weigh.csv").write_text("mine")
    if chart:
        (tmp_path / "weigh.svg").write_bytes(chart)
    before = tree(tmp_path)
    with pytest.raises(PaperError, match=r"no weigh\.svg of startrow's, so it may be somebody's"):
        write_weigh_papers(SHORT, tmp_path, replace=True)
    assert tree(tmp_path) == before
