"""Row offsets of several zones improved together, from one stock a product."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from models.program.spans import Choice, Meet, Span
from solver.search.bonds.improve import improve
from solver.search.bonds.lay import Laid, earlier_meets, judge, lay
from solver.search.found import Found

FAR = 1_000_000
"""Rows of two zones are numbered so far apart that no row window reaches over."""

ROUNDS = 8
IDLE_ROUNDS = 3
MOVES = 8000
FRESH = 4


def improved(found: Mapping[int, Found], at_least: Mapping[str, int]) -> dict[int, Found]:
    """New layouts for the areas whose offsets can be improved with other areas in view.

    ``found`` has the chosen layout of each area that has offsets of its own, by number;
    ``at_least`` the bound of each product.
    """
    groups: dict[object, list[int]] = {}
    for number, one in found.items():
        if one.choice is not None:
            groups.setdefault(_kin(one, one.choice), []).append(number)
    better: dict[int, Found] = {}
    for numbers in groups.values():
        if len(numbers) > 1:
            mine = [found[number] for number in numbers]
            least = at_least[mine[0].zone.laying.product]
            offsets = _improve(mine, least)
            better |= {
                n: replace(f, offsets=o) for n, f, o in zip(numbers, mine, offsets, strict=True)
            }
    return better


def _kin(found: Found, choice: Choice) -> object:
    """What zones must have in common for one choice of offsets: product and rules."""
    return found.zone.laying.product, replace(choice, spans=(), meets=(), second=())


def _improve(found: Sequence[Found], at_least: int) -> list[tuple[int, ...]]:
    """Better offsets for each zone, none when there are none."""
    choices = [f.choice for f in found if f.choice is not None]
    merged = merge(choices)
    start = judge(merged, [offset for f in found for offset in f.offsets])
    earlier = earlier_meets(merged)
    laid = _ordered([start, *(lay(merged, earlier, seed) for seed in range(FRESH))])
    idle = 0
    for seed in range(ROUNDS):
        if laid[0].cost <= (0, at_least, 0) or idle == IDLE_ROUNDS:
            break
        cost = laid[0].cost
        begin = laid[min(seed % 3 == 2, len(laid) - 1)]
        laid = _ordered([improve(merged, begin, at_least, seed, MOVES), *laid])
        idle = idle + 1 if laid[0].cost == cost else 0
    return _split(laid[0].offsets, [len(f.offsets) for f in found])


def _ordered(laid: Sequence[Laid]) -> list[Laid]:
    return sorted(dict.fromkeys(laid), key=lambda one: (one.cost, one.offsets))[:3]


def merge(choices: Sequence[Choice]) -> Choice:
    """Several zones' choices as one: no joint of one zone meets one of another."""
    spans: list[Span] = []
    meets: list[Meet] = []
    second: list[Meet] = []
    for number, choice in enumerate(choices):
        first = len(spans)
        spans += [replace(s, row=s.row + number * FAR) for s in choice.spans]
        meets += [_moved(meet, first) for meet in choice.meets]
        second += [_moved(meet, first) for meet in choice.second]
    return replace(choices[0], spans=tuple(spans), meets=tuple(meets), second=tuple(second))


def _moved(meet: Meet, first: int) -> Meet:
    return replace(meet, one=meet.one + first, two=meet.two + first)


def _split(offsets: Sequence[int], counts: Sequence[int]) -> list[tuple[int, ...]]:
    found, at = [], 0
    for count in counts:
        found.append(tuple(offsets[at : at + count]))
        at += count
    return found
