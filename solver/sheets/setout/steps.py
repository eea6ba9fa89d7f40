"""The set-out in words: what to mark, snap, check and lay, in order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.floor.layout import ZoneLayout
from models.floor.tape import Mark, Stretch
from models.job.data import Job
from solver.sheets.axischeck.beside import cuts_beside
from solver.sheets.chalk import Chalk, bears_on_itself, slanted_points, toward
from solver.sheets.setout.rows import edge_rows, row_width
from solver.sheets.words import length, listed, the_wall

CAUTIONS = (
    "The adhesive maker's and the floor maker's instructions, local codes and licensed practice "
    "come first. Cut with a sharp knife on a firm bed, hands behind the blade, and carry blades "
    "sheathed. An old resilient floor, its backing or its adhesive may hold asbestos: until it is "
    "shown not to, do not sand, saw, drill, dry scrape or dry sweep it. Cutting stone or ceramic "
    "makes silica dust: cut wet or with extraction."
)


@dataclass(frozen=True, slots=True)
class Step:
    """One step: a heading and what to do."""

    heading: str
    text: str


def steps(
    job: Job,
    zone: ZoneLayout,
    lines: Chalk,
    more: Sequence[Step] = (),
    unnamed: Sequence[str] = (),
) -> tuple[Step, ...]:
    """Every step of the set-out of a zone, in order.

    ``more`` is what zones have to say to one another; ``unnamed`` is what the plan leaves out.
    """
    found = [
        Step("Start line", _line_words(job, lines.start)),
        Step("Cross line", _line_words(job, lines.cross)),
        Step("Check for square", _check_words(job, lines)),
        *(_row_steps(job, zone) if zone.rows else _herringbone_steps(zone)),
    ]
    for feature in job.features:
        sides = cuts_beside(job, zone, feature)
        if sides:
            words = ", ".join(f"{each.side} {each.words(job)}" for each in sides)
            where = "Inside" if sides[0].inside else "Beside"
            found.append(Step(f"{where} {feature.name}", f"cuts {words}."))
    product = job.product_of(zone.laying)
    if product.joint:
        joint = length(job, product.joint)
        text = f"lines are at the middle of the {joint} joint; cut sizes are without it."
        found.append(Step("Joints", text))
    found += more
    if unnamed:
        found.append(Step("Not named on the plan", f"{listed(unnamed)}, for want of room."))
    return tuple(found)


def _row_steps(job: Job, zone: ZoneLayout) -> list[Step]:
    mixed = any(row.joints for row in zone.rows)
    return [
        Step("First rows", _order_words(zone)),
        Step("End joints", _joint_words(zone))
        if mixed
        else Step("Row offsets", _offset_words(zone)),
        Step("Edge rows", _edge_words(job, zone)),
    ]


def _herringbone_steps(zone: ZoneLayout) -> list[Step]:
    """How a herringbone is begun from the crossing of its lines."""
    double = zone.laying.bond.double
    what, wide = ("pair of units", "pairs") if double else ("unit", "units")
    up = -1 if zone.mirrors else 1
    first = (
        f"lay the first {what} with a corner on the crossing, its length toward the "
        f"{toward(zone.frame, 1, 0)} and its width toward the {toward(zone.frame, 0, up)}; the "
        f"second square to it, against its far end, its length toward the "
        f"{toward(zone.frame, 0, -up)}"
    )
    rest = "then lay the lines of points on both sides of it."
    if slanted_points(zone):
        way = "Go on along the start line both ways, every point on the line"
        return [Step("First units", f"{first}. {way}; {rest}")]
    ahead, back = toward(zone.frame, 1, up), toward(zone.frame, -1, -up)
    way = (
        f"Go on toward the {ahead} and toward the {back}, each two {wide} one width along and "
        "one width across from the last"
    )
    return [Step("First units", f"{first}. {way}; {rest}")]


def _line_words(job: Job, line: Sequence[Stretch]) -> str:
    """Where to mark both ends of each stretch of a line."""
    parts = [f"{_mark_words(job, part.start)}; {_mark_words(job, part.end)}" for part in line]
    if len(parts) == 1:
        return f"{parts[0]}. Snap between the marks."
    return ". ".join(f"Part {i}: {part}" for i, part in enumerate(parts, 1)) + ". Snap each part."


def _mark_words(job: Job, mark: Mark) -> str:
    where = the_wall(job, mark.ends_on)
    if bears_on_itself(mark):
        return f"toward {where} it runs square to the other line: find that end by step 3"
    if mark.distance == 0:
        return f"at {where} it lies on {the_wall(job, mark.measured_from)}"
    return f"at {where} mark {length(job, mark.distance)} from {the_wall(job, mark.measured_from)}"


def _check_words(job: Job, lines: Chalk) -> str:
    if lines.triangle is None:
        return "there is no room for a 3-4-5 check: measure both ends of the cross line twice."
    (corner, on_start, on_cross) = (
        lines.triangle.corner,
        lines.triangle.on_start,
        lines.triangle.on_cross,
    )
    along, square = (length(job, leg) for leg in lines.triangle.legs)
    apart = length(job, lines.triangle.across)
    ahead = toward(lines.frame, on_start[0] - corner[0], 0)
    aside = toward(lines.frame, 0, on_cross[1] - corner[1])
    return (
        f"from the crossing mark {along} along the start line toward the {ahead} and {square} "
        f"along the cross line toward the {aside}. The marks must be {apart} apart; if not, keep "
        "the start line and move the other."
    )


def _order_words(zone: ZoneLayout) -> str:
    """Which two rows go first, and how the work goes on from them."""
    order = zone.laying_order
    side = toward(zone.frame, 0, 1)
    text = f"lay row {order[0]} on the {side} side of the start line"
    if len(order) > 1:
        text += f", then row {order[1]} against it"
    rest = [part for part in (order[2 : _turn(order)], order[max(2, _turn(order)) :]) if part]
    ways = [f"row {p[0]}" if len(p) == 1 else f"rows {p[0]} to {p[-1]}" for p in rest]
    tail = f" When they hold, go on with {', then '.join(ways)}." if ways else ""
    return f"{text}.{tail}"


def _turn(order: Sequence[int]) -> int:
    """Where in the laying order the rows start to go back down."""
    return next((i for i in range(1, len(order)) if order[i] < order[i - 1]), len(order))


def _offset_words(zone: ZoneLayout) -> str:
    side = toward(zone.frame, 1, 0)
    lettered = any(len({offset for _, offset in row.runs}) > 1 for row in zone.rows)
    letters = f" Letters are a broken row's runs, counted toward the {side}." if lettered else ""
    return (
        f"measured from the cross line toward the {side} to the row's first end joint; the other "
        f"joints follow a whole unit apart both ways.{letters}"
    )


def _joint_words(zone: ZoneLayout) -> str:
    """How the table of end joints is read."""
    side = toward(zone.frame, 1, 0)
    return (
        f"the table has every end joint of every row, measured from the cross line toward the "
        f"{side}, with a minus toward the {toward(zone.frame, -1, 0)}; take each unit of the "
        "length between two joints."
    )


def _edge_words(job: Job, zone: ZoneLayout) -> str:
    """Widths of the first and last row, and of rows ripped along other walls."""
    first, last = zone.rows[0].row, zone.rows[-1].row
    text = f"row {first} is {row_width(job, zone, first)} wide"
    if last != first:
        text += f" and row {last} is {row_width(job, zone, last)} wide"
    ends = ((first,), (last,))
    others = [e.words(job) for e in edge_rows(job, zone) if e.rows not in ends]
    return f"{text}. Other rips: {listed(others)}." if others else f"{text}."
