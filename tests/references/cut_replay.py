"""Makes every cut of a cut list's CSV in turn, on rectangles. Shares no code with the plan.

Each product's units are rectangles of their real size in millimetres, x from the tail end to
the head end, y from the right edge to the left. Parts are kept by name. Whatever the list
says that cannot be done raises ``ReplayError``.
"""

from __future__ import annotations

import csv
import io
import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

import shapely
from shapely import Polygon
from shapely.geometry import box

from models.job.data import Job, Product
from models.lengths import TICKS_PER_MM

HAIR = 0.03
"""Millimetres that do not count."""
FAR = 1e5
AXES = {"cross cut": 0, "slanted cross cut": 0, "rip": 1, "tapered rip": 1}
SIDES = {"tail end": (0, True), "head end": (0, False), "right edge": (1, True),
         "left edge": (1, False)}  # fmt: skip

Line = Mapping[str, str]


class ReplayError(ValueError):
    """The list says something that cannot be done."""


@dataclass
class Replay:
    """What has been laid so far, units opened, and the parts still about.

    ``hand`` has the part in hand, and the piece it is to become, until it is that.
    """

    job: Job
    laid: dict[str, Polygon] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    opened: Counter[tuple[str, float]] = field(default_factory=Counter)
    parts: dict[str, Polygon] = field(default_factory=dict)
    sizes: dict[str, tuple[float, float]] = field(default_factory=dict)
    meant_for: dict[str, list[str]] = field(default_factory=dict)
    number: int = 0
    hand: tuple[str, str] | None = None


def replay(job: Job, text: str) -> Replay:
    """Follow a cut list from its first line to its last."""
    state = Replay(job)
    for line in csv.DictReader(io.StringIO(text)):
        try:
            (_whole if line["cut"] == "whole units" else _cut)(state, line)
        except (KeyError, IndexError) as error:
            raise ReplayError(f"cut {line['number']} makes no sense: {error}") from error
    require(not state.parts, f"parts left over: {sorted(state.parts)}")
    for name, pieces in state.meant_for.items():
        for piece in pieces:
            own = state.units.get(piece, "none")
            require(name.startswith(own), f"{piece} is not from {name}, but from {own}")
    return state


def require(holds: bool, problem: str) -> None:
    if not holds:
        raise ReplayError(problem)


def names_in(text: str) -> list[str]:
    """The pieces of '5-2 to 5-4, 5-9'."""
    found = []
    for stretch in text.split(", "):
        first, _, last = stretch.partition(" to ")
        row, _, start = first.rpartition("-")
        end = last.rpartition("-")[2] if last else start
        found += [f"{row}-{number}" for number in range(int(start), int(end) + 1)]
    return found


def _product(state: Replay, line: Line) -> Product:
    return next(p for p in state.job.products if p.name == line["product"])


def _unit(state: Replay, line: Line) -> tuple[float, float]:
    product = _product(state, line)
    length = float(line["unit length mm"] or product.length / TICKS_PER_MM)
    if product.mix:
        known = [each / TICKS_PER_MM for each, _ in product.mix]
        require(any(abs(length - each) < HAIR for each in known), f"no unit is {length} long")
    state.opened[product.name, round(length, 3)] += int(line["units opened"])
    return length, product.width / TICKS_PER_MM


def _lay(state: Replay, piece: str, shape: Polygon) -> None:
    require(piece not in state.laid, f"{piece} is laid twice")
    state.laid[piece] = shape


def _whole(state: Replay, line: Line) -> None:
    require(state.hand is None, f"{state.hand} is in hand")
    names = names_in(line["piece"])
    require(len(names) == int(line["units opened"]), f"{line['piece']}: units opened")
    size = _unit(state, line)
    for name in names:
        _lay(state, name, box(0, 0, *size))


def _cut(state: Replay, line: Line) -> None:
    state.number += 1
    where = f"cut {line['number']}"
    require(line["number"] == str(state.number), f"{where} comes after {state.number - 1}")
    size = _unit(state, line)
    unit, source, piece = line["unit"], line["made in"], line["piece"]
    if int(line["units opened"]):
        require(unit == source and unit not in state.sizes, f"{where}: {unit} is opened twice")
        state.sizes[unit] = size
        state.parts[unit] = box(0, 0, *size)
    if line["cut"] == "too small to cut":
        state.parts.pop(unit if int(line["units opened"]) else "", None)
        state.units[piece] = unit
        _lay(state, piece, Polygon())
        return
    require(source in state.parts, f"{where}: there is no {source}")
    require(source.startswith(unit), f"{where}: {source} is not of {unit}")
    require(piece in state.meant_for.get(source, [piece]), f"{where}: {source} is for others")
    state.units[piece] = unit
    require(state.hand in (None, (source, piece)), f"{where}: {state.hand} is in hand")
    hand = state.parts.pop(source)
    if line["cut"] in AXES:
        hand = _sawn(state, line, hand, where)
    else:
        require(line["cut"] in ("cut to shape", "no cut"), f"{where}: {line['cut']}")
    if line["frees piece"] == "yes":
        _sizes_told(line, _product(state, line), hand, where)
        _lay(state, piece, hand)
        state.hand = None
    else:
        state.parts[source] = hand
        state.hand = (source, piece)


