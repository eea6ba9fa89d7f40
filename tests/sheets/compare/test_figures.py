from dataclasses import replace

from models.floor.layout import Solution
from models.job.data import Feature, Job
from solver.sheets.compare.figures import Line, figure_lines, off_axis
from tests.sheets.jobs import inch

Pair = tuple[Job, Solution]


def lines(pair: Pair) -> dict[str, Line]:
    return {line.name: line for line in figure_lines(pair[0], pair[1].layouts)}


def test_every_deciding_figure_has_a_line(planks: Pair) -> None:
    assert list(lines(planks)) == [
        "Rows run", "Units to cut from", "Least possible", "Cartons to buy", "Least cartons",
        "Waste",
        "Smallest cut", "Pieces to cut", "Opposite cuts differ by", "Compass off axis",
        "Rules broken",
    ]  # fmt: skip


def test_the_bound_is_proved_or_has_a_gap(planks: Pair) -> None:
    first, second, _ = planks[1].layouts
    found = lines(planks)["Least possible"].values
    assert found[0] == f"{first.figures.units}: proved least"
    assert found[1] == f"{second.figures.units - 1}, gap 1"


def test_best_values_are_marked(planks: Pair) -> None:
    found = lines(planks)
    units = [layout.figures.units for layout in planks[1].layouts]
    assert found["Units to cut from"].best == {units.index(min(units))}
    assert found["Smallest cut"].best == {0}
    assert found["Compass off axis"].best == frozenset()


def test_nothing_is_best_when_all_are_alike(planks: Pair) -> None:
    job, solution = planks
    alike = figure_lines(job, (solution.layouts[0],) * 3)
    assert all(line.best == frozenset() for line in alike)


def test_broken_rules_are_counted_by_kind(planks: Pair) -> None:
    assert lines(planks)["Rules broken"].values[0] == "1 preferred"
    assert lines(planks)["Rules broken"].values[1] == "1 must, 1 preferred"


def test_a_feature_off_its_axis_is_measured_square_to_it(planks: Pair) -> None:
    job = planks[0]
    feature: Feature = replace(job.features[0], centre=(inch("7' 6-1/2\""), inch("3'")))
    assert off_axis(job, feature) == inch("1/2")


def test_many_features_share_one_line(planks: Pair) -> None:
    job, solution = planks
    moved = replace(job.features[0], name="star", centre=(inch("7' 7\""), 0))
    job = replace(job, features=(*job.features * 3, moved))
    found = {line.name: line for line in figure_lines(job, solution.layouts)}
    assert found["Most off axis"].values[0] == '1" (star)'


def test_a_room_without_cuts_says_so(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    figures = replace(layout.figures, smallest_cut=None, smallest_where="", balance=None, cuts=0)
    found = {line.name: line for line in figure_lines(job, (replace(layout, figures=figures),))}
    assert found["Smallest cut"].values == ("nothing is cut",)
    assert found["Opposite cuts differ by"].values == ("nothing to compare",)


def test_least_cartons_tell_whether_fewer_would_do(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    need = replace(layout.figures.needs[0], cartons=12, cartons_at_least=12)
    figures = replace(layout.figures, needs=(need,), cartons=12)
    gap = replace(figures, needs=(replace(need, cartons_at_least=11),))
    shown = [
        next(
            x for x in figure_lines(job, (replace(layout, figures=f),)) if x.name == "Least cartons"
        )
        for f in (figures, gap)
    ]
    assert [line.values for line in shown] == [("12: no layout needs fewer",), ("11, gap 1",)]


def test_of_several_lengths_the_least_cartons_are_told_not_the_least_units(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    need = replace(layout.figures.needs[0], lengths=((9600, 3), (4800, 2)))
    mixed = replace(layout, figures=replace(layout.figures, needs=(need,)))
    names = [line.name for line in figure_lines(job, (mixed,))]
    assert "Least possible" not in names
    assert "Least cartons" in names
