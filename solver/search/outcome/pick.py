"""The best three that differ: undominated, told apart by what each is best at."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from models.floor.layout import Layout
from models.job.data import Kind
from models.lengths import TICKS_PER_INCH

Grade = tuple[float, ...]


def grade(layout: Layout) -> Grade:
    """What layouts are compared by, less is better: broken rules, units, preferences, cuts."""
    f = layout.figures
    return (
        f.broken_must,
        _amount(layout),
        round(f.bought_mm2),
        f.broken_prefer,
        _small(f.prominent_cut),
        _small(f.smallest_cut),
        f.cuts,
        f.balance or 0,
    )


def _small(size: int | None) -> float:
    """A size as something to keep low: the larger the better, no cut at all best."""
    return -float("inf") if size is None else -size


def _amount(layout: Layout) -> float:
    """How far the broken must rules are off in all, each as a share of its limit.

    A rule whose limit is nought (centred) counts by the inch.
    """
    return sum(
        abs((v.worst or 0) - v.limit) / (v.limit or TICKS_PER_INCH)
        for v in layout.verdicts
        if not v.kept and v.kind is Kind.MUST
    )


def dominated(one: Layout, two: Layout) -> bool:
    """True when ``two`` is at least as good in everything and better in something."""
    pairs = list(zip(grade(one), grade(two), strict=True))
    return all(b <= a for a, b in pairs) and any(b < a for a, b in pairs)


def differ(one: Layout, two: Layout) -> bool:
    """True when a person would see two different layouts: direction, start line or joints.

    Two with the same figures throughout are no choice, whatever they look like.
    """
    if grade(one) == grade(two):
        return False
    for a, b in zip(one.zones, two.zones, strict=True):
        if a.frame.direction != b.frame.direction:
            return True
        pieces = {p.outline for p in a.pieces}
        shared = sum(p.outline in pieces for p in b.pieces)
        if shared < 0.8 * max(len(a.pieces), len(b.pieces)) and not _mirrored(one, two):
            return True
    return False


def _mirrored(one: Layout, two: Layout) -> bool:
    """True when one is the other seen in a mirror, as far as the pieces' sizes tell."""

    def sizes(layout: Layout) -> list[tuple[int, ...]]:
        return sorted(
            (p.size_along or 0, p.size_across or 0, p.size_slant or 0)
            for zone in layout.zones
            for p in zone.pieces
            if p.cut
        )

    return sizes(one) == sizes(two)


def _mixed(layout: Layout) -> bool:
    """Whether a carton holds several lengths, so that cartons tell more than units."""
    return any(need.lengths for need in layout.figures.needs)


@dataclass(frozen=True, slots=True)
class Merit:
    """One thing layouts are told apart by: its words, and what is kept low."""

    most: str
    more: str
    value: Callable[[Layout], float]


MERITS = (
    Merit("fewest cartons", "fewer cartons", lambda x: x.figures.cartons * _mixed(x)),
    Merit("fewest units", "fewer units", lambda x: x.figures.units),
    Merit(
        "fewest broken rules",
        "fewer broken rules",
        lambda x: x.figures.broken_must * 1000 + x.figures.broken_prefer,
    ),
    Merit("must rules broken by least", "must rules broken by less", _amount),
    Merit("largest smallest cut", "larger smallest cut", lambda x: _small(x.figures.smallest_cut)),
    Merit(
        "largest cuts at prominent walls",
        "larger cuts at prominent walls",
        lambda x: _small(x.figures.prominent_cut),
    ),
    Merit("fewest cuts", "fewer cuts", lambda x: x.figures.cuts),
    Merit("most even opposite cuts", "more even opposite cuts", lambda x: x.figures.balance or 0),
)


def best_three(layouts: Sequence[Layout]) -> tuple[Layout, ...]:
    """One to three layouts, ranked: the lowest-waste one that keeps most rules first.

    If another keeps every rule, preferences too, the one of those that wastes least is
    always among them.
    """
    ordered = sorted(layouts, key=_order)
    chosen = [ordered[0]]
    clean = [x for x in ordered if not x.figures.broken_must and not x.figures.broken_prefer]
    if clean and differ(clean[0], chosen[0]):
        chosen.append(clean[0])
    open_ = [
        x
        for x in ordered
        if x.figures.broken_must == ordered[0].figures.broken_must
        and not any(dominated(x, other) for other in ordered)
    ]
    for merit in MERITS:
        if len(chosen) == 3:
            break
        best = min(open_, key=lambda x: (merit.value(x), _order(x)), default=None)
        if best is not None and all(differ(best, other) for other in chosen):
            chosen.append(best)
    for layout in open_:
        if len(chosen) < 3 and all(differ(layout, other) for other in chosen):
            chosen.append(layout)
    return _titled(sorted(chosen, key=_order))


def _order(layout: Layout) -> tuple[float | str, ...]:
    zone = layout.zones[0]
    return (*grade(layout), *zone.frame.direction, zone.start_v)


def _titled(chosen: list[Layout]) -> tuple[Layout, ...]:
    """Ranks, and what each is best at among the chosen (ties are shared)."""
    return tuple(
        replace(layout, rank=rank, best_at=tuple(_merits(layout, chosen)))
        for rank, layout in enumerate(chosen, 1)
    )


def _merits(layout: Layout, chosen: list[Layout]) -> list[str]:
    words = (
        ["keeps every rule"]
        if not layout.figures.broken_must + layout.figures.broken_prefer
        else []
    )
    if len(chosen) == 1:
        return words or ["the only one worth showing"]
    words += [
        merit.most
        for merit in MERITS
        if merit.value(layout) == min(merit.value(x) for x in chosen)
        and any(merit.value(x) != merit.value(layout) for x in chosen)
        and not (words and merit.most == "fewest broken rules")
    ]
    # Undominated, so somewhere better than the first, if nowhere the best of all.
    return words or [
        f"{merit.more} than layout 1"
        for merit in MERITS
        if merit.value(layout) < merit.value(chosen[0])
    ]


def tell(chosen: Sequence[Layout]) -> tuple[str, ...]:
    """A note when fewer than three layouts differ."""
    if len(chosen) == 3:
        return ()
    count = "only one layout is" if len(chosen) == 1 else "only two layouts are"
    return (f"{count} worth showing: every other is beaten in all figures or looks the same",)
