"""From a path to the text of a job file, or a clear refusal."""

from __future__ import annotations

import stat
from pathlib import Path

from models.job.errors import JobError

LARGEST_BYTES = 1_000_000
"""A job file is a page or two; anything larger is some other file."""


def read_source(path: Path) -> str:
    """The text of a job file.

    Raises JobError when it is missing, not an ordinary file, over 1 MB, empty, unreadable
    or not UTF-8.
    """
    try:
        data = _read_bytes(path)
    except FileNotFoundError:
        raise _refusal(path, "there is no such file", "check the name and the folder") from None
    except OSError as error:
        reason = error.strerror or type(error).__name__
        raise _refusal(
            path, f"cannot be read ({reason})", "check the path and its permissions"
        ) from error
    except ValueError as error:
        # A path with a NUL character never reaches the system.
        raise _refusal(path, f"is not a usable path ({error})", "check the name") from error
    if not data.strip():
        raise _refusal(path, "is empty", "start from a template: startrow new")
    return _decode(path, data)


def _read_bytes(path: Path) -> bytes:
    """The bytes of an ordinary file of a sensible size."""
    status = path.stat()
    if stat.S_ISDIR(status.st_mode):
        raise _refusal(path, "is a folder", "name the job file inside it")
    if not stat.S_ISREG(status.st_mode):
        raise _refusal(path, "is not an ordinary file", "name a job file")
    if status.st_size > LARGEST_BYTES:
        size = status.st_size / 1_000_000
        raise _refusal(
            path, f"is {size:.1f} MB, more than a job file can be (1 MB)", "check that it is one"
        )
    with path.open("rb") as stream:
        return stream.read(LARGEST_BYTES)


def _decode(path: Path, data: bytes) -> str:
    """UTF-8 text, with or without a byte order mark."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise JobError(
            str(path), line, "", "is not UTF-8 text", "save it as UTF-8 in a plain text editor"
        ) from error


def _refusal(path: Path, problem: str, remedy: str) -> JobError:
    """An error about the file as a whole."""
    return JobError(str(path), None, "", problem, remedy)
