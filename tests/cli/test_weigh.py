"""``startrow weigh``: what it prints, writes and ends with."""

from __future__ import annotations

import signal
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from models.floor.layout import Solution
from models.job.data import Job
from solver.cli.exits import Exit
from solver.cli.weightext import weigh_text
from solver.search import solve
from tests.cli.conftest import Run
from tests.job.sample import text
from tests.weigh.samples import REASON, SLIVER, full, outcome, weighed, weighing

Say = Callable[[str], None]
Stop = Callable[[], bool]
PAPERS = ["weigh.csv", "weigh.pdf", "weigh.png", "weigh.svg"]


def write(folder: Path, **sections: str) -> Path:
    """A small job of three products, one of them of mixed lengths, in a straight bond."""
    path = folder / "galley.yaml"
    given = {
        "room": "{corners: [[0, 0], [1250, 0], [1250, 980], [0, 980]], walls: [s, e, n, w]}",
        "products": "[{name: plank, length: 600, width: 150}, "
        "{name: tile, length: 200, width: 200}, "
        "{name: mixed, width: 120, lengths: [{length: 700, per_carton: 3}, "
        "{length: 450, per_carton: 2}]}]",
        "field": "{product: plank, bond: straight}",
        **sections,
    }
    path.write_text(text(**given))
    return path


def solves(monkeypatch: pytest.MonkeyPatch, solving: Callable[[Job, Say, Stop], Solution]) -> None:
    monkeypatch.setattr("solver.weigh.outcome.solve", solving)


def test_a_table_and_its_papers(run: Run, tmp_path: Path) -> None:
    ended = run("weigh", write(tmp_path), "--papers", tmp_path / "out")
    assert ended.code in (Exit.DONE, Exit.MUST_BROKEN)
    rows = [line.split() for line in ended.out.splitlines()]
    assert rows[4][:5] == ["Alternative", "Units", "Least", "Cartons", "Waste"]
    assert {row[0] for row in rows if row} >= {"plank", "tile"}
    assert "- mixed: field, bond: 'mixed' comes in several lengths" in ended.out
    assert ended.out.count("Waste is the area of all units cut from") == 1
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == PAPERS
    assert all(f"{tmp_path}/out/{name}\n" in ended.out for name in PAPERS)
    assert "1 of 3, plank: " in ended.err
    assert ended.err.endswith("2 of 3, tile: checking the layouts\nwriting the papers\n")


def test_the_same_job_gives_the_same_bytes(run: Run, tmp_path: Path) -> None:
    job = write(tmp_path)
    outs = [run("weigh", job, "--papers", tmp_path / name, "--quiet").out for name in "ab"]
    for name in PAPERS:
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()
    assert outs[0].partition("Papers:")[0] == outs[1].partition("Papers:")[0]


def test_zone_and_way_are_handed_on(run: Run, tmp_path: Path) -> None:
    job = write(
        tmp_path,
        zones="[{name: hearth, corners: [[0, 0], [700, 0], [700, 500], [0, 500]], product: tile}]",
        field="{product: plank, bond: straight, directions: [{along: s}, {along: e}]}",
    )
    ended = run(
        "weigh", job, "--papers", tmp_path / "out", "--zone", "hearth", "--by", "directions"
    )
    assert ended.code in (Exit.DONE, Exit.MUST_BROKEN)
    assert "with other directions in hearth (tile)" in ended.out
    assert "1 of 2, along s: " in ended.err
    assert "2 of 2, along e: " in ended.err


def test_a_broken_must_is_named_and_has_its_own_code(run: Run, tmp_path: Path) -> None:
    job = write(tmp_path, rules="{smallest_cut: {must: 149}}")
    ended = run("weigh", job, "--papers", tmp_path / "out", "--quiet")
    assert ended.code == Exit.MUST_BROKEN
    assert "Must rules not kept\n- plank: smallest cut (must): " in ended.out
    assert "- mixed: " in ended.out


