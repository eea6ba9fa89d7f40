"""Words and numbers as they are printed: lengths, percentages, names, lists."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from models.floor.layout import Solution, Verdict
from models.job.carve.area import Chosen
from models.job.data import RULE_NAMES, Bond, BondKind, Job, Kind, Product
from models.lengths import System, show

COUNTED_IN_ROWS = frozenset({"no_stair", "reuse_within"})
"""Rules whose limit and worst value are counts, not lengths."""

SQUARE_FOOT_MM2 = 304.8**2


def length(job: Job, ticks: int | None, none: str = "none") -> str:
    """A length in the job's own units."""
    return none if ticks is None else show(ticks, job.system)


def span(job: Job, least: int, most: int) -> str:
    """Two lengths as one range, or one when they print the same."""
    low, high = show(least, job.system), show(most, job.system)
    return low if low == high else f"{low} to {high}"


def area(system: System, square_mm: float) -> str:
    """An area in square feet or square metres."""
    if system is System.METRIC:
        return f"{square_mm / 1e6:.2f} m2"
    return f"{square_mm / SQUARE_FOOT_MM2:.1f} sq ft"


def percent(value: float) -> str:
    """A percentage to one place."""
    return f"{value:.1f} %"


def the_wall(job: Job, name: str) -> str:
    """A wall or column in a sentence: one word or a letter for a wall is not clear alone."""
    bare = " " not in name and any(wall.name == name for wall in job.walls)
    return f"wall {name}" if bare else name


def counted(number: int, thing: str, things: str = "") -> str:
    """A number with its noun."""
    return f"{number} {thing if number == 1 else things or thing + 's'}"


def capital(text: str) -> str:
    """The text with its first letter made large."""
    return text[:1].upper() + text[1:]


def listed(names: Iterable[str]) -> str:
    """Names in a row: a, b and c."""
    found = list(names)
    return found[0] if len(found) == 1 else ", ".join(found[:-1]) + f" and {found[-1]}"


def rule_name(verdict: Verdict) -> str:
    """A rule's name on paper, with the axis it is about."""
    name = RULE_NAMES[verdict.key]
    return f"{name.removesuffix(' axis')} {verdict.subject}" if verdict.subject else name


def broken_rule(job: Job, verdict: Verdict) -> str:
    """A broken rule in one sentence part: its name, by how much, where and why."""
    text = broken_by(job, verdict)
    text += f", {verdict.where}" if verdict.where else ""
    return f"{text}; {verdict.because}" if verdict.because else text


def broken_by(job: Job, verdict: Verdict) -> str:
    """A broken rule's name, and by how much it is broken."""
    kind = "must" if verdict.kind is Kind.MUST else "preferred"
    worst = limit = ""
    if verdict.key in COUNTED_IN_ROWS:
        worst, limit = str(verdict.worst), str(verdict.limit)
    elif verdict.worst is not None:
        worst, limit = show(verdict.worst, job.system), show(verdict.limit, job.system)
    zone = f" in {verdict.zone}" if len(job.zones) > 1 else ""
    return f"{rule_name(verdict)}{zone} ({kind}): {worst}, asked {limit}"


def bond_words(bond: Bond) -> str:
    """A bond's name, with its step or the way its units lie."""
    if bond.kind is BondKind.STEPPED:
        return f"stepped bond, {Fraction(bond.step)} of a unit"
    if bond.kind is BondKind.HERRINGBONE:
        double = "double " if bond.double else ""
        points = bond.slant == 45
        lie = (
            "at 45 degrees to the line of points"
            if points
            else "along and square to the start line"
        )
        return f"{double}herringbone, units {lie}"
    return f"{bond.kind.value} bond"


def unit_words(job: Job, product: Product) -> str:
    """The size of a product's unit, or its several lengths."""
    lengths = [each for each, _ in product.mix] or [product.length]
    long = listed(show(each, job.system) for each in lengths)
    many = "unit lengths" if len(lengths) > 1 else "unit"
    return f"{many} {long} × {show(product.width, job.system)}"


def laid_words(job: Job) -> str:
    """What is laid in every zone, and how; zones laid alike share their words."""
    found: dict[str, list[str]] = {}
    for laying in job.zones:
        product = job.product_of(laying)
        how = f"{product.name}, {unit_words(job, product)}, {bond_words(laying.bond)}"
        found.setdefault(how, []).append(laying.name)
    return "; ".join(f"{listed(names)}: {how}" for how, names in found.items())


def chosen_words(solution: Solution) -> str:
    """The lengths the job left open, what they were chosen to be, and from what."""
    return "; ".join(_chosen(solution.job, each) for each in solution.chosen)


def _chosen(job: Job, chosen: Chosen) -> str:
    """One length that was chosen: a zone's width, or a feature's place along its axis."""
    value = length(job, chosen.value)
    of = span(job, chosen.low, chosen.high)
    if any(feature.name == chosen.what for feature in job.features):
        return f"{chosen.what} {value} along its axis, of {of}"
    return f"{chosen.what} width {value}, of {of}"


def money(job: Job, amount: Fraction) -> str:
    """An amount in the job's currency."""
    number = f"{float(amount):,.2f}"
    return f"{job.currency}{number}" if len(job.currency) < 2 else f"{job.currency} {number}"