def _sawn(state: Replay, line: Line, part: Polygon, where: str) -> Polygon:
    """The part in hand once a cut is made; the other part is put by or thrown away."""
    edge, _, side = line["from"].partition(" ")
    axis, low = SIDES[side]
    require(axis == AXES[line["cut"]], f"{where}: a {line['cut']} from the {side}")
    bounds = part.bounds
    start = bounds[axis if low else axis + 2]
    own = 0 if low else state.sizes[line["unit"]][axis]
    require((abs(start - own) < HAIR) == (edge == "factory"), f"{where}: no {edge} {side}")
    at = [float(line[f"measure {end} mm"]) for end in ("right or tail", "left or head")]
    square = abs(at[0] - at[1]) < 1e-9
    require(square == (line["cut"] in ("cross cut", "rip")), f"{where}: square or not")
    least = HAIR if square else 1 - HAIR
    require(_straight(part, axis, start) > least, f"{where}: the {side} is not square")
    kerf = _product(state, line).kerf / TICKS_PER_MM
    measured, rest = _halves(part, axis, low, at, kerf)
    require(measured.area > 0, f"{where}: nothing is measured off")
    hand, other = (measured, rest) if line["in hand"] == "measured part" else (rest, measured)
    require(hand.area > 0, f"{where}: nothing in hand")
    _put_by(state, line, other, where)
    return hand


def _straight(part: Polygon, axis: int, place: float) -> float:
    """How much of a part's breadth its straight side at a place on the axis takes."""
    there = [p[1 - axis] for p in part.exterior.coords if abs(p[axis] - place) < HAIR]
    low, high = part.bounds[1 - axis], part.bounds[3 - axis]
    return float((max(there) - min(there)) / (high - low))


def _halves(
    part: Polygon, axis: int, low: bool, at: list[float], kerf: float
) -> tuple[Polygon, Polygon]:
    """The part up to the measure, and what lies beyond the kerf."""
    other = 1 - axis
    ends = part.bounds[other], part.bounds[other + 2]
    start = part.bounds[axis if low else axis + 2]
    way = 1 if low else -1
    slope = (at[1] - at[0]) / (ends[1] - ends[0])
    gap = kerf * math.hypot(1, slope)

    def beyond(off: float) -> Polygon:
        """All that lies further from the side than the measures and a bit."""
        near = [start + way * (at[0] + off), start + way * (at[1] + off)]
        # Drawn on past both ends, so that nothing is missed at the corners.
        reach = [(ends[0] - 1, near[0] - way * slope), (ends[1] + 1, near[1] + way * slope)]
        corners = [(reach[0][1], reach[0][0]), (reach[1][1], reach[1][0])]
        corners += [(start + way * FAR, reach[1][0]), (start + way * FAR, reach[0][0])]
        return Polygon(corners if axis == 0 else [(v, u) for u, v in corners])

    return _one(part.difference(beyond(0))), _one(part.intersection(beyond(gap)))


def _one(shape: shapely.Geometry) -> Polygon:
    """The one polygon a cut right through leaves; specks of rounding do not count."""
    parts = [p for p in shapely.get_parts(shape) if isinstance(p, Polygon)]
    return max(parts, key=lambda p: p.area, default=Polygon())


def _put_by(state: Replay, line: Line, other: Polygon, where: str) -> None:
    """Keep the other part under its name, or see that it is the scrap it is said to be."""
    name = line["other part"]
    if not name:
        area = other.area
        require(area <= HAIR * sum(state.sizes[line["unit"]]), f"{where}: {area:.2f} left")
        return
    if line["other part along mm"]:
        require(other.area > 0, f"{where}: no {name} is left")
        square = abs(other.area - other.envelope.area) < HAIR
        for axis, way in enumerate(("along", "across")):
            told = float(line[f"other part {way} mm"])
            own = other.bounds[axis + 2] - other.bounds[axis]
            require(told <= own + HAIR, f"{where}: {name} is {own}, not {told} {way}")
            require(not square or told >= own - HAIR, f"{where}: {name} is {own} {way}")
    if name == "scrap":
        require(not line["other part for"], f"{where}: scrap is used")
        return
    require(name not in state.parts and name not in state.meant_for, f"{where}: a second {name}")
    state.parts[name] = other
    state.meant_for[name] = line["other part for"].split()


def _sizes_told(line: Line, product: Product, shape: Polygon, where: str) -> None:
    """The sizes told of a piece are those of what is in hand."""
    own = [shape.bounds[axis + 2] - shape.bounds[axis] for axis in (0, 1)]
    told = [float(line[f"{name} most mm"] or "nan") for name in ("along", "across")]
    require(alike(own, told, product), f"{where}: {line['piece']} is {own}, not {told}")


def alike(own: list[float], told: list[float], product: Product) -> bool:
    """Whether two sizes are the same; a square unit that may be turned may lie either way."""
    turns = product.length == product.width and not product.directional
    ways = [told, told[::-1]] if turns else [told]
    return any(all(abs(a - b) < HAIR for a, b in zip(own, way, strict=True)) for way in ways)
