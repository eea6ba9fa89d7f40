"""The benchmark: ``python -m solver.bench [JOB ...]`` prints two dated markdown tables.

Every job is solved in a process of its own, so that peak memory is that job's alone. Beside
the search stand three simple ways to lay the same job (see ``solver.baselines``).
"""

from __future__ import annotations

import argparse
import math
import multiprocessing
import platform
import resource
import sys
import time
from collections import defaultdict
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date
from importlib.metadata import version

from shapely.geometry import Polygon

from models.job.data import Job
from models.job.reader import read_job
from models.lengths import TICKS_PER_FOOT
from scenarios.catalogue import SCENARIOS
from scenarios.series import AREAS, hall
from solver.baselines import Baseline, by_hand_rule, by_scan, fresh_units
from solver.search import solve
from solver.search.decide import decide

HALL = "hall-"
MARK = " *"
MINE, CHILDREN = resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN
RSS_PER_MIB = 1024**2 if sys.platform == "darwin" else 1024

PROTOCOL = """\
Protocol: each job in a fresh process, one after another; wall-clock times. First: until the
search first has a whole layout, when told to stop at once. Units are those of the layout
that breaks fewest rules with least units; at least: the bound over every layout the job
admits. Memory is the peak resident size of the solving process. Hand rule: its start line,
each row begun with the offcut of the row before; fresh: the same with a new unit for every
cut; scan: every start line one tape step apart in every direction, each laid as by hand.
Simple ways lay every zone by itself, lengths left open as the search decided them, and add
up; they are left empty where a zone is a herringbone or of several lengths.
A star marks a simple layout that breaks the job's limits on cuts, ends or joints; the last
column counts the must and prefer rules broken in ours.
"""

WASTE = """\
Waste is what is bought over the floor laid, in per cent, spares left out. By area: the units
the floor's area alone comes to, product by product; what lies between it and at least is
what the rules cost: a rip or an end that no other piece may share a unit with.
"""

WASTE_HEADINGS = (
    "job",
    "by area",
    "at least",
    "units",
    "least waste %",
    "waste %",
    "hand rule %",
    "fresh %",
)

HEADINGS = (
    "job",
    "sq ft",
    "units",
    "at least",
    "gap",
    "first s",
    "total s",
    "peak MiB",
    "hand rule",
    "fresh",
    "scan",
    "scan s",
    "broken",
)


@dataclass(frozen=True, slots=True)
class Search:
    """One search: units, bound, waste in %, rules broken (must, prefer), seconds, peak MiB."""

    units: int
    at_least: int
    waste: float
    broken: tuple[int, int]
    seconds: float
    peak: float


@dataclass(frozen=True, slots=True)
class Result:
    """One line of each table; ``floor_units`` is what the floor's area comes to by product."""

    job: str
    square_feet: float
    floor_units: tuple[float, ...]
    first: Search
    search: Search
    hand: Baseline | None
    fresh: Baseline | None
    scan: Baseline | None
    scan_seconds: float

    def cells(self) -> tuple[str, ...]:
        """The line as text, in the order of ``HEADINGS``."""
        ours = self.search
        return (
            self.job,
            f"{self.square_feet:.0f}",
            str(ours.units),
            str(ours.at_least),
            f"{ours.units - ours.at_least}",
            f"{self.first.seconds:.2f}",
            f"{ours.seconds:.2f}",
            f"{ours.peak:.0f}",
            *map(_simply, (self.hand, self.fresh, self.scan)),
            f"{self.scan_seconds:.1f}" if self.scan else "",
            "{} + {}".format(*ours.broken),
        )

    def waste_cells(self) -> tuple[str, ...]:
        """The line of the waste table, in the order of ``WASTE_HEADINGS``."""
        ours, simple = self.search, (self.hand, self.fresh)
        return (
            self.job,
            str(sum(math.ceil(share - 1e-6) for share in self.floor_units)),
            str(ours.at_least),
            str(ours.units),
            self._over(ours.at_least) if self.hand else "",
            f"{ours.waste:.1f}",
            *(self._over(one.units) if one else "" for one in simple),
        )

    def _over(self, units: int) -> str:
        floor = sum(self.floor_units)
        return f"{(units - floor) / floor * 100:.1f}"


