"""What is wrong with a job file, in one line a person can act on."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


class JobError(Exception):
    """A job that cannot be used.

    ``file`` is the path as given; ``line`` counts from 1 and is None when the whole file
    is meant; ``item`` says which entry (empty for the whole file); ``problem`` what is
    wrong and ``remedy`` what would be right. ``str()`` is one line of all five.
    """

    def __init__(self, file: str, line: int | None, item: str, problem: str, remedy: str) -> None:
        super().__init__(file, line, item, problem, remedy)
        self.file = file
        self.line = line
        self.item = item
        self.problem = problem
        self.remedy = remedy

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        subject = f"{self.item}: " if self.item else ""
        return f"{place}: {subject}{self.problem}; {self.remedy}"


def nearest(wrong: str, known: Iterable[str]) -> str | None:
    """The known word closest to a mistyped one, or None when nothing is close."""
    by_lower = {word.lower(): word for word in known}
    found = difflib.get_close_matches(wrong.lower(), list(by_lower), n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None


def suggestion(wrong: str, known: Iterable[str]) -> str:
    """A remedy for a word that is not known: the nearest one, or all there are."""
    words = list(known)
    close = nearest(wrong, words)
    if close is not None:
        return f"did you mean '{close}'?"
    return f"known here: {', '.join(words)}" if words else "there are none in this job"


def shown(text: str, longest: int = 40) -> str:
    """A text from the file, quoted and short enough for one line."""
    return f"'{text}'" if len(text) <= longest else f"'{text[: longest - 3]}...'"
