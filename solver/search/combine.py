"""Put the zones' layouts together: which go well with which, from one stock a product."""

from __future__ import annotations

from collections.abc import Sequence

from models.job.carve.area import Plan
from solver.search.draft import Draft, draft
from solver.search.floordraft import FloorDraft, pack_floor
from solver.search.found import Found
from solver.search.measures import smallest_cut
from solver.search.zones import Bundle

ROUNDS = 3
"""Times every bundle is looked at again with the others' choice in view."""

FLOORS = 24
"""Floors finished when there are several bundles."""


def floor_drafts(plan: Plan, bundles: Sequence[Bundle]) -> list[FloorDraft]:
    """Floors worth finishing; with one bundle, one for each of its layouts."""
    cut = [[_cut(plan, layout) for layout in bundle.found] for bundle in bundles]
    if len(bundles) == 1:
        return [_packed(plan, bundles, [drafts]) for drafts in cut[0]]
    best = _best(plan, bundles, cut)
    floors = [best, *_varied(bundles, cut, best), _widest(cut)]
    unique = list(dict.fromkeys(tuple(choice) for choice in floors))[:FLOORS]
    return [_packed(plan, bundles, [cut[i][k] for i, k in enumerate(choice)]) for choice in unique]


def best_floor(plan: Plan, bundles: Sequence[Bundle]) -> FloorDraft:
    """The one floor that goes together best."""
    cut = [[_cut(plan, layout) for layout in bundle.found] for bundle in bundles]
    best = _best(plan, bundles, cut)
    return _packed(plan, bundles, [cut[i][k] for i, k in enumerate(best)])


def _cut(plan: Plan, layout: tuple[Found, ...]) -> tuple[Draft, ...]:
    return tuple(draft(plan.job, found) for found in layout)


def _packed(
    plan: Plan, bundles: Sequence[Bundle], chosen: Sequence[tuple[Draft, ...]]
) -> FloorDraft:
    """The chosen drafts in the order of the plan's areas, packed."""
    placed = {
        number: one
        for bundle, drafts in zip(bundles, chosen, strict=True)
        for number, one in zip(bundle.areas, drafts, strict=True)
    }
    return pack_floor(plan, [placed[number] for number in sorted(placed)])


def _best(
    plan: Plan, bundles: Sequence[Bundle], cut: Sequence[Sequence[tuple[Draft, ...]]]
) -> list[int]:
    """For each bundle the layout that goes best with those of the others."""
    chosen = [0] * len(bundles)
    weighed: dict[tuple[int, ...], tuple[int, int]] = {}

    def cost(choice: list[int]) -> tuple[int, int]:
        key = tuple(choice)
        if key not in weighed:
            broken = sum(f.broken for i, k in enumerate(choice) for f in bundles[i].found[k])
            floor = _packed(plan, bundles, [cut[i][k] for i, k in enumerate(choice)])
            weighed[key] = broken, len(floor.units)
        return weighed[key]

    for _ in range(ROUNDS):
        before = list(chosen)
        for i in range(len(bundles)):
            tries = [[*chosen[:i], k, *chosen[i + 1 :]] for k in range(len(cut[i]))]
            chosen = min(tries, key=lambda one: (cost(one), one != chosen))
        if chosen == before:
            break
    return chosen


def _varied(
    bundles: Sequence[Bundle], cut: Sequence[Sequence[tuple[Draft, ...]]], best: list[int]
) -> list[list[int]]:
    """The best choice with one bundle laid another way, the most promising ways first."""
    tries = [
        (k, i, [*best[:i], k, *best[i + 1 :]])
        for i in range(len(bundles))
        for k in range(len(cut[i]))
        if k != best[i]
    ]
    return [choice for _, _, choice in sorted(tries)]


def _widest(cut: Sequence[Sequence[tuple[Draft, ...]]]) -> list[int]:
    """For each bundle the layout with the largest smallest cut."""

    def smallest(drafts: tuple[Draft, ...]) -> float:
        sizes = [size for d in drafts if (size := smallest_cut(d).worst) is not None]
        return min(sizes, default=float("inf"))

    return [max(range(len(layouts)), key=lambda k: smallest(layouts[k])) for layouts in cut]
