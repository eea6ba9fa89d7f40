"""Lengths, points and rings as they stand in the file: millimetres, rounded."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from models.floor.frame import Frame
from models.job.data import Point, Ring
from models.lengths import to_mm

DECIMALS = 6

Json = dict[str, Any]


def number(value: float | Fraction) -> float:
    """A number rounded for the file; minus nought becomes nought."""
    return round(float(value), DECIMALS) + 0.0


def mm(ticks: float) -> float:
    """Ticks as millimetres."""
    return number(to_mm(1) * ticks)


def optional_mm(ticks: int | None) -> float | None:
    """Ticks as millimetres, None for none."""
    return None if ticks is None else mm(ticks)


def optional_number(value: Fraction | None) -> float | None:
    """A number, None for none."""
    return None if value is None else number(value)


def point(at: tuple[float, float]) -> list[float]:
    """A point in ticks as millimetres."""
    return [mm(at[0]), mm(at[1])]


def points(frame: Frame, found: Iterable[Point]) -> list[list[float]]:
    """Points of a frame in job axes."""
    return [point(frame.to_job(each)) for each in found]


def polygon(frame: Frame, outer: Ring, holes: Iterable[Ring]) -> Json:
    """A polygon of a frame in job axes."""
    return {"outer": points(frame, outer), "holes": [points(frame, hole) for hole in holes]}