@pytest.mark.parametrize(
    ("sections", "options", "said"),
    [
        ({}, ("--zone", "feild"), "no zone is called 'feild'; did you mean 'field'?"),
        (
            {"products": "[{name: plank, length: 600, width: 150}]"},
            (),
            "only one product is listed, 'plank', and zone 'field' has only one direction",
        ),
        ({}, ("--by", "directions"), "zone 'field' has only one direction, 'along s'; list more"),
        ({}, ("--by", "colour"), "invalid choice: 'colour'"),
        ({"room": "{}"}, (), "galley.yaml:4: room"),
    ],
)
def test_bad_input_is_told_and_nothing_is_written(
    run: Run, tmp_path: Path, sections: dict[str, str], options: tuple[str, ...], said: str
) -> None:
    ended = run("weigh", write(tmp_path, **sections), "--papers", tmp_path / "out", *options)
    assert ended.code == Exit.BAD_INPUT
    assert said in ended.err
    assert not (tmp_path / "out").exists()


def test_papers_that_are_there_are_left_alone_before_the_search(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solving(_job: Job, _say: Say, _stop: Stop) -> Solution:
        raise AssertionError("nothing is to be searched")

    solves(monkeypatch, solving)
    ended = run("weigh", write(tmp_path), "--papers", tmp_path)
    assert ended.code == Exit.CANNOT_WRITE
    assert "--replace" in ended.err


def test_an_interrupt_keeps_what_was_solved(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solving(job: Job, say: Say, stop: Stop) -> Solution:
        if job.field.product == "tile":
            signal.raise_signal(signal.SIGINT)
        return solve(job, say, stop)

    solves(monkeypatch, solving)
    ended = run("weigh", write(tmp_path), "--papers", tmp_path / "out", "--quiet")
    assert ended.code in (Exit.DONE, Exit.MUST_BROKEN)
    assert "Incomplete: it was stopped before these were solved: tile." in ended.out
    assert "not solved" in (tmp_path / "out" / "weigh.csv").read_text()


def test_an_interrupt_before_the_first_is_solved_writes_nothing(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def solving(job: Job, say: Say, stop: Stop) -> Solution:
        signal.raise_signal(signal.SIGINT)
        return solve(job, say, stop)

    solves(monkeypatch, solving)
    ended = run("weigh", write(tmp_path), "--papers", tmp_path / "out", "--quiet")
    assert (ended.code, ended.out) == (Exit.INTERRUPTED, "")
    assert not (tmp_path / "out").exists()


def test_a_failed_audit_names_the_alternative(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def wrong(job: Job, say: Say, stop: Stop) -> Solution:
        found = solve(job, say, stop)
        first = found.layouts[0]
        figures = replace(first.figures, cuts=first.figures.cuts + 1)
        return replace(found, layouts=(replace(first, figures=figures), *found.layouts[1:]))

    solves(monkeypatch, wrong)
    ended = run("weigh", write(tmp_path), "--papers", tmp_path / "out", "--quiet")
    assert (ended.code, ended.out) == (Exit.AUDIT_FOUND, "")
    assert "the layouts of 'plank' failed their audit" in ended.err
    assert not (tmp_path / "out").exists()


def test_the_table_keeps_to_eighty_columns() -> None:
    assert max(map(len, weigh_text(full(14)).splitlines())) <= 80


def test_the_lowest_are_marked_and_named() -> None:
    told = weigh_text(
        weighing(
            outcome("plank", weighed(5, 300)),
            outcome("stave", weighed(4, 400)),
            outcome("tile", weighed(1, 200, (SLIVER,))),
            outcome("mixed", None, REASON),
        )
    )
    assert "4.0 % *" in told
    assert "300.00 *" in told
    assert told.count(" *") == 2
    assert "Lowest waste with every must rule kept: stave.\n" in told
    assert "Cheapest with every must rule kept: plank.\n" in told
    assert "- tile: smallest cut (must): 41 mm, asked 60 mm, row 9, piece 1; s runs" in told
