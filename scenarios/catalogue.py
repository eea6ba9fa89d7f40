"""The jobs shipped with the package: their names, what each is about, and where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.resources import as_file, files
from pathlib import Path

SUFFIX = ".yaml"


@dataclass(frozen=True, slots=True)
class Scenario:
    """One shipped job: its name (the file's stem), one line about it, and the file's text."""

    name: str
    about: str
    text: str


def scenarios() -> tuple[Scenario, ...]:
    """All shipped jobs in order of name; ``about`` is the comment each file opens with."""
    entries = [entry for entry in files("scenarios").iterdir() if entry.name.endswith(SUFFIX)]
    return tuple(
        Scenario(entry.name.removesuffix(SUFFIX), _about(text), text)
        for entry in sorted(entries, key=lambda entry: entry.name)
        for text in (entry.read_text(encoding="utf-8"),)
    )


def scenario(name: str) -> Scenario:
    """The shipped job of that name; KeyError naming all of them when there is none."""
    found = {one.name: one for one in scenarios()}
    if name not in found:
        raise KeyError(f"no shipped job is called {name!r}; there are {', '.join(found)}")
    return found[name]


@contextmanager
def scenario_path(name: str) -> Iterator[Path]:
    """The job's file on disk, for as long as the ``with`` block runs.

    KeyError when there is no such job.
    """
    with as_file(files("scenarios") / f"{scenario(name).name}{SUFFIX}") as path:
        yield path


def _about(text: str) -> str:
    """The opening comment of a job file."""
    first = text.partition("\n")[0]
    if not first.startswith("# "):
        raise ValueError("a shipped job must open with a comment saying what it is about")
    return first.removeprefix("# ")
