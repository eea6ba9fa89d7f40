"""A cut in words: what kind, how far from which side, what becomes of the other part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from models.floor.layout import Piece
from models.job.data import Job
from solver.sheets.words import length, listed, span
from solver.stock.cutplan.steps import Part, Step, StepKind
from solver.stock.cutplan.trims import Trim

SIDES = (("tail end", "head end"), ("right edge", "left edge"))
"""The sides of a unit lying face up, its direction mark pointing away from the reader."""

SIDES_TOLD = (
    "A unit lies face up, its mark pointing to the head end (H); tail end T, right edge R, left "
    "edge L."
)


def side_words(step: Step) -> str:
    """The side a cut is measured from, and whether it is a factory edge."""
    if step.trim is None:
        return ""
    side = SIDES[step.trim.axis][not step.trim.low]
    return f"{'factory' if step.factory else 'cut'} {side}"


def measure_words(job: Job, trim: Trim | None) -> str:
    """How far a cut is from its side: one length, or one at each end of a slanted cut."""
    if trim is None:
        return ""
    if trim.square:
        return length(job, trim.at[0])
    names = (side[0].upper() for side in SIDES[1 - trim.axis])
    return ", ".join(f"{name} {length(job, at)}" for name, at in zip(names, trim.at, strict=True))


def part_size(job: Job, part: Part) -> str:
    """A part's size along and across its unit; from short to long beside a slanted side."""
    return " × ".join(
        span(job, min(size, size + more), max(size, size + more))
        for size, more in zip(part.size, part.more, strict=True)
    )


def other_words(job: Job, step: Step, neck: int | None) -> str:
    """What becomes of the part not in hand; of a shape, what it goes round and its neck."""
    part = step.other
    if step.kind is StepKind.SHAPE:
        told = [f"neck {length(job, neck)}"] if neck else []
        return ", ".join([*told, *(f"at {listed(names)}" for names in [step.touches] if names)])
    if part is None:
        return ""
    if not part.name:
        return "scrap" if any(part.more) else f"scrap {part_size(job, part)}"
    return f"keep {part.name}, {part_size(job, part)}, for {', '.join(part.later)}"


def source_words(job: Job, step: Step) -> str:
    """What a cut is made in; a new unit with its length where there are several."""
    if not step.fresh:
        return step.source
    long = length(job, step.unit_length, "")
    return f"new {long} {step.source}" if long else f"new {step.source}"


def whole_names(job: Job, pieces: Sequence[Piece]) -> str:
    """Names of pieces that are whole units; by length, longest first, where there are several."""
    lengths = sorted({piece.unit_length for piece in pieces}, reverse=True)
    return "; ".join(
        (f"{length(job, long)} long " if long else "")
        + piece_names(piece for piece in pieces if piece.unit_length == long)
        for long in lengths
    )


def piece_names(pieces: Iterable[Piece]) -> str:
    """Names of pieces, those that follow each other in a row from first to last."""
    stretches: list[list[str]] = []
    for name in (piece.id for piece in pieces):
        if stretches and _next(stretches[-1][-1]) == name:
            stretches[-1].append(name)
        else:
            stretches.append([name])
    return ", ".join(
        names[0] if len(names) == 1 else f"{names[0]} to {names[-1]}" for names in stretches
    )


def _next(name: str) -> str:
    row, _, number = name.rpartition("-")
    return f"{row}-{int(number) + 1}" if number.isdigit() else ""
