"""Every cut of a layout in the order it is made, and what becomes of both its parts.

Pieces are cut in the order they are laid. A unit is opened for the first of its pieces; what
is left for later ones is kept under a name: the unit's, and a letter. The part in hand keeps
the name of what it is cut from until it is a piece.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from functools import cached_property
from string import ascii_lowercase
from typing import NamedTuple

from models.floor.layout import Layout, Piece
from models.job.data import Job, Product
from solver.stock.cutplan.arrange import Saw, arranged
from solver.stock.cutplan.trims import (
    CUT,
    FACTORY,
    SLANTED,
    Leaf,
    Region,
    Split,
    Tree,
    Trim,
    members_of,
)
from solver.stock.cutplan.wanted import SAME, Want, turns_of, unit_size, want_of, zone_walls


class PlanError(ValueError):
    """The pieces of a unit cannot be cut from it: a defect of the packing."""


class StepKind(Enum):
    """The kinds of cuts, with their names on paper."""

    CROSS = "cross cut"
    RIP = "rip"
    SLANTED_CROSS = "slanted cross cut"
    SLANTED_RIP = "tapered rip"
    SHAPE = "cut to shape"
    NO_CUT = "no cut"
    TOO_SMALL = "too small to cut"


@dataclass(frozen=True, slots=True)
class Laid:
    """One piece in its place in the laying order, with what it asks of its unit."""

    piece: Piece
    zone: str
    product: str
    want: Want


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a unit: its size along and across, and ``more`` as in ``Region``.

    Without ``name`` it is scrap. ``later`` are the pieces still to be cut from it.
    """

    size: tuple[int, int]
    more: tuple[int, int] = (0, 0)
    name: str = ""
    later: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One cut, made in ``source`` (the unit itself, or an offcut) for ``piece``.

    Of kind ``NO_CUT`` it is none: what it is made in is the piece already. Of kind
    ``TOO_SMALL`` there is no piece either: the joint takes its place.

    ``trim`` says along which axis, from which side and how far it is measured; None when
    the piece, by now the rectangle round it, is cut to shape. ``factory`` tells whether that
    side is a factory edge. The part in hand is the measured one, or else the rest; it is
    the piece when ``frees``. ``other`` is what becomes of the other part, None when nothing
    is left of it. ``unit_length`` is set where units have several lengths. ``touches`` names
    what the piece's cut sides go to.
    """

    number: int
    zone: str
    row: int
    piece: str
    product: str
    unit: str
    source: str
    fresh: bool
    kind: StepKind
    trim: Trim | None
    factory: bool
    measured: bool
    frees: bool
    other: Part | None
    unit_length: int | None = None
    touches: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Offcut:
    """An offcut kept: after the cut ``kept``, until the cut ``used`` (numbers of steps)."""

    part: Part
    product: str
    kept: int
    used: int


@dataclass(frozen=True, slots=True)
class Stack:
    """The most offcuts of a product kept at any time, and the row that ends in that."""

    product: str
    most: int
    zone: str
    row: int


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit with a cut piece: its size, its tree of cuts and pieces in laying order."""

    name: str
    product: str
    size: tuple[int, int]
    tree: Tree
    pieces: tuple[Piece, ...]


@dataclass(frozen=True)
class CutPlan:
    """All cuts of a layout. ``laid`` has every piece, whole ones too, in laying order."""

    laid: tuple[Laid, ...]
    steps: tuple[Step, ...]
    offcuts: tuple[Offcut, ...]
    units: tuple[Unit, ...]

    @property
    def rows(self) -> tuple[tuple[Laid, ...], ...]:
        """The pieces of each row of each zone, in laying order."""
        found: dict[tuple[str, int], list[Laid]] = {}
        for each in self.laid:
            found.setdefault((each.zone, each.piece.row), []).append(each)
        return tuple(map(tuple, found.values()))

    @cached_property
    def stacks(self) -> tuple[Stack, ...]:
        """The most offcuts kept, of all products together (first, named "") and of each."""
        names = dict.fromkeys(each.product for each in self.laid)
        each = [_most(self, name, [o for o in self.offcuts if o.product == name]) for name in names]
        return (_most(self, "", self.offcuts), *(each if len(each) > 1 else ()))


