"""What offsets come to, counted joint by joint: a validator that knows nothing of the solver."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import networkx as nx

from models.program.spans import Choice, Meet, Span

Cost = tuple[int, int, int]
"""Broken rules, units, broken preferences."""

HALF_INCH = 4064


def joints(span: Span, offset: int, pitch: int) -> list[int]:
    """Every end joint between the stops, by going through all of them."""
    far = 2 + (abs(offset) + max(abs(span.start), abs(span.end))) // pitch
    every = (offset + repeat * pitch for repeat in range(-far, far + 1))
    return [u for u in every if span.start < u < span.end]


def pieces(span: Span, offset: int, pitch: int) -> list[int]:
    """The lengths of the pieces from stop to stop."""
    marks = [span.start, *joints(span, offset, pitch), span.end]
    return [b - a for a, b in pairwise(marks)]


def end_is_short(span: Span, offset: int, pitch: int) -> bool:
    """Whether a cut end piece, with a joint at its other end, is under its need."""
    laid = pieces(span, offset, pitch)
    if len(laid) == 1:
        return False
    return laid[0] < min(span.need_start, pitch) or laid[-1] < min(span.need_end, pitch)


def distance(meet: Meet, spans: Sequence[Span], offsets: Sequence[int], pitch: int) -> int | None:
    """The least distance of two joints that both count; None when there are no two."""
    one, two = (
        [u for u in joints(spans[i], offsets[i], pitch) if low <= u <= high]
        for i, (low, high) in ((meet.one, meet.one_range), (meet.two, meet.two_range))
    )
    return min((abs(a - b) for a in one for b in two), default=None)


def too_near(choice: Choice, meets: Sequence[Meet], offsets: Sequence[int], least: int) -> int:
    """How many meetings are nearer than ``least``."""
    found = [distance(meet, choice.spans, offsets, choice.pitch) for meet in meets]
    return sum(apart is not None and apart < least for apart in found)


def stairs(choice: Choice, offsets: Sequence[int]) -> int:
    """How many shifts in a row look like each of the ``choice.stair`` before them."""
    if choice.stair is None:
        return 0
    rows: dict[int, int] = {}
    for i, span in enumerate(choice.spans):
        rows[span.row] = max(rows.get(span.row, i), i, key=lambda j: (choice.spans[j].length, -j))
    along = [rows[row] for row in sorted(rows)]
    shifts = [(offsets[b] - offsets[a]) % choice.pitch for a, b in pairwise(along)]
    same = [
        min((a - b) % choice.pitch, (b - a) % choice.pitch) <= HALF_INCH
        for a, b in pairwise(shifts)
    ]
    most = choice.stair
    return sum(all(same[i : i + most]) for i in range(len(same) - most + 1))


def units(choice: Choice, offsets: Sequence[int]) -> int:
    """Places less the most pairs of an end piece and a start piece that fit with a kerf."""
    graph: nx.Graph[tuple[str, int]] = nx.Graph()
    places = 0
    for i, (span, offset) in enumerate(zip(choice.spans, offsets, strict=True)):
        laid = pieces(span, offset, choice.pitch)
        places += len(laid)
        starts = [("start", i, laid[0])] if laid[0] < choice.pitch else []
        ends = [("end", i, laid[-1])] if len(laid) > 1 and laid[-1] < choice.pitch else []
        for name, index, size in starts + ends:
            graph.add_node((name, index), size=size, row=span.row)
    for a in [node for node in graph if node[0] == "end"]:
        for b in [node for node in graph if node[0] == "start"]:
            room = choice.pitch - choice.kerf - graph.nodes[a]["size"] - graph.nodes[b]["size"]
            apart = abs(graph.nodes[a]["row"] - graph.nodes[b]["row"])
            if room >= 0 and (choice.within is None or apart <= choice.within):
                graph.add_edge(a, b)
    return places - len(nx.max_weight_matching(graph, maxcardinality=True))


def cost_of(choice: Choice, offsets: Sequence[int]) -> Cost:
    """What the offsets cost, the same places counted as the program counts them."""
    broken = sum(
        end_is_short(span, offset, choice.pitch)
        for span, offset in zip(choice.spans, offsets, strict=True)
    )
    broken += too_near(choice, choice.meets, offsets, choice.apart)
    second = too_near(choice, choice.second, offsets, choice.second_apart)
    stair = stairs(choice, offsets)
    broken += second * choice.second_must + stair * choice.stair_must
    soft = second * (not choice.second_must) + stair * (not choice.stair_must)
    return broken, units(choice, offsets), soft
