"""A walk along the walls: legs to corners, and its closing error shared out.

The compass rule (Bowditch's rule) of surveying moves each corner by its share of the
closing error, in proportion to the distance walked to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate

from models.job.angles import unit
from models.job.arcs import arc_corners, rising
from models.job.corners import Corner
from models.job.data import Closure, Point
from models.job.item import Item
from models.job.measures import Measures, read_degrees
from models.lengths import TICKS_PER_MM

CLOSING_LIMIT = 25 * TICKS_PER_MM
"""A walk may miss its start by this much, or by 1/500 of its length if that is more."""

CLOSING_SHARE = 500

_WORTH_A_NOTE = TICKS_PER_MM // 10
_COMPASS = {"east": 0, "north": 90, "west": 180, "south": 270}


@dataclass(frozen=True, slots=True)
class Walked:
    """The corners a walk gives, its closing error (None if it was closed by calculation)."""

    corners: tuple[Corner, ...]
    closure: Closure | None
    notes: tuple[str, ...]


def read_walk(walk: Item, measures: Measures) -> Walked:
    """The corners of a walk; JobError for a leg without direction or a walk that stays open."""
    start_item = walk.find("start")
    start = (0, 0) if start_item is None else measures.point(start_item)
    legs = walk.group["legs"].entries
    if _runs_back(legs[-1]):
        return _run_back(legs, start, measures)
    stations, lengths = _stations(legs, start, measures)
    walked = sum(lengths)
    closure = Closure(stations[-1][0] - start[0], stations[-1][1] - start[1], walked)
    miss = _miss(closure)
    if miss > max(CLOSING_LIMIT, walked / CLOSING_SHARE):
        raise _open(walk, closure, measures)
    notes = (_shared(closure, measures),) if miss > _WORTH_A_NOTE else ()
    return Walked(_corners(compass_rule(stations, lengths), legs, measures), closure, notes)


def _corners(
    points: Sequence[Point], legs: Sequence[Item], measures: Measures
) -> tuple[Corner, ...]:
    """Where each leg starts, with the arc from there to the next corner if it has a rise."""
    ends = (*points[1:], points[0])
    return tuple(
        Corner(point, leg, _arc(point, end, leg.find("rise"), measures))
        for point, end, leg in zip(points, ends, legs, strict=True)
    )


def _arc(start: Point, end: Point, item: Item | None, measures: Measures) -> tuple[Point, ...]:
    """The corners of the arc a leg runs along, none for a straight one."""
    rise = 0 if item is None else measures.length(item)
    return arc_corners(start, end, rising(start, end, rise)) if rise and start != end else ()


def compass_rule(stations: Sequence[Point], lengths: Sequence[int]) -> tuple[Point, ...]:
    """Corners of a closed walk with its closing error shared out by the compass rule.

    ``stations`` are the start, the end of each leg and so the last one where the walk came
    back to; ``lengths`` the legs. Returns one corner a leg, the first unmoved, in ticks.
    """
    dx = stations[-1][0] - stations[0][0]
    dy = stations[-1][1] - stations[0][1]
    total = sum(lengths)
    walked = [0, *accumulate(lengths)]
    return tuple(
        (x - round(Fraction(dx * so_far, total)), y - round(Fraction(dy * so_far, total)))
        for (x, y), so_far in zip(stations[:-1], walked, strict=False)
    )


def _stations(
    legs: Sequence[Item], start: Point, measures: Measures
) -> tuple[list[Point], list[int]]:
    """Where each leg ends, the start first, and how long each is."""
    stations, lengths = [start], []
    heading: Fraction | None = None
    for leg in legs:
        heading = _heading(leg, heading)
        cosine, sine = unit(heading)
        x, y = stations[-1]
        if leg is legs[-1] and _is_close(leg):
            # As far as it takes to come level with the start; what is left is the misclosure.
            length = round((start[0] - x) * cosine + (start[1] - y) * sine)
            _check_closing(leg, length)
        else:
            length = _measured(leg, measures)
        stations.append((x + round(length * cosine), y + round(length * sine)))
        lengths.append(length)
    return stations, lengths


def _measured(leg: Item, measures: Measures) -> int:
    """The measured length of a leg."""
    item = leg.group["length"]
    if _is_close(leg):
        raise item.error("only the last leg can be closed", "write the measured length")
    return measures.size(item)


def _is_close(leg: Item) -> bool:
    """Whether a leg's length is left to be calculated."""
    return leg.group["length"].text == "close"


def _check_closing(leg: Item, length: int) -> None:
    """Refuse a closing leg that points away from the start."""
    if length <= 0:
        raise leg.error(
            "does not lead back to the start", "check its direction and the legs before it"
        )


def _heading(leg: Item, before: Fraction | None) -> Fraction:
    """Degrees counter-clockwise from east a leg runs in."""
    go, turn = leg.find("go"), leg.find("turn")
    if go is not None and turn is not None:
        raise leg.error("has both 'go' and 'turn'", "keep one of them")
    if go is not None:
        return Fraction(_COMPASS[go.text]) if go.text in _COMPASS else read_degrees(go)
    if turn is None:
        raise leg.error("has no direction", "add 'go: east' or 'turn: left'")
    if before is None:
        raise turn.error("the first leg has nothing to turn from", "write 'go: east' or the like")
    side, _, degrees = turn.text.partition(" ")
    angle = Fraction(degrees.strip() or 90)
    if not 0 < angle < 180:
        raise turn.error(f"a turn of {angle} degrees", "write a turn above 0 and below 180 degrees")
    return before + (angle if side == "left" else -angle)


def _runs_back(leg: Item) -> bool:
    """Whether a leg goes straight back to the start, in whatever direction that is."""
    return _is_close(leg) and leg.find("go") is None and leg.find("turn") is None


def _run_back(legs: Sequence[Item], start: Point, measures: Measures) -> Walked:
    """A walk whose last wall runs straight back to the start, unmeasured."""
    stations, _ = _stations(legs[:-1], start, measures)
    if stations[-1] == start:
        raise legs[-1].error("the walk is back at its start already", "leave the last leg out")
    note = "the last wall was calculated to close the room: nothing checks the measurements"
    return Walked(_corners(stations, legs, measures), None, (note,))


def _miss(closure: Closure) -> float:
    """The closing error's size in ticks."""
    return float((closure.dx**2 + closure.dy**2) ** 0.5)


def _shared(closure: Closure, measures: Measures) -> str:
    """The note about a closing error that was shared out."""
    miss = measures.show(round(_miss(closure)))
    return (
        f"the walk missed its start by {miss} ({_offset(closure, measures)}) in "
        f"{measures.show(closure.walked)}; shared over the walls by the compass rule"
    )


def _open(walk: Item, closure: Closure, measures: Measures) -> Exception:
    """The error for a walk that does not come back to its start."""
    limit = max(CLOSING_LIMIT, closure.walked // CLOSING_SHARE)
    return walk.error(
        f"ends {measures.show(round(_miss(closure)))} from its start "
        f"({_offset(closure, measures)}), more than {measures.show(limit)}",
        "check each leg's length and turn, or measure again",
    )


def _offset(closure: Closure, measures: Measures) -> str:
    """Where a walk ended, seen from its start."""
    east_west = "east" if closure.dx >= 0 else "west"
    north_south = "north" if closure.dy >= 0 else "south"
    return (
        f"{measures.show(abs(closure.dx))} {east_west}, "
        f"{measures.show(abs(closure.dy))} {north_south}"
    )