def cut_plan(job: Job, layout: Layout) -> CutPlan:
    """The cuts of a layout in the order they are made.

    Raises PlanError when the pieces of a unit cannot be cut from it.
    """
    laid = tuple(_laid(job, layout))
    mine: dict[str, list[Laid]] = {}
    for each in laid:
        mine.setdefault(each.piece.unit, []).append(each)
    products = {product.name: product for product in job.products}
    units = _units(mine, products)
    steps: list[Step] = []
    bench = _Bench({unit.name: unit for unit in units}, products)
    for each in laid:
        if each.piece.cut:
            steps += bench.cuts(each, len(steps) + 1)
    return CutPlan(laid, tuple(steps), tuple(_offcuts(steps)), units)


def _laid(job: Job, layout: Layout) -> Iterator[Laid]:
    """Every piece in the order it is laid: zones, rows from the start row, places."""
    for zone in layout.zones:
        product, walls = job.product_of(zone.laying), zone_walls(zone)
        place = {row: i for i, row in enumerate(zone.laying_order)}
        for piece in sorted(zone.pieces, key=lambda piece: place[piece.row]):
            yield Laid(piece, zone.zone, product.name, want_of(piece, product, walls))


def _units(mine: Mapping[str, Sequence[Laid]], products: Mapping[str, Product]) -> tuple[Unit, ...]:
    """The units with a cut piece; units that are alike are arranged alike, once."""
    known: dict[object, Tree | None] = {}
    found = []
    for name, all_members in mine.items():
        members = [each for each in all_members if not each.want.gone]
        if not any(each.piece.cut for each in members):
            continue
        product = products[members[0].product]
        size = unit_size(members[0].piece, product)
        wants = tuple(each.want for each in members)
        key = (product.name, size, wants)
        if key not in known:
            saw = Saw(size, product.kerf, product.scrap)
            known[key] = arranged([turns_of(want, product) for want in wants], saw)
        tree = known[key]
        if tree is None:
            pieces = ", ".join(each.piece.id for each in members)
            raise PlanError(f"unit {name}: no straight cuts right through set free {pieces}")
        found.append(Unit(name, product.name, size, tree, tuple(e.piece for e in members)))
    return tuple(found)


class _Bench:
    """The units being cut up: for each, the parts it is in by now and their names."""

    def __init__(self, units: Mapping[str, Unit], products: Mapping[str, Product]) -> None:
        self.units, self.products = units, products
        self._parts: dict[str, list[tuple[str, Tree]]] = {}
        self._named: dict[str, int] = {}
        self._spent: set[str] = set()

    def cuts(self, laid: Laid, number: int) -> list[Step]:
        """The cuts that set one piece free; the bench then has what they leave."""
        if laid.want.gone:
            return [self._nothing(laid, number)]
        unit = self.units[laid.piece.unit]
        member = unit.pieces.index(laid.piece)
        fresh = unit.name not in self._parts
        parts = self._parts.setdefault(unit.name, [(unit.name, unit.tree)])
        source, tree = next(part for part in parts if member in members_of(part[1]))
        parts.remove((source, tree))
        kerf = self.products[laid.product].kerf
        found: list[_Cut] = []
        while isinstance(tree, Split):
            in_low = member in members_of(tree.low)
            hand, rest = (tree.low, tree.high) if in_low else (tree.high, tree.low)
            kept = self._keep(unit, rest)
            found.append(
                _Cut(_kind(tree.trim), tree.trim, tree.region, tree.trim.low is in_low, kept)
            )
            tree = hand
        found += _own_cuts(tree, kerf)
        if not found:
            found.append(_Cut(StepKind.NO_CUT, None, tree.region, True, None))
        return [
            Step(
                number + i, laid.zone, laid.piece.row, laid.piece.id, laid.product, unit.name,
                source, fresh and i == 0, kind, trim, _factory(trim, of), measured,
                i == len(found) - 1, other, laid.piece.unit_length or None, laid.piece.touches,
            )
            for i, (kind, trim, of, measured, other) in enumerate(found)
        ]  # fmt: skip

    def _nothing(self, laid: Laid, number: int) -> Step:
        """The line of a piece that is all joint; a unit ordered for it alone is opened."""
        piece = laid.piece
        fresh = piece.unit not in self.units and piece.unit not in self._spent
        self._spent.add(piece.unit)
        return Step(
            number, laid.zone, piece.row, piece.id, laid.product, piece.unit, piece.unit,
            fresh, StepKind.TOO_SMALL, None, False, True, True, None,
            piece.unit_length or None, piece.touches,
        )  # fmt: skip

    def _keep(self, unit: Unit, tree: Tree) -> Part:
        count = self._named.get(unit.name, 0)
        self._named[unit.name] = count + 1
        name = unit.name + ascii_lowercase[count]
        self._parts[unit.name].append((name, tree))
        later = tuple(unit.pieces[member].id for member in members_of(tree))
        return Part(tree.region.size, tree.region.more, name, later)


