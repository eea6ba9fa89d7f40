"""Progress of long work on standard error: one updating line, or plain lines in a log."""

from __future__ import annotations

import shutil
import time
from typing import TextIO


class Progress:
    """Shows each message as it comes; call it with the text, then ``close`` it.

    On a terminal one line is rewritten in place, with the seconds since the start. Anywhere
    else each new message is one plain line. ``quiet`` shows nothing.
    """

    def __init__(self, stream: TextIO, quiet: bool = False) -> None:
        self._stream = stream
        self._quiet = quiet
        self._live = stream.isatty()
        self._started = time.monotonic()
        self._last = ""

    def __call__(self, text: str) -> None:
        """Show one message; the same message again changes nothing in a log."""
        if self._quiet:
            return
        if self._live:
            self._rewrite(f"[{time.monotonic() - self._started:.0f} s] {text}")
        elif text != self._last:
            print(text, file=self._stream, flush=True)
        self._last = text

    def _rewrite(self, line: str) -> None:
        """Write over the terminal's current line, cut to its width so it never wraps."""
        width = shutil.get_terminal_size().columns - 1
        self._stream.write("\r" + line[:width].ljust(width))
        self._stream.flush()

    def close(self) -> None:
        """Clear the updating line, so that what is printed next starts clean."""
        if self._live and self._last:
            self._rewrite("")
            self._stream.write("\r")
            self._stream.flush()
            self._last = ""
