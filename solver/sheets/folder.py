"""A folder of files that belong together: written whole or not at all, over nobody's work."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path


class PaperError(Exception):
    """The papers cannot be written; the message says where, why and what to do."""


@dataclass(frozen=True, slots=True)
class Series:
    """The files one command writes: their names, and what tells that it wrote them before.

    Nothing in a folder is ever touched but files of these ``names``; and those only if the
    file called ``mark`` is there and ``written_here`` says that it is one of startrow's.
    """

    names: re.Pattern[str]
    mark: str
    written_here: Callable[[Path], bool]


def check_folder(folder: Path, series: Series, replace: bool) -> None:
    """Refuse a target that is not a folder, or holds somebody's work, with a PaperError.

    ``write_folder`` asks this itself; ask it before a long search to spare the wait.
    """
    if not folder.exists():
        return
    if not folder.is_dir():
        raise PaperError(f"{folder}: is a file, not a folder; give another name")
    try:
        names = [path.name for path in folder.iterdir()]
    except OSError as error:
        raise PaperError(
            f"{folder}: cannot be read ({error.strerror}); give another folder"
        ) from error
    if names and not replace:
        raise PaperError(
            f"{folder}: is not empty; give a new folder, or replace the papers in it (--replace)"
        )
    ours = sorted(name for name in names if series.names.fullmatch(name))
    if ours and not series.written_here(folder / series.mark):
        raise PaperError(
            f"{folder}: holds {ours[0]}, but no {series.mark} of startrow's, so it may be "
            "somebody's work; give another folder"
        )


def write_folder(
    folder: Path, series: Series, contents: Iterable[tuple[str, bytes]], replace: bool
) -> tuple[Path, ...]:
    """Write named files into a folder, all or none; return them in order.

    A folder that is not empty is refused unless ``replace``, which replaces files of the
    series and leaves every other file alone. Raises PaperError.
    """
    check_folder(folder, series, replace)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".papers-", dir=folder.parent) as work:
            fresh = Path(work) / "new"
            fresh.mkdir()
            names = []
            for name, content in contents:
                (fresh / name).write_bytes(content)
                names.append(name)
            _move(fresh, folder, Path(work) / "old", series)
    except OSError as error:
        where = error.filename or folder
        raise PaperError(
            f"{folder}: the papers cannot be written ({error.strerror or error}: {where}); "
            "give a folder you may write to"
        ) from error
    return tuple(folder / name for name in names)


def _move(fresh: Path, folder: Path, old: Path, series: Series) -> None:
    """Put the new papers in the folder in place of old ones; put the old back on failure."""
    if not folder.exists():
        fresh.rename(folder)
        return
    old.mkdir()
    done: list[Callable[[], object]] = []
    try:
        for path in sorted(folder.iterdir()):
            if series.names.fullmatch(path.name):
                _shift(path, old / path.name, done)
        for path in sorted(fresh.iterdir()):
            _shift(path, folder / path.name, done)
    except BaseException:
        for undo in reversed(done):
            undo()
        raise


def _shift(path: Path, to: Path, done: list[Callable[[], object]]) -> None:
    """Move one file and remember how to move it back."""
    path.replace(to)
    done.append(lambda: to.replace(path))