class _Cut(NamedTuple):
    """A cut before it has its number: see ``Step``; ``region`` is the part it is made in."""

    kind: StepKind
    trim: Trim | None
    region: Region
    measured: bool
    other: Part | None


def _own_cuts(leaf: Leaf, kerf: int) -> Iterator[_Cut]:
    """The cuts that make the part one piece is cut from the piece."""
    region = leaf.region
    for trim in leaf.trims:
        rest, left = trimmed(region, trim, kerf)
        yield _Cut(_kind(trim), trim, region, True, left)
        region = rest
    if leaf.want.shaped:
        yield _Cut(StepKind.SHAPE, None, region, True, None)


def trimmed(region: Region, trim: Trim, kerf: int) -> tuple[Region, Part | None]:
    """What is left of a region once the rest is cut off, and that rest (None: only dust)."""
    axis, lean = trim.axis, max(trim.at) - min(trim.at)
    sides = list(region.sides)
    sides[2 * axis + trim.low] = CUT if trim.square else SLANTED
    a, b, c, d = sides
    left = Region(
        _with(region.size, axis, max(trim.at)), (a, b, c, d), _with(region.more, axis, -lean)
    )
    rest = region.size[axis] - max(trim.at) - kerf
    more = abs(region.more[axis]) + lean
    if rest + more <= SAME:
        return left, None
    return left, Part(_with(region.size, axis, max(rest, 0)), _with(region.more, axis, more))


def _with(pair: tuple[int, int], axis: int, value: int) -> tuple[int, int]:
    """A pair with one of its values changed."""
    return (value, pair[1]) if axis == 0 else (pair[0], value)


def _kind(trim: Trim) -> StepKind:
    square = trim.square
    if trim.axis == 0:
        return StepKind.CROSS if square else StepKind.SLANTED_CROSS
    return StepKind.RIP if square else StepKind.SLANTED_RIP


def _factory(trim: Trim | None, region: Region) -> bool:
    return trim is not None and region.sides[2 * trim.axis + (not trim.low)] is FACTORY


def _offcuts(steps: Sequence[Step]) -> Iterator[Offcut]:
    """Every offcut kept, in the order they are named on paper."""
    used: dict[str, int] = {}
    for step in steps:
        used.setdefault(step.source, step.number)
    for step in steps:
        if step.other and step.other.name:
            yield Offcut(step.other, step.product, step.number, used[step.other.name])


def _most(plan: CutPlan, product: str, offcuts: Sequence[Offcut]) -> Stack:
    change = [0] * (len(plan.steps) + 2)
    for each in offcuts:
        change[each.kept] += 1
        change[each.used] -= 1
    best, held = Stack(product, 0, "", 0), 0
    for step in plan.steps:
        held += change[step.number]
        if held > best.most:
            best = replace(best, most=held, zone=step.zone, row=step.row)
    return best
