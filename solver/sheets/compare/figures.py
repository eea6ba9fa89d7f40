"""The figures that decide between layouts, as lines of text for the comparison."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.floor.layout import Figures, Layout, Need, ZoneLayout
from models.floor.tape import off_line
from models.job.data import BondKind, Feature, Job
from solver.sheets.words import capital, counted, length, money, percent

MOST_FEATURES = 3
"""Features named one by one before only the worst is shown."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the table: its name, a value for each layout, and which are best."""

    name: str
    values: tuple[str, ...]
    best: frozenset[int] = frozenset()


def figure_lines(job: Job, layouts: tuple[Layout, ...]) -> tuple[Line, ...]:
    """Every line of the comparison table, in reading order."""
    figures = [layout.figures for layout in layouts]
    return (
        *_directions(layouts),
        _line("Units to cut from", [f.units for f in figures], [str(f.units) for f in figures]),
        *_least(figures),
        _line("Cartons to buy", [f.cartons for f in figures], [_cartons(f) for f in figures]),
        Line("Least cartons", tuple(_least_cartons(f) for f in figures)),
        *_costs(job, figures),
        _line(
            "Waste", [f.waste_percent for f in figures], [percent(f.waste_percent) for f in figures]
        ),
        *_products(figures),
        _line(
            "Smallest cut",
            [-(f.smallest_cut or 0) for f in figures],
            [_smallest(job, f.smallest_cut, f.smallest_where) for f in figures],
        ),
        _line("Pieces to cut", [f.cuts for f in figures], [str(f.cuts) for f in figures]),
        _line(
            "Opposite cuts differ by",
            [f.balance or 0 for f in figures],
            [length(job, f.balance, "nothing to compare") for f in figures],
        ),
        *_off_axis(job, len(layouts)),
        _line(
            "Rules broken",
            [f.broken_must * 1000 + f.broken_prefer for f in figures],
            [broken_words(f.broken_must, f.broken_prefer) for f in figures],
        ),
    )


def _directions(layouts: tuple[Layout, ...]) -> list[Line]:
    """Which way each zone runs; of several zones only those that could run another way."""
    zones = layouts[0].zones
    several = len(zones) > 1
    return [
        Line(
            f"{capital(zone.zone)} {_runs(zone)[1]}" if several else _runs(zone)[0],
            tuple(layout.zones[i].direction.label for layout in layouts),
        )
        for i, zone in enumerate(zones)
        if not several or (len(zone.laying.directions) > 1 and not zone.mirrors)
    ]


def _runs(zone: ZoneLayout) -> tuple[str, str]:
    """What it is that runs a way, alone and after a zone's name."""
    if zone.laying.bond.kind is BondKind.HERRINGBONE:
        return "Line of points", "points run"
    return "Rows run", "rows run"


def _least(figures: list[Figures]) -> list[Line]:
    """The least units; where a carton holds several lengths, cartons alone tell anything."""
    if any(need.lengths for need in figures[0].needs):
        return []
    words = tuple(least_possible(f.units, f.units_at_least) for f in figures)
    return [Line("Least possible", words)]


def _least_cartons(figures: Figures) -> str:
    """Whether any layout could do with fewer cartons."""
    least = sum(need.cartons_at_least for need in figures.needs)
    if least == figures.cartons:
        return f"{least}: no layout needs fewer"
    return f"{least}, gap {figures.cartons - least}"


def _cartons(figures: Figures) -> str:
    words = f"{figures.cartons}, {counted(figures.spare_units, 'unit')} spare"
    broken = sum(need.breakage_units for need in figures.needs)
    return f"{words}, {broken} for breakage" if broken else words


def _costs(job: Job, figures: list[Figures]) -> list[Line]:
    """What the cartons cost, where every product has a price."""
    costs = [f.cost for f in figures]
    if any(cost is None for cost in costs):
        return []
    words = [money(job, cost or Fraction(0)) for cost in costs]
    return [_line("Cost", [float(cost or 0) for cost in costs], words)]


def _products(figures: list[Figures]) -> list[Line]:
    """What each of several products comes to."""
    names = [need.product for need in figures[0].needs]
    if len(names) < 2:
        return []
    return [_line(name, *_product(name, figures)) for name in names]


def _product(name: str, figures: list[Figures]) -> tuple[list[int], list[str]]:
    """One product's units in each layout, and its figures in words."""
    needs = [next(need for need in f.needs if need.product == name) for f in figures]
    words = [
        f"{counted(need.units, 'unit')}, {least_words(need)}; "
        f"{counted(need.cartons, 'carton')}; waste {percent(need.waste_percent)}"
        for need in needs
    ]
    return [need.units for need in needs], words


def _line(name: str, ranks: list[float] | list[int], values: list[str]) -> Line:
    """A line whose lowest ranks are best, unless all are alike."""
    least = min(ranks)
    best = frozenset(i for i, rank in enumerate(ranks) if rank == least)
    return Line(name, tuple(values), best if len(best) < len(ranks) else frozenset())


def least_words(need: Need) -> str:
    """How a product's units stand to the least possible."""
    return "proved least" if need.proved else f"least possible {need.units_at_least}"


def least_possible(units: int, at_least: int) -> str:
    """The least units any layout could need, and how near that is."""
    return (
        f"{at_least}: proved least" if units == at_least else f"{at_least}, gap {units - at_least}"
    )


def _smallest(job: Job, size: int | None, where: str) -> str:
    if size is None:
        return "nothing is cut"
    return f"{length(job, size)}, {where}" if where else length(job, size)


def broken_words(must: int, prefer: int) -> str:
    """How many rules of each kind are broken."""
    if must + prefer == 0:
        return "none"
    parts = [f"{must} must"] if must else []
    return ", ".join(parts + ([f"{prefer} preferred"] if prefer else []))


def off_axis(job: Job, feature: Feature) -> int:
    """How far a feature's centre is from its axis, in ticks."""
    axis = next(axis for axis in job.axes if axis.name == feature.axis)
    return off_line(feature.centre, axis.point, axis.direction)


def _off_axis(job: Job, layouts: int) -> list[Line]:
    """How far the features are off their axes; it is the same for every layout."""
    found = sorted(job.features, key=lambda feature: -off_axis(job, feature))
    if len(found) > MOST_FEATURES:
        words = f"{length(job, off_axis(job, found[0]))} ({found[0].name})"
        return [Line("Most off axis", (words,) * layouts)]
    return [
        Line(
            f"{capital(feature.name)} off axis",
            (length(job, off_axis(job, feature)),) * layouts,
        )
        for feature in job.features
    ]
