"""Search the zones of a plan: each by itself, or tied to others by a mirror or shared lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.floor.zone import zone_of
from models.job.carve.area import Area, Plan
from models.job.data import Axis, BondKind, Job, Mirror, Point, Share
from models.program.spans import Choice
from solver.search.bonds import grid, herringbone, mixed, staggered
from solver.search.bonds.herringbone_mirror import reflect_herringbone
from solver.search.bonds.staggered import SMALL_UNITS
from solver.search.bounds import Cover, cover_of
from solver.search.found import (
    ANY_LINE,
    FULL,
    Effort,
    Found,
    Only,
    Say,
    Searched,
    Stop,
    Task,
)
from solver.search.links import carried
from solver.search.mirror import reflect

LINKED_LINES = 4
"""Layouts of one zone from which lines are carried into the zones linked to it."""

FINISHED_AT_MOST = 16
"""Layouts of a zone cut to pieces and packed; on a small floor, where that costs little, more."""
SMALL_FINISHED = 240


@dataclass(frozen=True, slots=True)
class ZoneBound:
    """What bounds every layout of an area: by itself, with those that mirror it, and pooled.

    ``choices`` are all choices of offsets the area has with those that mirror it, where
    they are known.
    """

    alone: int
    copied: int
    cover: Cover
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True)
class Bundle:
    """Areas that are laid out together, and the layouts found for them, best first.

    ``areas`` are their numbers in the plan; ``found`` has one entry for each layout, with
    one ``Found`` for each area. An area tied to no other is a bundle of its own.
    """

    areas: tuple[int, ...]
    found: tuple[tuple[Found, ...], ...]
    bounds: tuple[ZoneBound, ...]
    complete: bool


@dataclass(frozen=True, slots=True)
class Watch:
    """How hard to search, whom to tell, and what stops it."""

    say: Say
    stop: Stop
    effort: Effort = FULL


Known = dict[tuple[Area, int], list[Searched]]
"""What was found for areas before, by area and copies: filled as searches go on."""


def search_zones(plan: Plan, watch: Watch, known: Known | None = None) -> tuple[Bundle, ...]:
    """The bundles of a plan, each with its layouts; areas already ``known`` not searched again."""
    kept: Known = {} if known is None else known
    return tuple(_bundle(plan, numbers, watch, kept) for numbers in _tied(plan))


def _tied(plan: Plan) -> list[list[int]]:
    """The numbers of areas tied by links, in their order; those that mirror one come after."""
    names = [area.name for area in plan.areas]
    group = {name: name for name in names}
    for link in plan.job.links:
        old, new = group[link.second], group[link.first]
        group = {name: new if root == old else root for name, root in group.items()}
    for area in plan.areas:
        if area.mirrors:
            group[area.name] = group[area.mirrors]
    found: dict[str, list[int]] = {}
    for number, area in enumerate(plan.areas):
        found.setdefault(group[area.name], []).append(number)
    return [sorted(n, key=lambda i: (bool(plan.areas[i].mirrors), i)) for n in found.values()]


def _bundle(plan: Plan, numbers: list[int], watch: Watch, known: Known) -> Bundle:
    areas = [plan.areas[n] for n in numbers]
    own = [area for area in areas if not area.mirrors]
    copies = {a.name: 1 + sum(b.mirrors == a.name for b in areas) for a in own}
    for area in own:
        key = area, copies[area.name]
        known[key] = known.get(key) or _directions(plan.job, *key, watch)
    searched = [known[area, copies[area.name]] for area in own]
    layouts: list[tuple[Found, ...]] = (
        [(found,) for found in _promising(searched[0])]
        if len(own) == 1
        else _carry(plan, own, searched, watch)
    )
    bounds = {
        area.name: _bound(plan.job, found, copies[area.name])
        for area, found in zip(own, searched, strict=True)
    }
    return Bundle(
        tuple(numbers),
        tuple(with_mirrors(plan, numbers, layout) for layout in layouts),
        tuple(bounds[area.mirrors or area.name] for area in areas),
        all(s.complete for each in searched for s in each)
        and all(len(s) == len(a.laying.directions) for a, s in zip(own, searched, strict=True)),
    )


def _directions(job: Job, area: Area, copies: int, watch: Watch) -> list[Searched]:
    """What every direction of an area gives."""
    searched: list[Searched] = []
    for direction in area.laying.directions:
        if searched and watch.stop():
            break
        task = Task(job, zone_of(area, direction), copies=copies, effort=watch.effort)
        searched.append(_search(task, watch, searched))
    return searched


def _search(task: Task, watch: Watch, before: Sequence[Searched] = ()) -> Searched:
    """The search that suits the zone's bond."""
    if task.product.mix:
        return mixed.search(task, watch.say, watch.stop)
    if task.zone.laying.bond.kind is BondKind.STAGGERED:
        return staggered.search(task, watch.say, watch.stop, before)
    if task.zone.laying.bond.kind is BondKind.HERRINGBONE:
        return herringbone.search(task, watch.say, watch.stop)
    return grid.search(task, watch.say, watch.stop)


