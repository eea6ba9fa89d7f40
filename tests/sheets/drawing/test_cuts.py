from dataclasses import replace

import pytest

from models.floor.layout import Layout, Piece, Verdict
from models.job.data import Job, Kind, Limit
from solver.sheets.drawing.cuts import CutKind, broken_rules, kind_of, marked
from tests.sheets.builders import plank_solution
from tests.sheets.jobs import inch, plank_job

PIECE = Piece(
    "1-1", 1, 0, (0, 0), ((0, 0), (9, 0), (9, 9)), (), True, None, None, None, None, (), "u"
)


@pytest.mark.parametrize(
    ("piece", "kind"),
    [
        (replace(PIECE, cut=False), CutKind.WHOLE),
        (replace(PIECE, size_across=5), CutKind.RIP),
        (replace(PIECE, size_along=5), CutKind.CROSS),
        (replace(PIECE, size_along=5, size_across=5), CutKind.CORNER),
        (replace(PIECE, size_slant=5, size_along=5), CutKind.SLANT),
        (replace(PIECE, neck=5), CutKind.NOTCH),
    ],
)
def test_kinds(piece: Piece, kind: CutKind) -> None:
    assert kind_of(piece) is kind


def only_piece(job: Job, piece: Piece, *verdicts: Verdict) -> bool:
    layout: Layout = plank_solution(job).layouts[0]
    zone = replace(layout.zones[0], pieces=(piece,))
    return bool(marked(job, replace(layout, verdicts=verdicts), zone))


def broken(key: str, kind: Kind = Kind.MUST) -> Verdict:
    return Verdict(key, kind, 0, 0, False, "", "", zone="field")


def test_a_piece_under_the_smallest_cut_is_marked_even_as_a_wish() -> None:
    job = plank_job()
    rules = replace(job.field.rules, smallest_cut=Limit(Kind.PREFER, inch("2")))
    job = replace(job, zones=(replace(job.field, rules=rules),))
    assert only_piece(job, replace(PIECE, size_across=inch("1-15/16")))
    assert not only_piece(job, replace(PIECE, size_across=inch("2")))
    assert not only_piece(job, replace(PIECE, size_across=inch("2") - 6))


def test_a_whole_unit_is_never_marked() -> None:
    assert not only_piece(plank_job(), replace(PIECE, cut=False, size_along=1))


def test_short_ends_are_marked_when_that_must_is_broken() -> None:
    short = replace(PIECE, size_along=inch("7"))
    assert only_piece(plank_job(), short, broken("smallest_end"))
    assert not only_piece(plank_job(), short, broken("smallest_end", Kind.PREFER))
    assert not only_piece(plank_job(), short)


def test_narrow_rips_are_marked_unless_only_at_a_hidden_wall() -> None:
    rip = replace(PIECE, size_across=inch("2-3/4"))
    must = broken("half_unit_edges")
    assert only_piece(plank_job(), replace(rip, rip_at=("sea wall",)), must)
    assert not only_piece(plank_job(), replace(rip, rip_at=("return",)), must)
    assert not only_piece(plank_job(), replace(rip, size_across=inch("3"), rip_at=("step",)), must)


def test_cuts_that_do_not_survive_the_tape_are_marked() -> None:
    job = plank_job()
    rules = replace(job.field.rules, tape_tolerance=Limit(Kind.MUST, inch("1/4")))
    job = replace(job, zones=(replace(job.field, rules=rules),))
    assert only_piece(job, replace(PIECE, size_across=inch("2-1/8")), broken("tape_tolerance"))
    assert not only_piece(job, replace(PIECE, size_across=inch("2-1/4")), broken("tape_tolerance"))


def test_broken_musts_come_first() -> None:
    layout = plank_solution().layouts[0]
    wish, must = broken("no_stair", Kind.PREFER), broken("smallest_end")
    kept = replace(must, kept=True)
    assert broken_rules(replace(layout, verdicts=(wish, kept, must))) == (must, wish)
