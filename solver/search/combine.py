"""Put the zones' layouts together: which go well with which, from one stock a product."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from models.job.carve.area import Plan
from solver.search.draft import Draft, draft
from solver.search.floordraft import FloorDraft, pack_floor, units_packed
from solver.search.found import Found
from solver.search.outcome.measures import smallest_cut
from solver.search.pool import improved
from solver.search.zones import Bundle, with_layout, with_mirrors

ROUNDS = 3
"""Times every bundle is looked at again with the others' choice in view."""

LOOKED_AT = 12
"""Layouts of a bundle weighed with each choice of the others."""

FLOORS = 24
"""Floors finished when there are several bundles."""


def floor_drafts(
    plan: Plan, bundles: Sequence[Bundle], at_least: Mapping[str, int]
) -> list[FloorDraft]:
    """Floors worth finishing; with one bundle of one area, one for each of its layouts.

    ``at_least`` is the bound of each product: what reaches it is not improved further.
    """
    cut = [[_cut(plan, layout) for layout in bundle.found] for bundle in bundles]
    if len(bundles) == 1 and len(bundles[0].areas) == 1:
        return [_packed(plan, bundles, [drafts]) for drafts in cut[0]]
    best = _best(plan, bundles, cut)
    for number, layout in _improved(plan, bundles, best, at_least).items():
        bundles = [*bundles[:number], with_layout(bundles[number], layout), *bundles[number + 1 :]]
        cut[number].append(_cut(plan, layout))
    best = _best(plan, bundles, cut)
    floors = [best, *_varied(bundles, cut, best), _widest(cut)]
    unique = list(dict.fromkeys(tuple(choice) for choice in floors))[:FLOORS]
    return [_packed(plan, bundles, [cut[i][k] for i, k in enumerate(choice)]) for choice in unique]


def _improved(
    plan: Plan, bundles: Sequence[Bundle], best: list[int], at_least: Mapping[str, int]
) -> dict[int, tuple[Found, ...]]:
    """For each bundle whose offsets gain by the others being in view, its new layout."""
    own = {
        area: found
        for bundle, k in zip(bundles, best, strict=True)
        for area, found in zip(bundle.areas, bundle.found[k], strict=True)
        if not plan.areas[area].mirrors
    }
    better = improved(own, at_least)
    layouts = {}
    for number, bundle in enumerate(bundles):
        if any(area in better for area in bundle.areas):
            mine = [better.get(a, own[a]) for a in bundle.areas if a in own]
            layouts[number] = with_mirrors(plan, bundle.areas, mine)
    return layouts


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
    weighed: dict[tuple[str, tuple[tuple[int, int], ...]], int] = {}

    def units(product: str, choice: list[int]) -> int:
        laid = [(i, k) for i, k in enumerate(choice) if _lays(plan, bundles[i], product)]
        key = product, tuple(laid)
        if key not in weighed:
            drafts = [d for i, k in laid for d in cut[i][k] if d.product.name == product]
            weighed[key] = units_packed(drafts)
        return weighed[key]

    def cost(choice: list[int]) -> tuple[int, int]:
        broken = sum(f.broken for i, k in enumerate(choice) for f in bundles[i].found[k])
        return broken, sum(units(product.name, choice) for product in plan.job.products)

    for _ in range(ROUNDS):
        before = list(chosen)
        for i, ways in enumerate(cut):
            looked = {*range(min(len(ways), LOOKED_AT)), chosen[i], len(ways) - 1}
            tries = [[*chosen[:i], k, *chosen[i + 1 :]] for k in sorted(looked)]
            chosen = min(tries, key=lambda one: (cost(one), one != chosen))
        if chosen == before:
            break
    return chosen


def _lays(plan: Plan, bundle: Bundle, product: str) -> bool:
    return any(plan.areas[area].laying.product == product for area in bundle.areas)


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
