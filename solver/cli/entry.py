"""The entry point: runs one command and turns what went wrong into one line and a code."""

from __future__ import annotations

import io
import os
import sys
import traceback
from collections.abc import Sequence

from solver.cli.arguments import PROGRAM, parser
from solver.cli.exits import CommandError, Ended, Exit

DEBUG = "STARTROW_DEBUG"


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command line (the process's own when None) and give its exit code.

    Results go to standard output, progress and errors to standard error.
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            # A terminal that lacks a letter of a job's name must not stop the work.
            stream.reconfigure(errors="replace")
    ended = _run(argv)
    try:
        print(ended.text, end="", flush=True)
    except OSError as error:
        return int(_output_lost(error))
    return int(ended.code)


def _run(argv: Sequence[str] | None) -> Ended:
    """One command, what goes wrong told in one line."""
    try:
        arguments = parser().parse_args(argv)
        ended: Ended = arguments.run(arguments)
    except SystemExit as end:  # argparse, after help or wrong usage
        return Ended(Exit(int(end.code or 0)))
    except CommandError as error:
        return Ended(_say(str(error), error.code))
    except KeyboardInterrupt:
        return Ended(_say("interrupted", Exit.INTERRUPTED))
    except Exception as error:  # noqa: BLE001 - the one place a defect is told to the user
        return Ended(_defect(error))
    return ended


def _say(text: str, code: Exit) -> Exit:
    """Tell what went wrong on standard error."""
    print(f"{PROGRAM}: {text}", file=sys.stderr)
    return code


def _defect(error: Exception) -> Exit:
    """Tell of an error no command expects; the traceback only when it is asked for."""
    if os.environ.get(DEBUG) == "1":
        traceback.print_exception(error)
    what = " ".join(f"{type(error).__name__}: {error}".split())
    return _say(
        f"this is a defect in the program ({what}); please report it with the job file"
        f" ({DEBUG}=1 shows the traceback)",
        Exit.DEFECT,
    )


def _output_lost(error: OSError) -> Exit:
    """Standard output is gone: quietly when its reader (a pager, ``head``) has left.

    What is still buffered goes nowhere, so that the interpreter's last flush stays silent.
    """
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if isinstance(error, BrokenPipeError):
        return Exit.OUTPUT_CLOSED
    return _say(f"the result cannot be printed: {error.strerror}", Exit.CANNOT_WRITE)
