"""Ctrl-C during long work: the first ends it early with what there is, the second quits."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

STOPPING = b"\nstopping: the best layouts so far are kept; Ctrl-C again quits at once\n"
STDERR = 2


@contextmanager
def stop_on_interrupt() -> Iterator[Callable[[], bool]]:
    """Give a callback that turns True once Ctrl-C was pressed.

    A second Ctrl-C raises KeyboardInterrupt. The handler that was there before comes back
    at the end. Use it in the main thread only, as signals demand.
    """
    asked = False

    def ask(_number: int, _frame: FrameType | None) -> None:
        nonlocal asked
        if asked:
            raise KeyboardInterrupt
        asked = True
        # Not print(): the signal may fall inside another write to the same stream.
        os.write(STDERR, STOPPING)

    before = signal.signal(signal.SIGINT, ask)
    try:
        yield lambda: asked
    finally:
        signal.signal(signal.SIGINT, before)
