"""Ctrl-C during long work: the first ends it early with what there is, the second quits."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType

LAYOUTS_KEPT = "the best layouts so far are kept"
STDERR = 2


@contextmanager
def stop_on_interrupt(kept: str = LAYOUTS_KEPT) -> Iterator[Callable[[], bool]]:
    """Give a callback that turns True once Ctrl-C was pressed; ``kept`` is then told.

    A second Ctrl-C raises KeyboardInterrupt. The handler that was there before comes back
    at the end. Use it in the main thread only, as signals demand.
    """
    asked = False
    stopping = f"\nstopping: {kept}; Ctrl-C again quits at once\n".encode()

    def ask(_number: int, _frame: FrameType | None) -> None:
        nonlocal asked
        if asked:
            raise KeyboardInterrupt
        asked = True
        # Not print(): the signal may fall inside another write to the same stream.
        os.write(STDERR, stopping)

    before = signal.signal(signal.SIGINT, ask)
    try:
        yield lambda: asked
    finally:
        signal.signal(signal.SIGINT, before)
