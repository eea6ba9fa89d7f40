"""Cuts beside a 30 in square compass, whose outline is at 75 and 105 in, 93 and 123 in."""

import math
from dataclasses import replace

from models.floor.frame import Frame
from models.floor.layout import Piece, Solution
from models.job.data import Feature, Job, Ring
from models.lengths import show
from solver.sheets.axischeck.beside import SideCuts, cuts_beside
from tests.sheets.clipping import in_frame, pieces_of, ring_of, rows_of, whole_area
from tests.sheets.jobs import inch

Pair = tuple[Job, Solution]


def sides(pair: Pair, rank: int) -> dict[str, SideCuts]:
    job, solution = pair
    found = cuts_beside(job, solution.layouts[rank - 1].zones[0], job.features[0])
    return {side.side: side for side in found}


def test_rips_before_and_behind_run_to_the_row_lines(planks: Pair) -> None:
    job, found = planks[0], sides(planks, 1)
    # Row lines at 101 + 6k: 89 and 125 are the first outside the outline.
    assert found["bottom"].words(job) == '4"'
    assert found["top"].words(job) == '2"'


def test_cuts_left_and_right_run_to_the_end_joints(planks: Pair) -> None:
    job, solution = planks
    found, zone = sides(planks, 1), solution.layouts[0].zones[0]
    for cut in found["left"].cuts:
        row = next(row for row in zone.rows if row.row == int(cut.piece.split("-")[0]))
        offset = row.runs[0][1]
        assert cut.size == (inch("75") - inch("90") - offset) % inch("48")
    assert len(found["left"].cuts) == len(found["right"].cuts) == 6
    assert show(found["left"].least or 0, job.system) == '8"'


def test_turned_rows_turn_the_sides(planks: Pair) -> None:
    found = sides(planks, 3)
    # Rows go up the page from 132 + 6k in: 72 and 108 are the first outside.
    assert found["right"].words(planks[0]) == '3"'
    assert found["left"].words(planks[0]) == '3"'


def test_a_feature_that_lands_on_lines_has_no_cuts() -> None:
    whole = SideCuts((1, 0), "right", ())
    assert whole.least is whole.most is None
    assert whole.words(None) == "whole units"  # type: ignore[arg-type]


def circle(centre: tuple[int, int], radius: int, sides: int = 48) -> Ring:
    turns = [2 * math.pi * i / sides for i in range(sides)]
    return tuple(
        (round(centre[0] + radius * math.cos(t)), round(centre[1] + radius * math.sin(t)))
        for t in turns
    )


def relaid(pair: Pair, outline: Ring, frame: Frame, start_v: int) -> tuple[SideCuts, ...]:
    job, solution = pair
    feature: Feature = replace(job.features[0], outline=outline)
    job = replace(job, features=(feature,))
    area = whole_area(job)
    shape = in_frame(area, frame)
    _, spots = rows_of(job.products[0], shape, start_v, lambda row: inch("10") * row)
    pieces = pieces_of(area, frame, shape, spots)
    zone = replace(
        solution.layouts[0].zones[0],
        frame=frame,
        outer=ring_of(list(shape.exterior.coords)),
        holes=tuple(ring_of(list(hole.coords)) for hole in shape.interiors),
        pieces=tuple(pieces),
    )
    return cuts_beside(job, zone, feature)


def test_a_round_feature_is_measured_at_its_outermost_points(planks: Pair) -> None:
    centre = planks[0].features[0].centre
    found = relaid(planks, circle(centre, inch("15")), Frame((0, 0), (1, 0)), inch("101"))
    assert [side.words(planks[0]) for side in found[2:]] == ['4"', '2"']
    assert all(len(side.cuts) in {1, 2} for side in found)
    assert not any(cut.slanted for side in found for cut in side.cuts)


def test_slanted_rows_give_slanted_cuts(planks: Pair) -> None:
    outline = planks[0].features[0].outline
    found = relaid(planks, outline, Frame((0, 0), (1, 1)), inch("12"))
    slanted = [cut for side in found for cut in side.cuts]
    assert slanted
    assert all(cut.slanted and cut.near == cut.far for cut in slanted)
    assert all(cut.size <= inch("6") for cut in slanted)


def test_joints_are_not_counted(planks: Pair) -> None:
    job, solution = planks
    jointed = replace(job, products=(replace(job.products[0], joint=inch("1/4")),))
    zone = solution.layouts[0].zones[0]
    plain = cuts_beside(job, zone, job.features[0])
    less = cuts_beside(jointed, zone, job.features[0])
    assert [side.least for side in less] == [(side.least or 0) - inch("1/4") for side in plain]


def test_pieces_away_from_the_feature_are_left_out(planks: Pair) -> None:
    job, solution = planks
    zone = solution.layouts[0].zones[0]
    apart: tuple[Piece, ...] = tuple(replace(piece, touches=()) for piece in zone.pieces)
    found = cuts_beside(job, replace(zone, pieces=apart), job.features[0])
    assert all(side.cuts == () for side in found)
