"""The numbered steps on a set-out sheet, in as large a type as their box allows."""

from __future__ import annotations

from collections.abc import Sequence

from solver.sheets.drawing import ink
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.lettering import width, wrap
from solver.sheets.drawing.page import Page
from solver.sheets.setout.steps import Step

SIZES = (9.0, 8.4, 7.8, 7.4)
"""The type sizes tried, largest first."""

LEAD = 1.27
"""From one line of writing to the next, in type sizes."""

_HEADING = 24
_HALF = 0.5


def write_steps(
    page: Page, box: Box, found: Sequence[Step], most_of_it: bool, first: int = 1
) -> tuple[float, int]:
    """Write numbered steps down a box; return the height where they end, and how many they are.

    ``most_of_it`` keeps half the box for what follows. Steps that do not fit in the smallest
    type are left; ``first`` is the number of the first one here.
    """
    room = box.height * (_HALF if most_of_it else 1)
    sizes = (each for each in SIZES if _height(found, box.width, each, first) <= room)
    size = next(sizes, SIZES[-1])
    y = box.top - 9
    page.write(box.left, y, "Setting out" if first == 1 else "Setting out, continued", 9, bold=True)
    page.write(box.right, y, "tape readings are square to the line", 6.4, "right", ink=ink.GREY)
    y -= size * LEAD + 2
    for i, step in enumerate(found):
        head, lines = _set(i + first, step, box.width, size)
        if i and y - (len(lines) - 1) * size * LEAD < box.bottom:
            return y, i
        page.write(box.left, y, head.rstrip(), size, bold=True)
        page.write(box.left + width(head, size, True) + 1.5, y, lines[0], size)
        for line in lines[1:]:
            y -= size * LEAD
            page.write(box.left + size * 1.2, y, line, size)
        y -= size * LEAD + 1.6
    return y, len(found)


def _height(found: Sequence[Step], room: float, size: float, first: int) -> float:
    """How much height all steps take in one type size."""
    lines = sum(len(_set(i, step, room, size)[1]) for i, step in enumerate(found, first))
    return lines * size * LEAD + len(found) * 1.6 + _HEADING


def _set(number: int, step: Step, room: float, size: float) -> tuple[str, list[str]]:
    """A step's heading, and its lines: the first goes on after the heading."""
    head = f"{number}  {step.heading}: "
    words = step.text.split()
    count = len(words)
    first = room - width(head, size, True) - 1.5
    while count and width(" ".join(words[:count]), size) > first:
        count -= 1
    rest = wrap(" ".join(words[count:]), room - size * 1.2, size)
    return head, [" ".join(words[:count]), *rest]
