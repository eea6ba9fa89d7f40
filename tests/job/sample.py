"""A small valid job to vary: one key replaced or added at a time."""

from models.job.data import Job
from models.job.reader import read_text
from models.lengths import TICKS_PER_MM

MM = TICKS_PER_MM

_SECTIONS = {
    "job": "Galley",
    "system": "millimetres",
    "bare_numbers": "mm",
    "room": "{corners: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]], walls: [s, e, n, w]}",
    "products": "[{name: plank, length: 900, width: 150}]",
    "field": "{bond: staggered}",
}


def text(**sections: str | None) -> str:
    """The sample job's text; a section given replaces its own, None takes it out."""
    merged = {**_SECTIONS, **sections}
    return "".join(f"{key}: {value}\n" for key, value in merged.items() if value is not None)


def read(**sections: str | None) -> Job:
    """The sample job read, with sections replaced as in ``text``."""
    return read_text(text(**sections), "galley.yaml")


def metres(*points: tuple[float, float]) -> tuple[tuple[int, int], ...]:
    """Points given in metres, in ticks."""
    return tuple((round(x * 1000 * MM), round(y * 1000 * MM)) for x, y in points)
