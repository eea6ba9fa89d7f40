"""The result on standard output: the layouts side by side, then every broken rule.

The figures and the words are those of the comparison paper, so that a line on the screen
reads as it does on paper.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from models.floor.layout import Layout, Solution
from models.job.data import Job, Kind
from solver.sheets.compare.figures import Line, figure_lines
from solver.sheets.words import broken_rule, chosen_words, listed

PAGE = 80
LABEL = 24


def result_text(solution: Solution) -> str:
    """The whole result as text, at most ``PAGE`` columns wide (longer words excepted)."""
    job, layouts = solution.job, solution.layouts
    head = (
        Line("Layout", tuple(str(layout.rank) for layout in layouts)),
        Line("Best at", tuple(", ".join(layout.best_at) for layout in layouts)),
    )
    lines = [job.name, "", *_table((*head, *figure_lines(job, layouts)))]
    lines += _broken(job, layouts)
    if solution.chosen:
        lines += ["", *_wrapped("Chosen: ", chosen_words(solution))]
    if not solution.complete:
        lines += ["", "Incomplete: the search was stopped; these are the best it had."]
    for note in solution.notes:
        lines += ["", *_wrapped("Note: ", note)]
    return "\n".join(lines) + "\n"


def must_broken(solution: Solution) -> bool:
    """True when a must rule is broken in any of the layouts shown."""
    return any(layout.figures.broken_must for layout in solution.layouts)


def _table(lines: Sequence[Line]) -> Iterator[str]:
    """Names on the left, one wrapped column for each layout."""
    columns = len(lines[0].values)
    width = (PAGE - LABEL) // columns - 1
    for line in lines:
        names = textwrap.wrap(line.name, LABEL - 1)
        cells = [names, *(textwrap.wrap(value, width) for value in line.values)]
        for i in range(max(map(len, cells))):
            name, *values = (cell[i] if i < len(cell) else "" for cell in cells)
            yield (name.ljust(LABEL) + " ".join(value.ljust(width) for value in values)).rstrip()


def _broken(job: Job, layouts: Sequence[Layout]) -> Iterator[str]:
    """Every broken rule once, with amount, place, cause and its layouts; musts first."""
    breakers: dict[tuple[bool, str], list[str]] = {}
    for layout in layouts:
        for verdict in layout.verdicts:
            if not verdict.kept:
                found = (verdict.kind is Kind.PREFER, broken_rule(job, verdict))
                breakers.setdefault(found, []).append(str(layout.rank))
    if breakers:
        yield ""
        yield "Rules not kept"
    for (_, words), ranks in sorted(breakers.items(), key=lambda item: item[0][0]):
        which = "layout" if len(ranks) == 1 else "layouts"
        yield from _wrapped("- ", f"{which} {listed(ranks)}: {words}")


def _wrapped(head: str, text: str) -> list[str]:
    """Wrapped lines, the later ones indented."""
    return textwrap.wrap(
        text, PAGE, initial_indent=head, subsequent_indent="  ",
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
