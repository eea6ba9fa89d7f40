"""The jobs shipped with the package: their names, what each is about, and where it lies."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

SUFFIX = ".yaml"


@dataclass(frozen=True, slots=True)
class Scenario:
    """One shipped job: its name (the file's stem), one line about it, and its file."""

    name: str
    about: str
    path: Path


def _scenario(path: Path) -> Scenario:
    """A job file as a scenario; ``about`` is the comment the file opens with."""
    first = path.read_text(encoding="utf-8").partition("\n")[0]
    if not first.startswith("# "):
        raise ValueError(f"{path.name} must open with a comment saying what it is about")
    return Scenario(path.stem, first.removeprefix("# "), path)


def _shipped() -> list[Path]:
    """The job files of the package, in order of name."""
    return sorted(Path(str(files("scenarios"))).glob(f"*{SUFFIX}"))


SCENARIOS = {path.stem: _scenario(path) for path in _shipped()}
"""All shipped jobs by name, in order of name."""
