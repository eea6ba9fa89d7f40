"""The best three: undominated, different, and never without the thrifty one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from models.floor.layout import Layout
from models.job.data import Kind
from models.lengths import TICKS_PER_MM as MM
from solver.search.outcome.pick import best_three, differ, dominated, grade, tell
from tests.search.layouts import CROSSWISE, layout, verdict

FEWEST = layout(1)
WIDEST = layout(2, units=57, smallest_cut=180 * MM)
CLEANEST = layout(3, units=58, cuts=20)
WORSE = layout(4, units=59, smallest_cut=90 * MM, cuts=40)


def figures_of(chosen: Sequence[Layout]) -> list[int]:
    return [x.figures.units for x in chosen]


def test_each_of_three_is_best_at_something_and_says_so() -> None:
    chosen = best_three([WORSE, CLEANEST, WIDEST, FEWEST])
    assert figures_of(chosen) == [56, 57, 58]
    assert [x.rank for x in chosen] == [1, 2, 3]
    assert [x.best_at for x in chosen] == [
        ("keeps every rule", "fewest units"),
        ("keeps every rule", "largest smallest cut"),
        ("keeps every rule", "fewest cuts"),
    ]
    assert tell(chosen) == ()


def test_a_layout_beaten_in_every_figure_is_never_shown() -> None:
    assert dominated(WORSE, FEWEST)
    assert not dominated(WIDEST, FEWEST)
    assert not dominated(FEWEST, FEWEST)
    assert figures_of(best_three([FEWEST, WORSE])) == [56]


def test_the_order_layouts_are_found_in_does_not_matter() -> None:
    every = [WORSE, CLEANEST, WIDEST, FEWEST]
    assert best_three(every) == best_three(every[::-1])


def test_layouts_that_look_the_same_are_shown_once() -> None:
    twin = replace(
        FEWEST, figures=replace(FEWEST.figures, units=57, bought_mm2=57 * 1200 * 200, cuts=30)
    )
    assert not differ(twin, FEWEST)
    assert figures_of(best_three([FEWEST, twin])) == [56]


def test_layouts_with_the_same_figures_are_no_choice() -> None:
    assert not differ(layout(5), FEWEST)


def test_another_direction_is_a_difference() -> None:
    assert differ(layout(1, CROSSWISE, units=57), FEWEST)


def test_a_mirror_image_is_not_a_difference() -> None:
    zone = FEWEST.zones[0]
    width = 3600 * MM
    pieces = tuple(
        replace(p, outline=tuple((width - u, v) for u, v in reversed(p.outline)))
        for p in zone.pieces
    )
    mirrored = replace(
        FEWEST,
        zones=(replace(zone, pieces=pieces),),
        figures=replace(FEWEST.figures, units=57, bought_mm2=57 * 1200 * 200, cuts=30),
    )
    assert {p.outline for p in pieces}.isdisjoint({p.outline for p in zone.pieces})
    assert not differ(mirrored, FEWEST)


def test_fewer_broken_must_rules_come_before_fewer_units() -> None:
    short = verdict("smallest_cut", Kind.MUST, 50, 40)
    broken = replace(layout(6, units=54, broken_must=1), verdicts=(short,))
    chosen = best_three([broken, FEWEST])
    assert figures_of(chosen) == [56]
    assert figures_of(best_three([broken])) == [54]


def test_of_layouts_that_all_break_a_rule_the_least_broken_comes_first() -> None:
    near, far = (
        replace(
            layout(number, units=units, broken_must=1),
            verdicts=(verdict("smallest_cut", Kind.MUST, 50, worst),),
        )
        for number, units, worst in ((7, 58, 45), (8, 54, 10))
    )
    assert figures_of(best_three([far, near])) == [58, 54]


def test_the_thriftiest_layout_that_keeps_every_rule_is_among_them() -> None:
    # Three others give up a preference and beat it in whatever a layout can be best at.
    others = [
        layout(11, units=54, broken_prefer=1),
        layout(12, units=55, broken_prefer=1, smallest_cut=190 * MM),
        layout(13, units=55, broken_prefer=1, cuts=10),
        layout(14, units=55, broken_prefer=1, balance=0),
    ]
    clean = [layout(15, units=60), layout(16, units=59, smallest_cut=90 * MM)]
    chosen = best_three([*others, *clean])
    assert 59 in figures_of(chosen)
    assert figures_of(chosen)[0] == 54
    kept = next(x for x in chosen if x.figures.units == 59)
    assert "keeps every rule" in kept.best_at


def test_fewer_than_three_are_owned_up_to() -> None:
    assert tell([FEWEST]) == (
        "only one layout is worth showing: every other is beaten in all figures or looks the same",
    )
    assert tell([FEWEST, WIDEST])[0].startswith("only two layouts are worth showing")


@st.composite
def layouts(draw: st.DrawFn) -> list[Layout]:
    """Layouts with figures drawn from a few values, so that ties and beaten ones are common."""
    few = st.integers(0, 2)
    return [
        layout(
            number,
            units=54 + draw(few),
            broken_prefer=draw(few),
            smallest_cut=(40 + 30 * draw(few)) * MM,
            cuts=30 + draw(few),
            balance=10 * draw(few) * MM,
        )
        for number in range(1, draw(st.integers(2, 8)))
    ]


@given(found=layouts())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_the_best_three_of_any_layouts_hold_what_is_promised(found: list[Layout]) -> None:
    chosen = best_three(found)
    assert 1 <= len(chosen) <= 3
    assert grade(chosen[0]) == min(map(grade, found))
    for place, one in enumerate(chosen):
        assert all(differ(one, other) for other in chosen[:place])
        assert one.best_at
    clean = [x for x in found if not x.figures.broken_prefer]
    if clean:
        least = min(x.figures.units for x in clean)
        assert any(not x.figures.broken_prefer and x.figures.units == least for x in chosen)
    undominated = [x for x in chosen if not any(dominated(x, other) for other in found)]
    # All but the one that is kept for keeping every rule.
    assert len(undominated) >= len(chosen) - 1


def test_a_layout_with_no_other_beside_it_is_best_at_nothing_in_particular() -> None:
    (only,) = best_three([layout(1, broken_prefer=1)])
    assert only.best_at == ("the only one worth showing",)
    (only,) = best_three([layout(1)])
    assert only.best_at == ("keeps every rule",)
