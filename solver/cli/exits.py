"""How a command ends: the exit codes, what it prints, and the error that ends one early."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum


class Exit(IntEnum):
    """How a command ended; ``MEANINGS`` has the words."""

    DONE = 0
    MUST_BROKEN = 1
    BAD_INPUT = 2
    AUDIT_FOUND = 3
    CANNOT_WRITE = 4
    DEFECT = 70
    INTERRUPTED = 130
    OUTPUT_CLOSED = 141


MEANINGS = {
    Exit.DONE: "done, and every must rule kept",
    Exit.MUST_BROKEN: "done, but a must rule could not hold; each one is named in the result",
    Exit.BAD_INPUT: "bad input: the command, the job file or layouts.json; nothing was written",
    Exit.AUDIT_FOUND: "the audit found something wrong in a layout; no paper was written",
    Exit.CANNOT_WRITE: "a file could not be written, or is there already",
    Exit.DEFECT: "a defect in the program; please report it",
    Exit.INTERRUPTED: "interrupted before there was any answer",
    Exit.OUTPUT_CLOSED: "whoever was reading the output stopped reading",
}


@dataclass(frozen=True, slots=True)
class Ended:
    """A command that has ended: its exit code, and its result for standard output."""

    code: Exit
    text: str = ""


class CommandError(Exception):
    """A command that cannot go on: one line for the user, and the exit code."""

    def __init__(self, text: str, code: Exit) -> None:
        super().__init__(text)
        self.code = code
