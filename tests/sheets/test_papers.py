import json
import os
import stat
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets import papers
from solver.sheets.papers import OUR_NAMES, AuditFailure, PaperError, write_papers

Pair = tuple[Job, Solution]


def few(_solution: Solution, layouts: str) -> Iterator[tuple[str, bytes]]:
    """Papers that cost nothing, where it is the writing that is tested."""
    yield "layouts.json", layouts.encode()
    yield "order.csv", b"order\n"


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(papers, "_contents", few)


def tree(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_all_papers_are_written_and_named(planks: Pair, tmp_path: Path) -> None:
    found = write_papers(planks[1], tmp_path / "out" / "papers")
    names = [path.name for path in found]
    assert names == [
        "layouts.json", "compare.png", "compare.svg", "compare.pdf",
        "set-out-1.pdf", "set-out-1.png", "cut-list-1.csv", "cut-list-1.pdf",
        "set-out-2.pdf", "set-out-2.png", "cut-list-2.csv", "cut-list-2.pdf",
        "set-out-3.pdf", "set-out-3.png", "cut-list-3.csv", "cut-list-3.pdf",
        "order.csv", "order.pdf", "axis-check.pdf", "axis-check.csv",
    ]  # fmt: skip
    assert all(path.stat().st_size > 0 for path in found)
    assert all(OUR_NAMES.fullmatch(name) for name in names)
    assert sorted(tree(tmp_path / "out" / "papers")) == sorted(names)
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["papers"]


def test_the_same_job_gives_the_same_bytes(tiles: Pair, tmp_path: Path) -> None:
    write_papers(tiles[1], tmp_path / "a")
    write_papers(tiles[1], tmp_path / "b")
    assert tree(tmp_path / "a") == tree(tmp_path / "b")
    assert "axis-check.pdf" not in tree(tmp_path / "a")


@pytest.mark.usefixtures("quick")
def test_layouts_that_fail_their_audit_are_never_written(planks: Pair, tmp_path: Path) -> None:
    solution = planks[1]
    layout = solution.layouts[0]
    figures = replace(layout.figures, cuts=layout.figures.cuts - 1)
    wrong = replace(solution, layouts=(replace(layout, figures=figures), *solution.layouts[1:]))
    with pytest.raises(
        AuditFailure, match=r"no papers were written:\n  layout 1, figures: cut pieces: claimed"
    ) as raised:
        write_papers(wrong, tmp_path / "papers")
    assert len(raised.value.findings) == 1
    assert list(tmp_path.iterdir()) == []


@pytest.mark.usefixtures("quick")
def test_a_folder_in_use_is_refused(planks: Pair, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(PaperError, match="is not empty"):
        write_papers(planks[1], tmp_path)
    assert tree(tmp_path) == {"notes.txt": b"mine"}


@pytest.mark.usefixtures("quick")
def test_an_empty_folder_is_filled(planks: Pair, tmp_path: Path) -> None:
    write_papers(planks[1], tmp_path)
    assert sorted(tree(tmp_path)) == ["layouts.json", "order.csv"]


@pytest.mark.usefixtures("quick")
def test_replacing_touches_only_papers(planks: Pair, tmp_path: Path) -> None:
    write_papers(planks[1], tmp_path)
    (tmp_path / "notes.txt").write_text("mine")
    (tmp_path / "order.csv").write_text("old")
    (tmp_path / "set-out-3.pdf").write_text("of an earlier run")
    write_papers(planks[1], tmp_path, replace=True)
    assert sorted(tree(tmp_path)) == ["layouts.json", "notes.txt", "order.csv"]
    assert tree(tmp_path)["notes.txt"] == b"mine"
    assert tree(tmp_path)["order.csv"] == b"order\n"


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("layouts", [None, "not json", '["startrow"]', '{"contract": 1}'])
def test_a_paper_of_somebody_elses_is_not_replaced(
    planks: Pair, tmp_path: Path, layouts: str | None
) -> None:
    (tmp_path / "order.csv").write_text("mine")
    if layouts:
        (tmp_path / "layouts.json").write_text(layouts)
    before = tree(tmp_path)
    with pytest.raises(PaperError, match="may be somebody's work"):
        write_papers(planks[1], tmp_path, replace=True)
    assert tree(tmp_path) == before


@pytest.mark.usefixtures("quick")
def test_a_file_in_the_way_is_refused(planks: Pair, tmp_path: Path) -> None:
    (tmp_path / "papers").write_text("mine")
    with pytest.raises(PaperError, match="is a file, not a folder"):
        write_papers(planks[1], tmp_path / "papers", replace=True)


@pytest.mark.usefixtures("quick")
def test_a_folder_that_cannot_be_written_is_said(planks: Pair, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(PaperError, match="cannot be written"):
        write_papers(planks[1], tmp_path / "file" / "papers")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_closed_folder_is_said(planks: Pair, tmp_path: Path) -> None:
    tmp_path.chmod(stat.S_IRUSR | stat.S_IXUSR)
    with pytest.raises(PaperError, match="cannot be written"):
        write_papers(planks[1], tmp_path / "papers")


def test_a_failure_half_way_leaves_nothing(
    planks: Pair, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> Iterator[tuple[str, bytes]]:
        yield "layouts.json", b"{}"
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(papers, "_contents", broken)
    with pytest.raises(PaperError, match="No space left on device"):
        write_papers(planks[1], tmp_path / "papers")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.usefixtures("quick")
def test_a_failure_while_replacing_puts_the_old_papers_back(
    planks: Pair, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "papers"
    write_papers(planks[1], folder)
    (folder / "order.csv").write_text("old")
    before = tree(folder)
    move = Path.replace

    def failing(self: Path, target: Path) -> Path:
        if self.name == "order.csv" and self.parent.name == "new":
            raise PermissionError(13, "Permission denied", str(target))
        return move(self, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises(PaperError, match="Permission denied"):
        write_papers(planks[1], folder, replace=True)
    assert tree(folder) == before
    assert [path.name for path in tmp_path.iterdir()] == ["papers"]


@pytest.mark.usefixtures("quick")
def test_layouts_json_is_what_was_audited(planks: Pair, tmp_path: Path) -> None:
    write_papers(planks[1], tmp_path / "papers")
    found = json.loads((tmp_path / "papers" / "layouts.json").read_text(encoding="utf-8"))
    assert found["job"] == planks[0].name