def _bound(job: Job, searched: list[Searched], copies: int) -> ZoneBound:
    """What holds over every direction of an area."""
    counting = [s for s in searched if s.admitted] or searched
    copied = min(s.at_least for s in counting)
    zones = {s.found[0].zone.frame.direction: s.found[0].zone for s in searched}
    covers = [cover_of(job, zone) for zone in zones.values()]
    cover = Cover(covers[0].area, min(c.most for c in covers), min(c.least for c in covers))
    known = all(s.choices for s in counting)
    choices = tuple(choice for s in counting for choice in s.choices) if known else ()
    return ZoneBound(copied if copies == 1 else cover.units, copied, cover, choices)


def _promising(searched: list[Searched]) -> list[Found]:
    """The ones worth cutting to pieces: fewest broken rules, then fewest units.

    Each direction keeps a share, so that a second one can show what it does better.
    """
    found = [f for s in searched for f in s.found]
    directions = list(dict.fromkeys(f.zone.frame.direction for f in found))
    small = min(f.units for f in found) <= SMALL_UNITS and found[0].zone.rectilinear
    share = (SMALL_FINISHED if small else FINISHED_AT_MOST) // len(directions) or 1
    # Units of several lengths come best first: cartons count before units.
    ordered = found if found[0].cells else sorted(found, key=lambda f: (f.broken, f.units))
    return [
        f for d in directions for f in [x for x in ordered if x.zone.frame.direction == d][:share]
    ]


def _carry(
    plan: Plan, own: list[Area], searched: list[list[Searched]], watch: Watch
) -> list[tuple[Found, ...]]:
    """Layouts of linked areas: the best lines of each, carried through all the others."""
    layouts = []
    for leader, results in enumerate(searched):
        for found in _promising(results)[:LINKED_LINES]:
            laid = {own[leader].name: found}
            while len(laid) < len(own):
                laid |= _next(plan, own, laid, watch)
            layouts.append(tuple(laid[area.name] for area in own))
    return sorted(layouts, key=lambda one: (sum(f.broken for f in one), sum(f.units for f in one)))


def _next(plan: Plan, own: list[Area], laid: dict[str, Found], watch: Watch) -> dict[str, Found]:
    """One more area laid, on the lines of those it is linked to."""
    area = next(a for a in own if a.name not in laid and _lines(plan, a, laid) != [])
    lines = _lines(plan, area, laid)
    first = laid[lines[0][0]].zone.frame.direction
    direction = next(d for d in area.laying.directions if _parallel(d.vector, first))
    zone = zone_of(area, direction)
    only = ANY_LINE
    for name, share in lines:
        product = plan.job.product_of(laid[name].zone.laying)
        held = carried(laid[name], product, zone, share)
        only = Only(held.rows or only.rows, held.joints or only.joints)
    found = _search(Task(plan.job, zone, only, effort=watch.effort), watch).found
    return {area.name: min(found, key=lambda f: (f.broken, f.units))}


def _lines(plan: Plan, area: Area, laid: dict[str, Found]) -> list[tuple[str, Share]]:
    """The areas already laid that an area takes lines from, and which lines."""
    ends = [(link.first, link.second, link.share) for link in plan.job.links]
    ends += [(second, first, share) for first, second, share in ends]
    return [(one, share) for one, two, share in ends if two == area.name and one in laid]


def _parallel(one: Point, two: Point) -> bool:
    cross, dot = one[0] * two[1] - one[1] * two[0], one[0] * two[0] + one[1] * two[1]
    return abs(cross) * 10_000 <= abs(dot)


def with_layout(bundle: Bundle, layout: tuple[Found, ...]) -> Bundle:
    """A bundle with one layout more."""
    return replace(bundle, found=(*bundle.found, layout))


def with_mirrors(plan: Plan, numbers: Sequence[int], layout: Sequence[Found]) -> tuple[Found, ...]:
    """A layout of the areas of a bundle, those that mirror another added."""
    areas = [plan.areas[number] for number in numbers]
    own = [area.name for area in areas if not area.mirrors]
    laid = dict(zip(own, layout, strict=True))
    for area in areas:
        if area.mirrors:
            found = laid[area.mirrors]
            pitch = plan.job.product_of(found.zone.laying).pitch
            axis = _mirror_axis(plan.job, area)
            if found.zone.laying.bond.kind is BondKind.HERRINGBONE:
                laid[area.name] = reflect_herringbone(found, area, axis, pitch)
            else:
                laid[area.name] = reflect(found, area, axis, pitch[1])
    return tuple(laid[area.name] for area in areas)


def _mirror_axis(job: Job, area: Area) -> Axis:
    shape = area.laying.shape
    assert isinstance(shape, Mirror)
    return next(axis for axis in job.axes if axis.name == shape.axis)