def _simply(laid: Baseline | None) -> str:
    """The units of a simple layout, marked when it breaks a limit; nothing when there is none."""
    return f"{laid.units}{'' if laid.kept else MARK}" if laid else ""


def names() -> tuple[str, ...]:
    """Every job of the benchmark: the shipped ones, then the series by area."""
    return (*SCENARIOS, *(f"{HALL}{area}" for area in AREAS))


def load(name: str) -> Job:
    """The job of that name; KeyError when there is none."""
    if name not in names():
        raise KeyError(name)
    if name.startswith(HALL):
        return hall(int(name.removeprefix(HALL)))
    return read_job(SCENARIOS[name].path)


def measure(name: str) -> Result:
    """Solve one job and lay it in the simple ways."""
    first, search = _apart(name, at_once=True), _apart(name, at_once=False)
    plan = decide(load(name), lambda _: None, lambda: False)
    job, sizes = plan.job, [Polygon(area.outer, area.holes).area for area in plan.areas]
    shares: defaultdict[str, float] = defaultdict(float)
    for area, size in zip(plan.areas, sizes, strict=True):
        length, width = job.product_of(area.laying).pitch
        shares[area.laying.product] += size / (length * width)
    began = time.perf_counter()
    scan = by_scan(job)
    seconds = time.perf_counter() - began
    return Result(
        name,
        sum(sizes) / TICKS_PER_FOOT**2,
        tuple(shares[product] for product in sorted(shares)),
        first,
        search,
        by_hand_rule(job),
        fresh_units(job),
        scan,
        seconds,
    )


def _apart(name: str, at_once: bool) -> Search:
    """One search in a fresh process: nothing is warm, and its peak memory is its own."""
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(max_workers=1, mp_context=context) as pool:
        return pool.submit(_search, name, at_once).result()


def _search(name: str, at_once: bool) -> Search:
    """Solve a job; ``at_once`` stops as soon as there is a whole layout."""
    job = load(name)
    began = time.perf_counter()
    solution = solve(job, stop=lambda: at_once)
    seconds = time.perf_counter() - began
    figures = [layout.figures for layout in solution.layouts]
    best = min(figures, key=lambda f: (f.broken_must, f.units, f.broken_prefer))
    peak = sum(resource.getrusage(who).ru_maxrss for who in (MINE, CHILDREN)) / RSS_PER_MIB
    broken = (best.broken_must, best.broken_prefer)
    return Search(best.units, best.units_at_least, best.waste_percent, broken, seconds, peak)


def table(results: Sequence[Result]) -> str:
    """The results as a markdown table."""
    return _markdown(HEADINGS, [result.cells() for result in results])


def waste_table(results: Sequence[Result]) -> str:
    """What each way wastes, and what the rules cost, as a markdown table."""
    return _markdown(WASTE_HEADINGS, [result.waste_cells() for result in results])


def _markdown(headings: tuple[str, ...], lines: Sequence[tuple[str, ...]]) -> str:
    rows = [headings, tuple("-" * len(heading) for heading in headings), *lines]
    return "\n".join("| " + " | ".join(row) + " |" for row in rows)


def heading() -> str:
    """Date, versions and machine: what a figure is worth nothing without."""
    return (
        f"## {date.today().isoformat()}\n\n"
        f"Python {platform.python_version()}, OR-Tools {version('ortools')}, "
        f"{platform.system()} {platform.machine()}, "
        f"{multiprocessing.cpu_count()} logical processors.\n\n{PROTOCOL}"
    )


def main(argv: Sequence[str] | None = None) -> int:
    """Measure the jobs named (all when none is) and print the table; exit code 2 for a bad name."""
    parser = argparse.ArgumentParser(
        prog="python -m solver.bench", description="Measure the search."
    )
    parser.add_argument("jobs", metavar="JOB", nargs="*", help=f"any of {', '.join(names())}")
    wanted = parser.parse_args(argv).jobs or names()
    unknown = [name for name in wanted if name not in names()]
    if unknown:
        parser.error(f"no job called {', '.join(unknown)}; there are {', '.join(names())}")
    results = []
    for name in wanted:
        print(f"measuring {name}", file=sys.stderr)
        results.append(measure(name))
    print(f"{heading()}\n{table(results)}\n\n{WASTE}\n{waste_table(results)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
