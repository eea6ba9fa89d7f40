"""Progress: one rewritten line on a terminal, plain lines in a log, nothing when quiet."""

from __future__ import annotations

import io

from solver.cli.progress import Progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_log_gets_one_plain_line_for_each_new_message() -> None:
    log = io.StringIO()
    progress = Progress(log)
    for text in ("start lines", "start lines", "papers"):
        progress(text)
    progress.close()
    assert log.getvalue() == "start lines\npapers\n"


def test_a_terminal_gets_one_line_rewritten_and_cleared() -> None:
    terminal = Terminal()
    progress = Progress(terminal)
    progress("start lines")
    progress("papers")
    progress.close()
    shown = terminal.getvalue().split("\r")
    assert "\n" not in terminal.getvalue()
    assert [part.strip() for part in shown] == ["", "[0 s] start lines", "[0 s] papers", "", ""]
    assert len({len(part) for part in shown[1:4]}) == 1


def test_a_long_message_never_wraps() -> None:
    terminal = Terminal()
    Progress(terminal)("x" * 500)
    assert len(terminal.getvalue()) <= 80


def test_quiet_says_nothing() -> None:
    log = Terminal()
    progress = Progress(log, quiet=True)
    progress("start lines")
    progress.close()
    assert log.getvalue() == ""
